"""Price list and pile: money exact, every complaint with its place."""

from __future__ import annotations

import pytest

from pinfold.errors import InvalidPlan, NewerFileError
from pinfold.plan.stock import NO_PRICES
from pinfold.store import pile, prices

GOOD = """
format = 1
currency = "USD"
trip = 22.40
[price.portland-cement]
pack = "94 lb"
cost = 17.85
[price.block-8-hollow]
cost = "2.35"
"""


def test_money_is_exact():
    read = prices.prices_of(GOOD)

    assert (read.currency, read.trip) == ("USD", 2240)
    assert read.by_item["portland-cement"].cost == 1785
    assert read.by_item["portland-cement"].pack == pytest.approx(42.63768278)
    assert (read.by_item["block-8-hollow"].cost, read.by_item["block-8-hollow"].pack) == (235, 1.0)


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("cost = 17.85", "cost = 17.855", "price.portland-cement.cost"),
        ("cost = 17.85", "cost = -1", "price.portland-cement.cost"),
        ("cost = 17.85", "cost = true", "price.portland-cement.cost"),
        ("cost = 17.85", "", "price.portland-cement.cost"),
        ("cost = 17.85", 'cost = "1e99999"', "price.portland-cement.cost"),
        ("cost = 17.85", 'cost = "1e9999999"', "price.portland-cement.cost"),
        ('pack = "94 lb"', 'pack = "94 blb"', "price.portland-cement.pack"),
        ('pack = "94 lb"', 'pack = "0 lb"', "price.portland-cement.pack"),
        ('pack = "94 lb"', 'pak = "94 lb"', "price.portland-cement.pak"),
        ("format = 1", "format = 0", "format"),
        ('currency = "USD"', "", "currency"),
    ],
)
def test_each_mistake_in_the_price_list_is_told(old, new, place):
    with pytest.raises(InvalidPlan) as stopped:
        prices.prices_of(GOOD.replace(old, new))

    assert [problem.place for problem in stopped.value.problems] == [place]


def test_a_later_price_list_asks_for_a_newer_pinfold():
    with pytest.raises(NewerFileError, match="newer pinfold"):
        prices.prices_of(GOOD.replace("format = 1", "format = 9"))


def test_a_name_that_is_no_item_is_told_with_the_nearest():
    with pytest.raises(InvalidPlan, match="did you mean portland-cement"):
        prices.prices_of(GOOD.replace("portland-cement", "portland-cemnt"))
    with pytest.raises(InvalidPlan, match=r"line 2: .*no item pinfold knows"):
        pile.pile_of("item,count\nzeppelin,1\n")


def test_no_price_list_is_no_mistake(tmp_path):
    assert prices.read_prices(tmp_path / "prices.toml") == NO_PRICES
    assert pile.read_pile(tmp_path / "pile.csv") == ()


def test_the_pile_reads_counts_lengths_and_amounts():
    read = pile.pile_of(
        'item,count,length,amount,note\npipe-2in,6,7 ft 2 in,,two bent\nsand,,,600 lb,\n"wire-3mm",,30 m,,\n'
    )

    assert [(piece.item, piece.count) for piece in read] == [("pipe-2in", 6), ("sand", 1), ("wire-3mm", 1)]
    assert read[0].length == pytest.approx(86 * 0.0254)
    assert read[1].amount == pytest.approx(600 * 0.45359237)
    assert read[0].note == "two bent"


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("item,count\npipe-2in,many\n", "line 2: count"),
        ("item,length\npipe-2in,7\n", "line 2: .*unit"),
        ("item,amount\nsand,-3 kg\n", "line 2: .*above nothing"),
        ("item,amount\n,3 kg\n", "line 2: no item"),
        ("thing,count\nx,1\n", "lacks item"),
        ("item,colour\nx,red\n", "no such column"),
        ('item\n"open\n', "CSV"),
        ("garbage\n", "lacks item"),
    ],
)
def test_each_mistake_in_the_pile_is_told(text, word):
    with pytest.raises(InvalidPlan, match=word):
        pile.pile_of(text)
