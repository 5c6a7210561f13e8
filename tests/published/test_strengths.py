"""Strength by age, by mix and by bodies, and the pooled estimate, against printed values."""

from __future__ import annotations

import math

import pytest

from pinfold.formulas import bodies, learning, strength_age, strength_mix
from pinfold.studies.lessons.levels import Spreads, Tried, believed
from pinfold.tables.shelf import kind
from pinfold.units import UNIT_BY_SYMBOL
from published import Printed
from rows import Row

DAY, PSI, MPA = 86400.0, UNIT_BY_SYMBOL["psi"].factor, 1e6


def row(what, digits, ours, *, source, where, table, formula="", note="", look_up=False, method_error=0.0):
    return Row(
        what=what, printed=Printed(digits, source, where), ours=ours, table=table, formula=formula, note=note,
        look_up=look_up, method_error=method_error,
    )  # fmt: skip


# ---- age


def beta(days, digits, where, slowness=0.25):
    return row(
        f"share of the 28-day strength at {days} days, class N", digits,
        lambda: strength_age.share_by_en1992(age=days * DAY, slowness=slowness), source="STRUCTURAL-CODES",
        where=where, table="EN 1992-1-1 equation 3.2, public libraries", formula="strength_age.share_by_en1992",
    )  # fmt: skip


AGES = [
    beta(9, "0.8261668305331398", "development of properties"),
    beta(27, "0.995422968073841", "development of properties"),
    beta(56, "1.075970779425791", "development of properties"),
    beta(365, "1.198124627036262", "development of properties"),
    beta(10, "0.84507490", "equation 3.2, worked by hand"),
    row("7-day strength of C40, MPa: the mean less 8", "29.382437587427",
        lambda: strength_age.strength_at_other_age(
            strength=48.0, known_share=1.0, share=strength_age.share_by_en1992(age=7 * DAY, slowness=0.25)) - 8,
        source="STRUCTURAL-CODES", where="strength at time t, clause 3.1.2", table="EN 1992-1-1 strength at 7 days",
        formula="strength_age.strength_at_other_age"),
    row("age back from the share at 56 days, days", "56",
        lambda: strength_age.age_by_en1992(share=1.075970779425791, slowness=0.25) / DAY, source="STRUCTURAL-CODES",
        where="development of properties, backwards", table="EN 1992-1-1 equation 3.2, backwards",
        formula="strength_age.age_by_en1992"),
]  # fmt: skip
CEMENTS = [
    row(f"s of class {name}", digits, lambda each=each: kind("strength_ages", each).value("slowness"),
        source="EN-1992-STRENGTH", where="clause 3.1.2 (6)", table="values of s", look_up=True)
    for each, name, digits in (("moist-III", "R", "0.20"), ("moist-I", "N", "0.25"), ("moist-slow", "S", "0.38"))
]  # fmt: skip

# ---- mixes

STRENGTHS = [
    row(f"strength of {air} concrete at w/c {ratio}, psi", f"{psi}",
        lambda ratio=ratio, air=air: strength_mix.strength_by_aci211(water_cement=ratio, air=air) / PSI,
        source="ACI-211", where="table 5.3.4", table="ACI 211 table 5.3.4, read backwards",
        formula="strength_mix.strength_by_aci211", look_up=True)
    for ratio, air, psi in ((0.41, "plain", 6000), (0.57, "plain", 4000), (0.82, "plain", 2000),
                            (0.59, "entrained", 3000))
]  # fmt: skip
STRENGTHS += [
    row("strength of the first mix back from its printed w/c, psi", "3500",
        lambda: strength_mix.strength_by_aci211(water_cement=0.62, air="plain") / PSI, source="ACI-211",
        where="section 9.2", table="ACI 211 9.2, backwards", formula="strength_mix.strength_by_aci211",
        method_error=0.013, note="0.62 is printed for 0.625, between 3000 and 4000 psi"),
]  # fmt: skip

# ---- bodies

BODIES = [
    row("bending strength of a 150 mm beam at thirds, MPa", "5.39",
        lambda: bodies.rupture_at_thirds(load=40450.0, span=0.45, width=0.15, depth=0.15) / MPA,
        source="RUPTURE-EXERCISE", where="40.45 kN on 450 mm", table="bending at thirds",
        formula="bodies.rupture_at_thirds"),
    row("bending strength of a bar loaded in its middle, MPa", "64.08",
        lambda: bodies.rupture_in_middle(load=300.0, span=0.044, width=0.011, depth=0.0053) / MPA,
        source="RUPTURE-EXERCISE", where="300 N on 44 mm", table="bending in the middle",
        formula="bodies.rupture_in_middle"),
    row("cube of 100 mm as one of 150 mm", "0.96", lambda: bodies.cube_size_factor(width=0.1), source="CUBE-SIZES",
        where="as quoted", table="cube sizes", formula="bodies.cube_size_factor", look_up=True),
]  # fmt: skip
BODIES += [
    row(f"cylinder strength of class C{cylinder}/{cube}", f"{cylinder}",
        lambda cube=cube: bodies.strength_as_body(strength=cube, factor=kind("bodies", "cube").value("to_cylinder")),
        source="EN-206", where="pairs of classes", table="EN 206 classes", formula="bodies.strength_as_body")
    for cylinder, cube in ((12, 15), (16, 20), (20, 25))
]  # fmt: skip

# ---- pooling

FULL = ((28.39, 14.9), (7.94, 10.2), (-2.75, 16.3), (6.82, 11.0), (-0.64, 9.4), (0.63, 11.4), (18.01, 10.4),
        (12.16, 17.6))  # fmt: skip
ROUNDED = ((28, 15), (8, 10), (-3, 16), (7, 11), (-1, 9), (1, 11), (18, 10), (12, 18))


def pooled(schools):
    """Eight groups that truly differ by nothing, one at a time from no prior at all."""
    value, spread = 0.0, math.inf
    for mean, error in schools:
        belief = learning.normal_posterior(
            prior=value, prior_spread=spread, mean=float(mean), spread=float(error), count=1.0
        )
        value, spread = belief.value, belief.spread
    return value, spread**2


POOLED = [
    row(what, digits, ours, source="EIGHT-SCHOOLS", where=where, table="eight schools, pooled",
        formula="learning.normal_posterior")
    for what, digits, ours, where in (
        ("pooled estimate of eight schools", "7.9", lambda: pooled(FULL)[0], "full figures"),
        ("its variance", "17.4", lambda: pooled(FULL)[1], "full figures"),
        ("pooled estimate, rounded figures", "7.7", lambda: pooled(ROUNDED)[0], "rounded figures"),
        ("its variance, rounded figures", "16.6", lambda: pooled(ROUNDED)[1], "rounded figures"),
    )
]  # fmt: skip

ROWS = (*AGES, *CEMENTS, *STRENGTHS, *BODIES, *POOLED)


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours(), method_error=row.method_error)


def test_the_levels_give_the_pooled_estimate_where_groups_do_not_differ():
    tests = [Tried(f"school {n}", "one", mean, 0.0, error) for n, (mean, error) in enumerate(FULL)]
    spreads = Spreads(family=1e4, mix=1e-4, age=1e-4, batch=0.0)

    level = believed(tests, spreads, freedom=1e15).level("another", 0.0)

    assert Printed("7.9", "EIGHT-SCHOOLS", "").fits(level.over)
    assert Printed("17.4", "EIGHT-SCHOOLS", "").fits(level.spread**2)
