"""What is supposed, in plain words, and what it does to plan, prices and pile."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_what_if import supposed_at, with_supposed
from pinfold.errors import InvalidPlan
from pinfold.reports.weigh_amounts import Money
from pinfold.reports.weigh_what_if import what_if_page
from pinfold.studies.weighing.what_if import Supposed, Times, plan_with, prices_with, together
from pinfold.studies.weighing.what_if_words import supposed_of
from pinfold.units import System


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("what-if") / "quinta"
    start_site(folder, "quinta", {})
    return open_site(folder)


def read(site, *texts: str) -> tuple[Supposed, ...]:
    kinds = dict.fromkeys(line.kind for line in reckon_all(site).gathered.lines)
    return supposed_of(texts, plan=site.plan, prices=site.lessons.prices, items=kinds).supposed


@pytest.mark.parametrize(("text", "expected"), [
    ("cement +20 %", {"prices": (Times("portland-cement", Fraction(6, 5)),)}),
    ("cement -10%", {"prices": (Times("portland-cement", Fraction(9, 10)),)}),
    ("cement 20 % dearer", {"prices": (Times("portland-cement", Fraction(6, 5)),)}),
    ("cement twice as dear", {"prices": (Times("portland-cement", Fraction(2)),)}),
    ("fuel +50 %", {"prices": (Times("trip", Fraction(3, 2)),)}),
    ("wind one up", {"classes": 1}),
    ("wind one class down", {"classes": -1}),
    ("wind +10 %", {"wind": 1.1}),
    ("sand twice as far", {"ways": (Times("sand", Fraction(2)),)}),
    ("the shop half as far", {"ways": (Times("trip", Fraction(1, 2)),)}),
    ("water 3 times as far", {"ways": (Times("water", Fraction(3)),)}),
    ("a helper less", {"people": -1}),
    ("two helpers more", {"people": 2}),
    ("alone", {"crew": 1}),
    ("with 3 people", {"crew": 3}),
    ("sand half off the pile", {"from_pile": (Times("sand", Fraction(1, 2)),)}),
    ("half of the sand from the pile", {"from_pile": (Times("sand", Fraction(1, 2)),)}),
    ("30 % of the sand off the pile", {"from_pile": (Times("sand", Fraction(3, 10)),)}),
])  # fmt: skip
def test_what_is_supposed_reads_as_a_builder_says_it(site, text: str, expected: dict[str, object]) -> None:
    (found,) = read(site, text)
    assert found == Supposed(says=text, **expected)  # type: ignore[arg-type]


def test_posts_are_all_kinds_of_posts_that_the_plan_needs(site) -> None:
    (found,) = read(site, "posts half off the pile")
    assert {times.what for times in found.from_pile} == {"pipe-60", "wood-round-5", "wood-round-6"}


@pytest.mark.parametrize(("text", "words"), [
    ("gold +3 %", "the plan needs nothing called 'gold'; it needs: "),
    ("wind six up", "has no class so far up"),
    ("five helpers less", "nobody would be left"),
    ("cement -200 %", "from nothing to a hundred times as much"),
    ("cement", "cannot be read; write one like 'cement +20 %'"),
    ("", "cannot be read"),
    ("sand 0 % off the pile", "above nothing"),
    ("0 people", "from 1 to 100"),
])  # fmt: skip
def test_what_cannot_be_supposed_is_told_with_what_was_wanted(site, text: str, words: str) -> None:
    with pytest.raises(InvalidPlan) as refused:
        read(site, text)
    assert words in refused.value.problems[0].message


def test_all_complaints_come_at_once_and_too_much_is_refused(site) -> None:
    with pytest.raises(InvalidPlan, match="2 complaints"):
        read(site, "gold +3 %", "cement +20 %", "nobody")
    with pytest.raises(InvalidPlan, match="at most 12"):
        read(site, *["cement +20 %"] * 13)
    with pytest.raises(InvalidPlan, match="nothing is supposed"):
        supposed_at(site, (), ())


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    from pinfold.errors import InputError
    from pinfold.studies.weighing import what_if_words

    try:
        what_if_words._one(text, " ".join(text.lower().split()), _nothing())
    except InputError as refused:
        message = refused.message
    else:
        message = "read"
    assert message


def _nothing():
    from pathlib import Path

    from pinfold.plan.stock import NO_PRICES
    from pinfold.store.planfile import read_plan
    from pinfold.studies.weighing.what_if_words import _Known

    plan = Path(__file__).parents[2] / "src/pinfold/store/samples/quinta/plan.toml"
    return _Known(read_plan(plan), NO_PRICES, ())


def test_nothing_supposed_changes_nothing(site) -> None:
    same = with_supposed(site, Supposed(says="as it is"))
    assert same.plan == site.plan
    assert same.lessons.prices == site.lessons.prices
    assert reckon_all(same).costs == reckon_all(site).costs


def test_dearer_cement_costs_its_share_to_the_coin(site) -> None:
    (dearer,) = read(site, "cement +20 %")
    line = next(each for each in reckon_all(site).gathered.lines if each.kind.name == "portland-cement")
    before, after = reckon_all(site).costs.total, reckon_all(with_supposed(site, dearer)).costs.total
    lot = line.lots[0]
    assert lot.price is not None
    assert (
        after - before == line.packs * (Fraction(lot.price) * Fraction(6, 5) + Fraction(1, 2)).__floor__() - line.cost
    )


def test_what_lies_on_the_pile_is_not_bought(site) -> None:
    (half,) = read(site, "posts half off the pile")
    (all_,) = read(site, "posts all off the pile")
    costs = [reckon_all(with_supposed(site, each)).costs.goods for each in (Supposed(says=""), half, all_)]
    assert costs[0] > costs[1] > costs[2]
    posts = [line for line in reckon_all(with_supposed(site, all_)).gathered.lines if line.kind.shelf == "posts"]
    assert all(not line.lots for line in posts)


def test_sand_from_farther_costs_the_way_of_its_loads(site) -> None:
    kinds = {line.kind for line in reckon_all(site).gathered.lines}
    (far,) = read(site, "sand twice as far")
    before, after = site.lessons.prices, prices_with(site.lessons.prices, site.plan, kinds, far)
    assert after.by_item["sand"].cost > before.by_item["sand"].cost
    assert after.by_item["sand"].cost - before.by_item["sand"].cost <= before.trip
    assert {name for name in before.by_item if before.by_item[name] != after.by_item[name]} == {"sand"}
    assert after.trip == before.trip


def test_wind_and_people_go_up_and_down_again(site) -> None:
    up, down = read(site, "wind one up", "wind one down")
    assert plan_with(plan_with(site.plan, up), down) == site.plan
    less, more = read(site, "a helper less", "a helper more")
    assert plan_with(plan_with(site.plan, less), more) == site.plan
    assert plan_with(site.plan, together((less, more))).people == site.plan.people


def test_all_of_it_together_is_the_last_and_money_adds_up(site) -> None:
    found = supposed_at(site, ("cement +20 %", "fuel +50 %"), ())
    assert [each.says for each in found.each] == ["cement +20 %", "fuel +50 %", "all together"]
    start, *rest = (of[0].scores["cash_now"].value for of in (found.before, *(each.after for each in found.each)))
    assert rest[2] - start == pytest.approx(rest[0] - start + rest[1] - start, abs=1)


def test_a_helper_less_takes_longer_and_no_more_hours(site) -> None:
    found = supposed_at(site, ("a helper less",), ())
    before, after = found.before[0].scores, found.each[0].after[0].scores
    assert after["days"].value > before["days"].value
    assert after["hours"].value == before["hours"].value


def test_more_wind_leaves_less_to_spare(site) -> None:
    found = supposed_at(site, ("wind +10 %",), ("adobe",))
    for before, after in zip(found.before, found.each[0].after, strict=True):
        assert after.scores["margin"].value < before.scores["margin"].value
        assert after.scores["cash_now"] == before.scores["cash_now"]


# --- something is missing ----------------------------------------------------------------------------------------------


def without_price(site, name: str):
    """The site with one price taken out."""
    return replace(site, prices=replace(site.prices, by_item={
        item: price for item, price in site.prices.by_item.items() if item != name
    }))  # fmt: skip


def text_of(found) -> str:
    page = what_if_page("x", found, System.METRIC, Money("EUR", 2))
    return " ".join(block.text for block in page.blocks if hasattr(block, "text"))


@pytest.mark.parametrize("lacks", ["sand +20 %", "sand twice as far", "sand costs half as much"])
def test_one_change_without_a_price_is_named_and_the_rest_is_answered(site, lacks: str) -> None:
    found = supposed_at(without_price(site, "sand"), (lacks, "a helper less"), ())

    assert [each.says for each in found.each] == ["a helper less"]
    assert [(each.says, "no price is known for sand" in each.because) for each in found.lacking] == [(lacks, True)]
    told = text_of(found)
    assert f"NOT SHOWN what '{lacks}' would do: no price is known for sand" in told
    assert told.count("as planned: cash now NOT SHOWN, before and after: no price for") == 1


def test_what_the_price_list_or_the_plan_leaves_out_is_lacking_and_what_cannot_be_read_refuses(site) -> None:
    bare = replace(site, prices=replace(site.prices, trip=None))

    assert [each.because for each in supposed_at(bare, ("fuel +50 %", "wind one up"), ()).lacking] == [
        "the price list gives no cost of such a trip; write trip into prices.toml"
    ]
    with pytest.raises(InvalidPlan, match="no cost of such a trip"):
        supposed_at(bare, ("fuel +50 %",), ())
    with pytest.raises(InvalidPlan, match="gold") as refused:
        supposed_at(bare, ("fuel +50 %", "gold +3 %", "a helper less"), ())
    assert [problem.place for problem in refused.value.problems] == ["'gold +3 %'", "'fuel +50 %'"]
