"""Charges and batch cards, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.plan.place import Mixing
from pinfold.reports.amounts import buckets, buckets_measured, by_jug, count, measured
from pinfold.sources import Standing
from pinfold.studies.batching.cards import batch_cards, batches_for
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.records import Measure
from pinfold.studies.batching.sizing import bags_that_fit
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind, shelf
from pinfold.units import CUBIC_METER, KILOGRAM, UNIT_BY_SYMBOL, System, read

LB, FT3, GAL, L = (UNIT_BY_SYMBOL[symbol].factor for symbol in ("lb", "ft3", "gal", "L"))
DRUM = Mixing(batch=5 * FT3, bucket=5 * GAL, bag=94 * LB, lime_bag=50 * LB, sand_bulking=None)
TUB = replace(DRUM, batch=2 * FT3)


def wanted(mix, net, *, layer="mortar", place="south/1", waste=0.0):
    return Quantity(
        kind=kind("mixes", mix), layer=layer, place=place, unit=CUBIC_METER, net=net, waste=waste, waste_figure=None,
        note="",
    )  # fmt: skip


def test_one_sack_of_type_s_takes_half_a_foot_of_lime_and_four_and_a_half_of_sand():
    charge = charge_of(kind("mixes", "mortar-S"), DRUM)

    cement, lime, sand = charge.ingredients
    assert charge.measure is Measure.WHOLE_BAGS
    assert (cement.bags, cement.mass / LB) == pytest.approx((1.0, 94.0))
    assert (lime.loose / FT3, lime.mass / LB, lime.bags) == pytest.approx((0.5, 20.0, 0.4))
    assert (sand.loose / FT3, sand.mass / LB) == pytest.approx((4.5, 360.0))
    assert charge.makes / FT3 == pytest.approx(6 * 27 / 38)
    assert charge.water == pytest.approx(0.8 * 94 * LB / 1000)
    assert sand.buckets == pytest.approx(4.5 * FT3 / (5 * GAL))
    assert buckets_measured(sand.buckets) == 6.75
    assert sand.bags is None


def test_damp_sand_brings_part_of_the_water():
    charge = charge_of(kind("mixes", "mortar-S"), DRUM)

    assert charge.water_in_sand == pytest.approx(360 * LB * (0.05 - 0.007) / 1000)
    assert charge.water_to_add == pytest.approx(charge.water - charge.water_in_sand)


def test_sand_that_swells_as_the_mix_counts_on_is_measured_by_its_parts():
    usual = charge_of(kind("mixes", "mortar-S"), replace(DRUM, sand_bulking=0.25))
    dry = charge_of(kind("mixes", "mortar-S"), replace(DRUM, sand_bulking=0.0))

    assert usual.part("sand").loose / FT3 == pytest.approx(4.5)
    assert usual.water_in_sand == pytest.approx(charge_of(kind("mixes", "mortar-S"), DRUM).water_in_sand)
    assert dry.part("sand").loose / FT3 == pytest.approx(4.5 / 1.25)
    assert dry.part("sand").mass / LB == pytest.approx(360.0)
    assert dry.water_in_sand < 0 < dry.water < dry.water_to_add


def test_what_was_taken_for_the_sand_is_told():
    assert "jar test" in charge_of(kind("mixes", "mortar-S"), DRUM).notes[0]
    assert "15%" in charge_of(kind("mixes", "mortar-S"), replace(DRUM, sand_bulking=0.15)).notes[0]


@pytest.mark.parametrize(
    ("most", "bags", "measure"),
    [
        (0.24, 0.0, Measure.WEIGHED), (0.25, 0.25, Measure.QUARTER_BAG), (0.34, 1 / 3, Measure.THIRD_BAG),
        (0.5, 0.5, Measure.HALF_BAG), (0.99, 0.5, Measure.HALF_BAG), (1.0, 1.0, Measure.WHOLE_BAGS),
        (1.6, 1.0, Measure.WHOLE_BAGS), (3.2, 3.0, Measure.WHOLE_BAGS),
    ],
)  # fmt: skip
def test_whole_bags_come_first_then_a_half_a_third_a_quarter_of_one(most, bags, measure):
    assert bags_that_fit(most=most) == (bags, measure)


def test_a_tub_too_small_for_a_quarter_of_a_bag_is_filled_by_weight():
    tub = replace(TUB, batch=1 * FT3)
    charge = charge_of(kind("mixes", "mortar-S"), tub)

    assert charge.measure is Measure.WEIGHED
    assert charge.makes == pytest.approx(tub.batch)
    assert "weigh the cement" in charge.notes[0]


def test_lime_putty_goes_by_whole_buckets_and_brings_its_own_water():
    charge = charge_of(kind("mixes", "lime-plaster"), TUB)

    assert charge.measure is Measure.WHOLE_BUCKETS
    assert charge.part("lime").buckets == pytest.approx(1.0)
    assert charge.water_to_add < charge.part("lime").loose / 10


def test_absolute_volumes_of_the_footing_mix_add_up_to_what_it_makes():
    charge = charge_of(kind("mixes", "concrete-footing"), DRUM)

    solids = sum(part.mass / part.kind.value("particle_density") for part in charge.ingredients)
    assert (solids + charge.water) / (1 - 0.015) == pytest.approx(charge.makes)


def test_rammed_earth_is_its_dry_mass_over_its_density():
    charge = charge_of(kind("mixes", "stabilized-earth"), DRUM)

    dry = sum(part.mass for part in charge.ingredients)
    assert charge.makes == pytest.approx(dry / 1900)
    assert charge.water * 1000 == pytest.approx(0.1 * dry)


def test_a_foamed_batch_weighs_what_it_should_and_says_what_it_weighs_dry():
    charge = charge_of(kind("mixes", "foamed-800"), DRUM)

    assert charge.foam is not None
    cement = charge.part("cement").mass / charge.makes
    assert charge.density == pytest.approx(800.0)
    assert cement == pytest.approx(517.96, abs=0.01)
    assert charge.foam.volume / charge.makes == pytest.approx(0.5766, abs=1e-4)
    assert charge.foam.make == pytest.approx(charge.foam.volume / 0.95)
    assert charge.foam.dry == pytest.approx(1.2 * cement)
    assert charge.foam.water + charge.foam.agent == pytest.approx(charge.foam.make * 40 / 1000)
    assert charge.foam.agent == pytest.approx(0.025 * charge.foam.make * 40 / 1000)


@pytest.mark.parametrize("name", list(shelf("mixes")))
def test_every_shipped_mix_has_a_charge_with_order_cautions_and_working(name):
    charge = charge_of(kind("mixes", name), DRUM)

    assert 0 < charge.makes <= DRUM.batch * (1 + 1e-9)
    assert charge.order
    assert charge.cautions
    assert charge.working
    assert charge.figures
    assert isinstance(charge.standing, Standing)


def test_a_mix_without_a_needed_figure_has_a_card_that_says_what_is_missing():
    lime = kind("mixes", "mortar-S")
    bare = replace(lime, figures={key: figure for key, figure in lime.figures.items() if key != "sand"})
    (card,) = batch_cards([replace(wanted("mortar-S", 1.0), kind=bare)], DRUM)

    assert card.charge is None
    assert card.batches == 0
    assert card.totals == ()
    assert "no sand is known for mortar-S" in card.missing


def test_a_foamed_mix_that_does_not_name_its_sand_has_no_charge():
    foamed = kind("mixes", "foamed-1000")
    nameless = replace(foamed, words={**foamed.words, "uses": {"cement": "portland-cement"}})
    (card,) = batch_cards([replace(wanted("foamed-1000", 1.0), kind=nameless)], DRUM)

    assert card.charge is None
    assert "which cement and sand" in card.missing


def test_cards_come_in_order_of_work_one_for_each_mix_and_layer():
    cards = batch_cards(
        [
            wanted("plaster-scratch", 0.2, layer="coat"),
            wanted("mortar-S", 0.1),
            wanted("plaster-finish", 0.1, layer="coat"),
            wanted("mortar-S", 0.3, place="east/1", waste=0.5),
            wanted("concrete-footing", 1.0, layer="footing"),
        ],
        DRUM,
    )

    assert [(card.layer, card.mix.name) for card in cards] == [
        ("footing", "concrete-footing"),
        ("mortar", "mortar-S"),
        ("coat", "plaster-scratch"),
        ("coat", "plaster-finish"),
    ]
    mortar = cards[1]
    assert mortar.places == ("south/1", "east/1")
    assert (mortar.net, mortar.gross) == pytest.approx((0.4, 0.55))
    assert [share.gross for share in mortar.shares] == pytest.approx([0.1, 0.45])


def test_what_has_no_volume_or_is_no_mix_has_no_card():
    lines = [
        wanted("mortar-S", 0.0),
        wanted("mortar-S", float("nan")),
        replace(wanted("mortar-S", 1.0), kind=kind("materials", "sand")),
        replace(wanted("mortar-S", 1.0), unit=KILOGRAM),
    ]

    assert batch_cards(lines, DRUM) == ()


@pytest.mark.parametrize(
    ("volume", "makes", "batches", "last"),
    [(1.0, 0.5, 2, 1.0), (1.1, 0.5, 3, 0.2), (0.1, 0.5, 1, 0.2), (0.5, 0.5, 1, 1.0)],
)
def test_the_last_batch_is_counted_whole_and_its_share_is_told(volume, makes, batches, last):
    assert batches_for(volume, makes) == (batches, pytest.approx(last))


@pytest.mark.parametrize(
    ("value", "says"), [(12, "12"), (80.8, "80.8"), (404.8, "405"), (3480.8, "3\u00a0481"), (12345.0, "12\u00a0345")]
)
def test_a_part_of_one_thing_is_told_only_where_it_counts(value, says):
    assert count(value) == says


def test_a_small_amount_is_one_batch_of_its_own_and_a_near_one_the_whole_bag():
    mix = kind("mixes", "mortar-S")
    usual = charge_of(mix, DRUM)

    small = charge_of(mix, DRUM, usual.makes / 3)
    assert small.measure is Measure.ALL
    assert small.makes == pytest.approx(usual.makes / 3)
    assert small.part("cement").mass == pytest.approx(usual.part("cement").mass / 3)
    assert charge_of(mix, DRUM, usual.makes * 0.97) == usual
    assert charge_of(mix, DRUM, 50.0) == usual


def test_a_rest_that_still_goes_into_the_mixer_makes_no_second_batch():
    mix = kind("mixes", "mortar-S")
    most = min(limit.most for limit in charge_of(mix, DRUM).limits)

    assert charge_of(mix, DRUM, most).makes == pytest.approx(most)
    assert charge_of(mix, DRUM, most * 1.001).measure is not Measure.ALL


@pytest.mark.parametrize(("bulking", "share"), [(None, 0.05), (0.15, 0.03), (0.25, 0.05), (0.40, 0.06)])
def test_the_moisture_told_is_the_moisture_reckoned_with(bulking, share):
    charge = charge_of(kind("mixes", "mortar-S"), replace(DRUM, sand_bulking=bulking))
    sand = charge.part("sand")

    assert dict(charge.figures)["sand moisture"].value == pytest.approx(share)
    assert sand.as_it_lies / sand.mass - 1 == pytest.approx(share)


def test_the_first_comma_of_a_mix_parts_its_name_from_its_proportions():
    for mix in shelf("mixes").values():
        rest = mix.says.partition(", ")[2]
        assert rest[:2] in ("1 ", "no"), f"{mix.name}: a card would be headed by half a name"


JUG = [
    (2.67 * GAL, "2 5/8 gal", "10.1 L"), (1.06 * GAL, "4 1/4 qt", "4 L"), (12.4 * GAL, "12 1/2 gal", "46.9 L"),
    (0.2 * GAL, "26 fl oz", "760 mL"), (0.02 * GAL, "2 1/2 fl oz", "76 mL"),
]  # fmt: skip


@pytest.mark.parametrize(("volume", "american", "metric"), JUG)
def test_water_is_told_as_a_jug_measures_it(volume, american, metric):
    assert (by_jug(volume, System.US), by_jug(volume, System.METRIC)) == (american, metric)


@given(volume=st.floats(1e-4, 1.0), system=st.sampled_from(System))
def test_what_a_jug_is_said_to_hold_is_hardly_off(volume, system):
    told = by_jug(volume, system).replace("\xa0", "")
    assert read(told, like=CUBIC_METER) == pytest.approx(volume, rel=0.04)


def test_buckets_are_told_by_their_marks_and_the_jug_tells_what_no_mark_does():
    cement = charge_of(kind("mixes", "mortar-S"), DRUM).part("cement")
    level = cement.loose / cement.buckets

    def of(number):
        return measured(replace(cement, buckets=number, loose=number * level), System.US)

    assert [of(number) for number in (4.26, 0.75, 0.62)] == ["4 1/4", "3/4", "5/8"]
    assert [of(number) for number in (0.46, 0.028)] == ["2 1/4 gal", "18 fl oz"]
    assert buckets(0.028) == ""
