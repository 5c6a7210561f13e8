"""Sharing costs out, by hand."""

from __future__ import annotations

import re
from dataclasses import replace
from importlib.resources import files
from types import SimpleNamespace

import pytest

from pinfold.plan.stock import PilePiece, Price
from pinfold.reports.reckon_page import reckon_page, total_sentence
from pinfold.reports.terminal import text_of
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.costing import CostShare, planned_cost, shared_out
from pinfold.studies.gathering.gather import gather
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import kind
from pinfold.units import RATIO, System

BLOCK = kind("walls", "block-8-hollow")


@pytest.fixture(scope="module", params=["seed-garden", "quinta"])
def sample(request):
    folder = files("pinfold.store").joinpath("samples", request.param)
    plan, listed, pile = (
        folder.joinpath(name).read_text(encoding="utf-8") for name in ("plan.toml", "prices.toml", "pile.csv")
    )
    layout, prices = lay_out(plan_of(plan)), prices_of(listed)
    quantities = take_off(layout)
    cards = batch_cards(quantities, layout.plan.mixing)
    return layout, prices, gather(quantities, cards, layout=layout, prices=prices, pile=pile_of(pile))


def blocks(net, place):
    return Quantity(kind=BLOCK, layer="wall", place=place, unit=RATIO, net=net, waste=0.0, waste_figure=None, note="")


@pytest.mark.parametrize(
    ("amount", "weights", "shares"),
    [
        (100, [1, 1, 1], (34, 33, 33)), (7, [0.5, 0.25, 0.25], (3, 2, 2)), (5, [0, 0], (3, 2)), (0, [1, 2], (0, 0)),
        (1, [0.1, 0.9], (0, 1)), (10, [], ()),
    ],
)  # fmt: skip
def test_coins_go_to_the_largest_remainders(amount, weights, shares):
    assert shared_out(amount, weights) == shares


def test_every_coin_is_in_some_layer_run_and_buildup(sample):
    layout, prices, gathered = sample
    costs = planned_cost(gathered, layout, prices)

    assert costs.goods == sum(line.cost for line in gathered.lines) > 0
    for shares in (costs.by_layer, costs.by_run, costs.by_buildup):
        assert sum(share.cost for share in shares) == costs.goods
    assert {share.name for share in costs.by_buildup} == set(layout.plan.buildups)
    assert costs.total == costs.goods + costs.haul + costs.water
    assert costs.per_meter == pytest.approx(costs.total / layout.length)
    assert not costs.is_at_least


def test_a_price_that_is_missing_makes_the_total_an_at_least(sample):
    layout, prices, _ = sample
    bare = replace(prices, by_item={}, trip=None, water_trip=None)
    costs = planned_cost(gather([blocks(3, "here")], (), layout=layout, prices=bare), layout, bare)

    assert costs.total == 0
    assert costs.is_at_least
    assert costs.unpriced == ("block-8-hollow",)
    assert costs.missing[:3] == (
        f"no price for {kind('walls', 'block-8-hollow').says}", "no cost of the trips to the shop", "no cost of the trips for water",
    )  # fmt: skip


def test_packs_are_shared_over_the_places_that_need_them(sample):
    layout, prices, _ = sample
    pallet = Price(item="block-8-hollow", pack=72.0, unit=RATIO, cost=10_000, printed="72")
    priced = replace(prices, by_item={"block-8-hollow": pallet})
    one, two = layout.stretches[0].name, layout.stretches[-1].name
    lines = [blocks(20, one), blocks(10, two), blocks(10, "nowhere")]
    costs = planned_cost(gather(lines, (), layout=layout, prices=priced), layout, priced)

    assert costs.goods == 10_000
    assert {share.name: share.cost for share in costs.by_run} == {
        layout.stretches[0].run: 5000, layout.stretches[-1].run: 2500, "shared": 2500,
    }  # fmt: skip


def test_a_layer_of_nothing_but_things_without_a_price_is_not_shown_and_no_zero(sample):
    layout, prices, _ = sample
    pallet = Price(item="block-8-hollow", pack=72.0, unit=RATIO, cost=10_000, printed="72")
    priced = replace(prices, by_item={"block-8-hollow": pallet}, trip=0, water_trip=0)
    one, other = blocks(20, layout.stretches[0].name), kind("walls", "block-6-hollow")
    lines = [one, replace(one, kind=other, layer="wall"), replace(one, kind=other, layer="piers")]
    costs = planned_cost(gather(lines, (), layout=layout, prices=priced), layout, priced)
    page = text_of(reckon_page("plot", costs, System.METRIC), System.METRIC)

    assert {share.name: (share.cost, share.unpriced) for share in costs.by_layer} == {
        "wall": (10_000, 1),
        "piers": (0, 1),
    }
    assert re.search(r"wall +at least 100\.00 +100\u00a0%", page)
    assert re.search(r"piers +NOT SHOWN *$", page, re.MULTILINE)


def test_a_plan_that_the_pile_holds_all_of_costs_nothing_and_says_so(sample):
    layout, prices, _ = sample
    pile = (PilePiece(item="block-8-hollow", count=50, length=None, amount=None, unit=None, note=""),)
    free = replace(prices, trip=500, water_trip=0)
    costs = planned_cost(gather([blocks(20, "here")], (), layout=layout, prices=free, pile=pile), layout, free)

    assert (costs.total, costs.missing) == (0, ())
    assert "NOT SHOWN" not in total_sentence(costs, System.METRIC)
    assert "0.00" in total_sentence(costs, System.METRIC)


def test_a_share_is_shown_unless_all_that_is_bought_for_it_lacks_a_price():
    assert CostShare(name="wall", cost=0).is_shown, "all of it lies there or is found"
    assert CostShare(name="wall", cost=5, unpriced=1).is_shown
    assert not CostShare(name="wall", cost=0, unpriced=1).is_shown


def test_a_thing_without_a_price_counts_once_in_a_layer_however_many_places_need_it(sample):
    layout, prices, _ = sample
    bare = replace(prices, by_item={})
    lines = [blocks(3, stretch.name) for stretch in layout.stretches]
    costs = planned_cost(gather(lines, (), layout=layout, prices=bare), layout, bare)

    assert [(share.name, share.unpriced) for share in costs.by_layer] == [("wall", 1)]


def test_without_length_nothing_is_told_for_a_meter_and_what_gathering_lacks_is_left_out_of_the_total(sample):
    _, prices, gathered = sample
    nowhere = SimpleNamespace(length=0.0, stretches=(), posts=(), gates={})
    costs = planned_cost(replace(gathered, missing=("the faces of a wall",)), nowhere, prices)

    assert costs.per_meter is None
    assert costs.is_at_least
    assert costs.missing[-1] == "the faces of a wall"
