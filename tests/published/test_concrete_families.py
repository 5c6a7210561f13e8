"""Concrete by a wish against worked mixes that their sources print: the whole way through the family.

Where a source rounds at each step or takes a limit for water over cement, the wish says so and the note of the row too.
Strengths are wished for so that the strength to aim for is the one the source begins with.
"""

from __future__ import annotations

from collections import Counter
from functools import cache, partial

import pytest

from concretes import FT3, LB, PCF, PCY, SITE, YD3, gravity, proposed, step
from pinfold.formulas import concrete_batch, concrete_is, concrete_mix, concrete_small, mixes
from pinfold.studies.batching.charge import charge_of
from pinfold.tables.concrete import grid
from pinfold.units import UNIT_BY_SYMBOL
from published import Printed
from rows import Row

INCH, L, GAL, TON = (UNIT_BY_SYMBOL[s].factor for s in ("in", "L", "gal", "ton"))
MPA = 1e6
CEMENT = gravity(3.15)
OTHER_WATER = "water of 1000 kg/m3, not 62.4 lb/ft3"


def row(source, where, what, digits, ours, *, formula="", method_error=0.0, note="", look_up=False):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}", formula=formula,
               method_error=method_error, note=note, look_up=look_up)  # fmt: skip


@cache
def first_mix():
    """ACI 211 section 9.2: its 0.62 is exact 0.625, so it stands as the builder's own limit."""
    return proposed(
        "concrete", strength="2500 psi", slump="3.5 in", stone_size="1.5 in", most_water_cement="0.62",
        cement_density=CEMENT, sand_density=gravity(2.64), stone_density=gravity(2.68), sand_moisture="6 %",
        stone_moisture="2 %",
    )  # fmt: skip


@cache
def retaining_wall():
    """The Navy's example: 0.50 for its exposure; its stone is not said to soak up water."""
    return proposed(
        "concrete", strength="2000 psi", slump="3 in", stone_size="3/4 in", exposure="some-frost", air="entrained",
        most_water_cement="0.50", sand_fineness="2.7", sand_density=gravity(2.65), stone_density=gravity(2.60),
        stone_rodded="102 lb/ft3", stone_absorption="0", cement_density=CEMENT,
    )  # fmt: skip


@cache
def small_stone():
    """A university sheet: 4000 psi, stone 3/8 in; 0.57 read in the table."""
    return proposed(
        "concrete", strength="2800 psi", slump="3 in", stone_size="3/8 in", most_water_cement="0.57",
        sand_fineness="2.9", sand_density=gravity(2.67), stone_density=gravity(2.68), stone_rodded="103 lb/ft3",
        stone_absorption="0", cement_density=CEMENT,
    )  # fmt: skip


@cache
def frosty():
    """A lecture's problem: 5000 psi to aim for, stiff, wet frost; stone put in by its dry mass."""
    return proposed(
        "concrete", strength="3800 psi", slump="1.5 in", stone_size="3/4 in", exposure="wet-frost", sand_fineness="2.7",
        sand_density=gravity(2.65), sand_absorption="0", sand_moisture="4.3 %", stone_density=gravity(2.70),
        stone_rodded="100 lb/ft3", stone_absorption="0", cement_density=CEMENT,
    )  # fmt: skip


@cache
def strong():
    """A class example: 7000 psi, whose table has 0.33 there."""
    return proposed(
        "concrete", strength="5000 psi", slump="3.5 in", stone_size="3/4 in", most_water_cement="0.33",
        sand_fineness="2.7", sand_density=gravity(2.60), sand_absorption="0", stone_density=gravity(2.65),
        stone_rodded="100 lb/ft3", stone_absorption="0", cement_density=CEMENT,
    )  # fmt: skip


def mass(found, part):
    return found().mix.value(f"{part}_mass") / PCY


def room(found, why):
    return step(found(), why) * 27


def fresh_density():
    return sum(first_mix().mix.value(f"{part}_mass") for part in ("cement", "sand", "gravel", "water")) / PCF


def moist(why):
    return step(first_mix(), why).batch / PCY


def water_to_add():
    """Out of a batch of the mixer, for a yard."""
    charge = charge_of(first_mix().mix, SITE)
    return charge.water_to_add * 1000 / charge.makes / PCY


ACI = [
    row("ACI-211", "section 9.2, family", "cement of the first mix, lb", "484", partial(mass, first_mix, "cement")),
    row("ACI-211", "section 9.2, family", "its stone, lb", "1927", partial(mass, first_mix, "gravel")),
    row("ACI-211", "section 9.2, family", "its sand, lb", "1308", partial(mass, first_mix, "sand")),
    row("ACI-211", "section 9.2, family", "room its water takes, ft3", "4.81",
        partial(room, first_mix, "room water takes"), method_error=5e-4, note=OTHER_WATER),
    row("ACI-211", "section 9.2, family", "room its air takes, ft3", "0.27",
        lambda: 27 * first_mix().mix.value("air")),
    row("ACI-211", "section 9.2, family", "its fresh density, lb/ft3", "148.9", fresh_density, method_error=5e-5,
        note="the example goes on with whole pounds"),
    row("ACI-211", "section 9.2.8, family", "its sand as damp as it lies, lb", "1377",
        partial(moist, "sand to weigh for a cubic meter, as damp as it lies")),
    row("ACI-211", "section 9.2.8, family", "its stone as damp as it lies, lb", "1956",
        partial(moist, "stone to weigh for a cubic meter, as damp as it lies"), method_error=5e-4,
        note="the example goes on with 1927 lb"),
    row("ACI-211", "section 9.2.8, family", "water to pour in, lb", "202", water_to_add),
]  # fmt: skip

NAVY = [
    row("NAVEDTRA-14071", "retaining wall", "water over cement by strength, 3000 psi to aim for", "0.59",
        lambda: step(retaining_wall(), "water over cement that strength allows"), look_up=True),
    row("NAVEDTRA-14071", "retaining wall", "rodded stone, share", "0.63",
        lambda: step(retaining_wall(), "rodded stone by stone and sand")),
    row("NAVEDTRA-14071", "retaining wall", "cement, lb", "610", partial(mass, retaining_wall, "cement")),
    row("NAVEDTRA-14071", "retaining wall", "stone, lb", "1735", partial(mass, retaining_wall, "gravel")),
    row("NAVEDTRA-14071", "retaining wall", "room cement takes, ft3", "3.10",
        partial(room, retaining_wall, "room cement takes")),
    row("NAVEDTRA-14071", "retaining wall", "room water takes, ft3", "4.89",
        partial(room, retaining_wall, "room water takes")),
    row("NAVEDTRA-14071", "retaining wall", "room stone takes, ft3", "10.69",
        partial(room, retaining_wall, "room stone takes")),
    row("NAVEDTRA-14071", "retaining wall", "room air takes, ft3", "1.35",
        lambda: 27 * retaining_wall().mix.value("air")),
    row("NAVEDTRA-14071", "retaining wall", "room left for sand, ft3", "6.97",
        partial(room, retaining_wall, "room left for sand")),
    row("NAVEDTRA-14071", "retaining wall", "sand, lb", "1152", partial(mass, retaining_wall, "sand")),
    row("NAVEDTRA-14071", "take-off", "concrete with a tenth of waste, yd3", "70.07",
        lambda: mixes.with_waste(net=63.7 * YD3, waste=0.1) / YD3, formula="mixes.with_waste"),
    row("NAVEDTRA-14071", "take-off", "stone for it, short tons", "60.8",
        lambda: mass(retaining_wall, "gravel") * 70.07 * LB / TON),
    row("NAVEDTRA-14071", "take-off", "sand for it, short tons", "40.4",
        lambda: mass(retaining_wall, "sand") * 70.07 * LB / TON),
]  # fmt: skip


def army(pounds, moisture):
    """Free water of sand or stone whose moisture is told over its surface-dry mass."""
    return concrete_batch.moist_mass(surface_dry=pounds * LB, moisture=moisture, absorption=0.0).free_water / LB


ARMY = [
    row("EN-5466", "part C", "water on 1768 lb of stone, lb", "35.36", lambda: army(1768, 0.02),
        formula="concrete_batch.moist_mass"),
    row("EN-5466", "part C", "water on 1083 lb of sand, lb", "64.98", lambda: army(1083, 0.06),
        formula="concrete_batch.moist_mass"),
    row("EN-5466", "part C", "both together, lb", "100.34", lambda: army(1768, 0.02) + army(1083, 0.06)),
    row("EN-5466", "part C", "water left to add of 38.6 gallons", "26.6",
        lambda: 38.6 - (army(1768, 0.02) + army(1083, 0.06)) * LB / 1000 / GAL),
    row("EN-5466", "part C", "63.7 yd3 with a tenth of waste, yd3", "70.1",
        lambda: mixes.with_waste(net=63.7 * YD3, waste=0.1) / YD3),
]  # fmt: skip

SHEETS = [
    row("CONCRETE-SHEET-4000", "steps", "water, lb", "385", partial(mass, small_stone, "water"), look_up=True),
    row("CONCRETE-SHEET-4000", "steps", "cement, lb", "675.44", partial(mass, small_stone, "cement")),
    row("CONCRETE-SHEET-4000", "steps", "rodded stone, share", "0.45",
        lambda: step(small_stone(), "rodded stone by stone and sand")),
    row("CONCRETE-SHEET-4000", "steps", "stone, lb", "1251", partial(mass, small_stone, "gravel")),
    row("CONCRETE-SHEET-4000", "steps", "room left for sand, ft3", "9.1",
        partial(room, small_stone, "room left for sand")),
    row("CONCRETE-SHEET-4000", "steps", "sand, lb", "1516", partial(mass, small_stone, "sand"), method_error=1e-3,
        note="the sheet goes on with 9.1 ft3"),
    row("CONCRETE-LECTURE-5000", "steps", "water over cement", "0.4", lambda: frosty().mix.value("water_cement"),
        look_up=True),
    row("CONCRETE-LECTURE-5000", "steps", "cement, lb", "700", partial(mass, frosty, "cement")),
    row("CONCRETE-LECTURE-5000", "steps", "stone, lb", "1701", partial(mass, frosty, "gravel")),
    row("CONCRETE-LECTURE-5000", "steps", "room air takes, ft3", "1.62", lambda: 27 * frosty().mix.value("air")),
    row("CONCRETE-LECTURE-5000", "steps", "room stone takes, ft3", "10.10", partial(room, frosty, "room stone takes")),
    row("CONCRETE-LECTURE-5000", "steps", "room left for sand, ft3", "7.23",
        partial(room, frosty, "room left for sand"), method_error=5e-4, note=OTHER_WATER),
    row("CONCRETE-LECTURE-5000", "steps", "sand, lb", "1195.55", partial(mass, frosty, "sand"), method_error=1.5e-3,
        note="the lecture goes on with 7.23 ft3"),
    row("CONCRETE-LECTURE-5000", "steps", "damp sand from the heap, lb", "1246.96",
        lambda: step(frosty(), "sand to weigh for a cubic meter, as damp as it lies").batch / PCY, method_error=1.5e-3,
        note="the lecture goes on with 7.23 ft3 and 1195 lb"),
    row("CONCRETE-CLASS-7000", "steps", "cement, lb", "1030", partial(mass, strong, "cement")),
    row("CONCRETE-CLASS-7000", "steps", "stone, lb", "1701", partial(mass, strong, "gravel")),
    row("CONCRETE-CLASS-7000", "steps", "room stone takes, ft3", "10.29", partial(room, strong, "room stone takes")),
    row("CONCRETE-CLASS-7000", "steps", "room left for sand, ft3", "5.48",
        partial(room, strong, "room left for sand"), method_error=5e-4, note=OTHER_WATER),
    row("CONCRETE-CLASS-7000", "steps", "sand, lb", "889", partial(mass, strong, "sand"), method_error=1e-3,
        note="the example goes on with 5.48 ft3"),
    row("CONCRETE-CLASS-7000", "steps", "wet stone from the heap, lb", "1727",
        lambda: concrete_batch.moist_mass(surface_dry=1701 * LB, moisture=0.015, absorption=0.0).batch / LB),
    row("CONCRETE-CLASS-7000", "steps", "wet sand from the heap, lb", "925",
        lambda: concrete_batch.moist_mass(surface_dry=889 * LB, moisture=0.041, absorption=0.0).batch / LB),
]  # fmt: skip


def target(grade):
    return concrete_is.target_strength_by_is10262(characteristic=grade * MPA) / MPA


def is_water(slump):
    return concrete_is.mixing_water_by_is10262(slump=slump, size=0.020, shape="angular")


def is_share(ratio):
    return concrete_is.coarse_share_by_is10262(size=0.020, water_cement=ratio)


def aggregate(cement, gravity_of_cement, water, air):
    """Room left for sand and stone."""
    shares = {"water": water / 1000, "cement": cement / gravity_of_cement / 1000, "coarse": 0.0, "air": air}
    return concrete_mix.sand_volume(**shares)


def split(grade_room, share, gravity_of_grains):
    return concrete_is.share_mass(aggregate=grade_room, share=share, density=gravity_of_grains * 1000)


INDIAN = [
    row("MIX-PAGE-M40", "steps", "strength to aim for, M40, MPa", "48.25", lambda: target(40),
        formula="concrete_is.target_strength_by_is10262"),
    row("MIX-PAGE-M20", "steps", "strength to aim for, M20, MPa", "26.60", lambda: target(20),
        formula="concrete_is.target_strength_by_is10262"),
    row("STRUCTURES-PAGE-M25", "steps", "strength to aim for, M25, MPa", "31.60", lambda: target(25),
        formula="concrete_is.target_strength_by_is10262"),
    row("MIX-QUESTION-M30", "steps", "strength to aim for, M30, MPa", "38.25", lambda: target(30),
        formula="concrete_is.target_strength_by_is10262"),
    row("MIX-PAGE-M20", "steps", "water at 100 mm of slump, kg", "197.16", lambda: is_water(0.100),
        formula="concrete_is.mixing_water_by_is10262"),
    row("MIX-SHEET-M30", "steps", "water at 75 mm of slump, kg", "191.58", lambda: is_water(0.075),
        formula="concrete_is.mixing_water_by_is10262"),
    row("MIX-PAGE-M30", "steps", "water with 23 % saved, kg", "151.81",
        lambda: concrete_mix.adjusted_water(water=is_water(0.100), change=-0.23)),
    row("MIX-PAGE-M20", "steps", "cement at 0.55, kg", "358.47",
        lambda: concrete_mix.cement_mass(water=is_water(0.100), water_cement=0.55)),
    row("MIX-PAGE-M30", "steps", "cement at 0.45, kg", "337.36",
        lambda: concrete_mix.cement_mass(
            water=concrete_mix.adjusted_water(water=is_water(0.100), change=-0.23), water_cement=0.45)),
    row("MIX-SHEET-M30", "steps", "cement at 0.43, kg", "446.51",
        lambda: concrete_mix.cement_mass(water=192.0, water_cement=0.43), note="fed the rounded 192 kg"),
    row("MIX-PAGE-M20", "steps", "share of stone at 0.55", "0.61", lambda: is_share(0.55),
        formula="concrete_is.coarse_share_by_is10262"),
    row("MIX-PAGE-M30", "steps", "share of stone at 0.45", "0.63", lambda: is_share(0.45),
        formula="concrete_is.coarse_share_by_is10262"),
    row("MIX-SHEET-M30", "steps", "air at 20 mm, percent", "1", lambda: 100 * concrete_is.air_by_is10262(size=0.020),
        formula="concrete_is.air_by_is10262", look_up=True),
    row("MIX-SHEET-M30", "steps", "water over cement at 38.25 MPa", "0.43",
        lambda: concrete_is.water_cement_by_is10262(strength=38.25e6), formula="concrete_is.water_cement_by_is10262",
        look_up=True),
    row("MIX-PAGE-M40", "steps", "sand, kg", "660.2", lambda: split(aggregate(400, 3.15, 160, 0.02), 0.365, 2.61),
        formula="concrete_is.share_mass"),
    row("MIX-PAGE-M20-OLD", "steps", "stone, kg", "1223.8",
        lambda: split(aggregate(360, 3.05, 180.42, 0.02), 0.67, 2.68), formula="concrete_is.share_mass"),
    row("MIX-PAGE-M20-OLD", "steps", "sand, kg", "584", lambda: split(aggregate(360, 3.05, 180.42, 0.02), 0.33, 2.60),
        formula="concrete_is.share_mass", method_error=1e-3, note="584.8, cut off instead of rounded"),
]  # fmt: skip


def parts(size, air, part):
    return getattr(concrete_small.small_job_parts(size=size * INCH, air=air), part)


def masses(size, air, part):
    return getattr(concrete_small.small_job_masses(size=size * INCH, air=air), part) / PCF


SMALL = [
    *(row("MASONRY-AND-CONCRETE", "p. 43", f"parts of {part}, {size} in stone, {air}", digits,
          partial(parts, size, air, part), formula="concrete_small.small_job_parts", look_up=True)
      for digits, size, air, part in (
          ("1.5", 0.375, "plain", "gravel"), ("2.75", 1.0, "entrained", "gravel"), ("2.25", 0.75, "entrained", "sand"),
          ("2.5", 1.5, "plain", "sand"))),
    *(row("MASONRY-AND-CONCRETE", "p. 43", f"{part}, {size} in stone, {air}, lb/ft3", digits,
          partial(masses, size, air, part), formula="concrete_small.small_job_masses", look_up=True)
      for digits, size, air, part in (
          ("29", 0.375, "plain", "cement"), ("47", 0.75, "plain", "sand"), ("39", 1.0, "entrained", "sand"),
          ("75", 1.5, "plain", "gravel"), ("9", 1.5, "entrained", "water"))),
    row("ACI-211", "table A.7.1", "sand to weigh when damp, 47 dry, lb/ft3", "49",
        lambda: concrete_small.sand_as_it_lies(dry=47 * PCF, dampness="damp") / PCF,
        formula="concrete_small.sand_as_it_lies", look_up=True),
]  # fmt: skip

POSTS = [
    row("POST-HOLE-ARTICLE", "example", "a hole 6 in wide and 36 in deep, ft3", "0.59",
        lambda: concrete_small.collar_volume(hole=6 * INCH, depth=36 * INCH, section=0.0, buried=0.0) / FT3,
        formula="concrete_small.collar_volume"),
    row("POST-HOLE-ARTICLE", "example", "the same, in3", "1017.36",
        lambda: concrete_small.collar_volume(hole=6 * INCH, depth=36 * INCH, section=0.0, buried=0.0) / INCH**3,
        formula="concrete_small.collar_volume", method_error=6e-4, note="the article takes 3.14 for pi"),
    row("BAG-YIELDS", "table", "concrete of an 80 lb bag in the post's mix, ft3", ".60",
        lambda: 80 * LB / proposed("post", fill="bag", bag="80 lb").mix.value("dry_mix_mass") / FT3),
]  # fmt: skip

ROWS: list[Row] = [*ACI, *NAVY, *ARMY, *SHEETS, *INDIAN, *SMALL, *POSTS]


@pytest.mark.parametrize("check", ROWS, ids=str)
def test_meets_the_printed_value(check):
    assert check.printed.fits(check.ours(), method_error=check.method_error), (check.ours(), check.printed.digits)


def test_no_table_counts_more_than_ten_times():
    assert max(Counter(check.table for check in ROWS).values()) <= 10


def test_the_readings_of_the_indian_curve_fall_and_are_told_as_remembered():
    curve = grid("is-ratio")
    assert list(curve.rows[0]) == sorted(curve.rows[0], reverse=True)
    assert curve.standing == "memory"


def test_the_first_mix_without_the_printed_rounding_takes_480_pounds():
    found = proposed("concrete", strength="2500 psi", slump="3.5 in", stone_size="1.5 in")
    assert found.mix.value("cement_mass") / PCY == pytest.approx(480, abs=0.1)
