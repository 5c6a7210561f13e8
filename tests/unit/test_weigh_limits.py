"""Limits in plain words, and options held against them."""

from __future__ import annotations

import contextlib

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import InvalidPlan
from pinfold.plan.stock import NO_PRICES, Prices
from pinfold.studies.weighing.limits import Bound, limits_of
from pinfold.studies.weighing.misses import held_against, past
from pinfold.studies.weighing.records import CRITERIA
from pinfold.units import System

PRICES = Prices(currency="USD", digits=2, trip=None, water_trip=None, by_item={})


def read(text: str, *, prices: Prices = PRICES, system: System = System.METRIC):
    return limits_of(text, prices=prices, system=system)


@pytest.mark.parametrize(
    ("text", "key", "bound", "value"),
    [
        ("cash under 900", "cash_now", Bound.MOST, 90_000),
        ("cash under USD 899.50", "cash_now", Bound.MOST, 89_950),
        ("under 300 cash", "cash_now", Bound.MOST, 30_000),
        ("it costs at most 900 usd", "cash_now", Bound.MOST, 90_000),
        ("no more than two trips", "trips", Bound.MOST, 2),
        ("Trips <= 3", "trips", Bound.MOST, 3),
        ("no trips", "trips", Bound.MOST, 0),
        ("water under 2000 l", "water", Bound.MOST, 2.0),
        ("water below 1 m3", "water", Bound.MOST, 1.0),
        ("built in 20 days", "days", Bound.MOST, 20),
        ("done within three weeks", "days", Bound.MOST, 21),
        ("at most 120 hours", "hours", Bound.MOST, 432_000),
        ("cement under 400 kg", "cement", Bound.MOST, 400),
        ("cracks under 5 %", "cracking", Bound.MOST, 0.05),
        ("at least 10 % to spare", "margin", Bound.LEAST, 0.1),
        ("lasts 20 years", "life", Bound.LEAST, 20),
        ("life over 15 years", "life", Bound.LEAST, 15),
        ("cost per meter under 30", "cost_per_length", Bound.MOST, 3000),
        ("cost per foot under 30", "cost_per_length", Bound.MOST, 3000 / 0.3048),
        ("upkeep under 10 h", "upkeep", Bound.MOST, 36_000),
        ("tools at most one", "tools", Bound.MOST, 1),
        ("reclaimed at least 50 %", "reclaimable", Bound.LEAST, 0.5),
    ],
)
def test_a_limit_reads_as_a_builder_says_it(text: str, key: str, bound: Bound, value: float) -> None:
    (limit,) = read(text).limits
    assert (limit.criterion.key, limit.bound, limit.value) == (key, bound, pytest.approx(value))
    assert limit.text == text


def test_several_limits_stand_in_one_line_or_in_several() -> None:
    found = read("cash under 900, no more than two trips; rabbits out and must hold\nwater under 500 gal")
    assert [limit.criterion.key for limit in found.limits] == ["cash_now", "trips", "water"]
    assert found.holds
    assert found.animals == ("young-rabbit", "rabbit")
    assert [limit.text for limit in found.all[-2:]] == ["must hold", "young rabbit, rabbit out"]


@pytest.mark.parametrize(("text", "animals"), [
    ("goats out", ("goat",)), ("no foxes in", ("fox",)), ("keep mice out", ("mouse",)), ("dogs kept out", ("small-dog",)),
    ("small dogs out", ("small-dog",)), ("sheep out", ("sheep",)),
])  # fmt: skip
def test_animals_are_named_in_plain_words(text: str, animals: tuple[str, ...]) -> None:
    assert read(text).animals == animals


def test_nothing_asked_limits_nothing() -> None:
    assert read("  ").all == ()
    assert held_against({"cash_now": np.array([1.0, np.nan])}, ()).kept.all()


@pytest.mark.parametrize(("text", "words"), [
    ("cash under 900 EUR", "not the currency of the price list; limits are read in USD"),
    ("wombats out", "nobody that pinfold knows; there are: mouse"),
    ("water under 2000", "has no unit; write it like '2000 L'"),
    ("days under 2,5", "has a comma"),
    ("cash under 1,200", "has a comma"),
    ("gold under 3", "nothing that build-ups are weighed on; there are: cash now"),
    ("cracks under 500 %", "more than all of it"),
    ("two trips", "no limit can be made out; write one like"),
    ("trips under 2.5", "a whole number is wanted"),
    ("cash under 9.999", "at most 2 decimals"),
    ("water under 3 kg", "a volume is wanted"),
    ("life over 3 hours", "such as '20 years'"),
    ("cash under", "no amount; write one, such as 900"),
    ("cash under -3", "no amount of money"),
    ("water under nan L", "is wanted"),
    ("cash over 900; cash under 800", "leave nothing between them"),
])  # fmt: skip
def test_what_cannot_be_read_is_told_with_what_was_wanted(text: str, words: str) -> None:
    with pytest.raises(InvalidPlan, match="1 complaint") as refused:
        read(text)
    assert words in refused.value.problems[0].message


def test_all_complaints_come_at_once() -> None:
    with pytest.raises(InvalidPlan, match="3 complaints"):
        read("gold under 3, cash under 900, wombats out, water under 5")
    with pytest.raises(InvalidPlan, match="at most 40"):
        read("no trips," * 41)


def test_without_a_price_list_money_has_no_currency() -> None:
    assert read("cash under 900", prices=NO_PRICES).limits[0].value == 90_000
    with pytest.raises(InvalidPlan, match="the price list names none"):
        read("cash under 900 USD", prices=NO_PRICES)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    with contextlib.suppress(InvalidPlan):
        read(text)


def test_every_criterion_can_be_limited_by_the_words_of_its_heading() -> None:
    amounts = {"volume": "1 m3", "mass": "5 kg", "time": "5 h", "plain number": "1"}
    for criterion in CRITERIA:
        (limit,) = read(f"{criterion.says} under {amounts[criterion.unit.kind]}").limits
        assert limit.criterion is criterion


def columns(cash: list[float], trips: list[float]) -> dict[str, np.ndarray]:
    return {"cash_now": np.array(cash), "trips": np.array(trips)}


def test_options_are_kept_missed_or_not_shown() -> None:
    limits = read("cash under 900, at most two trips").all
    nan = float("nan")
    found = held_against(columns([80_000, 95_000, nan, nan, 91_000], [2, 1, 1, 3, 4]), limits)
    assert found.kept.tolist() == [True, False, False, False, False]
    assert found.unsure.tolist() == [False, False, True, False, False]
    assert found.nearest is not None
    assert found.nearest.number == 1
    (short,) = found.nearest.shorts
    assert (short.limit.text, short.by) == ("cash under 900", 5000)
    assert found.nearest.share == pytest.approx(5000 / 90_000)


def test_what_keeps_to_its_limit_exactly_keeps_to_it() -> None:
    assert held_against(columns([90_000], [2]), read("cash under 900, at most two trips").all).kept.all()


def test_nothing_is_nearest_where_nothing_misses_or_nothing_is_shown() -> None:
    nan = float("nan")
    limits = read("cash under 900").all
    assert held_against(columns([1.0], [1]), limits).nearest is None
    assert held_against(columns([nan], [1]), limits).nearest is None


NUMBERS = st.lists(st.one_of(st.just(float("nan")), st.floats(0, 200_000)), min_size=1, max_size=30)


@given(cash=NUMBERS, most=st.integers(1, 1500))
def test_wider_limits_keep_no_fewer_and_the_nearest_miss_is_kept_once_its_miss_is_given(
    cash: list[float], most: int
) -> None:
    table = columns(cash, [1.0] * len(cash))
    limits = read(f"cash under {most}").all
    found = held_against(table, limits)
    assert not (found.kept & ~held_against(table, read(f"cash under {most + 5}").all).kept).any()
    assert (past(table, limits)[found.kept] <= most * 1e-7).all()
    if found.nearest is not None:
        mended = [limits[0]._replace(value=limits[0].value + found.nearest.shorts[0].by)]
        assert held_against(table, mended).kept[found.nearest.number]
