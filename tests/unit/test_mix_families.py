"""Families of mixes in parts: what is chosen, told, refused, and what the card says."""

from __future__ import annotations

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.place import Mixing
from pinfold.sources import Standing, publications
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.proportioning.families import FAMILIES, family_named
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.tables.shelf import kind, shelf

SITE = Mixing(batch=0.06, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)
MINE = ("mortar", "grout", "plaster", "bond", "lime", "earth", "stabilized-earth", "adobe", "limewash", "cement-wash")


def proposed(name, **typed):
    family = family_named(name)
    wish = read_wish(family, typed, mixing=SITE, material=lambda material: kind("materials", material))
    return family.propose(wish)


def charged(name, **typed):
    return charge_of(proposed(name, **typed).mix, SITE)


def told(name, **typed):
    return {departure.what: departure for departure in proposed(name, **typed).departures}


def refused(name, **typed):
    with pytest.raises(InvalidPlan) as caught:
        proposed(name, **typed)
    return {problem.place: problem.message for problem in caught.value.problems}


def test_every_range_names_a_publication_and_memory_is_never_passed_off_as_read():
    for row in shelf("proportions").values():
        for name, figure in row.figures.items():
            assert figure.source in publications(), (row.name, name)
            assert figure.source != "PRACTICE" or figure.standing in (Standing.PRACTICE, Standing.MEMORY)
            assert figure.standing is not Standing.READ or figure.where, (row.name, name)


@pytest.mark.parametrize("name", MINE)
def test_every_family_gives_a_card_with_cautions_an_order_and_its_figures_standing(name):
    charge = charged(name)

    assert len(charge.cautions) >= 1
    assert len(charge.order) >= 3
    assert charge.makes > 0
    assert charge.figures
    assert charge.standing in tuple(Standing)


def test_a_mortar_as_shipped_keeps_the_name_the_plan_and_the_log_use():
    assert proposed("mortar", type="N").mix.name == "mortar-N"
    assert proposed("mortar", type="N", sand="6").mix.name == "mortar-N"
    assert proposed("mortar", type="N", sand="5-1/2").mix.name == "mortar-N-asked"
    assert charged("mortar", type="N").water == pytest.approx(charge_of(kind("mixes", "mortar-N"), SITE).water)


def test_masonry_cement_goes_by_its_own_bag_without_lime_and_lime_beside_it_is_told():
    charge = charged("mortar", binder="masonry-cement", batch="60 L")

    assert [part.part for part in charge.ingredients] == ["cement", "sand"]
    assert charge.part("cement").bags == pytest.approx(charge.part("cement").mass / 25.0)
    assert "lime in masonry cement" in told("mortar", binder="masonry-cement", lime="1/4")


def test_sand_outside_the_range_is_told_with_what_comes_of_it_and_still_mixed():
    lean = told("mortar", type="S", sand="7")["sand"]

    assert lean.wanted.startswith("2-1/4 to 3")
    assert lean.found.startswith("4.67")
    assert "rain" in lean.says
    assert charged("mortar", type="S", sand="7").makes > 0


@pytest.mark.parametrize("name", ["mortar", "plaster", "grout", "bond", "lime", "earth"])
def test_water_that_drowns_the_mix_is_refused_with_the_most_there_is_room_for(name):
    problem = refused(name, water="12")["water"]

    assert "drowns" in problem
    assert "less than" in problem


def test_no_sand_and_too_much_water_are_told_together():
    assert set(refused("mortar", sand="0", water="9")) == {"sand", "water"}


def test_negative_parts_are_refused():
    assert "from 0" in refused_reading("mortar", sand="-1")["sand"]
    assert "from 0" in refused_reading("earth", straw="-1/2")["straw"]


def refused_reading(name, **typed):
    with pytest.raises(InvalidPlan) as caught:
        read_wish(family_named(name), typed, mixing=SITE, material=lambda material: kind("materials", material))
    return {problem.place: problem.message for problem in caught.value.problems}


def test_grout_is_coarse_only_where_the_cell_lets_stones_through_at_that_pour():
    assert proposed("grout").mix.name == "grout-fine"
    assert proposed("grout", cell="2-1/2 in").mix.name == "grout-coarse"
    assert proposed("grout", cell="2-1/2 in", pour="8 ft").mix.name == "grout-fine"
    assert "coarse grout in a narrow cell" in told("grout", cell="2 in", grain="coarse")


def test_grout_tells_stiff_slump_stones_in_fine_and_lime_past_a_tenth():
    assert set(told("grout", slump="6 in", gravel="1", lime="0.2")) == {"slump", "gravel in fine grout", "lime"}
    assert told("grout", lime="1/10") == {}


def test_grout_with_more_sand_stays_as_runny_as_the_shipped_one():
    usual, sandy = charged("grout"), charged("grout", sand="3.2", lime="0.1")

    assert sandy.water / sandy.makes == pytest.approx(usual.water / usual.makes, rel=0.01)


def test_plaster_on_a_dense_wall_has_little_lime_and_on_a_thirsty_one_a_whole_part():
    assert proposed("plaster", base="cast-concrete").mix.value("lime") == 0.25
    assert proposed("plaster", base="unit-masonry").mix.value("lime") == 1.0


def test_a_coat_richer_than_the_one_under_is_told():
    assert "richer than the coat under it" in told("plaster", coat="brown", lime="3/4", sand="5.3", under_sand="6")
    assert "richer than the coat under it" not in told("plaster", coat="brown", under_sand="6", under_lime="1")


@pytest.mark.parametrize(
    ("base", "coat", "inches"),
    [("lath", "scratch", 0.375), ("solid-base", "brown", 0.25), ("unit-masonry", "finish", 0.125),
     ("cast-concrete", "scratch", 0.25)],
)  # fmt: skip
def test_the_coat_is_as_thick_as_the_base_asks(base, coat, inches):
    assert proposed("plaster", base=base, coat=coat).thickness == pytest.approx(inches * 0.0254)


def test_a_bond_coat_leaner_than_two_is_told():
    assert "sand" in told("bond", sand="3")
    assert told("bond", sand="1-1/2") == {}


def test_straw_is_carried_by_volume_and_adds_nothing_to_what_the_mix_makes():
    with_straw, without = charged("earth", straw="1"), charged("earth", straw="0")

    assert with_straw.part("straw").loose == pytest.approx(with_straw.part("clay_soil").loose)
    assert with_straw.makes == pytest.approx(without.makes)


def test_a_bar_that_shrank_too_much_gets_the_sand_to_try_next():
    assert "Try 4.33" in told("earth", gap="24 mm")["shrinkage of the test bar"].says
    assert told("earth", gap="6 mm") == {}


def test_the_shrinkage_box_sets_the_cement_and_what_is_told_goes_before_it():
    assert proposed("stabilized-earth", gap="20 mm").mix.value("clay_soil") == 16.0
    assert proposed("stabilized-earth", gap="20 mm", cement="6 %").mix.value("clay_soil") == pytest.approx(
        20.9, abs=0.1
    )
    assert "gap" in refused("stabilized-earth", gap="80 mm")
    assert "shrinkage of the soil" in told("stabilized-earth", gap="6 mm")


def test_a_shorter_box_is_read_by_its_own_length():
    assert proposed("stabilized-earth", gap="10 mm", box="300 mm").mix.value("clay_soil") == 16.0


def test_earth_wetter_than_its_density_has_room_for_is_refused():
    assert "fills every gap" in refused("stabilized-earth", water="16 %", density="1950 kg/m3")["water"]
    assert set(refused("stabilized-earth", density="2600 kg/m3", water="5 %")) == {"water"}


def test_cement_past_the_usual_share_is_told():
    assert "cement" in told("stabilized-earth", cement="12 %")


def test_soil_with_too_much_clay_is_thinned_to_a_fifth():
    found = proposed("adobe", clay="40 %")
    soil, sand = (
        found.mix.value(part) * kind("materials", name).value("bulk_density")
        for part, name in (("clay_soil", "clay-soil"), ("sand", "sand"))
    )

    assert 0.4 * soil / (soil + sand) == pytest.approx(0.2)
    assert "clay in the soil" in told("adobe", clay="40 %")
    assert told("adobe", clay="25 %") == {}
    assert not proposed("adobe", clay="25 %").mix.has("sand")


def test_adobe_bare_to_the_rain_takes_emulsion_and_a_soaked_test_brick():
    bare = proposed("adobe", weather="bare")

    assert bare.mix.has("emulsion")
    assert any("sponge" in note for note in bare.notes)
    assert not proposed("adobe").mix.has("emulsion")


def test_quicklime_brings_the_caution_of_slaking_and_its_own_order():
    wash = charged("limewash", lime="quicklime")

    assert any("Quicklime boils" in caution for caution in wash.cautions)
    assert "stand back" in wash.order[0]


def test_washes_cover_by_their_coats():
    assert proposed("limewash", coats="4").thickness == pytest.approx(2 * proposed("limewash", coats="2").thickness)
    assert "water" in told("limewash", water="6")


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.name)
def test_no_family_asks_a_thing_without_saying_what_it_is(family):
    assert all(ask.says and len(ask.says) > 6 for ask in family.asks)
    assert all(ask.choices or ask.example for ask in family.asks)


def test_bounds_are_told_in_both_units():
    assert refused_reading("plaster", area="0.001 m2")["area"] == (
        "'0.001 m2' found; from 0.108 ft² (0.01 m²) to 1\xa0076\xa0391 ft² (100\xa0000 m²) is wanted"
    )
    assert '1" (' not in refused_reading("limewash", thickness="9 in")["thickness"]
    assert "0.000787 in (0.02 mm)" in refused_reading("limewash", thickness="9 in")["thickness"]


def test_a_gap_as_long_as_its_box_is_told_by_its_field():
    for name in ("earth", "stabilized-earth"):
        assert "less than the box itself, 1' 11 5/8\" (600 mm)" in refused(name, gap="700 mm")["gap"]


@pytest.mark.parametrize(("name", "key"), [("post", "holes"), ("limewash", "coats"), ("cement-wash", "coats")])
def test_half_a_hole_or_coat_is_refused_and_not_cut_off(name, key):
    assert refused_reading(name, **{key: "2.5"})[key] == "'2.5' found; a whole number is wanted"


def test_the_foam_told_is_that_of_the_batch_on_the_card():
    small = proposed("foamed", volume="10 L")

    assert any(
        line.startswith("Foam for one batch: 1.6 gal (6.07 L), made of 0.205 fl oz (6.07 mL) ") for line in small.notes
    )


def test_ready_bags_bring_cautions_of_silica_and_hot_water():
    cautions = " ".join(charged("post", fill="bag").cautions)

    assert "silica" in cautions
    assert "Hot water" in cautions


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.name)
def test_no_card_says_a_note_or_a_caution_twice(family):
    needed = {ask.key: ask.example.partition(" or ")[0] for ask in family.asks if ask.needed}
    found = proposed(family.name, **needed)
    charge = charge_of(found.mix, SITE)
    lines = [line.rstrip(".").partition(" (")[0] for line in (*charge.notes, *charge.cautions, *found.notes)]

    assert len(lines) == len(set(lines))
    assert sum("Foaming agent" in line for line in lines) == (family.name == "foamed")


@pytest.mark.parametrize("water", ["0.6", "1", "1.2", "1.6"])
def test_water_that_was_told_takes_its_room(water):
    charge = charged("mortar", water=water)
    grains = sum(part.mass / part.kind.value("particle_density") for part in charge.ingredients)

    assert (grains + charge.water) / charge.makes == pytest.approx(0.94), "6 % of it is air"


def test_water_far_off_the_usual_is_said_to_spoil_the_mix():
    said = {water: " ".join(charged("mortar", water=water).notes) for water in ("0.4", "0.8", "0.9", "1.2")}

    assert "too dry to spread" in said["0.4"]
    assert "You told" not in said["0.8"] + said["0.9"]
    assert "150% of the water" in said["1.2"]


def test_parts_are_told_in_eighths_as_they_are_said_and_a_bar_at_the_limit_is_good():
    made = proposed("earth", sand="3", straw="1/2", gap="18 mm")

    assert "1 clay soil : 3 sand : 1/2 straw" in made.mix.says
    assert not made.departures
    assert any("shrank 3.0%: good" in note for note in made.notes)
    assert "0.3 lime : 4-1/8 sand" in proposed("mortar", lime="0.3", sand="4.125").mix.says
