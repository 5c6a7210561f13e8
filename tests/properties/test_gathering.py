"""Laws of batching, buying, hauling and costing that hold whatever the numbers."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.plan.place import Haul, Mixing
from pinfold.plan.stock import PilePiece, Price
from pinfold.reports.amounts import buckets_measured
from pinfold.studies.batching.cards import SPREAD, batch_cards
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.costing import shared_by, shared_out, shares_of
from pinfold.studies.gathering.amounts import how_sold
from pinfold.studies.gathering.lines import Shop, lines_of
from pinfold.studies.gathering.loads import haulage
from pinfold.studies.gathering.needs import Need, needs_of
from pinfold.studies.gathering.packs import cut_from_pile, lengths_for, whole_packs
from pinfold.studies.gathering.records import Use
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind, shelf
from pinfold.units import CUBIC_METER, KILOGRAM, METER, RATIO, System

MIXES = st.sampled_from(list(shelf("mixes").values()))
AMOUNT = st.floats(0.01, 2e4, allow_nan=False)
MIXING = st.builds(
    Mixing, batch=st.floats(0.01, 0.5), bucket=st.floats(0.005, 0.03), bag=st.floats(20.0, 50.0),
    lime_bag=st.floats(15.0, 30.0), sand_bulking=st.none() | st.floats(0.0, 0.45),
)  # fmt: skip
SITE = Mixing(batch=0.07, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)
THINGS = [
    (kind("materials", "portland-cement"), KILOGRAM), (kind("materials", "sand"), CUBIC_METER),
    (kind("walls", "block-8-hollow"), RATIO), (kind("rails", "wire-3mm"), METER), (kind("posts", "wood-6x6"), METER),
]  # fmt: skip
USES = st.lists(st.floats(0.001, 1.0), min_size=1, max_size=6)


@st.composite
def needs(draw):
    thing, unit = draw(st.sampled_from(THINGS))
    amount = draw(AMOUNT) if unit != METER else draw(st.floats(0.1, 500.0))
    shares = draw(USES)
    uses = tuple(
        Use(layer=f"layer {at % 3}", place=f"place {at}", amount=amount * share / sum(shares))
        for at, share in enumerate(shares)
    )
    return Need(kind=thing, unit=unit, net=amount / 1.1, needed=amount, pieces=(), uses=uses)


@st.composite
def shops(draw):
    prices = {
        thing.name: Price(item=thing.name, pack=draw(st.floats(0.1, 100.0)), unit=unit,
                          cost=draw(st.integers(0, 10**6)), printed="")
        for thing, unit in THINGS
        if draw(st.booleans())
    }  # fmt: skip
    pile = tuple(
        PilePiece(item=thing.name, count=draw(st.integers(1, 5)), length=None, amount=draw(st.floats(0.01, 3000.0)),
                  unit=unit, note="")
        for thing, unit in THINGS
        if draw(st.booleans())
    )  # fmt: skip
    return Shop(prices=prices, pile=pile, mixing=SITE, system=draw(st.sampled_from(System)))


def one_of_each(found):
    return list({need.kind.name: need for need in found}.values())


@given(mix=MIXES, mixing=MIXING)
def test_mass_and_volume_of_a_batch_close(mix, mixing):
    charge = charge_of(mix, mixing)

    foam = charge.foam.mass if charge.foam else 0.0
    mass = sum(part.mass for part in charge.ingredients) + charge.water * 1000 + foam
    assert charge.density * charge.makes == pytest.approx(mass)
    assert charge.makes <= mixing.batch * (1 + 1e-6)
    if charge.foam is not None:
        solids = sum(part.mass / part.kind.value("particle_density") for part in charge.ingredients)
        assert solids + charge.water + charge.foam.volume == pytest.approx(charge.makes)
        assert charge.density == pytest.approx(charge.foam.cast)
    if mix.word("yield_method") == "absolute":
        solids = sum(part.mass / part.kind.value("particle_density") for part in charge.ingredients)
        assert solids + charge.water == pytest.approx(charge.makes * (1 - mix.value("air")))


@given(mix=MIXES, mixing=MIXING)
def test_bags_and_buckets_hold_what_the_scale_says(mix, mixing):
    for part in charge_of(mix, mixing).ingredients:
        assert part.buckets * mixing.bucket == pytest.approx(part.loose)
        assert buckets_measured(part.buckets) == pytest.approx(part.buckets, rel=0.051)
        if part.kind.name == "portland-cement":
            assert part.bags * mixing.bag == pytest.approx(part.mass)
        if part.part != "sand":
            assert part.loose * part.kind.value("bulk_density") == pytest.approx(part.mass)


@given(low=st.floats(0.0, 0.45), high=st.floats(0.0, 0.45))
def test_more_bulking_is_more_sand_to_measure_and_the_same_true_sand(low, high):
    low, high = sorted((low, high))
    drier, damper = (
        charge_of(kind("mixes", "mortar-S"), replace(SITE, sand_bulking=swelling)).part("sand")
        for swelling in (low, high)
    )

    assert damper.loose >= drier.loose
    assert damper.mass == pytest.approx(drier.mass)
    assert damper.loose / (1 + high) == pytest.approx(drier.loose / (1 + low))


@given(mix=MIXES, mixing=MIXING, nets=st.lists(st.floats(1e-4, 30.0), min_size=1, max_size=5), waste=st.floats(0, 2))
def test_all_batches_together_make_the_volume_and_hold_the_totals(mix, mixing, nets, waste):
    (card,) = batch_cards(
        [
            Quantity(kind=mix, layer="mortar", place=f"p{at}", unit=CUBIC_METER, net=net, waste=waste,
                     waste_figure=None, note="")
            for at, net in enumerate(nets)
        ],
        mixing,
    )  # fmt: skip

    full = card.batches - 1 + card.last
    assert 0 < card.last <= 1 + 1e-9
    short = card.gross - full * card.charge.makes
    assert short == pytest.approx(0.0, abs=1e-6 * card.gross) or 0 < short <= SPREAD * card.charge.makes * (1 + 1e-9)
    assert card.gross == pytest.approx(sum(nets) * (1 + waste))
    for part, total in zip(card.charge.ingredients, card.totals, strict=True):
        assert total.mass == pytest.approx(part.mass * card.gross / card.charge.makes, rel=1e-6)
    needed = sum(use.amount for need in needs_of((), [card], {}) for use in need.uses if need.unit == KILOGRAM)
    assert needed == pytest.approx(sum(part.mass for part in card.totals if how_sold(part.kind) == "bag"))


@given(needed=st.floats(0.0, 1e6), pack=st.floats(0.01, 1e3))
def test_whole_packs_hold_it_and_one_less_does_not(needed, pack):
    packs = whole_packs(needed, pack)

    assert packs * pack >= needed * (1 - 1e-9) - 1e-9 * pack
    assert packs == 0 or (packs - 1) * pack < needed


@given(found=st.lists(needs(), min_size=1, max_size=5), shop=shops())
def test_what_is_bought_and_on_hand_is_enough_and_one_pack_less_is_not(found, shop):
    for line in lines_of(one_of_each(found), shop):
        assert line.on_hand <= line.needed
        assert line.bought >= (line.needed - line.on_hand) * (1 - 1e-6) - 1e-6
        assert line.left_over >= -1e-6 * (1 + line.needed)
        for lot in line.lots:
            assert line.bought - lot.size < line.needed - line.on_hand


@given(found=st.lists(needs(), min_size=1, max_size=5), shop=shops())
def test_costs_add_up_to_the_coin_however_they_are_shared(found, shop):
    lines = lines_of(one_of_each(found), shop)
    goods = sum(line.cost or 0 for line in lines)

    assert sum(share.cost for share in shared_by(shares_of(lines), lambda use: use.layer)) == goods
    assert sum(share.cost for share in shared_by(shares_of(lines), lambda use: use.place)) == goods


@given(amount=st.integers(0, 10**12), weights=st.lists(st.floats(0.0, 1e6), min_size=1, max_size=20))
def test_no_share_is_a_coin_off_its_part(amount, weights):
    shares = shared_out(amount, weights)

    assert sum(shares) == amount
    whole = math.fsum(weights)
    if whole > 1e-300:
        for share, weight in zip(shares, weights, strict=True):
            assert abs(share - amount * (weight / whole)) <= 1 + 1e-9 * amount


@settings(deadline=None)
@given(
    found=st.lists(needs(), min_size=1, max_size=5), shop=shops(), payload=st.floats(100.0, 5000.0),
    bed=st.none() | st.floats(0.1, 5.0),
)  # fmt: skip
def test_no_load_is_over_and_everything_gets_there(found, shop, payload, bed):
    lines = lines_of(one_of_each(found), shop)
    haul = Haul(payload=payload, bed=bed, tank=None, shop_distance=None, water_distance=None)
    hauled = haulage(lines, haul, None)

    assert hauled.trips >= math.ceil(hauled.mass / payload - 1e-6)
    assert hauled.trips >= math.ceil(hauled.bulk / (bed or math.inf) - 1e-6)
    for load in hauled.loads:
        assert load.mass <= payload * (1 + 1e-6)
        assert load.bulk <= (bed or math.inf) * (1 + 1e-6)
        assert load.mass == pytest.approx(sum(item.mass for item in load.items))
    if hauled.loads and len(hauled.loads) == hauled.trips:
        assert sum(load.mass for load in hauled.loads) == pytest.approx(hauled.mass)


@given(
    pieces=st.lists(st.floats(0.2, 5.9), max_size=12),
    stocked=st.sampled_from([(6.0,), (3.0, 4.8, 6.0), (2.0, 6.4)]),
)
def test_bought_lengths_hold_all_pieces_and_are_no_more_than_one_each(pieces, stocked):
    bought = lengths_for(pieces, stocked)

    assert sum(length * count for length, count in bought.items()) >= sum(pieces) - 1e-6
    assert sum(bought.values()) <= len(pieces)
    assert set(bought) <= set(stocked)


@given(pieces=st.lists(st.floats(0.2, 3.0), max_size=10), pile=st.lists(st.floats(0.1, 6.5), max_size=8))
def test_every_piece_is_cut_from_the_pile_or_left(pieces, pile):
    cut, left = cut_from_pile(pieces, pile)

    assert sorted((*cut, *left)) == sorted(pieces)
    assert sum(cut) <= sum(pile) + 1e-9
    if not cut:
        assert all(piece > length for piece in left for length in pile)
