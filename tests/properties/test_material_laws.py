"""Laws that mixes, foam, sand, plaster and counts must keep, with rival ways to the same number."""

from __future__ import annotations

import itertools
import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.formulas import concrete_batch, concrete_mix, counts, foam, mixes, plaster, sand
from pinfold.sources import publications
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import kind, shelf
from pinfold.units import UNIT_BY_SYMBOL

FT, FT2, FT3, YD3, LB, INCH, PSI = (UNIT_BY_SYMBOL[s].factor for s in ("ft", "ft2", "ft3", "yd3", "lb", "in", "psi"))
PCF = UNIT_BY_SYMBOL["lb/ft3"].factor
DENSITIES = {"water_density": 1000.0, "cement_density": 3150.0, "sand_density": 2650.0}
SIZES = st.floats(0.375 * INCH, 3 * INCH)
PARTS = ("cement", "lime", "sand", "gravel", "clay_soil")

sizes = st.floats(0.01, 100.0)
shares = st.floats(0.0, 0.6)


def by_parts(name):
    """Masses of one cubic meter-part of a shipped mix, its water, and the volume by absolute volume."""
    mix = kind("mixes", name)
    uses = mix.words["uses"]
    masses, solids = {}, 0.0
    for part in (part for part in PARTS if mix.has(part)):
        material = kind("materials", uses[part])
        masses[part] = mixes.loose_mass(volume=mix.value(part), bulk_density=material.value("bulk_density"))
        solids += mixes.absolute_volume(mass=masses[part], density=material.value("particle_density"))
    water = mixes.mixing_water_mass(cement=masses["cement"], water_cement=mix.value("water_cement"))
    volume = mixes.mixed_volume(solids=solids, water=water / 1000, air=mix.value("air"))
    return masses, water, solids, volume


def loose_of(name):
    mix = kind("mixes", name)
    return sum(mix.value(part) for part in PARTS if mix.has(part))


CEMENT_MIXES = [name for name, mix in shelf("mixes").items() if mix.has("cement") and mix.has("air")]
BALANCED = [
    name
    for name in CEMENT_MIXES
    if any("by bulk sum and by absolute volume agree" in note for note in kind("mixes", name).words["notes"])
]
FOAMED = [name for name, mix in shelf("mixes").items() if mix.word("family") == "foamed"]


# the shipped tables


@pytest.mark.parametrize("name", ["mixes", "materials", "plaster", "concrete"])
def test_every_figure_names_a_known_publication(name):
    for thing in shelf(name).values():
        assert thing.word("says")
        for figure in thing.figures.values():
            assert figure.source in publications()


def test_every_part_of_a_mix_is_a_material_with_a_loose_weight():
    for mix in shelf("mixes").values():
        uses = mix.words["uses"]
        assert {part for part in PARTS if mix.has(part)} <= set(uses)
        for material in uses.values():
            assert kind("materials", material).has("bulk_density")


def test_every_mix_warns_of_what_hurts():
    for mix in shelf("mixes").values():
        cautions = " ".join(mix.words["cautions"])
        assert "dust" in cautions
        if mix.has("cement") or mix.has("lime"):
            assert "burn" in cautions


def test_the_binders_burn_and_the_sand_is_dusty():
    for name in ("portland-cement", "hydrated-lime", "lime-putty"):
        assert "burn" in " ".join(kind("materials", name).words["cautions"])
    assert "silica" in " ".join(kind("materials", "sand").words["cautions"])


@pytest.mark.parametrize("name", CEMENT_MIXES)
def test_mass_and_volume_close_for_every_shipped_mix(name):
    masses, water, solids, volume = by_parts(name)

    assert volume * (1 - kind("mixes", name).value("air")) == pytest.approx(solids + water / 1000)
    assert 1700 < (sum(masses.values()) + water) / volume < 2500


@pytest.mark.parametrize("name", BALANCED)
def test_bulk_sum_and_absolute_volume_agree_for_mortars(name):
    _, _, _, volume = by_parts(name)

    assert mixes.bulk_sum_volume(loose=loose_of(name), rule="mortar") == pytest.approx(volume, rel=0.05)


@pytest.mark.parametrize("name", ["concrete-footing", "concrete-post"])
def test_two_thirds_of_the_loose_parts_agrees_with_absolute_volume_for_concrete(name):
    _, _, _, volume = by_parts(name)

    assert mixes.bulk_sum_volume(loose=loose_of(name), rule="two-thirds") == pytest.approx(volume, rel=0.02)


@pytest.mark.parametrize(
    ("name", "coat"),
    [
        ("plaster-scratch", "first-dense"),
        ("plaster-scratch-lime", "first"),
        ("plaster-brown-lime", "second"),
        ("plaster-finish", "finish"),
        ("plaster-finish-lime", "finish"),
    ],
)
def test_shipped_plasters_lie_inside_the_table_of_proportions(name, coat):
    mix = kind("mixes", name)
    asked = plaster.proportions(coat=coat, binder="portland")
    found = plaster.sand_per_binder(sand=mix.value("sand"), cement=mix.value("cement"), lime=mix.value("lime"))

    assert asked.sand_low <= found <= asked.sand_high
    assert asked.lime_low <= mix.value("lime") / mix.value("cement") <= asked.lime_high


def test_masonry_cement_has_no_row_for_dense_bases():
    with pytest.raises(NotFoundError):
        plaster.proportions(coat="first-dense", binder="masonry-cement")


def test_stabilized_earth_holds_five_to_eight_percent_cement_by_mass():
    mix = kind("mixes", "stabilized-earth")
    cement = mix.value("cement") * kind("materials", "portland-cement").value("bulk_density")
    soil = mix.value("clay_soil") * kind("materials", "clay-soil").value("bulk_density")

    assert 0.05 <= cement / soil <= 0.08


# old tables of quantities, as rivals of the bulk-sum rules


@pytest.mark.parametrize(
    ("rule", "barrels", "yards_of_sand", "yards_of_stone"),
    [
        ("concrete", 0.058, 0.0163, 0.0326),
        ("concrete", 0.048, 0.0170, 0.0341),
        ("mortar", 0.1481, 0.0311, 0.0),
        ("mortar", 0.1239, 0.0344, 0.0),
        ("mortar", 0.1052, 0.0370, 0.0),
    ],
)
def test_an_old_table_of_quantities_and_the_bulk_sum_rules_agree_within_two_percent(
    rule, barrels, yards_of_sand, yards_of_stone
):
    loose = 4 * barrels + 27 * (yards_of_sand + yards_of_stone)

    assert mixes.bulk_sum_volume(loose=loose, rule=rule) == pytest.approx(1.0, rel=0.02)


def test_a_bag_of_type_s_makes_4_26_cubic_feet():
    loose = (1 + 0.5 + 4.5) * FT3

    assert mixes.bulk_sum_volume(loose=loose, rule="mortar") / FT3 == pytest.approx(4.263, abs=5e-4)


@given(mixed=sizes, parts=st.floats(1.0, 20.0), rule=st.sampled_from(["mortar", "concrete", "two-thirds"]))
def test_parts_measured_for_a_volume_make_that_volume(mixed, parts, rule):
    one = mixes.part_volume(mixed=mixed, parts=parts, rule=rule)

    assert mixes.bulk_sum_volume(loose=one * parts, rule=rule) == pytest.approx(mixed)


@given(mass=sizes, density=st.floats(100.0, 4000.0))
def test_loose_mass_and_loose_volume_undo_each_other(mass, density):
    volume = mixes.loose_volume(mass=mass, bulk_density=density)

    assert mixes.loose_mass(volume=volume, bulk_density=density) == pytest.approx(mass)


@given(net=sizes, waste=shares, step=st.floats(0.1, 2.0))
def test_an_order_is_never_short_and_never_a_whole_step_too_much(net, waste, step):
    order = mixes.order_volume(net=net, waste=waste, step=step)
    wanted = mixes.with_waste(net=net, waste=waste)

    assert order >= wanted * (1 - 1e-8) - 1e-8
    assert order < wanted + step


def test_pint_agrees_on_bags_in_a_yard():
    units = pint.UnitRegistry()
    rival = (units("yard**3") / (0.15 * units("foot**3") / (20 * units.pound) * (80 * units.pound))).to("").magnitude

    assert counts.bags_of_mix(volume=YD3, bag=80 * LB) == pytest.approx(rival)
    assert (1 * units("yard**3")).to("meter**3").magnitude == pytest.approx(YD3)
    assert (94 * units.pound / units("foot**3")).to("kg/meter**3").magnitude == pytest.approx(94 * PCF)


# concrete


@given(slump=st.floats(1.0, 6.4), more=st.floats(0.0, 0.6), size=SIZES, air=st.sampled_from(["plain", "entrained"]))
def test_wetter_concrete_takes_no_less_water(slump, more, size, air):
    less = concrete_mix.mixing_water(slump=slump * INCH, size=size, air=air)

    assert concrete_mix.mixing_water(slump=(slump + more) * INCH, size=size, air=air) >= less - 1e-9


@given(slump=st.floats(1.0, 7.0), size=SIZES)
def test_entrained_air_saves_water(slump, size):
    waters = [concrete_mix.mixing_water(slump=slump * INCH, size=size, air=air) for air in ("entrained", "plain")]

    assert waters[0] <= waters[1]


@given(strength=st.floats(2000.0, 6000.0))
def test_stronger_concrete_takes_less_water_per_cement_and_air_costs_strength(strength):
    plain = concrete_mix.water_cement_ratio(strength=strength * PSI, air="plain")

    assert concrete_mix.water_cement_ratio(strength=strength * PSI, air="entrained") < plain
    assert concrete_mix.water_cement_ratio(strength=(strength + 900) * PSI, air="plain") < plain


@pytest.mark.parametrize(
    "ask",
    [
        lambda: concrete_mix.mixing_water(slump=0.3, size=0.02, air="plain"),
        lambda: concrete_mix.mixing_water(slump=0.1, size=0.2, air="plain"),
        lambda: concrete_mix.water_cement_ratio(strength=60e6, air="plain"),
        lambda: concrete_mix.coarse_bulk_volume(size=0.02, fineness=3.6),
        lambda: concrete_mix.target_strength(specified=60e6),
        lambda: concrete_mix.sand_volume(water=0.5, cement=0.3, coarse=0.2, air=0.02),
    ],
)
def test_asked_outside_its_table_it_refuses(ask):
    with pytest.raises(OutOfRangeError):
        ask()


def test_a_stone_sold_in_millimeters_counts_as_its_inch_size():
    assert concrete_mix.air_content(size=0.0095, exposure="entrapped") == 0.03


def test_a_table_of_one_row_needs_no_second_place():
    assert grid("air-f1").down == ()


@given(size=SIZES, fineness=st.floats(2.4, 3.0), water=st.floats(150.0, 230.0), ratio=st.floats(0.4, 0.8))
def test_a_concrete_by_absolute_volume_fills_exactly_its_cubic_meter(size, fineness, water, ratio):
    air = concrete_mix.air_content(size=size, exposure="entrapped")
    cement = concrete_mix.cement_mass(water=water, water_cement=ratio)
    bulk = concrete_mix.coarse_bulk_volume(size=size, fineness=fineness)
    stone = concrete_mix.coarse_mass(bulk_volume=bulk, dry_rodded=1500.0, absorption=0.005)
    room = concrete_mix.sand_volume(water=water / 1000, cement=cement / 3150, coarse=stone / 2680, air=air)
    grains = concrete_mix.sand_mass(volume=room, density=2640.0)

    solids = cement / 3150 + stone / 2680 + grains / 2640
    assert mixes.mixed_volume(solids=solids, water=water / 1000, air=air) == pytest.approx(1.0)
    total = cement + stone + grains + water
    airless = concrete_batch.air_free_density(density=total, air=air)
    assert concrete_batch.yield_volume(batch=total, density=total) == pytest.approx(1.0)
    assert concrete_batch.air_by_density(air_free=airless, measured=total) == pytest.approx(air)


@given(
    paste=st.floats(0.2, 0.4), ratio=st.floats(0.3, 0.7), replaced=st.floats(0.0, 0.9), other=st.floats(2000.0, 3000.0)
)
def test_cement_for_paste_gives_back_the_paste(paste, ratio, replaced, other):
    cement = concrete_batch.cement_for_paste(
        paste=paste, water_cement=ratio, replaced=replaced, water_density=1000.0, cement_density=3150.0,
        other_density=other,
    )  # fmt: skip

    binder = cement / (1 - replaced)
    solids = cement / 3150 + binder * replaced / other
    assert concrete_batch.paste_volume(cement=solids, water=ratio * binder / 1000) == pytest.approx(paste)


@given(dry=sizes, moisture=st.floats(0.0, 0.2), absorption=st.floats(0.0, 0.05))
def test_free_water_is_the_same_from_either_end(dry, moisture, absorption):
    found = concrete_batch.moist_mass(surface_dry=dry, moisture=moisture, absorption=absorption)

    assert concrete_batch.free_water(moist=found.batch, moisture=moisture, absorption=absorption) == pytest.approx(
        found.free_water
    )
    assert (found.free_water >= 0) == (moisture >= absorption) or abs(found.free_water) < 1e-9


@pytest.mark.parametrize(
    ("size", "mix", "air"), tuple(itertools.product((0.5, 0.75, 1.0, 1.5, 2.0), "ABC", ("plain", "entrained")))
)
def test_small_jobs_fill_their_volume(size, mix, air):
    job = concrete_mix.small_job(size=size * INCH, air=air, mix=mix)

    solids = job.cement / 3150 + (job.sand + job.gravel) / 2650
    share = concrete_mix.air_content(size=size * INCH, exposure="entrapped" if air == "plain" else "f1")
    volume = mixes.mixed_volume(solids=solids, water=0.5 * job.cement / 1000, air=share)
    assert volume == pytest.approx(1.0, rel=0.06)


def test_the_margin_without_records_is_1000_psi_below_3000_and_1200_from_there():
    margins = [concrete_mix.target_strength(specified=f * PSI) / PSI - f for f in (2500, 2999, 3000, 3500)]

    assert margins == pytest.approx([1000, 1000, 1200, 1200])


@given(deviation=st.floats(0.0, 8e6), specified=st.floats(10e6, 34e6))
def test_scattered_records_never_lower_the_aim(deviation, specified):
    aim = concrete_mix.target_strength_by_records(specified=specified, deviation=deviation)

    assert aim >= specified
    assert concrete_mix.target_strength_by_records(specified=specified, deviation=deviation + 1e5) > aim
    changes = 500 * PSI / (2.33 - 1.34)
    rule = 1.34 * deviation if deviation < changes else 2.33 * deviation - 500 * PSI
    assert aim == pytest.approx(specified + rule)


def test_the_largest_stone_is_set_by_the_narrowest_place():
    ask = {"form_width": 0.2, "slab_depth": math.inf, "bar_gap": math.inf}

    assert concrete_mix.largest_stone(**ask) == pytest.approx(0.04)
    assert concrete_mix.largest_stone(**{**ask, "slab_depth": 0.075}) == pytest.approx(0.025)
    assert concrete_mix.largest_stone(**{**ask, "bar_gap": 0.02}) == pytest.approx(0.015)


# foam


@given(
    cast=st.floats(300.0, 1600.0), agent=st.floats(20.0, 100.0), ratio=st.floats(0.35, 0.7), grains=st.floats(0.0, 2.5)
)
def test_mass_and_volume_close_for_every_foamed_mix(cast, agent, ratio, grains):
    mix = foam.foamed_mix(cast=cast, foam=agent, water_cement=ratio, sand_cement=grains, **DENSITIES)

    assert mix.foam + mix.cement / 3150 + mix.water / 1000 + mix.sand / 2650 == pytest.approx(1.0)
    assert mix.cement + mix.water + mix.sand + mix.foam_mass == pytest.approx(cast)
    rival = foam.foamed_density(
        slurry=1 - mix.foam,
        slurry_density=foam.slurry_density(water_cement=ratio, sand_cement=grains, **DENSITIES),
        foam=mix.foam,
        foam_density=agent,
    )
    assert rival == pytest.approx(cast)


@pytest.mark.parametrize("name", FOAMED)
def test_mass_and_volume_close_for_every_shipped_foamed_mix(name):
    figures = kind("mixes", name)
    mix = foam.foamed_mix(
        cast=figures.value("cast_density"),
        foam=figures.value("foam_density"),
        water_cement=figures.value("water_cement"),
        sand_cement=figures.value("sand_cement"),
        **DENSITIES,
    )

    assert mix.foam + mix.cement / 3150 + mix.water / 1000 + mix.sand / 2650 == pytest.approx(1.0)
    dry = foam.dry_density(cement=mix.cement, sand=mix.sand, bound_water=0.2)
    assert 100 <= figures.value("cast_density") - dry <= 300


@given(
    cast=st.floats(300.0, 1600.0), agent=st.floats(20.0, 100.0), ratio=st.floats(0.35, 0.7), grains=st.floats(0.0, 2.5)
)
def test_the_density_to_cast_for_a_dry_one_dries_to_it(cast, agent, ratio, grains):
    ask = {"foam": agent, "water_cement": ratio, "sand_cement": grains, **DENSITIES}
    mix = foam.foamed_mix(cast=cast, **ask)
    dry = foam.dry_density(cement=mix.cement, sand=mix.sand, bound_water=0.2)

    assert foam.cast_for_dry(dry=dry, bound_water=0.2, **ask) == pytest.approx(cast)


@given(first=st.floats(0.0, 2.0), more=st.floats(0.0, 2.0), agent=st.floats(20.0, 100.0))
def test_more_foam_is_never_heavier(first, more, agent):
    ask = {"slurry": 1.0, "slurry_density": 1800.0, "foam_density": agent}

    assert foam.foamed_density(foam=first + more, **ask) <= foam.foamed_density(foam=first, **ask) + 1e-9


@given(slurry=sizes, weight=st.floats(1500.0, 2200.0), cast=st.floats(300.0, 1500.0), agent=st.floats(20.0, 100.0))
def test_foam_for_a_slurry_gives_the_density_asked_for(slurry, weight, cast, agent):
    volume = foam.foam_for_slurry(slurry=slurry, slurry_density=weight, cast=cast, foam_density=agent)

    got = foam.foamed_density(slurry=slurry, slurry_density=weight, foam=volume, foam_density=agent)
    assert got == pytest.approx(cast)
    share = foam.foam_share(slurry=weight, cast=cast, foam=agent)
    assert volume / (volume + slurry) == pytest.approx(share)


@given(needed=sizes, loss=shares, flow=st.floats(1e-4, 1e-2))
def test_lost_foam_is_made_up_and_takes_its_time(needed, loss, flow):
    made = foam.foam_to_make(needed=needed, loss=loss)

    assert made * (1 - loss) == pytest.approx(needed)
    assert foam.foam_time(foam=made, flow=flow) * flow == pytest.approx(made)


def test_foam_cannot_make_a_slurry_heavier_or_lighter_than_foam():
    for cast in (2000.0, 30.0):
        with pytest.raises(OutOfRangeError):
            foam.foam_share(slurry=1800.0, cast=cast, foam=40.0)


# sand


@given(volume=sizes, b=st.floats(0.0, 0.5))
def test_true_and_measured_volume_undo_each_other(volume, b):
    assert sand.true_volume(measured=sand.measured_volume(wanted=volume, bulking=b), bulking=b) == pytest.approx(volume)
    assert sand.shortfall(bulking=b) == pytest.approx(1 - sand.true_volume(measured=1.0, bulking=b))
    assert sand.dry_mass(measured=volume, bulking=b, dry_bulk_density=1600.0) == pytest.approx(
        1600.0 * volume / (1 + b)
    )


@given(flooded=st.floats(0.05, 0.3), swell=st.floats(0.0, 0.5))
def test_the_jar_test_gives_back_the_swelling(flooded, swell):
    assert sand.bulking(moist_height=flooded * (1 + swell), flooded_height=flooded) == pytest.approx(swell)


def test_a_jar_that_reads_backwards_is_refused():
    with pytest.raises(OutOfRangeError, match="repeat the test"):
        sand.bulking(moist_height=0.10, flooded_height=0.12)


# plaster


@given(area=sizes, thickness=st.floats(0.003, 0.05), waste=shares)
def test_coverage_times_thickness_is_the_volume(area, thickness, waste):
    volume = plaster.coat_volume(area=area, thickness=thickness, waste=waste)

    assert plaster.coverage(volume=volume, thickness=thickness) == pytest.approx(area * (1 + waste))


def test_three_coats_add_up_to_the_thickness_on_lath():
    coats = sum(plaster.coat_thickness(coat=coat) for coat in ("scratch", "brown", "finish"))

    assert coats == pytest.approx(plaster.nominal_thickness(base="lath"))


def test_two_coats_add_up_to_the_thickness_on_block():
    coats = sum(plaster.coat_thickness(coat=coat) for coat in ("brown", "finish"))

    assert coats == pytest.approx(plaster.nominal_thickness(base="unit-masonry"))


# counts


@given(area=sizes, times=st.floats(1.0, 9.0))
def test_counts_scale_with_the_area(area, times):
    for rule in (
        counts.blocks_by_area,
        lambda *, area: counts.bricks_by_area(area=area, rule="net"),
        lambda *, area: counts.mortar_by_area(area=area, wall="block-site"),
        lambda *, area: counts.units_by_face(area=area, length=0.4, height=0.2),
        lambda *, area: counts.stone_by_face(face=area, waste=0.1),
        lambda *, area: counts.dry_stone_mass(face=area),
    ):
        assert rule(area=area * times) == pytest.approx(times * rule(area=area))


@given(length=sizes, height=st.floats(0.2, 4.0))
def test_three_rules_for_block_agree(length, height):
    by_face = counts.units_by_face(area=length * height, length=16 * INCH, height=8 * INCH)

    assert counts.blocks_by_area(area=length * height) == pytest.approx(by_face)
    assert counts.chasing_the_bond(length=length, height=height) == pytest.approx(by_face)


def test_brick_rules_agree_within_the_waste_of_the_second():
    net, full = (counts.bricks_by_area(area=10.0, rule=rule) for rule in ("net", "with-waste"))

    assert 1.0 < full / net < 1.05


@pytest.mark.parametrize("rule", ["table", "answers", "column"])
def test_bag_rules_and_the_site_figure_for_block_mortar_agree_within_a_fifth(rule):
    bags = counts.mortar_bags(count=100.0, unit="block", rule=rule)
    mixed = mixes.bulk_sum_volume(loose=bags.bags * FT3 + bags.sand / (80 * PCF), rule="mortar")
    site = counts.mortar_by_area(area=100 * FT2 / 1.125, wall="block-site")

    assert mixed == pytest.approx(site, rel=0.2)


def test_published_mortar_for_block_differs_about_fourfold():
    low, high = (counts.mortar_by_area(area=1.0, wall=wall) for wall in ("block-face-shell", "block-site"))

    assert 3.5 < high / low < 4.5


def test_grout_fills_nearly_half_of_a_block():
    assert counts.grout_all_cells(blocks=1.0, waste=0.0) / (8 * 8 * 16 * INCH**3) == pytest.approx(0.47, abs=0.03)


def test_closer_bed_joints_take_half_as_much_steel_again():
    lengths = [counts.bed_reinforcement(blocks=90.0, every=every) for every in ("16 in", "24 in")]

    assert lengths[0] / lengths[1] == pytest.approx(1.5)
    assert lengths[0] == pytest.approx(90 / 2 * 16 * INCH, rel=0.01)


@given(mass=sizes, bag=st.floats(5.0, 50.0))
def test_whole_bags_hold_the_mass_and_the_last_is_needed(mass, bag):
    number = counts.whole_bags(mass=mass, bag=bag)

    assert number * bag >= mass * (1 - 1e-6)
    assert (number - 1) * bag < mass


@given(volume=sizes, bag=st.floats(5.0, 50.0))
def test_bags_of_mix_hold_the_volume_and_the_last_is_needed(volume, bag):
    number, each = counts.bags_of_mix(volume=volume, bag=bag), counts.bag_yield(bag=bag)

    assert (number - 1) * each < volume <= number * each * (1 + 1e-6)


def test_a_bag_of_concrete_is_as_dense_as_concrete():
    dry = 80 * LB / counts.bag_yield(bag=80 * LB)

    assert 2000 < dry * 1.1 < 2400


def test_dry_stone_by_volume_and_by_the_ton_agree():
    """A wall of 29 in at the foot, 13 in at the top and 5 ft 9 in high, a quarter of it gaps."""
    height = 5.75 * FT
    volume = counts.dry_stone_volume(length=1.0, height=height, base=29 * INCH, top=13 * INCH)

    assert volume * 0.75 * 2500 == pytest.approx(counts.dry_stone_mass(face=height), rel=0.05)


@given(volume=sizes)
def test_a_third_of_rubble_is_mortar_and_pails_measure_it(volume):
    mortar = counts.rubble_mortar(wall=volume)

    assert 3 * mortar == pytest.approx(volume)
    assert counts.pails(volume=mortar, pail=0.02) * 0.02 == pytest.approx(mortar)


@given(water=st.floats(100.0, 300.0), one=st.floats(-0.2, 0.2), other=st.floats(-0.2, 0.2))
def test_changes_of_water_are_added_up_not_multiplied(water, one, other):
    both = concrete_mix.adjusted_water(water=water, change=one + other)
    each = [concrete_mix.adjusted_water(water=water, change=change) - water for change in (one, other)]

    assert both == pytest.approx(water + sum(each))
    assert concrete_mix.adjusted_water(water=water, change=0.0) == water


def test_more_than_half_the_water_more_or_less_is_no_adjustment():
    for change in (-0.51, 0.51):
        with pytest.raises(OutOfRangeError):
            concrete_mix.adjusted_water(water=180.0, change=change)


@given(long=st.integers(1, 40), wide=st.integers(1, 40))
def test_a_course_round_a_rectangle_is_what_laying_it_out_counts(long, wide):
    """Outside sizes in whole blocks; the corner blocks of one wall reach through, the other wall starts beside them."""
    laid = 2 * (long + 1) + 2 * wide  # walls of long + 1 blocks outside, and between them walls of `wide` blocks
    outside = 2 * (long + 1 + wide + 1) * 16 * INCH  # a short wall with half a block of the long ones at each end

    assert counts.blocks_per_course(length=outside, corners=4.0) == pytest.approx(laid)


@given(length=sizes, corners=st.integers(0, 12))
def test_every_corner_saves_half_a_block_of_a_course(length, corners):
    straight, cornered = (counts.blocks_per_course(length=length, corners=float(number)) for number in (0, corners))

    assert straight - cornered == pytest.approx(corners / 2)
    assert straight * 16 * INCH == pytest.approx(length)


@given(number=st.integers(0, 30), length=sizes)
def test_so_many_courses_of_eight_inches_stand_in_their_height(number, length):
    height = number * 8 * INCH

    assert counts.courses(height=height) == pytest.approx(number)
    assert counts.chasing_the_bond(length=length, height=height) == pytest.approx(
        counts.blocks_per_course(length=length, corners=0.0) * counts.courses(height=height)
    )
