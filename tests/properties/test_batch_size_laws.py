"""Laws of batch cards: no batch passes a bound, batches add up to the whole, colder never sets sooner."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pinfold.formulas import batch_size
from pinfold.plan.place import Haul, Mixing
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.lifting import lifted_again
from pinfold.studies.batching.records import Bound
from pinfold.studies.mixing.at_mixer import supplies
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind, shelf
from pinfold.units import CUBIC_METER

SITE = Mixing(
    batch=0.07, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None, lift=23.0, temperature=20.0
)  # fmt: skip
DRY = Haul(payload=None, bed=None, tank=0.2, shop_distance=None, water_distance=None)
MIXES = st.sampled_from([kind("mixes", name) for name in shelf("mixes")])
SITES = st.builds(
    Mixing, batch=st.floats(0.005, 0.5), bucket=st.floats(0.005, 0.03), bag=st.sampled_from([20.0, 25.0, 42.6]),
    lime_bag=st.just(20.0), sand_bulking=st.none() | st.floats(0.0, 0.4), drum=st.none() | st.floats(0.01, 0.5),
    lift=st.none() | st.floats(2.0, 60.0), temperature=st.none() | st.floats(-20.0, 50.0),
)  # fmt: skip


def wanted(mix, net, waste=0.0):
    return Quantity(
        kind=mix, layer="mortar", place="south/1", unit=CUBIC_METER, net=net, waste=waste, waste_figure=None, note=""
    )  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(mix=MIXES, site=SITES)
def test_no_batch_passes_the_mixer_the_back_or_the_time_before_it_sets(mix, site):
    charge = charge_of(mix, site)

    assert charge.makes <= min(limit.most for limit in charge.limits) * (1 + 1e-9)
    assert charge.makes <= site.batch * (1 + 1e-9)
    if site.drum is not None:
        assert charge.makes <= 0.6 * site.drum * (1 + 1e-9)
    if site.lift is not None:
        lifted = sum(part.as_it_lies for part in charge.ingredients) + charge.water_to_add * 1000
        assert lifted <= 20 * lifted_again(site.lift) * (1 + 1e-6)
    if charge.in_hand is not None:
        assert charge.makes / charge.in_hand.use_rate <= charge.in_hand.workable * (1 + 1e-9)


@settings(max_examples=150, deadline=None)
@given(mix=MIXES, site=SITES)
def test_no_bucket_is_heavier_than_one_lifts_again_and_again(mix, site):
    assume(site.lift is not None)

    for part in charge_of(mix, site).ingredients:
        assert part.as_it_lies / max(part.lifts, 1) <= lifted_again(site.lift) * (1 + 1e-6)
        assert part.as_it_lies >= part.mass


@settings(max_examples=150, deadline=None)
@given(mix=MIXES, site=SITES, net=st.floats(0.002, 20.0), waste=st.floats(0.0, 0.5))
def test_the_whole_is_the_sum_of_its_batches(mix, site, net, waste):
    (card,) = batch_cards([wanted(mix, net, waste)], site)
    charge, part = card.charge, card.part_batch
    full = card.batches - (1 if part else 0)
    spread = max(0.05 * charge.makes, 1e-9)  # a rest that small is spread over the others, or the last is whole

    assert full * charge.makes + (part.makes if part else 0.0) == pytest.approx(card.gross, abs=spread)
    for each, total in zip(charge.ingredients, card.totals, strict=True):
        last = next((one.mass for one in part.ingredients if one.part == each.part), 0.0) if part else 0.0
        assert full * each.mass + last == pytest.approx(total.mass, abs=0.05 * each.mass + 1e-9)
    if part is not None:
        assert 0 < part.share < 1
        assert part.makes / charge.makes == pytest.approx(part.share)
        assert part.water_to_add == pytest.approx(part.share * charge.water_to_add)


@settings(max_examples=100, deadline=None)
@given(mix=MIXES, site=SITES)
def test_the_mass_of_a_batch_is_its_parts_water_and_foam(mix, site):
    charge = charge_of(mix, site)
    dry = sum(part.mass for part in charge.ingredients)

    foam = charge.foam.mass if charge.foam else 0.0
    assert dry + charge.water * 1000 + foam == pytest.approx(charge.density * charge.makes, rel=2e-3)


@given(low=st.floats(-20.0, 50.0), high=st.floats(-20.0, 50.0), usual=st.floats(600.0, 36000.0))
def test_warmer_never_gives_more_time(low, high, usual):
    colder, warmer = (
        batch_size.workable_time(usual=usual, temperature=each) for each in (min(low, high), max(low, high))
    )  # fmt: skip

    assert warmer <= colder * (1 + 1e-12) <= usual * (1 + 1e-9)


@given(temperature=st.floats(15.6, 49.0))
def test_ten_degrees_more_shorten_setting_as_the_rows_beside_it_do(temperature):
    ratio = batch_size.setting_time(temperature=temperature + 1.0) / batch_size.setting_time(temperature=temperature)

    slopes = [
        math.exp(math.log(late / early) / (50 / 9)) for early, late in ((8, 6), (6, 4), (4, 8 / 3), (8 / 3, 5 / 3))
    ]
    assert min(slopes) - 1e-4 <= ratio <= max(slopes) + 1e-4


def test_a_hot_day_makes_batches_smaller_and_says_which_bound_holds():
    mild, hot = (charge_of(kind("mixes", "mortar-S"), replace(SITE, temperature=each)) for each in (20.0, 38.0))

    assert hot.makes < mild.makes
    assert mild.governs is hot.governs is Bound.SET
    assert charge_of(kind("mixes", "concrete-footing"), SITE).governs is Bound.MIXER
    weak = replace(SITE, lift=5.0, batch=0.2)
    assert charge_of(kind("mixes", "concrete-footing"), weak).governs is Bound.BACK


def test_what_never_sets_is_not_asked_for_time():
    lime, hydraulic = (charge_of(kind("mixes", name), SITE) for name in ("lime-plaster", "lime-plaster-hydraulic"))

    assert lime.in_hand is None
    assert hydraulic.in_hand.workable == 8 * 3600
    assert charge_of(kind("mixes", "earth-plaster"), SITE).in_hand is None


def test_nothing_asked_of_back_and_time_leaves_the_mixer_alone():
    charge = charge_of(kind("mixes", "mortar-S"), replace(SITE, lift=None, temperature=None))

    assert [limit.bound for limit in charge.limits] == [Bound.MIXER]


@settings(max_examples=60, deadline=None)
@given(mix=MIXES, net=st.floats(0.01, 10.0))
def test_a_day_at_the_mixer_is_no_more_than_the_whole_and_nothing_is_lost(mix, net):
    (card,) = batch_cards([wanted(mix, net)], SITE)
    day, whole = supplies(card, card.charge, haul=DRY, barrow=0.06)

    assert 0 < day.batches <= whole.batches
    assert day.water <= whole.water + 1e-12
    assert whole.trips == math.ceil(whole.water / 0.2 - 1e-9)
    for heap in whole.heaps:
        total = next(one for one in card.totals if one.part == heap.part.part)
        assert heap.part.as_it_lies == pytest.approx(total.as_it_lies)
        assert heap.barrows * 0.06 >= heap.part.loose - 1e-9


@given(drum=st.floats(0.01, 2.0), share=st.floats(0.1, 0.8), lift=st.floats(1.0, 60.0), pace=st.floats(0.1, 12.0))
def test_the_bounds_grow_in_proportion_to_what_they_are_made_of(drum, share, lift, pace):
    assert batch_size.drum_batch(drum=2 * drum, share=share) == pytest.approx(
        2 * batch_size.drum_batch(drum=drum, share=share)
    )
    charge = batch_size.charge_by_lifts(lift=lift, share=share, pace=pace, minutes=10.0)
    assert charge == pytest.approx(lift * share * pace * 10)
    used = batch_size.batch_before_set(workable=5400.0, turning=600.0, rate=drum / 1000)
    assert used == pytest.approx(4.8 * drum)
