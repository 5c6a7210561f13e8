"""The buying list, the loads and the water, by hand."""

from __future__ import annotations

from dataclasses import replace
from importlib.resources import files

import pytest

from pinfold.figures import given
from pinfold.plan.place import Haul, Mixing
from pinfold.plan.stock import NO_PRICES, PilePiece, Price
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.gathering.amounts import category_of, per
from pinfold.studies.gathering.gather import gather
from pinfold.studies.gathering.lines import Shop, line_of, lines_of, price_of
from pinfold.studies.gathering.loads import haulage
from pinfold.studies.gathering.needs import Need, needs_of
from pinfold.studies.gathering.packs import best_length, cut_from_pile, lengths_for, lengths_for_total, whole_packs
from pinfold.studies.gathering.records import Category, Curing
from pinfold.studies.gathering.sizes import curing_of
from pinfold.studies.gathering.water import water_for
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.quantities.records import Part, Quantity
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, KILOGRAM, METER, RATIO, SQUARE_METER, UNIT_BY_SYMBOL, System

LB, FT3, GAL, FT, YD3 = (UNIT_BY_SYMBOL[symbol].factor for symbol in ("lb", "ft3", "gal", "ft", "yd3"))
MIXING = Mixing(batch=5 * FT3, bucket=5 * GAL, bag=94 * LB, lime_bag=50 * LB, sand_bulking=None)
HAUL = Haul(payload=500.0, bed=0.5, tank=0.2, shop_distance=10_000.0, water_distance=1_000.0)
CEMENT, SAND, BLOCK = kind("materials", "portland-cement"), kind("materials", "sand"), kind("walls", "block-8-hollow")
PIPE = Kind(
    name="pipe", shelf="posts", figures={"mass_per_length": given(4.0, UNIT_BY_SYMBOL["kg/m"])},
    words={"sold": "each", "lengths": ["6 ft", "10 ft", "21 ft"]},
)  # fmt: skip


def shop(*, prices=(), pile=(), system=System.US):
    return Shop(prices={price.item: price for price in prices}, pile=tuple(pile), mixing=MIXING, system=system)


def need(of, amount, unit, *, net=None, pieces=()):
    return Need(kind=of, unit=unit, net=amount if net is None else net, needed=amount, pieces=pieces, uses=())


def price(item, pack, unit, cost):
    return Price(item=item, pack=pack, unit=unit, cost=cost, printed=f"{pack} {unit.symbol}")


def on_hand(item, *, count=1, length=None, amount=None, unit=None):
    return PilePiece(item=item, count=count, length=length, amount=amount, unit=unit, note="")


def quantity(of, net, unit, *, layer="wall", place="south/1a", waste=0.0):
    return Quantity(
        kind=of, layer=layer, place=place, unit=unit, net=net, waste=waste, waste_figure=None, note="not counted: x"
    )


@pytest.fixture(scope="module")
def sample():
    folder = files("pinfold.store").joinpath("samples", "seed-garden")
    plan, prices, pile = (
        folder.joinpath(name).read_text(encoding="utf-8") for name in ("plan.toml", "prices.toml", "pile.csv")
    )
    return lay_out(plan_of(plan)), prices_of(prices), pile_of(pile)


@pytest.mark.parametrize(
    ("needed", "packs"), [(0.0, 0), (-3.0, 0), (1e-12, 0), (0.1, 1), (25.0, 1), (25.1, 2), (100.0, 4)]
)
def test_packs_are_always_rounded_up(needed, packs):
    assert whole_packs(needed, 25.0) == packs


def test_21_49_yards_are_ordered_as_22():
    assert whole_packs(580.14 * FT3, YD3) == 22


def test_bags_are_those_of_the_site_and_what_is_on_hand_comes_off():
    line = line_of(need(CEMENT, 1000 * LB, KILOGRAM), shop(pile=[on_hand("portland-cement", count=3)]))

    assert line.category is Category.BAGS
    assert line.on_hand / LB == pytest.approx(282.0)
    assert [(lot.packs, lot.says) for lot in line.lots] == [(8, "bag")]  # 718 lb are 7.6 bags
    assert line.left_over / LB == pytest.approx(8 * 94 + 282 - 1000)
    assert line.mass / LB == pytest.approx(8 * 94)
    assert line.cost is None


def test_the_price_list_says_what_a_pack_is():
    line = line_of(need(SAND, 2.0, CUBIC_METER), shop(prices=[price("sand", 0.75, CUBIC_METER, 1999)]))

    assert line.lots[0].packs == 3
    assert line.cost == 3 * 1999
    assert line.mass == pytest.approx(2.25 * SAND.value("bulk_density") * 1.05)
    assert line.bulk == pytest.approx(2.25)


def test_sand_priced_by_weight_is_bought_by_weight():
    line = line_of(need(SAND, 1.0, CUBIC_METER), shop(prices=[price("sand", 1000.0, KILOGRAM, 5000)]))

    assert line.lots[0].size == pytest.approx(1000 / SAND.value("bulk_density"))
    assert line.lots[0].packs == 2
    assert line.cost == 10_000


def test_a_price_in_a_unit_that_cannot_be_turned_is_no_price():
    line = line_of(need(BLOCK, 10.0, RATIO), shop(prices=[price("block-8-hollow", 2.0, SQUARE_METER, 500)]))

    assert line.cost is None
    assert "cannot be turned" in line.notes[0]


@pytest.mark.parametrize(
    ("size", "pack", "cost", "coins"),
    [(99 * 0.0254, 100 * 0.0254, 250, 248), (15 * FT, 20 * FT, 1002, 752), (35 * LB, 50 * LB, 25, 18), (6 * FT, 9 * FT, 100, 67)],
)  # fmt: skip
def test_half_a_coin_of_another_size_is_rounded_up_whatever_floats_make_of_it(size, pack, cost, coins):
    assert price_of(need(PIPE, 1.0, METER), size, price("pipe", pack, METER, cost)) == coins


def test_enough_on_hand_costs_nothing():
    line = line_of(need(BLOCK, 10.0, RATIO), shop(pile=[on_hand("block-8-hollow", count=30)]))

    assert (line.on_hand, line.lots, line.cost, line.mass, line.left_over) == (10.0, (), 0, 0.0, 0.0)


def test_loose_stuff_without_a_price_comes_in_quarter_yards():
    line = line_of(need(SAND, 1.1 * YD3, CUBIC_METER), shop())

    assert line.lots[0].packs == 5
    assert "1/4 yd3" in line.notes[0]


@pytest.mark.parametrize(
    ("piece", "wanted", "length"),
    [(5.5, 9, 6), (6.0, 1, 6), (6.5, 1, 10), (6.5, 2, 10), (6.5, 3, 21), (4.9, 1, 6), (4.9, 2, 10), (10.2, 2, 21)],
)
def test_a_piece_comes_out_of_the_length_that_costs_least_of_it(piece, wanted, length):
    assert best_length(piece * FT, (6 * FT, 10 * FT, 21 * FT), wanted=wanted) == pytest.approx(length * FT)


def test_posts_are_one_to_a_length_or_two_where_it_fits_twice():
    assert lengths_for([2.0, 2.0, 2.0], [3.0]) == {3.0: 3}
    assert lengths_for([1.4, 1.4, 1.4], [3.0]) == {3.0: 2}
    assert lengths_for([1.5, 1.5], [3.0]) == {3.0: 2}  # the saw takes its share
    assert lengths_for([2.0, 0.9], [3.0]) == {3.0: 1}
    assert lengths_for([7.0], [3.0, 6.0]) == {7.0: 1}


def test_lengths_that_may_be_joined_leave_least_over():
    assert lengths_for_total(11.0, [3.0, 6.0]) == {6.0: 2}
    assert lengths_for_total(8.5, [3.0, 6.0]) == {3.0: 3}
    assert lengths_for_total(0.0, [3.0]) == {}


def test_pieces_come_from_the_pile_first_each_from_the_shortest_length_that_takes_it():
    cut, left = cut_from_pile([1.0, 2.0, 2.5], [2.2, 3.0, 1.1])

    assert cut == (2.5, 2.0, 1.0)
    assert left == ()
    assert cut_from_pile([2.0, 2.0], [3.9]) == ((2.0,), (2.0,))


def test_posts_are_bought_by_their_pieces_less_those_cut_from_the_pile():
    pieces = (9 * FT,) * 3
    line = line_of(
        need(PIPE, 27 * FT, METER, pieces=pieces),
        shop(prices=[price("pipe", FT, METER, 310)], pile=[on_hand("pipe", count=1, length=9.5 * FT)]),
    )

    assert line.on_hand == pytest.approx(9 * FT)
    assert [(lot.packs, round(lot.size / FT, 6), lot.price) for lot in line.lots] == [(2, 10.0, 3100)]
    assert line.mass == pytest.approx(20 * FT * 4.0)


def test_a_stocked_length_with_a_price_is_the_one_that_is_bought():
    line = line_of(need(PIPE, 9 * FT, METER, pieces=(9 * FT,)), shop(prices=[price("pipe", 21 * FT, METER, 4400)]))

    assert [(lot.packs, lot.price) for lot in line.lots] == [(1, 4400)]
    assert line.lots[0].size == pytest.approx(21 * FT)


def test_a_piece_longer_than_any_length_sold_is_told():
    line = line_of(need(PIPE, 8.0, METER, pieces=(8.0,)), shop())

    assert "longer than any length sold" in line.notes[0]
    assert line.bought == pytest.approx(8.0)


def test_mesh_is_bought_by_whole_rolls_and_weighs_by_its_height():
    mesh = kind("meshes", "welded-2x4-14ga")
    line = line_of(need(mesh, 150 * FT, METER), shop(prices=[price(mesh.name, 400 * FT**2, SQUARE_METER, 10_000)]))

    assert [(lot.packs, lot.says, lot.price) for lot in line.lots] == [(2, "roll", 10_000)]
    assert line.mass / LB == pytest.approx(200 * 4 * 0.154)


def test_one_part_roll_is_not_taken_twice():
    mesh = kind("meshes", "welded-2x4-14ga")
    lines = lines_of([need(mesh, 30.0, METER), need(mesh, 20.0, METER)], shop(pile=[on_hand(mesh.name, length=35.0)]))

    assert [line.on_hand for line in lines] == [30.0, 5.0]


def test_what_is_dug_on_site_is_gathered_not_bought():
    line = line_of(need(kind("materials", "clay-soil"), 2.0, CUBIC_METER), shop())

    assert line.category is Category.GATHERED
    assert (line.lots, line.cost, line.left_over) == ((), 0, 0.0)


def test_amounts_turn_into_each_other_only_by_known_figures():
    assert per(SAND, CUBIC_METER, KILOGRAM) == pytest.approx(SAND.value("bulk_density"))
    assert per(SAND, KILOGRAM, CUBIC_METER) == pytest.approx(1 / SAND.value("bulk_density"))
    assert per(BLOCK, RATIO, CUBIC_METER) is None
    assert category_of(BLOCK, RATIO) is Category.UNITS


def test_cards_and_take_off_meet_in_one_need_of_a_thing():
    mortar = quantity(kind("mixes", "mortar-plain"), 0.9, CUBIC_METER, layer="mortar", waste=0.5)
    bed = quantity(SAND, 0.25, CUBIC_METER, layer="footing", place="east/1a")
    cards = batch_cards([mortar], MIXING)
    needs = {need.kind.name: need for need in needs_of([mortar, bed], cards, {})}

    sand = needs["sand"]
    assert set(needs) == {"sand", "portland-cement"}
    assert sand.needed == pytest.approx(0.25 + 1.35 * 38 / 27 * 3 / 4)
    assert sand.net == pytest.approx(0.25 + 0.9 * 38 / 27 * 3 / 4)
    assert {(use.layer, use.place) for use in sand.uses} == {("footing", "east/1a"), ("mortar", "south/1a")}
    assert sum(use.amount for use in sand.uses) == pytest.approx(sand.needed)
    assert needs["portland-cement"].unit == KILOGRAM


def loads_of(*needs, haul=HAUL):
    return haulage(lines_of(needs, shop()), haul, 900)


def test_trips_are_as_many_as_the_mass_asks():
    hauled = loads_of(need(CEMENT, 20 * 94 * LB, KILOGRAM))  # 11 bags of 42.6 kg on each load of 500 kg

    assert hauled.trips == 2
    assert [round(load.mass / (94 * LB)) for load in hauled.loads] == [11, 9]
    assert hauled.governs == "mass"
    assert hauled.distance == 40_000.0
    assert hauled.cost == 1800


def test_a_small_bed_asks_for_more_trips_than_the_mass():
    hauled = loads_of(need(SAND, YD3, CUBIC_METER), haul=replace(HAUL, payload=2000.0, bed=0.2))

    assert hauled.trips == 4
    assert hauled.governs == "room"


def test_a_load_is_full_when_its_bed_is_though_it_could_carry_more():
    hauled = loads_of(need(CEMENT, 8 * 94 * LB, KILOGRAM), haul=replace(HAUL, payload=2000.0, bed=3.5 * FT3))

    assert [round(load.bulk / FT3) for load in hauled.loads] == [3, 3, 2]


def test_the_heaviest_go_first_and_small_things_fill_what_is_left():
    hauled = loads_of(need(BLOCK, 4.0, RATIO), need(CEMENT, 2 * 94 * LB, KILOGRAM), haul=replace(HAUL, payload=60.0))

    assert hauled.trips == 3  # a bag and a block twice, then two blocks
    assert [item.kind.name for item in hauled.loads[0].items] == ["portland-cement", "block-8-hollow"]


def test_a_heap_is_split_and_its_rest_rides_with_the_bags():
    hauled = loads_of(need(SAND, YD3 / 2, CUBIC_METER), need(CEMENT, 94 * LB, KILOGRAM))

    assert hauled.trips == 2
    assert {item.kind.name for item in hauled.loads[0].items} == {"sand"}
    assert {item.kind.name for item in hauled.loads[1].items} == {"sand", "portland-cement"}


def test_without_a_payload_no_trips_are_shown():
    hauled = loads_of(need(CEMENT, 94 * LB, KILOGRAM), haul=replace(HAUL, payload=None))

    assert (hauled.trips, hauled.cost, hauled.distance) == (None, None, None)
    assert hauled.mass == pytest.approx(94 * LB)


def test_very_many_trips_are_counted_but_not_listed():
    hauled = loads_of(need(CEMENT, 2e6, KILOGRAM))

    assert hauled.trips == pytest.approx(4000, rel=0.001)
    assert hauled.loads == ()


def test_water_is_for_mixing_washing_and_keeping_coats_wet():
    cards = batch_cards([quantity(kind("mixes", "mortar-S"), 1.0, CUBIC_METER, layer="mortar")], MIXING)
    water = water_for(cards, [Curing(says="finish", area=25.0, days=2.0)], HAUL, 100)

    assert water.mixing == pytest.approx(cards[0].water_to_add)
    assert water.washing == pytest.approx(0.25 * water.mixing)
    assert water.curing == pytest.approx(0.2)
    assert water.trips == 3
    assert water.cost == 300
    assert water.distance == 6000.0


def test_water_of_unknown_faces_is_not_counted():
    water = water_for([], None, replace(HAUL, tank=None), 100)

    assert (water.curing, water.trips, water.cost, water.distance) == (None, None, None, None)
    assert water.total == 0.0


def test_faces_kept_wet_are_those_that_were_coated(sample):
    layout, _, _ = sample
    finish = [line for line in take_off(layout) if line.kind.name == "plaster-finish"]
    wet = {face.says: face for face in curing_of(layout)}

    assert set(wet) == {"cement-scratch", "cement-finish"}
    assert wet["cement-finish"].area == pytest.approx(sum(line.net for line in finish) / (FT / 96))
    assert wet["cement-finish"].days == pytest.approx(2.0)


def test_posts_of_the_layout_are_bought_piece_by_piece(sample):
    layout, prices, _ = sample
    quantities = take_off(layout)
    gathered = gather(quantities, batch_cards(quantities, layout.plan.mixing), layout=layout, prices=prices)

    posts = [line for line in gathered.lines if line.kind.shelf == "posts"]
    assert sum(line.packs for line in posts) == len(layout.posts)
    assert all(lot.size >= 1.5 for line in posts for lot in line.lots)


def test_parts_say_how_a_thing_is_bought(sample):
    layout, prices, _ = sample
    bar = kind("bars", "#4")
    part = Part(mark="B1", says="bar", kind=bar, length=11 * FT, count=4, places=("south/1a",))
    gathered = gather([quantity(bar, 13.0, METER)], (), layout=layout, prices=prices, parts=[part])

    (line,) = gathered.lines
    assert line.needed == pytest.approx(44 * FT)
    assert line.packs == 4  # two of them in a 20 ft bar do not go
    assert sum(use.amount for use in line.uses) == pytest.approx(line.needed)


def test_rolls_of_each_height_stand_apart(sample):
    layout, prices, _ = sample
    quantities = take_off(layout)
    gathered = gather(quantities, (), layout=layout, prices=prices)

    mesh = {round(line.kind.value("roll_height") / FT, 3) for line in gathered.lines if line.category is Category.MESH}
    assert mesh == {4.0, 5.0}  # fence with its lap, mesh on the ground, gates and apron


def test_the_sample_lacks_nothing(sample):
    layout, prices, pile = sample
    quantities = take_off(layout)
    cards = batch_cards(quantities, layout.plan.mixing)
    gathered = gather(quantities, cards, layout=layout, prices=prices, pile=pile)

    assert gathered.unpriced == ()
    assert gathered.missing == ()
    assert [line.category for line in gathered.lines] == sorted(
        (line.category for line in gathered.lines), key=list(Category).index
    )
    assert sum(line.on_hand > 0 for line in gathered.lines) >= 6
    assert gathered.haulage.trips >= gathered.haulage.mass / layout.plan.haul.payload
    assert 0.001 < gathered.water.curing < 20


def test_what_is_not_known_is_told_not_guessed(sample):
    layout, _, _ = sample
    nothing = Haul(payload=None, bed=None, tank=None, shop_distance=None, water_distance=None)
    bare = replace(layout, plan=replace(layout.plan, haul=nothing))
    odd = Kind(name="odd", shelf="walls", figures={}, words={})
    lines = [quantity(odd, 3.0, RATIO), quantity(BLOCK, float("nan"), RATIO)]
    gathered = gather(lines, (), layout=bare, prices=NO_PRICES)

    assert gathered.unpriced == ("odd",)
    told = " | ".join(gathered.missing)
    for words in ("block-8-hollow, south/1a: not counted: x", "no mass is known for odd", "no payload", "no tank"):
        assert words in told
