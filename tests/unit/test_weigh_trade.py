"""What is given up for what, the front within limits, choosing and comparing plans, and what a plan hangs on."""

from __future__ import annotations

import shutil
from dataclasses import replace

import numpy as np
import pytest

from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_choose import choose, offered, undo
from pinfold.actions.weigh_plans import compare_plans, plans_compared
from pinfold.actions.weigh_trade import TradeAsked, trade_of, trade_shown, trade_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.findings import Verdict
from pinfold.plan.changes import Put
from pinfold.reports.pages import Paragraph
from pinfold.reports.weigh_amounts import Money
from pinfold.reports.weigh_between import between
from pinfold.reports.weigh_trade import miss_said, trade_page
from pinfold.store.plan_choose import text_with_choice
from pinfold.studies.weighing.between import TOLD, differences
from pinfold.studies.weighing.limits import Bound, Limit, Limits
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Option, Score, Weighed, not_shown
from pinfold.studies.weighing.trading import traded
from pinfold.studies.weighing.unsure_cost import cash
from pinfold.units import System

MONEY = Money("USD", 2)
HOUR = 3600.0


def option(
    name: str, *, verdict: Verdict = Verdict.HOLDS, unshown: tuple[str, ...] = (), **scores: float | None
) -> Weighed:  # fmt: skip
    return Weighed(
        option=Option(name=name, says=name, change=()), scores={key: Score(value=scores.get(key)) for key in
                                                               CRITERION_BY_KEY},
        verdict=verdict, governs="overturning, stretch south/1", complaints=(), unshown=unshown,
    )  # fmt: skip


def told(one: Weighed, other: Weighed) -> str:
    criteria = tuple(CRITERION_BY_KEY[key] for key in TOLD)
    return between(differences(one, other, criteria), System.METRIC, MONEY).replace("\u00a0", " ")


def test_what_is_given_up_for_what_is_told_in_words() -> None:
    dear = option("dear", cash_now=114_000, trips=1, cracking=0.04, hours=30 * HOUR)
    cheap = option("cheap", cash_now=90_000, trips=4, cracking=0.11, hours=30.1 * HOUR)
    assert told(dear, cheap) == "USD 240 cheaper, but three trips more and the chance of a crack rises from 4 % to 11 %"
    assert told(cheap, dear) == "three trips fewer and the chance of a crack drops from 11 % to 4 %, but USD 240 dearer"


def test_what_is_better_in_all_and_what_is_alike_say_so() -> None:
    one, two = option("one", cash_now=1000, trips=1), option("two", cash_now=2000, trips=2)
    assert told(two, one) == "USD 10 cheaper and one trip fewer, and nothing shown against it"
    assert told(one, two) == "USD 10 dearer and one trip more, and nothing shown for it"
    assert told(one, one) == "alike on all that is shown"
    assert told(one, option("three")) == "alike on all that is shown"


def test_every_criterion_that_is_told_has_words_for_both_ways() -> None:
    for key in TOLD:
        low = option("low", **{key: 0.2 if CRITERION_BY_KEY[key].shown == "share" else 7200.0})
        high = option("high", **{key: 0.6 if CRITERION_BY_KEY[key].shown == "share" else 36_000.0})
        assert told(low, high) != told(high, low)


def test_the_front_keeps_to_the_limits_and_the_rest_is_told_apart() -> None:
    options = [
        option("a", cash_now=100, hours=9.0), option("b", cash_now=200, hours=5.0), option("c", cash_now=210, hours=6.0),
        option("d", cash_now=None, hours=1.0), option("e", cash_now=900, hours=1.0),
        Weighed(option=Option(name="f", says="", change=()), scores={}, verdict=Verdict.FAILS, governs="", complaints=()),
    ]  # fmt: skip
    limit = Limit(CRITERION_BY_KEY["cash_now"], Bound.MOST, 500.0, "cash under 5")
    trade = traded(options, Limits(limits=(limit,)), ("cash_now", "hours"))
    assert (trade.front, trade.beaten, trade.unsure) == (("a", "b"), ("c",), ("d",))
    assert (trade.missing, trade.unbuilt, trade.nearest) == (("e",), ("f",), None)
    assert [(step.one, step.other) for step in trade.steps] == [("a", "b")]


def test_where_none_keeps_to_the_limits_the_nearest_miss_is_told() -> None:
    options = [option("a", cash_now=110_000), option("b", cash_now=150_000)]
    limit = Limit(CRITERION_BY_KEY["cash_now"], Bound.MOST, 100_000.0, "cash under 1000")
    trade = traded(options, Limits(limits=(limit,)), ("cash_now",))
    assert trade.nearest is not None
    assert (trade.options[trade.nearest.number].option.name, trade.nearest.shorts[0].by) == ("a", 10_000)


def test_what_must_hold_passes_only_where_all_of_it_is_shown_to_hold() -> None:
    options = [
        option("holds", margin=0.1), option("not shown", verdict=Verdict.NOT_SHOWN, margin=0.3),
        option("frost fails", verdict=Verdict.FAILS, margin=0.3), option("weak", verdict=Verdict.FAILS, margin=-0.2),
    ]  # fmt: skip
    trade = traded(options, Limits(holds=True), ("margin",))
    assert (trade.front, trade.unsure, trade.missing) == (("holds",), ("not shown",), ("frost fails", "weak"))


def test_what_the_plan_hides_of_every_option_is_no_pass_and_bars_none() -> None:
    hinge, cable = "hinge, gate cart", "clearance, cable"
    options = [
        option("alike", verdict=Verdict.NOT_SHOWN, unshown=(hinge,), margin=0.1),
        option("hides more", verdict=Verdict.NOT_SHOWN, unshown=(hinge, cable), margin=0.3),
        option("fails", verdict=Verdict.FAILS, unshown=(hinge,), margin=0.3),
    ]  # fmt: skip
    trade = traded(options, Limits(holds=True), ("margin",))
    page = " ".join(str(block) for block in trade_page("plot", trade, System.METRIC, MONEY).blocks)
    assert (trade.front, trade.unsure, trade.missing) == (("alike",), ("hides more",), ("fails",))
    assert trade.common == (hinge,)
    assert f"NOT SHOWN in any of them, so none is known to hold in it: {hinge}" in page
    assert "1 of 3 keep to the limits, as far as anything is shown of them" in page


def test_of_one_option_alone_nothing_passes_for_hidden_by_the_plan() -> None:
    alone = option("alone", verdict=Verdict.NOT_SHOWN, unshown=("hinge, gate cart",), margin=0.1)
    trade = traded([alone], Limits(holds=True), ("margin",))
    assert (trade.front, trade.unsure, trade.common) == ((), ("alone",), ())


def test_what_fails_is_no_bargain_even_where_nobody_asks_that_it_holds() -> None:
    options = [option("sound", cash_now=900), option("falls", verdict=Verdict.FAILS, cash_now=100)]
    trade = traded(options, Limits(), ("cash_now",))
    assert (trade.front, trade.failing, trade.beaten) == (("sound",), ("falls",), ())


def test_a_sample_tells_which_build_ups_hold_in_all_that_is_shown(tmp_path) -> None:
    start_site(tmp_path / "quinta", "quinta", {})
    trade = trade_of(open_site(tmp_path / "quinta"), TradeAsked(limits="must hold"))
    by_name = {each.option.name: each for each in trade.options}
    assert "hinge, gate cart gate" in trade.common
    assert trade.front
    for name in trade.front:
        assert by_name[name].verdict is Verdict.NOT_SHOWN
        assert set(by_name[name].unshown) == set(trade.common)


def test_what_misses_with_all_shown_is_nearer_than_what_hides_something() -> None:
    limit = Limit(CRITERION_BY_KEY["cash_now"], Bound.MOST, 100_000.0, "cash under 1000")
    hides = option("hides", cash_now=101_000, verdict=Verdict.NOT_SHOWN, margin=0.1)
    shows = option("shows", cash_now=150_000, margin=0.1)
    limits = Limits(limits=(limit,), holds=True)
    assert traded([hides, shows], limits, ("cash_now",)).nearest.number == 1
    trade = traded([hides], limits, ("cash_now",))
    assert trade.nearest.number == 0
    assert "NOT SHOWN whether it keeps to: must hold" in miss_said(trade, System.METRIC, MONEY)


@pytest.fixture(scope="module")
def garden(tmp_path_factory):
    folder = tmp_path_factory.mktemp("trade") / "garden"
    start_site(folder, "seed-garden", {})
    return folder


@pytest.fixture
def own(garden, tmp_path):
    return shutil.copytree(garden, tmp_path / "own")


def test_the_front_of_a_site_holds_nothing_that_another_betters(garden) -> None:
    trade = trade_of(open_site(garden), TradeAsked(limits="cash under 9000", criteria=("cash_now", "hours")))
    by_name = {each.option.name: each.scores for each in trade.options}
    rows = np.array([[by_name[name][key].value for key in ("cash_now", "hours")] for name in trade.front])
    assert (np.diff(rows[:, 0]) > 0).all()
    assert (np.diff(rows[:, 1]) < 0).all()
    assert (rows[:, 0] <= 900_000).all()


def test_what_would_mend_the_nearest_miss_was_tried_on_it(garden) -> None:
    asked = TradeAsked(limits="cash under 3000; must hold", names=("mesh on the ground",))
    trade = trade_of(open_site(garden), asked)
    assert trade.options[trade.nearest.number].option.name == "mesh on the ground"
    ways = [mend for each in trade.mended for mend in each.mends]
    assert any("deeper" in mend.says for mend in ways)


def test_the_picture_reads_without_color_and_says_what_it_shows(garden) -> None:
    shown = trade_shown(garden, TradeAsked(limits="cash under 9000"))
    assert 'class="front"' in shown.picture
    assert 'class="missing"' in shown.picture
    assert 'role="img"' in shown.picture
    assert "bettered by none" in shown.picture
    assert "<ol>" in shown.picture


def test_what_is_asked_and_cannot_be_read_is_told_all_at_once(garden) -> None:
    with pytest.raises(InvalidPlan, match="2 complaints"):
        trade_site(garden, TradeAsked(limits="gold under 3", criteria=("beauty",)))


def test_a_choice_is_written_with_comments_kept_and_undone_to_the_byte(own) -> None:
    plan = own / "plan.toml"
    before = plan.read_bytes()
    offer = offered(own, "mesh-on-driven-posts")
    assert plan.read_bytes() == before
    assert "cheaper" in offer.told
    told_ = choose(own, offer.name, revision=offer.revision)
    text = plan.read_text(encoding="utf-8")
    assert "undo" in told_
    assert 'buildup = "mesh-on-driven-posts" # before: block and mesh' in text
    assert '[buildup."block and mesh".footing]' in text
    lost = [line for line in before.decode().splitlines() if "#" in line and line not in text.splitlines()]
    assert lost == []
    assert {run.buildup for _, run in open_site(own).plan.runs if run.buildup} == {"mesh-on-driven-posts"}
    with pytest.raises(InputError, match="changed since"):
        choose(own, "adobe", revision=offer.revision)
    undo(own)
    assert plan.read_bytes() == before
    undo(own)
    assert plan.read_text(encoding="utf-8") == text


def test_writing_what_fails_says_in_what(own) -> None:
    assert "It FAILS in" in choose(own, "mesh on the ground")
    assert "FAILS" not in choose(own, "mesh-on-collared-posts")


def test_a_choice_that_makes_no_plan_is_refused_whole(own, monkeypatch) -> None:
    before = (own / "plan.toml").read_bytes()
    bad = Option(name="bad", says="bad", change=(Put(("buildup", "block and mesh", "posts", "spacing"), "soon"),))
    monkeypatch.setattr("pinfold.actions.weigh_choose._option", lambda site, name: bad)
    with pytest.raises(InvalidPlan, match="spacing"):
        choose(own, "bad")
    assert (own / "plan.toml").read_bytes() == before
    assert not (own / "plan-before.toml").exists()


def test_nothing_can_be_chosen_that_is_not_there_and_nothing_undone_that_was_not_done(own) -> None:
    with pytest.raises(NotFoundError, match="no build-up called"):
        choose(own, "marble")
    with pytest.raises(InputError, match="as it stands"):
        choose(own, "as planned")
    with pytest.raises(NotFoundError, match="nothing to undo"):
        undo(own)


def test_a_build_up_that_a_choice_changes_is_kept_under_another_name(own) -> None:
    text = (own / "plan.toml").read_text(encoding="utf-8")
    put = Put(("buildup", "block and mesh", "wall", "height"), "2 ft")
    once = text_with_choice(text, (put,))
    assert '"block and mesh, before"' in once
    assert 'height = "2 ft 8 in"' in once.split('"block and mesh, before"', 1)[1]
    assert '"block and mesh, before 2"' in text_with_choice(once, (put,))


def test_two_plans_are_compared_on_all_criteria(own) -> None:
    choose(own, "mesh-on-driven-posts")
    site = open_site(own)
    answer = compare_plans(own, own / "plan-before.toml")
    found = answer.record
    assert found.one.scores["cement"].value < found.other.scores["cement"].value
    assert found.other.option.name == "Seed garden, the other"
    assert not found.notes
    same = plans_compared(site, site)
    assert same.differences == ()


def test_money_of_another_currency_is_not_compared(own, tmp_path) -> None:
    start_site(tmp_path / "quinta", "quinta", {})
    found = compare_plans(own, tmp_path / "quinta").record
    assert found.other.scores["cash_now"].value is None
    assert any("EUR" in note for note in found.notes)
    with pytest.raises(NotFoundError, match="no site folder and no plan file"):
        compare_plans(own, tmp_path / "nowhere")


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_cash_on_arrays_is_the_planned_cost_where_nothing_is_doubted(sample, tmp_path) -> None:
    start_site(tmp_path / "site", sample, {})
    site = open_site(tmp_path / "site")
    counted = reckon_all(site)
    found = cash(counted.gathered, site.lessons.prices, site.plan.haul, {})
    assert found == pytest.approx([counted.costs.total])


def test_dearer_and_more_wasteful_never_costs_less(garden) -> None:
    site = open_site(garden)
    gathered, prices, haul = reckon_all(site).gathered, site.lessons.prices, site.plan.haul
    rising = np.linspace(0.5, 2.0, 40)
    for key in ("price of portland-cement", "trip", "waste"):
        assert (np.diff(cash(gathered, prices, haul, {key: rising})) >= 0).all()
    assert (np.diff(cash(gathered, prices, haul, {"yield": rising})) <= 0).all()


def test_each_side_says_what_it_had_last_and_its_runs_too(tmp_path) -> None:
    start_site(tmp_path / "site", "quinta", {})
    plan = tmp_path / "site" / "plan.toml"
    for name in ("adobe", "brick"):
        choose(tmp_path / "site", name)
    lines = plan.read_text(encoding="utf-8").splitlines()

    assert [line for line in lines if "# before:" in line] == [
        *['buildup = "brick" # before: adobe'] * 4,
        "] # before: adobe, adobe",
    ]


def test_what_no_build_up_shows_says_once_why_and_one_alone_is_no_choice() -> None:
    unpriced = not_shown("no price for sand; no price for lime")
    options = [option("a", hours=9.0), option("b", hours=8.0)]
    options = [replace(each, scores={**each.scores, "cash_now": unpriced}) for each in options]
    page = trade_page("Plot", traded(options, Limits(), ("cash_now", "hours")), System.METRIC, MONEY)
    told_ = [block.text for block in page.blocks if isinstance(block, Paragraph)]

    assert told_ == [
        "Traded off: cash now, hours. One is bettered by none.",
        "NOT SHOWN by any of them and left out: cash now. In all of them: no price for sand; no price for lime.",
        "Within the limits and bettered by another: a.",
    ]


def test_whom_the_gates_let_in_bars_no_build_up_and_is_named(tmp_path) -> None:
    """The gates are the same in all: whom the fence keeps out is held against the limit, and the gates are told."""
    start_site(tmp_path / "garden", "seed-garden", {})
    site = open_site(tmp_path / "garden")
    asked = TradeAsked(limits="small dogs out", criteria=("cash_now", "tightness"), names=("dry-stone",))

    trade = trade_of(site, asked)
    kept = {each.option.name: each.kept[0] for each in trade.options}
    page = " ".join(block.text for block in trade_page("x", trade, System.US, MONEY).blocks if hasattr(block, "text"))

    assert {each.scores["tightness"].value for each in trade.options} <= {0.0, 1.0}
    for each in trade.options:
        assert each.scores["tightness"].value == float(bool(kept[each.option.name].fence_out))
        assert (each.option.name in (*trade.front, *trade.beaten)) == bool(kept[each.option.name].fence_out)
    assert trade.front
    assert trade.let_in == ("small dog: under cart gate",)
    assert "NOT kept out as a whole" in page
    assert "as far as wall, mesh and ground go" in page


@pytest.mark.parametrize("limits", ["", "must hold"])
def test_a_leaf_or_a_neighbor_that_fails_in_all_bars_none_and_is_named_as_failing(tmp_path, limits: str) -> None:
    start_site(tmp_path / "garden", "seed-garden", {})
    asked = TradeAsked(limits=limits, criteria=("cash_now",), names=("mesh-on-collared-posts", "earth-block"))
    sound = trade_of(open_site(tmp_path / "garden"), asked)
    plan = tmp_path / "garden" / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8").replace('pad_below = "30 in"', 'pad_below = "4 in"'),
                    encoding="utf-8")  # fmt: skip

    trade = trade_of(open_site(tmp_path / "garden"), asked)
    page = " ".join(block.text for block in trade_page("x", trade, System.US, MONEY).blocks if hasattr(block, "text"))

    assert sound.front
    assert (trade.front, trade.beaten, trade.failing, trade.unsure) == (
        sound.front, sound.beaten, sound.failing, sound.unsure,
    )  # fmt: skip
    assert trade.in_all == ("frost, neighbor seed shed",)
    assert all(each.fails for each in trade.options)
    assert "FAILS in all of them, whatever is chosen: frost, neighbor seed shed" in page
    assert "All else holds" not in page


def test_what_fails_of_ones_own_still_bars_and_so_does_a_leaf_that_fails_in_some() -> None:
    leaf = "hinge, gate foot gate"
    one, two, three = (option(name, verdict=Verdict.FAILS, cash_now=number, margin=0.2) for number, name in
                       enumerate(("one", "two", "three"), start=1))  # fmt: skip
    both = (replace(one, given=(leaf,), only_given=True), replace(two, given=(leaf,)))
    some = (replace(one, given=(leaf,), only_given=True), replace(three, given=(), verdict=Verdict.HOLDS))

    assert traded(both, Limits(), ("cash_now",)).failing == ("two",)
    assert traded(both, Limits(holds=True), ("cash_now",)).front == ("one",)
    assert traded(some, Limits(), ("cash_now",)).failing == ("one",)
    assert traded(some, Limits(holds=True), ("cash_now",)).front == ("three",)


def test_of_the_nearest_what_is_its_own_is_told_before_what_fails_in_all() -> None:
    leaf = "hinge, gate foot gate"
    each = tuple(
        replace(option(name, verdict=Verdict.FAILS, cash_now=1, margin=0.2), given=(leaf,),
                complaints=(f"FAILS: {leaf} (a stouter hinge)", "FAILS: frost, stretch south/1 (deeper)"))
        for name in ("one", "two")
    )  # fmt: skip

    trade = traded(each, Limits(holds=True), ("cash_now",))

    assert trade.in_all == (leaf,)
    assert "frost, stretch south/1" in miss_said(trade, System.METRIC, MONEY)
    assert leaf not in miss_said(trade, System.METRIC, MONEY)
