"""Corrections at the mixer against what manuals, guides and magazines print."""

from __future__ import annotations

from collections import Counter

import pytest

from pinfold.formulas import concrete_batch, corrections, foam
from pinfold.studies.correcting.held import weighed
from pinfold.studies.correcting.next_mix import next_mix
from pinfold.studies.correcting.records import Held
from pinfold.tables.shelf import kind
from pinfold.units import UNIT_BY_SYMBOL
from published import Printed
from rows import Row

FT3, YD3, LB, GAL, INCH, PCF, PCY = (UNIT_BY_SYMBOL[s].factor for s in ("ft3", "yd3", "lb", "gal", "in", "lb/ft3", "lb/yd3"))  # fmt: skip
BAG = 94 * LB


def row(source, where, what, digits, ours, *, formula="", note="", look_up=False, method_error=0.0):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}",
               formula=formula, note=note, look_up=look_up, method_error=method_error)  # fmt: skip


def examined(what, digits, ours, formula):
    return row("YIELD-EXAMPLES", "worked examples", what, digits, ours, formula=formula)


def trial_yield():
    return concrete_batch.yield_volume(batch=3886 * LB, density=145.0 * PCF)


WEIGHED = [
    examined("density of a measure of 0.250 ft3, 18.6 lb empty and 54.1 lb full, lb/ft3", "142.0",
             lambda: corrections.pail_density(full=54.1 * LB, empty=18.6 * LB, holds=0.25 * FT3, filled=1.0) / PCF,
             "corrections.pail_density"),
    examined("yield of 3886 lb at 145.0 lb/ft3, ft3", "26.80", lambda: trial_yield() / FT3,
             "concrete_batch.yield_volume"),
    examined("its relative yield to a yard", "0.993",
             lambda: corrections.relative_yield(made=trial_yield(), meant=YD3), "corrections.relative_yield"),
]  # fmt: skip


def bags_beside(gallons, ratio_gallons):
    """Bags of cement that go in beside so many gallons at so many gallons to a bag."""
    ratio = ratio_gallons * GAL * 1000 / BAG
    return corrections.cement_beside(water=gallons * GAL * 1000, water_cement=ratio) / BAG


def rule(key):
    return kind("corrections", "slump").value(key)


WATER = [
    row("ACI-211", "section 9.2.9", "water for a slump of 3.5 in where the trial had 2 in, lb/yd3", "15",
        lambda: corrections.water_for_slump(change=1.5 * INCH, water=rule("water"), step=rule("step")) / PCY,
        formula="corrections.water_for_slump"),
    row("ACI-211", "section 9.2.9", "water in a yard by the 12.12 lb that a cubic foot of trial took, lb", "327",
        lambda: corrections.content(mass=12.12 * LB, made=FT3) / PCY, formula="corrections.content"),
    row("WATER-AND-CEMENT", "answer on further water", "bags of cement beside nine gallons at six gallons to the bag", "1.5",
        lambda: bags_beside(9, 6), formula="corrections.cement_beside"),
]  # fmt: skip


def on_grains(pounds, share):
    """Water on a mass that is given surface dry."""
    return concrete_batch.moist_mass(surface_dry=pounds * LB, moisture=share, absorption=0.0)


def manual_water():
    return (on_grains(1735, 0.02).free_water + on_grains(1153, 0.06).free_water) / LB


def army_water():
    return (on_grains(1768, 0.02).free_water + on_grains(1083, 0.06).free_water) / LB


def wet(source, where, what, digits, ours, note=""):
    return row(source, where, what, digits, ours, formula="concrete_batch.moist_mass", note=note)


EIGHT = "8.33 lb to the gallon, as the manual counts"
WET_SAND = [
    wet("WET-SAND-MANUAL", "6 % on the sand", "water on 1735 lb of stone, lb", "34.70",
        lambda: on_grains(1735, 0.02).free_water / LB),
    wet("WET-SAND-MANUAL", "6 % on the sand", "water on 1153 lb of sand, lb", "69.18",
        lambda: on_grains(1153, 0.06).free_water / LB),
    wet("WET-SAND-MANUAL", "6 % on the sand", "both, lb", "103.88", manual_water),
    wet("WET-SAND-MANUAL", "6 % on the sand", "both, gallons", "12.47", lambda: manual_water() / 8.33, EIGHT),
    wet("WET-SAND-MANUAL", "6 % on the sand", "gallons left to pour of 36.6", "24.13",
        lambda: 36.6 - manual_water() / 8.33, EIGHT),
    wet("WET-SAND-MANUAL", "6 % on the sand", "moist stone to weigh, lb", "1770", lambda: on_grains(1735, 0.02).batch / LB),
    wet("WET-SAND-MANUAL", "6 % on the sand", "moist sand to weigh, lb", "1222", lambda: on_grains(1153, 0.06).batch / LB),
    wet("WET-SAND-ARMY", "6 % on the sand", "water on 1768 lb of stone, lb", "35.36",
        lambda: on_grains(1768, 0.02).free_water / LB),
    wet("WET-SAND-ARMY", "6 % on the sand", "water on 1083 lb of sand, lb", "64.98",
        lambda: on_grains(1083, 0.06).free_water / LB),
    wet("WET-SAND-ARMY", "6 % on the sand", "both, lb", "100.34", army_water),
]  # fmt: skip


def agents_batch():
    """The batch that agents are tested with: 40 lb/ft3 as cast at w/c 0.58 (remembered), foam of 40 kg/m3."""
    return foam.foamed_mix(
        cast=40 * PCF, foam=40.0, water_cement=0.58, sand_cement=0.0, water_density=1000.0, cement_density=3150.0,
        sand_density=2650.0,
    )  # fmt: skip


FOAMED = [
    row("ASTM-C869", "table 1", "near enough to the density wanted, lb/ft3", "3",
        lambda: kind("corrections", "foamed-density").value("near") / PCF, look_up=True),
]  # fmt: skip

ROWS: list[Row] = [*WEIGHED, *WATER, *WET_SAND, *FOAMED]


@pytest.mark.parametrize("check", ROWS, ids=str)
def test_meets_the_printed_value(check):
    assert check.printed.fits(check.ours(), method_error=check.method_error), (check.ours(), check.printed.digits)


def test_no_table_counts_more_than_ten_times():
    assert max(Counter(check.table for check in ROWS).values()) <= 10


def test_the_batch_agents_are_tested_with_dries_to_what_their_specification_prints():
    """ASTM C869 table 1 has 30.4 give or take 2.5 lb/ft3 for type I cement, a fifth of the cement bound as water."""
    mix = agents_batch()

    dry = foam.dry_density(cement=mix.cement, sand=0.0, bound_water=0.2) / PCF

    assert abs(dry - 30.4) <= 2.5


def test_the_rule_of_a_gallon_in_a_yard_for_an_inch_is_near_the_rule_of_ten_pounds():
    """A magazine (WATER-RULE) has one gallon; ten pounds are 1.2 gallons."""
    rule_of_ten = corrections.water_for_slump(change=INCH, water=rule("water"), step=rule("step")) * YD3 / 1000 / GAL

    assert rule_of_ten == pytest.approx(1.0, abs=0.25)


def test_the_trial_of_section_9_2_9_is_put_right_for_the_next_batch_as_its_own_counting_goes():
    """Counted on a cubic foot as batched, as the source does: 342 lb water, 552 cement, 1927 stone, 1100 sand, 3921 in all.

    By mass over density the trial made 1.016 ft3, so a yard of it holds less of everything; the program goes by that.
    """
    parts = {"cement": 484 / 27, "sand": 51.0 / 1.06 * 1.007, "gravel": 72.44 / 1.02 * 1.005}
    as_batched = Held(
        mix=kind("mixes", "concrete-footing"), masses=tuple((part, mass * LB) for part, mass in parts.items()),
        water=12.12 * LB, foam=0.0, foam_mass=0.0, made=FT3,
    )  # fmt: skip
    asked = {"water_cement": 0.62, "gravel": 1927 * PCY, "air_free": 150.4 * PCF, "density": 147.5 * PCF}

    found = next_mix(as_batched, slump=1.5 * INCH, **asked)
    truly = next_mix(weighed(as_batched, 147.5 * PCF), slump=1.5 * INCH, **asked)

    assert [round(each / PCY) for each in (found.water, found.cement, found.gravel)] == [342, 552, 1927]
    assert found.sand / PCY == pytest.approx(1100, rel=0.006)  # grains of 2650 kg/m3 where the source has 2640
    assert found.density / PCY == pytest.approx(3921, rel=0.002)
    assert as_batched.mass / LB == pytest.approx(149.87, abs=0.6)
    assert truly.water < found.water
