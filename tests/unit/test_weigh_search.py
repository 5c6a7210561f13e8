"""The search over build-ups finds what one plan after the other would be found to be, and to cost to the coin."""

import random
import re
import threading
import time
from dataclasses import replace
from functools import partial

import numpy as np
import pytest
from click.testing import CliRunner

from pinfold.actions import weigh_searching
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_options import own_pace, subject_of
from pinfold.actions.weigh_search import SearchAsked, scene_of, search_of, vetted
from pinfold.actions.weigh_searching import search_shown
from pinfold.cli.commands import pinfold
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.findings import Finding
from pinfold.reports.weigh_search import search_page
from pinfold.studies.gathering.lines import Shop
from pinfold.studies.gathering.packs import lengths_for_each, lengths_for_total, whole_packs, whole_packs_each
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing import goods, searching
from pinfold.studies.weighing.asking import Cannot
from pinfold.studies.weighing.axes import AXES, Axis, Choice, lengths, narrowed, table_of
from pinfold.studies.weighing.beginning import begun
from pinfold.studies.weighing.checked import checked
from pinfold.studies.weighing.goods import goods_tables
from pinfold.studies.weighing.groups import groups_of_checks
from pinfold.studies.weighing.guards import guards_of, kept_out_by, tightness_of
from pinfold.studies.weighing.judging import SCORERS
from pinfold.studies.weighing.keeping_out import kept_out
from pinfold.studies.weighing.limits import limits_of
from pinfold.studies.weighing.priced import priced
from pinfold.studies.weighing.searching import answered, at_prices, searched
from pinfold.studies.weighing.subject import Asked
from pinfold.studies.weighing.tables import Table, joined, picked, tabled
from pinfold.studies.weighing.uses import part_of, uses_of
from pinfold.tables.shelf import shelf
from pinfold.units import System

SAMPLES = ("seed-garden", "quinta")
FEW = {"wall": 2, "wall-height": 2, "footing": 2, "coats": 2, "fence-height": 2, "posts": 2, "spacing": 2, "embed": 2,
       "rails": 2, "mesh": 2}  # fmt: skip
TRIED = 150
LONG = 300.0


def site_of(name, folder):
    start_site(folder / name, name, {})
    return open_site(folder / name)


@pytest.fixture(scope="module", params=SAMPLES)
def site(request, tmp_path_factory):
    return site_of(request.param, tmp_path_factory.mktemp("sites"))


@pytest.fixture(scope="module")
def scene(site):
    whole = scene_of(site)
    return replace(whole, axes=tuple(Axis(axis.key, axis.choices[: FEW[axis.key]]) for axis in whole.axes))


@pytest.fixture(scope="module")
def some(scene):
    draw = random.Random(8)
    return [tuple(draw.randrange(many) for many in scene.shape) for _ in range(TRIED)]


def test_a_search_finds_of_each_build_up_what_stand_finds_of_it(scene, some):
    found = checked(scene)

    for picks in some:
        whole = uses_of(assess(scene.built(picks).layout))
        asked = [value for table in found.tables
                 if not isinstance(value := table.values[np.broadcast_to(table.codes, scene.shape)[picks]], Cannot)]  # fmt: skip
        assert bool(found.fails[picks]) is whole.fails
        assert all(one.unshown <= whole.unshown for one in asked)
        if not whole.fails:
            assert found.use[picks] == pytest.approx(whole.use, rel=1e-9)
            assert frozenset().union(*(one.unshown for one in asked)) == whole.unshown


def test_no_group_of_checks_hangs_on_an_axis_that_it_is_not_asked_along(scene, some):
    draw = random.Random(9)
    for codes, find in groups_of_checks(scene):
        states, _ = joined(codes)
        for picks in some[:12]:
            other = tuple(
                draw.randrange(many) if along == 1 else pick
                for pick, many, along in zip(picks, scene.shape, states.shape, strict=True)
            )
            first, second = find(picks), find(other)
            assert first.fails is second.fails
            if not first.fails:  # else no more is asked than what fails, and that first which failed before
                assert first.unshown == second.unshown
                assert first.use == pytest.approx(second.use, rel=1e-9)


def test_every_choice_holds_the_usual_ones(site):
    usual, every = scene_of(site), scene_of(site, SearchAsked(every=True))

    assert all(
        all(choice in whole.choices for choice in few.choices)
        for few, whole in zip(usual.axes, every.axes, strict=True)
    )
    assert np.prod(every.shape) > 10 * np.prod(usual.shape)


def test_a_search_prices_each_build_up_to_the_coin(scene, some, site):
    lessons = site.lessons
    shop = Shop(prices=lessons.prices.by_item, pile=tuple(lessons.pile), mixing=lessons.mixing, system=site.plan.units)
    wanted = np.zeros(scene.shape, dtype=bool)
    for picks in some[:40]:
        wanted[picks] = True
    tables = goods_tables(scene, wanted)
    states = np.array([[np.broadcast_to(table.codes, scene.shape)[picks] for picks in some[:40]] for table in tables])

    found = priced(tables, states, shop, prices=lessons.prices, haul=site.plan.haul)

    trips = found.trips()
    total = found.total(trips)
    for number, picks in enumerate(some[:40]):
        one = reckon_all(replace(site, plan=scene.built(picks).lessons.plan))
        assert (int(found.goods[number]), int(total[number])) == (one.gathered.goods, one.costs.total)
        assert (int(trips[number]), int(found.water_trips[number])) == (one.costs.trips, one.costs.water_trips)
        assert found.mass[number] == pytest.approx(one.gathered.haulage.mass, rel=1e-9)
        assert found.water[number] == pytest.approx(one.gathered.water.total, rel=1e-9)


@pytest.fixture(scope="module")
def found(scene, site):
    return searched(scene, site.lessons.prices)


def test_every_column_of_a_search_is_what_weighing_says_of_the_plan(found, site):
    draw, pace = random.Random(10), own_pace(site)
    for number in draw.sample(range(len(found.picks)), 8):
        plan = found.scene.built(found.picks_of(number)).lessons.plan
        subject = subject_of(replace(site, plan=plan), pace)
        for key, column in found.columns.items():
            score = SCORERS[key](subject, Asked())
            assert score.is_shown, (key, score.because)
            assert column[number] == pytest.approx(score.value, rel=1e-9), key


@pytest.mark.parametrize("gated", [True, False])
def test_a_search_keeps_out_whom_the_whole_plan_keeps_out(scene, some, gated):
    asked = scene if gated else replace(scene, plan=replace(scene.plan, gates=()))
    animals, guards, picks = tuple(shelf("passers")), guards_of(asked), np.array(some[:20])

    out = kept_out_by(guards, asked.shape, picks, animals)
    share = tightness_of(out)

    for number, picked_ in enumerate(some[:20]):
        kept = kept_out(asked.built(picked_).layout, animals)
        found = {name: None if np.isnan(column[number]) else bool(column[number]) for name, column in out.items()}
        assert found == {each.name: each.is_out for each in kept}
        assert share[number] == sum(each.is_out is True for each in kept) / len(animals)


def test_of_whom_nothing_is_known_is_not_shown_unless_another_way_is_open():
    states = np.zeros((2, *(1,) * 9), dtype=np.int64)
    states[1] = 1
    guard = Table(codes=states, values=({"crane": None}, {"crane": False}))
    closed = Table(codes=np.zeros((1,) * 10, dtype=np.int64), values=({"crane": True},))
    picks = np.array([[number, *(0,) * 9] for number in (0, 1)])

    out = kept_out_by((guard, closed), (2, *(1,) * 9), picks, ("crane",))["crane"]

    assert np.isnan(out[0])
    assert out[1] == 0.0
    assert np.array_equal(tightness_of({"crane": out}), [np.nan, 0.0], equal_nan=True)


def test_limits_on_hours_and_animals_are_kept_to(scene, site):
    found = searched(replace(scene, plan=replace(scene.plan, gates=())), site.lessons.prices)
    middle = float(np.median(found.columns["hours"])) / 3600
    asked = limits_of(f"hours under {middle:.1f} h, foxes out", prices=site.lessons.prices, system=site.plan.units)

    kept = answered(found, asked, ("hours", "margin"))

    within = found.columns["hours"] <= float(f"{middle:.1f}") * 3600
    assert kept.kept == tuple(np.flatnonzero(within & (kept.kept_out["fox"] == 1.0)))
    assert kept.unsure == 0
    assert set(kept.front) <= set(kept.kept)


def test_hours_follow_the_pace_that_the_log_taught(scene, site):
    slow = replace(scene, over_norms={work: 2 * over for work, over in scene.over_norms.items()})
    usual, taught = (searched(each, site.lessons.prices).columns for each in (scene, slow))

    assert np.allclose(taught["hours"], 2 * usual["hours"])
    assert np.array_equal(taught["cash_now"], usual["cash_now"])


def test_other_limits_on_the_same_search_keep_fewer(found, site):
    assert len(found.picks)
    least = found.columns["cash_now"].min() / 100
    asked = limits_of(f"cash under {least + 1:.0f}", prices=site.lessons.prices, system=site.plan.units)
    none = limits_of(f"cash under {least * 0.5:.0f}", prices=site.lessons.prices, system=site.plan.units)

    every, few, missed = (
        answered(found, limits_of("", prices=site.lessons.prices, system=site.plan.units)),
        answered(found, asked),
        answered(found, none),
    )

    assert len(every.kept) == len(found.picks) > len(few.kept) > 0
    assert few.cheapest == every.cheapest
    assert not missed.kept
    assert missed.nearest is not None
    assert set(every.front) <= set(every.kept)


def test_the_cheapest_and_the_strongest_are_proven_on_the_whole_plan(tmp_path):
    site = site_of("seed-garden", tmp_path)
    narrow = (("wall", "block-8-hollow"), ("coats", "cement-scratch"), ("posts", "pipe-2in"), ("rails", "pipe-rail"))

    found = search_of(site, SearchAsked(axes=narrow))

    assert found.stands > 0
    assert found.proven
    assert not any(each.differs or each.fails for each in found.proven)


NARROW = (("wall", "block-8-hollow"), ("coats", "cement-scratch"), ("posts", "pipe-2in"), ("rails", "pipe-rail"),
          ("spacing", "96 in"), ("wall-height", "32 in"))  # fmt: skip


def add_comment(plan, text):
    plan.write_text(f"{plan.read_text(encoding='utf-8')}# {text}\n", encoding="utf-8")


def test_where_only_prices_change_no_check_is_asked_again(tmp_path, monkeypatch):
    asked = []
    monkeypatch.setattr(searching, "checked", lambda *given: asked.append(given) or checked(*given))
    folder = site_of("seed-garden", tmp_path).folder
    prices, plan = folder / "prices.toml", folder / "plan.toml"
    add_comment(plan, "searched by no other test")
    found = search_of(open_site(folder), SearchAsked(axes=NARROW))

    text = prices.read_text(encoding="utf-8")
    dearer = re.sub(r'cost = "([0-9.]+)', lambda cost: f'cost = "{2 * float(cost[1]):.2f}', text)
    prices.write_text(dearer, encoding="utf-8")
    again = search_of(open_site(folder), SearchAsked(axes=NARROW))

    assert len(asked) == 1
    assert again.cheapest.numbers["cash_now"] > 1.5 * found.cheapest.numbers["cash_now"]
    assert again.cheapest.numbers["hours"] == found.cheapest.numbers["hours"]
    assert search_of(open_site(folder), SearchAsked(axes=NARROW, limits="cash under 1")).kept == 0
    assert len(asked) == 1

    add_comment(plan, "looked at")
    search_of(open_site(folder), SearchAsked(axes=NARROW))
    assert len(asked) == 2


def test_all_that_cannot_be_read_is_told_at_once(tmp_path):
    site = site_of("quinta", tmp_path)

    with pytest.raises(InvalidPlan) as refused:
        scene_of(site, SearchAsked(axes=(("wall", "glass"), ("embed", "2 m..1 m"), ("rails", "1 m..2 m"))))

    assert [problem.place for problem in refused.value.problems] == ["wall", "embed", "rails"]


def test_what_cannot_be_read_of_axes_limits_and_criteria_is_told_at_once(tmp_path):
    site = site_of("quinta", tmp_path)
    asked = SearchAsked(axes=(("wall", "glass"),), limits="dragons under three", by="beauty")

    for ask in (vetted, search_of):
        with pytest.raises(InvalidPlan) as refused:
            ask(site, asked)
        assert [problem.place for problem in refused.value.problems] == ["wall", "'dragons under three'", "on"]


def test_a_verb_mistyped_is_hinted_at_before_all_build_ups(tmp_path):
    folder = site_of("quinta", tmp_path).folder
    ask = partial(CliRunner().invoke, pinfold)

    for typed, meant in (("serach", "search"), ("tradeoff", "trade-off"), ("whatif", "what-if")):
        told = ask(["weigh", typed, "--site", str(folder)])
        assert told.exit_code
        assert str(told.exception).startswith(f"did you mean 'pinfold weigh {meant}'? no build-up called '{typed}'")
    assert "pinfold weigh" not in str(ask(["weigh", "adobee", "--site", str(folder)]).exception)


def test_a_build_up_without_wall_and_fence_is_not_varied(tmp_path):
    site = site_of("seed-garden", tmp_path)

    with pytest.raises(InvalidPlan, match="no build-up called"):
        scene_of(site, SearchAsked(buildup="hedge"))


def test_lengths_between_two_are_five_steps():
    axis = narrowed(lengths("wall-height", ["50 cm"]), "0.4..0.8 m", System.METRIC)

    assert [choice.layers["wall"]["height"] for choice in axis.choices] == ["40 cm", "50 cm", "60 cm", "70 cm", "80 cm"]


def test_rails_go_where_the_fence_is_and_posts_as_deep_as_the_wall():
    one = {"wall": {"wall": {"kind": "dry-stone"}}, "wall-height": {"wall": {"height": "60 cm"}},
           "fence-height": {"posts": {"height": "1 m"}}, "embed": {"posts": {"embed": "wall"}},
           "rails": {"rail": [{"kind": "wire-3mm", "at": "half"}, {"kind": "wire-3mm", "at": "top"}]}}  # fmt: skip
    axes = tuple(Axis(key, (Choice(key, one.get(key, {})),)) for key in AXES)

    table = table_of(axes, (0,) * len(AXES), System.METRIC)

    assert table["posts"]["embed"] == "60 cm"
    assert [row["at"] for row in table["rail"]] == ["50 cm", "98 cm"]


def test_what_hangs_on_one_axis_is_found_once_for_each_of_its_choices():
    asked = []
    wall, high, *_ = picked((3, 2, *(1,) * 8))

    table = tabled((wall,), lambda picks: asked.append(picks) or picks[0])
    some = tabled((wall, high), lambda picks: picks[:2], wanted=np.arange(6).reshape((3, 2, *(1,) * 8)) == 4)

    assert len(asked) == 3
    assert table.values == (0, 1, 2)
    assert [value for value in some.values if not isinstance(value, Cannot)] == [(2, 0)]


def test_packs_of_many_amounts_are_those_of_each():
    draw = np.random.default_rng(8)
    amounts = np.concatenate([draw.uniform(0, 50, 300), np.arange(30) * 1.5, [0.0]])

    assert whole_packs_each(amounts, 1.5).tolist() == [whole_packs(each, 1.5) for each in amounts.tolist()]
    sizes = (1.5, 2.4, 3.0, 6.0)
    many = lengths_for_each(amounts, sizes)
    for number, each in enumerate(amounts.tolist()):
        assert {size: int(packs[number]) for size, packs in many.items() if packs[number]} == lengths_for_total(
            each, sizes
        )


def test_the_page_asks_first_and_searches_when_asked(tmp_path):
    site = site_of("seed-garden", tmp_path)
    nothing = search_shown(site.folder, SearchAsked(), run=False)
    assert nothing.body == ""
    assert [key for key, _, _ in nothing.axes] == list(AXES)

    shown = search_shown(site.folder, SearchAsked(axes=NARROW, limits="cash under 1"), run=True, patience=LONG)

    assert "None keeps to all. Nearest:" in shown.body
    assert shown.going is None


def test_the_page_tells_how_far_a_search_is_until_it_is_done(tmp_path, monkeypatch):
    site = site_of("seed-garden", tmp_path)
    may_go = threading.Event()
    search = weigh_searching.search_site

    def slowly(folder, asked, told, **how):
        told(1234)
        assert may_go.wait(LONG)
        return search(folder, asked, told, **how)

    monkeypatch.setattr(weigh_searching, "search_site", slowly)
    asked = SearchAsked(axes=NARROW)
    while not (going := search_shown(site.folder, asked, run=True, patience=0.0).going).looked_at:
        time.sleep(0.01)
    assert going.looked_at == 1234
    assert search_shown(site.folder, SearchAsked(axes=NARROW, limits="cash under 1"), run=True, patience=0.0).going

    may_go.set()

    shown = search_shown(site.folder, asked, run=True, patience=LONG)
    assert shown.going is None
    assert "What no other betters" in shown.body
    with pytest.raises(InvalidPlan, match="dragons"):
        search_shown(site.folder, SearchAsked(limits="dragons under three"), run=True)


def test_a_search_that_is_refused_is_told_so(tmp_path, monkeypatch):
    site = site_of("seed-garden", tmp_path)

    def refused(*asked, **how):
        raise NotFoundError("no such thing")

    monkeypatch.setattr(weigh_searching, "search_site", refused)
    with pytest.raises(NotFoundError, match="no such thing"):
        search_shown(site.folder, SearchAsked(axes=NARROW), run=True, patience=LONG)


# --- prices that are missing -----------------------------------------------------------------------------------------


def without(prices, kept):
    """A price list without some of its prices."""
    return replace(prices, by_item={name: price for name, price in prices.by_item.items() if kept(name)})


def lists(prices):
    """No prices at all, one taken out, no cost of trips, none of water."""
    name = "portland-cement"
    return (
        replace(without(prices, lambda item: False), trip=None, water_trip=None), without(prices, lambda item: item != name),
        without(prices, lambda item: item != "lime-putty"), replace(prices, trip=None), replace(prices, water_trip=None),
    )  # fmt: skip


def test_cash_of_a_search_is_not_shown_exactly_where_the_weighing_does_not_show_it(found, site):
    draw, pace = random.Random(11), own_pace(site)
    some = draw.sample(range(len(found.picks)), 6)
    for prices in lists(site.lessons.prices):
        priced_ = at_prices(found, prices)
        for number in some:
            plan = found.scene.built(found.picks_of(number)).lessons.plan
            subject = subject_of(replace(site, plan=plan, prices=prices), pace)
            for key in ("cash_now", "cost_per_length"):
                score = SCORERS[key](subject, Asked())
                assert np.isnan(priced_.columns[key][number]) == (not score.is_shown), (key, score.because)
                assert score.value is None or priced_.columns[key][number] == pytest.approx(score.value)
            lacking = {why for why, yes in priced_.lacks.items() if yes[number]}
            assert bool(lacking) == bool(subject.costs.missing)


def test_what_a_mix_that_cannot_be_charged_costs_is_not_known(found, site, monkeypatch):
    axes = zip(found.scene.axes, found.picks_of(0), strict=True)
    one = replace(found.scene, axes=tuple(Axis(axis.key, (axis.choices[pick],)) for axis, pick in axes))
    monkeypatch.setattr(goods, "uncharged", lambda cards: ("a plaster for coats: its lime is not known",))

    alone = searched(one, site.lessons.prices)

    assert alone.lacks["a plaster for coats: its lime is not known"].tolist() == [True]
    assert np.isnan(alone.columns["cash_now"]).tolist() == [True]


def test_without_prices_nothing_is_the_cheapest_and_the_front_goes_by_the_rest(found, site):
    prices = replace(without(site.lessons.prices, lambda item: False), trip=None)
    priceless = at_prices(found, prices)
    limits = limits_of("cash under 100000", prices=prices, system=site.plan.units)

    free, held = answered(priceless, limits_of("", prices=prices, system=site.plan.units)), answered(priceless, limits)

    assert free.cheapest is None
    assert free.strongest is not None
    assert free.nowhere == ("cash_now",)
    assert free.front
    hours = priceless.columns["hours"][list(free.front)]
    assert np.all(np.diff(hours) >= 0)
    assert (held.kept, held.unsure) == ((), len(found.picks))


def test_what_has_a_price_missing_is_no_bargain(found, site):
    """Build-ups whose cost is not shown are neither the cheapest nor traded off; the rest is as before."""
    prices, cash = site.lessons.prices, found.columns["cash_now"]
    hidden = replace(found, columns={**found.columns, "cash_now": np.where(cash == cash.min(), np.nan, cash)})

    free = answered(hidden, limits_of("", prices=prices, system=site.plan.units))

    assert free.cheapest is not None
    assert cash[free.cheapest] == np.nanmin(hidden.columns["cash_now"])
    assert free.beside == np.isnan(hidden.columns["cash_now"]).sum() > 0
    assert not np.isnan(hidden.columns["cash_now"][list(free.front)]).any()


def test_a_search_without_prices_says_so_in_words_and_nothing_in_numbers(tmp_path):
    folder = site_of("seed-garden", tmp_path).folder
    (folder / "prices.toml").unlink()

    record = search_of(open_site(folder), SearchAsked(axes=(("spacing", "96 in"), ("wall-height", "32 in"))))
    told = " ".join(str(block) for block in search_page(record, System.US).blocks)

    assert record.cheapest is None
    assert {row.numbers["cash_now"] for row in record.front} == {None}
    assert "NOT SHOWN what any of them costs: no price for" in told
    assert told.count("no price for") <= 2
    assert "left out of what is traded off: cash now" in told
    assert "the best in hours first" in told


# --- choices that cannot be built together -----------------------------------------------------------------------------


def with_choices(scene, **choices):
    """The scene with the first choice of every axis, but for some whose choices are given."""
    return replace(scene, axes=tuple(
        Axis(axis.key, choices.get(axis.key.replace("-", "_"), axis.choices[:1])) for axis in scene.axes
    ))  # fmt: skip


NEVER = Choice("in the clouds", {"rail": [{"kind": "wire-3mm", "at": "90 m"}]})


def test_where_the_first_choices_cannot_be_built_together_the_others_are_searched(scene, site):
    rails = next(axis.choices[:2] for axis in scene.axes if axis.key == "rails")
    sound = searched(with_choices(scene, rails=rails), site.lessons.prices)

    found = searched(with_choices(scene, rails=(NEVER, *rails)), site.lessons.prices)

    assert found.tried == sound.tried + 1
    assert list(found.cannot.values()) == [1]
    assert [found.says(each) for each in range(len(found.picks))] == [
        sound.says(each) for each in range(len(sound.picks))
    ]
    assert all(np.array_equal(found.columns[key], column) for key, column in sound.columns.items())


def test_where_nothing_can_be_built_that_is_told_of_all(scene, site):
    found = searched(with_choices(scene, rails=(NEVER,)), site.lessons.prices)
    kept = answered(found, limits_of("rabbits out", prices=site.lessons.prices, system=site.plan.units))

    assert (found.tried, found.fails, len(found.picks)) == (1, 0, 0)
    assert sum(found.cannot.values()) == 1
    assert (kept.kept, kept.nearest, kept.front, kept.cheapest) == ((), None, (), None)


def test_a_beginning_is_looked_for_among_so_many_and_no_more(scene):
    wires = tuple(
        Choice(f"{each} m up", {"rail": [{"kind": "wire-3mm", "at": f"{each} m"}]}) for each in range(50, 600)
    )

    cannot = begun(with_choices(scene, rails=wires))

    assert sum(cannot.values()) == len(wires)
    assert cannot["none of the 400 of them that were laid out can be"] == 150


# --- what fails, or is not shown, whichever is picked ------------------------------------------------------------------


@pytest.fixture(scope="module")
def failing(tmp_path_factory):
    """The garden sound, and with a shed that heaves in the frost and a gate too heavy for its hinges."""
    folder = tmp_path_factory.mktemp("failing")
    site = site_of("seed-garden", folder)
    sound = search_of(site, SearchAsked(axes=NARROW))
    plan = site.folder / "plan.toml"
    text = plan.read_text(encoding="utf-8")
    worse = text.replace('pad_below = "30 in"', 'pad_below = "4 in"')
    worse = worse.replace('hinge_capacity = "400 lbf"', 'hinge_capacity = "4 lbf"', 1)
    assert worse.count('"4 in"') + worse.count('"4 lbf"') >= 2
    plan.write_text(worse, encoding="utf-8")
    return sound, search_of(open_site(site.folder), SearchAsked(axes=NARROW))


def test_what_fails_whichever_is_picked_bars_none_and_is_named_once(failing):
    sound, found = failing

    assert (found.stands, found.fails) == (sound.stands, sound.fails)
    assert [row.code for row in found.front] == [row.code for row in sound.front]
    assert not sound.in_all
    assert {"frost, neighbor seed shed"} < set(found.in_all)
    assert any(each.startswith("hinge, gate foot gate") for each in found.in_all)
    assert not any(each.fails or each.differs for each in found.proven)


def test_what_fails_whichever_is_picked_is_never_told_as_a_pass(failing):
    _, found = failing
    told = [block.text for block in search_page(found, System.US).blocks if hasattr(block, "text")]

    assert sum("FAILS whichever is picked: " in text for text in told) == 1
    assert "beside what fails whichever is picked" in told[0]
    assert "Nothing fails" not in " ".join(told)
    assert "Nothing else fails" in " ".join(told)


def test_what_fails_of_the_plans_own_only_in_some_is_a_failing_of_these(scene, site, monkeypatch):
    """Two sets of coats: with one of them a leaf fails that does not with the other."""
    two = with_choices(scene, coats=next(axis.choices[:2] for axis in scene.axes if axis.key == "coats"))
    checks = searching.checked

    def with_leaf(scene, asks):
        found = checks(scene, asks)
        leaf = uses_of([Finding(check="hinge", subject="gate a", demand=2.0, capacity=1.0)])
        sound = uses_of([])
        codes = np.arange(2).reshape(tuple(2 if key == "coats" else 1 for key in AXES))
        return replace(found, tables=(*found.tables, Table(codes=codes, values=(leaf, sound))))

    before = searched(two, site.lessons.prices)
    monkeypatch.setattr(searching, "checked", with_leaf)
    found = searched(two, site.lessons.prices)

    assert len(before.picks) == 2
    assert (found.fails, len(found.picks)) == (before.fails + 1, 1)
    assert found.failing == frozenset()


@pytest.mark.parametrize(("subject", "part"), [
    ("stretch store side/3b", "run store side/3"), ("stretch south/1a, bank low", "run south/1, bank low"),
    ("posts P1, P2, P5–P9", "posts"), ("post P3", "posts"), ("stretches hill/1, lane/1a", "stretches"),
    ("gate foot gate, post P3", "gate foot gate, posts"), ("gate cart gate", "gate cart gate"),
    ("pipe and the trench of stretch east/1b", "pipe and the trench of run east/1"), ("pump cable", "pump cable"),
])  # fmt: skip
def test_a_check_is_told_apart_by_the_part_that_it_is_of(subject, part):
    assert part_of(Finding(check="hinge", subject=subject)) == f"hinge, {part}"


def test_what_one_part_hides_everywhere_does_not_cover_another(found):
    """A check hidden of a gate in all build-ups says nothing of the same check hidden of posts in some."""
    unshown = tuple({"bending, gate a, posts", *(("bending, posts",) if number else ())} for number in (0, 1))
    some = replace(found, picks=found.picks[:2], unshown=tuple(map(frozenset, unshown)),
                   everywhere=frozenset({"bending, gate a, posts"}),
                   columns={key: column[:2] for key, column in found.columns.items()})  # fmt: skip

    assert np.isnan(searching._margin(some, holds=True)).tolist() == [False, True]


# --- whom the gates let in ---------------------------------------------------------------------------------------------


def test_whom_the_gates_let_in_the_fence_may_keep_out_and_both_are_told(tmp_path):
    site = site_of("seed-garden", tmp_path)
    free = search_of(site, SearchAsked(axes=NARROW))
    row = free.front[0]
    name = next(name for name, out in row.fence_out.items() if out and row.keeps_out[name] is False)

    found = search_of(site, SearchAsked(axes=NARROW, limits=f"{name.replace('-', ' ')} out"))
    told = [block.text for block in search_page(found, System.US).blocks if hasattr(block, "text")]

    assert found.kept > 0
    assert all(each.fence_out[name] and each.keeps_out[name] is False for each in found.front)
    assert {each.numbers["tightness"] for each in found.front} == {1.0}
    assert any(each.startswith(f"{shelf('passers')[name].says}: ") for each in found.let_in)
    assert "out, as far as wall, mesh and ground go" in told[0]
    assert any(text.startswith("NOT kept out as a whole: whichever is picked, the gates") for text in told)


def test_of_the_nearest_only_the_ways_past_the_fence_are_told(tmp_path):
    site = site_of("quinta", tmp_path)
    narrow = (("wall", "earth-block"), ("wall-height", "50 cm"), ("posts", "wood-round-5"), ("spacing", "240"),
              ("footing", "70 cm"), ("coats", "lime-first"), ("mesh", "welded-50x50"))  # fmt: skip

    found = search_of(site, SearchAsked(axes=narrow, limits="rabbits out"))

    assert found.kept == 0
    assert found.ways == ("young rabbit: through",)
    assert any("under foot gate" in each for each in found.let_in)
