"""Published worked examples run through the study of stability, not through its formulas alone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from pinfold.figures import given
from pinfold.findings import Finding, Step
from pinfold.formulas import masonry
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.place import Family
from pinfold.sources import publications
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.records import Post
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.air import Site, air_at
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.bedding import section_of
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.ends import Line
from pinfold.studies.stability.fences import Pull
from pinfold.studies.stability.loads import solid_pressure
from pinfold.studies.stability.pieces import pieces_of
from pinfold.studies.stability.weights import weight_of
from pinfold.tables.shelf import kind
from pinfold.units import METER, METER_PER_SECOND, PASCAL, PASCAL_PER_METER, read
from published import Printed
from rows import Row

FOOT, INCH = read("1 ft", like=METER), read("1 in", like=METER)
MPH = read("1 mph", like=METER_PER_SECOND)
PSF = read("1 psf", like=PASCAL)
LBF = PSF * FOOT**2
KD = 0.85
AIR = 0.0006
"""The standard's 0.613 in SI is 0.05 % under its 0.00256 in customary units; both are rounded."""
KD_NOTE = "sheets to 7-16 and before hold Kd in q: multiplied by it here; 0.613 for 0.00256"


def site(speed: float, exposure: str, family: Family = Family.US) -> Site:
    return Site(
        family=family, speed=speed, exposure=exposure, edition="7-16", elevation=None, topography=None
    )  # fmt: skip


def made_by(steps: tuple[Step, ...], formula: str) -> float:
    return next(step.number for step in steps if step.formula == formula)


def in_air(where: Site, height: float, formula: str) -> float:
    return made_by(air_at(where, height).working, formula)


# --- walls and panels in the wind ------------------------------------------------------------------------

LONG = Line(
    side=689 * FOOT, unbroken=689 * FOOT, from_start=0.0, from_end=689 * FOOT, start_return=1821.3 * FOOT,
    end_return=0.0,
)  # fmt: skip
LOW = 6.6 * FOOT


def on_long_wall(distance: float) -> tuple[float, tuple[Step, ...], tuple[str, ...]]:
    """The wall 6.6 ft high and 689 ft long, importance 1.15 as a wind so much faster, a piece of it that far in."""
    where = site(100 * MPH * 1.15**0.5, "C")
    line = replace(LONG, from_start=distance * FOOT, from_end=(689 - distance) * FOOT)
    return solid_pressure(where, line, LOW, air_at(where, LOW))


def sheet_rows() -> list[Row]:
    sign, wall = "SIGN-SHEET-20FT", "WALL-SHEET-6FT6"
    exposed = site(155 * MPH, "D")
    cf = "wind.oblique_force_coefficient"

    def row(what: str, digits: str, source: str, ours: Callable[[], float], **more: object) -> Row:
        return Row(what=what, printed=Printed(digits, source, what, "A2"), ours=ours, table=f"study: {source}", **more)  # type: ignore[arg-type]

    return [
        row("Kz in exposure D at 20 ft", "1.083", sign,
            lambda: in_air(exposed, 20 * FOOT, "wind.exposure_coefficient")),
        row("qz at 20 ft, psf", "56.62", sign, lambda: air_at(exposed, 20 * FOOT).pressure * KD / PSF,
            method_error=AIR, note=KD_NOTE),
        row("Cf square on of a long wall", "1.30", wall,
            lambda: made_by(on_long_wall(100.0)[1], "wind.wall_force_coefficient")),
        row("Cf case C, first zone with its return corner", "2.064", wall, lambda: made_by(on_long_wall(0.0)[1], cf)),
        row("Cf case C, second zone", "2.040", wall, lambda: made_by(on_long_wall(7.0)[1], cf)),
        row("pressure of case C, psf", "37", wall, lambda: on_long_wall(0.0)[0] / PSF),
    ]  # fmt: skip


def european_rows() -> list[Row]:
    where = site(22.0, "III", Family.EU)

    def row(name: str, digits: str, ours: Callable[[], float]) -> Row:
        place = Printed(digits, "EN-SHEET-7M", f"{name}, terrain III, z 7.02 m, vb 22 m/s", "A2")
        return Row(what=f"{name} through the study", printed=place, ours=ours, table="study: EN sheet")

    return [
        row("cr", "0.68", lambda: in_air(where, 7.02, "wind_en.roughness_factor")),
        row("vm", "14.939", lambda: in_air(where, 7.02, "wind_en.mean_speed")),
        row("Iv", "0.31718482", lambda: in_air(where, 7.02, "wind_en.turbulence_intensity")),
        row("qp in kPa", "0.449", lambda: air_at(where, 7.02).pressure / 1000),
    ]


# --- masonry ---------------------------------------------------------------------------------------------


def plan(wall: str, wind: str = "40 m/s") -> Enclosure:
    return plan_of(f"""
format = 1
name = "Printed"
units = "us"
family = "us"
paper = "letter"
[place]
wind_speed = "{wind}"
exposure = "C"
soil = "sand"
frost_depth = "0 in"
[[corner]]
name = "A"
x = "0 m"
y = "0 m"
[[corner]]
name = "B"
x = "10 m"
y = "0 m"
[[side]]
name = "line"
from = "A"
to = "B"
buildup = "run"
[buildup.run]
says = "as printed"
{wall}
""")


DRY_BRICK = '[buildup.run.wall]\nkind = "brick-double"\nthickness = "8 in"\ndensity = "120 lb/ft3"\nheight = "{height}"'


def height_by_rule() -> float:
    """Height, in, at which the study's own weight of a brick wall 8 in thick stands a wind of 10 psf 4/3 times."""
    low, high = 24.0, 96.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if _safety(middle) > 4 / 3 else (low, middle)
    return low


@cache
def _per_inch() -> float:
    """Weight of the brick wall per inch of its height, by the study."""
    piece = pieces_of(lay_out(plan(DRY_BRICK.format(height="48 in"))).stretches[0])[0]
    return weight_of(piece, None, least=True).total / (piece.body / INCH)


def _safety(height: float) -> float:
    weight, size = _per_inch() * height, height * INCH
    return weight * (8 * INCH / 2) / (10 * PSF * size * size / 2)


STRONG = """[buildup.run.footing]
kind = "strip-concrete"
width = "4 ft"
thickness = "10 in"
below_ground = "24 in"
[buildup.run.wall]
kind = "block-12-hollow"
thickness = "11.62 in"
compressive = "1350 psi"
height = "6 ft"
grout = "full"
bar = "#6"
bar_spacing = "24 in"
mortar = "mortar-O"
"""


@cache
def barred() -> Finding:
    found = assess(lay_out(plan(STRONG, wind="55 m/s")))
    return next(finding for finding in found if finding.check == "bending")


def _cracked() -> masonry.CrackedSection:
    result = next(step.result for step in barred().working if step.formula == "masonry.cracked_section")
    assert isinstance(result, masonry.CrackedSection)
    return result


GROUTED = """[buildup.run.wall]
kind = "block-{nominal}-hollow"
height = "4 ft"
grout = "partial"
grout_spacing = "{spacing} in"
"""


def bedded(nominal: int, spacing: int) -> float:
    wall = plan(GROUTED.format(nominal=nominal, spacing=spacing)).buildups["run"].wall
    assert wall is not None
    return section_of(wall)[0] / INCH


def masonry_rows() -> list[Row]:
    manual = "section 6-8, example 1: 12 in wall, #6 at 24 in"

    def row(what: str, digits: str, ours: Callable[[], float], **more: object) -> Row:
        place = Printed(digits, "TM-5-809-3", manual, "A2")
        return Row(what=f"{what}, through the study", printed=place, ours=ours, table="study: TM 5-809-3 6-8 ex. 1",
                   **more)  # type: ignore[arg-type] # fmt: skip

    step_wise = "the manual works on with rounded n, p, k and j"
    return [
        Row(what="height of a straight brick wall 8 in thick, by weight", ours=height_by_rule,
            printed=Printed("48", "BRICK-WALL-RULE", "p. 305", "A2"), table="study: brick wall rule",
            note="at 120 lb/ft3 and the 10 psf the rule is for; it then stands 4/3 times, which the page does not say"),
        row("modular ratio", "21.5", lambda: made_by(barred().working, "masonry.modular_ratio")),
        row("steel ratio", "0.0032", lambda: made_by(barred().working, "masonry.steel_ratio")),
        row("k", "0.308", lambda: _cracked().neutral, method_error=0.005, note=step_wise),
        row("j", "0.897", lambda: _cracked().lever, method_error=0.001, note=step_wise),
        row("moment of one bar, ft lbf", "4147", lambda: (barred().capacity or 0.0) / LBF / FOOT, method_error=0.005,
            note=f"the pressed masonry governs; {step_wise}"),
        *(
            Row(what=f"bedded thickness of a {nominal} in wall grouted at {spacing} in, through the study",
                printed=Printed(digits, "TM-5-809-3", "table 5-2", "A2"), ours=lambda n=nominal, s=spacing: bedded(n, s),
                table="study: TM 5-809-3 table 5-2")
            for nominal, spacing, digits in ((8, 16, "4.90"), (8, 32, "3.70"), (12, 48, "4.35"))
        ),
    ]  # fmt: skip


# --- posts -----------------------------------------------------------------------------------------------


def pole() -> float:
    """The pole 8 m high on a square footing of 0.6 m; the study doubles the table, so half of it is put in."""
    laid = lay_out(plan('[buildup.run.posts]\nkind = "wood-6x6"\nwidth = "0.6 m"\nspacing = "3 m"\nheight = "1 m"\n'
                        'setting = "ground"\nembed = "1.55 m"\n[buildup.run.mesh]\nkind = "welded-2x4-14ga"\n'
                        'height = "1 m"'))  # fmt: skip
    post: Post = laid.posts[0]
    soil = kind("soils", "sand")
    halved = replace(soil, figures={**soil.figures, "lateral": given(31400.0 / 2, PASCAL_PER_METER)})
    pull = Pull(force=1330.0, moment=1330.0 * 8.0, working=())
    found = embedment(Family.US, replace(laid.plan.place, soil=halved), post, pull)
    assert found.demand is not None
    return found.demand


POLES = [
    Row(
        what="depth of the pole footing, m, through the study",
        printed=Printed("1.52", "POST-SHEET", "pole 8 m high on a 0.6 m square footing, trial depth 1.55 m", "A2"),
        ours=pole,
        table="study: pole footing sheet",
        method_error=0.0053,
        note="the sheet stops after one pass from 1.55 m; gone on with, it comes to 1.532",
    )
]

ROWS: list[Row] = [*sheet_rows(), *european_rows(), *masonry_rows(), *POLES]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_the_study_comes_out_as_printed(row: Row):
    assert row.printed.source in publications()
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed.digits)


def test_no_table_counts_more_than_ten_rows():
    tables = [row.table for row in ROWS]
    assert max(tables.count(table) for table in tables) <= 10


def test_the_return_corner_eases_the_first_zone_only():
    """0.60 of 4.30 at the return makes the first zone no worse than the second."""
    first, second = (made_by(on_long_wall(at)[1], "wind.oblique_force_coefficient") for at in (0.0, 7.0))
    free = solid_pressure(site(50.0, "C"), replace(LONG, start_return=0.0), LOW, air_at(site(50.0, "C"), LOW))
    assert first == pytest.approx(0.6 * made_by(free[1], "wind.oblique_force_coefficient"))
    assert abs(first - second) < 0.03


@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
def test_a_return_shorter_than_the_wall_is_high_eases_in_part_and_is_never_dropped(share: float):
    """A program in circulation gives such a wall 1.2 in every zone."""
    where, height = site(27.0, "II", Family.EU), 1.5
    line = Line(side=30.0, unbroken=30.0, from_start=0.0, from_end=29.0, start_return=share * height, end_return=1e9)

    def coefficient(of: Line) -> float:
        steps = solid_pressure(where, of, height, air_at(where, height))[1]
        return made_by(steps, "wind_en.net_pressure_coefficient_at")

    free, full = coefficient(replace(line, start_return=0.0)), coefficient(replace(line, start_return=height))
    assert (free, full) == (pytest.approx(3.4), pytest.approx(2.1))
    assert coefficient(line) == pytest.approx(free + share * (full - free))
