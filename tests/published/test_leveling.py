"""Leveling, jacking and cribs against printed values."""

from __future__ import annotations

import pytest

from pinfold.formulas import jacking, leveling, settlement
from pinfold.plan.supports import Support
from pinfold.studies.leveling.adjusting import surveyed
from pinfold.studies.leveling.carrying import carried
from pinfold.studies.leveling.records import LevelReading, Survey
from published import Printed
from rows import Row

LB, IN, FT = 0.45359237, 0.0254, 0.3048
LBF = LB * 9.80665
PSI = LBF / IN**2


def network(lines, fixed: str) -> Survey:
    """Lines of levels as setups of two readings each, which say the same as their difference does."""
    readings = []
    for number, (start, end, difference, spread) in enumerate(lines):
        half = spread / 2**0.5
        readings += [
            LevelReading(start, f"line {number}", 0.0, half),
            LevelReading(end, f"line {number}", -difference, half),
        ]
    return surveyed(readings, fixed=fixed)


def printed(digits: str, source: str, where: str, grade: str = "R") -> Printed:
    return Printed(digits, source, where, grade)


# --- a network of four points with its data snooping ------------------------------------------------------------

LESSON = (
    ("1", "2", -0.749, 1.1), ("1", "3", -1.274, 1.8), ("1", "4", -2.890, 1.4), ("2", "3", -0.530, 1.5),
    ("2", "4", -2.141, 1.9), ("3", "4", -1.614, 0.9),
)  # fmt: skip


def lesson() -> Survey:
    return network([(a, b, dh, 0.0007 * km) for a, b, dh, km in LESSON], "4")


def snooped(number: int, *, scaled: bool) -> float:
    """How far a line stands off, in its own spreads, by hand from the heights and the formula."""
    import numpy as np

    from pinfold.studies.leveling.solving import solved

    marks = ["1", "2", "3"]
    design = np.array([[(end == mark) * 1.0 - (start == mark) for mark in marks] for start, end, _, _ in LESSON])
    values = np.array([dh + (101.345 if a == "4" else 0) - (101.345 if b == "4" else 0) for a, b, dh, _ in LESSON])
    spreads = np.array([0.0007 * km for *_, km in LESSON])
    found = solved(design, values, spreads)
    return leveling.standardized_residual(
        residual=float(found.residuals[number]), spread=float(spreads[number]) * (found.scatter if scaled else 1.0),
        share=float(found.shares[number]),
    )  # fmt: skip


NET = "level network of four points"
NETWORK = [
    *(
        Row(
            what=f"height of point {mark} of a level network, in m",
            printed=printed(digits, "LEVEL-NET-LESSON", "results, adjusted heights"),
            ours=lambda mark=mark: lesson().height(mark).height + 101.345,
            table=NET,
        )
        for mark, digits in (("1", "104.2350"), ("2", "103.4868"), ("3", "102.9588"))
    ),
    *(
        Row(
            what=f"standard deviation of point {mark} of a level network, in mm",
            printed=printed(digits, "LEVEL-NET-LESSON", "results, mean errors"),
            ours=lambda mark=mark: lesson().height(mark).spread * 1e3,
            table=NET,
        )
        for mark, digits in (("1", "1.13"), ("2", "1.19"), ("3", "0.91"))
    ),
    Row(
        what="standard deviation of unit weight of a level network",
        printed=printed("1.65", "LEVEL-NET-LESSON", "results, m0"),
        ours=lambda: lesson().scatter,
        table=NET,
    ),
    *(
        Row(
            what=f"standardized residual of line {LESSON[number][0]}–{LESSON[number][1]}",
            printed=printed(digits, "LEVEL-NET-LESSON", f"results, statistic U of line {number + 1}"),
            ours=lambda number=number: snooped(number, scaled=False),
            table="data snooping of four points",
            formula="leveling.standardized_residual",
        )
        for number, digits in enumerate(("1.9", "2.1", "0.0", "2.6", "0.7", "0.6"))
    ),
    *(
        Row(
            what=f"studentized residual of line {LESSON[number][0]}–{LESSON[number][1]}",
            printed=printed(digits, "LEVEL-NET-LESSON", f"results, statistic t of line {number + 1}"),
            ours=lambda number=number: snooped(number, scaled=True),
            table="data snooping of four points",
            formula="leveling.standardized_residual",
        )
        for number, digits in enumerate(("1.1", "1.3", "0.0", "1.6", "0.4", "0.4"))
    ),
]  # fmt: skip

# --- lines leveled there and back ------------------------------------------------------------------------------------

SAMPLE = (
    ("1a", "4", -1.225), ("4", "3", -0.848), ("3", "2", 1.342), ("2", "1a", 0.720), ("1a", "2", -0.724),
    ("2", "3", -1.335), ("3", "4", 0.842), ("4", "1a", 1.231),
)  # fmt: skip


def sample() -> Survey:
    return network([(a, b, dh, 0.005) for a, b, dh in SAMPLE], "1a")


THERE_AND_BACK = [
    *(
        Row(
            what=f"height of point {mark} of lines leveled there and back, in m",
            printed=printed(digits, "LEVEL-NET-SAMPLE", f"adjusted height of point {mark}"),
            ours=lambda mark=mark: sample().height(mark).height + 1000,
            table="lines leveled there and back",
            note="the printed half is rounded up" if mark == "4" else "",
        )
        for mark, digits in (("4", "998.77513"), ("3", "997.93325"), ("2", "999.27487"))
    ),
    *(
        Row(
            what=f"standard deviation of point {mark}, from the spreads alone, in mm",
            printed=printed(digits, "LEVEL-NET-SAMPLE", f"standard deviation of point {mark}"),
            ours=lambda mark=mark: sample().height(mark).spread / sample().scatter * 1e3,
            table="lines leveled there and back",
        )
        for mark, digits in (("4", "3.1"), ("3", "3.5"))
    ),
    Row(
        what="standard deviation of unit weight of lines leveled there and back, in mm",
        printed=printed("5.42", "LEVEL-NET-SAMPLE", "m0' a posteriori"),
        ours=lambda: sample().scatter * 5,
        table="lines leveled there and back",
    ),
]  # fmt: skip

# --- three fixed heights, two unknown -------------------------------------------------------------------------------

FORUM = (
    ("A", "E", 0.7320, 970),
    ("A", "F", 1.9780, 1002),
    ("B", "E", 0.4200, 1070),
    ("C", "F", 0.9880, 1110),
    ("E", "F", 1.2580, 890),
)
KNOWN = {"A": 10.021, "B": 10.321, "C": 11.002}


def forum() -> Survey:
    """Known heights stand in as heights that are all but certain."""
    readings = [LevelReading(mark, "", height, 1e-7) for mark, height in KNOWN.items()]
    for number, (start, end, difference, length) in enumerate(FORUM):
        half = 0.006 * (length / 1000) ** 0.5 / 2**0.5
        readings += [LevelReading(start, f"{number}", 0.0, half), LevelReading(end, f"{number}", -difference, half)]
    return surveyed(readings)


FIXED = [
    Row(
        what="sum of squares of the standardized residuals of five lines",
        printed=printed("4.636", "LEVEL-NET-FORUM", "sum of squares", "A2"),
        ours=lambda: forum().scatter ** 2 * 3,
        table="five lines between three fixed heights",
    ),
    Row(
        what="error factor of five lines",
        printed=printed("1.243", "LEVEL-NET-FORUM", "error factor", "A2"),
        ours=lambda: forum().scatter,
        table="five lines between three fixed heights",
    ),
]  # fmt: skip

# --- one setup --------------------------------------------------------------------------------------------------

SETUP = [
    Row(
        what="height of an instrument over a mark, in ft",
        printed=printed("524.75", "HI-LESSON", "height of instrument", "A2"),
        ours=lambda: leveling.sight_height(known=520.50 * FT, reading=4.25 * FT) / FT,
        table="one setup",
        formula="leveling.sight_height",
    ),
    Row(
        what="height of a turning point, in ft",
        printed=printed("517.95", "HI-LESSON", "elevation of the turning point", "A2"),
        ours=lambda: leveling.mark_height(sight=524.75 * FT, reading=6.80 * FT) / FT,
        table="one setup",
        formula="leveling.mark_height",
    ),
]

# --- loads and cribs ------------------------------------------------------------------------------------------------


def pier(x: float, y: float) -> float:
    return jacking.stiff_share(
        load=100.0, count=4.0, off_x=2.0, off_y=1.0, out_x=x, out_y=y, sum_x2=36.0, sum_y2=16.0
    )  # fmt: skip


def crib(pieces: float, side: float) -> float:
    """In thousands of pounds."""
    return jacking.crib_load(pieces=pieces, side=side * IN, stress=500 * PSI) / LBF / 1e3


ROUNDED = "printed in whole thousands, rounded down"
CARRIED = [
    *(
        Row(
            what=f"load of the pier at {x:+.0f}, {y:+.0f} ft under 100 tons off the middle, in tons",
            printed=printed(digits, "FOUR-PIERS", f"second way, pier {number}", "A2"),
            ours=lambda x=x, y=y: pier(x, y),
            table="four piers",
            formula="jacking.stiff_share",
        )
        for number, (x, y, digits) in enumerate(((3, 2, "54"), (3, -2, "29"), (-3, -2, "-4"), (-3, 2, "21")), start=1)
    ),
    *(
        Row(
            what=f"load of a crib of {name}, in thousands of lb",
            printed=printed(digits, source, where, "A2"),
            ours=lambda pieces=pieces, side=side: crib(pieces, side),
            table="cribs",
            formula="jacking.crib_load",
            note=ROUNDED,
        )
        for name, pieces, side, digits, source, where in (
            ("4 x 4, two to a layer", 2.0, 3.5, "24", "RESCUE-SYSTEMS", "chapter 30, box crib"),
            ("4 x 4, three to a layer", 3.0, 3.5, "55", "RESCUE-SYSTEMS", "chapter 30, crosstie crib"),
            ("6 x 6, two to a layer", 2.0, 5.5, "60", "CRIB-ARTICLE", "crib stack of 6 x 6"),
        )
    ),
    *(
        Row(
            what=f"load of one crossing of {name}, in thousands of lb",
            printed=printed(digits, "CRIB-RULE", f"contact point of {name}"),
            ours=lambda side=side: crib(2.0, side) / 4,
            table="cribs",
            formula="jacking.crib_load",
            note=ROUNDED,
        )
        for name, side, digits in (("4 x 4", 3.5, "6"), ("6 x 6", 5.5, "15"))
    ),
]  # fmt: skip

ROWS = [*NETWORK, *THERE_AND_BACK, *FIXED, *SETUP, *CARRIED]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_agrees_with_print(row):
    assert row.printed.fits(row.ours(), method_error=row.method_error), row.ours()


def test_the_piers_of_the_study_carry_what_the_formula_gives():
    corners = {"a": (3.0, 2.0), "b": (3.0, -2.0), "c": (-3.0, -2.0), "d": (-3.0, 2.0)}
    supports = [Support(mark=mark, at=at) for mark, at in corners.items()]
    footprint = ((1.0, 0.0), (3.0, 0.0), (3.0, 2.0), (1.0, 2.0))  # its middle lies at 2, 1

    loads = {each.mark: each.stiff for each in carried(supports, footprint, load=100.0)}

    assert loads == pytest.approx({"a": pier(3, 2), "b": pier(3, -2), "c": pier(-3, -2), "d": pier(-3, 2)}, rel=1e-6)


def test_a_tilt_of_1_in_300_is_where_damage_is_seen():
    assert settlement.angular_distortion(difference=0.01, distance=3.0) == pytest.approx(0.0033, abs=5e-5)
