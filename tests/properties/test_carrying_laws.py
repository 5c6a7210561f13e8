"""Laws of carrying lessons on: nothing counts twice, nothing gets surer by traveling, the order does not matter."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from pinfold.errors import OutOfRangeError
from pinfold.formulas import carrying, learning
from pinfold.logbook.carried import Carried, CarriedFigure, CarriedSite, marks_of
from pinfold.studies.lessons.belief import alone, learned_from
from pinfold.studies.lessons.carried import beside_own, carried_lesson, each_once, prior_here
from pinfold.studies.lessons.records import Prior, Reading, Topic
from pinfold.units import RATIO, System

SHIPPED = Prior(value=1.0, spread=0.1, within=0.05, unit=RATIO, figure=None, says="the rule")
UNKNOWN = replace(SHIPPED, value=None, spread=None)
shares = st.floats(0.01, 1.0)
values = st.floats(0.5, 1.5)
spreads = st.floats(0.005, 0.3)
readings = st.lists(st.floats(0.8, 1.2), min_size=1, max_size=2)  # with three their own scatter begins to count
counts = st.floats(0.0, 200.0)
firsts = st.floats(0.5, 60.0)


def site(name: str, value: float, spread: float, *, ids=None, count: int = 3) -> CarriedSite:
    figure = CarriedFigure(
        topic=Topic.YIELD, subject="mortar-S", per="", value=value, spread=spread, count=count, since="2025-04-01",
        last="2025-05-01",
    )  # fmt: skip
    return CarriedSite(name=name, marks=marks_of(ids or [name]), figures=(figure,))


def here(*sites: CarriedSite, alike: float = 0.5, prior: Prior = SHIPPED) -> Prior:
    return prior_here(prior, Topic.YIELD, "mortar-S", Carried(alike=alike, sites=sites), system=System.METRIC)


def read(numbers) -> list[Reading]:
    return [Reading(each, "2026-05-03") for each in numbers]


# ---- formulas against rivals


@given(spreads, shares)
def test_what_places_share_and_what_each_has_of_its_own_make_the_whole(spread, alike):
    shared = carrying.part_shared(spread=spread, alike=alike)
    own = carrying.part_of_its_own(spread=spread, alike=alike)

    assert math.hypot(shared, own) == pytest.approx(spread)


@given(spreads, shares, shares)
def test_the_more_alike_the_less_apart(spread, one, other):
    near, far = max(one, other), min(one, other)

    assert carrying.places_apart(within_one=spread, alike=near) <= carrying.places_apart(within_one=spread, alike=far)
    assert carrying.places_apart(within_one=spread, alike=1.0) == 0.0


@given(firsts, firsts, counts, counts)
def test_a_counted_share_is_the_beta_of_another_library(yes_before, no_before, yes, no):
    found = carrying.share_by_counting(before_yes=yes_before, before_no=no_before, yes=yes, no=no)
    rival = stats.beta(yes_before + yes, no_before + no)

    assert found.mean == pytest.approx(rival.mean())
    assert found.spread == pytest.approx(rival.std())


@given(firsts, firsts, st.lists(st.tuples(counts, counts), min_size=1, max_size=5))
def test_counted_bit_by_bit_or_at_once_is_the_same(first, other, bits):
    yes, no = (math.fsum(part) for part in zip(*bits, strict=True))
    a, b = first, other
    for more_yes, more_no in bits:
        a, b = a + more_yes, b + more_no
    at_once = carrying.share_by_counting(before_yes=first, before_no=other, yes=yes, no=no)

    assert carrying.share_by_counting(before_yes=a, before_no=b, yes=0.0, no=0.0).mean == pytest.approx(at_once.mean)


@given(st.integers(0, 30), st.integers(0, 30))
def test_how_surely_mostly_is_the_area_over_a_half(yes, no):
    area, _ = integrate.quad(stats.beta(yes + 1, no + 1).pdf, 0.5, 1.0)

    assert carrying.chance_of_mostly(yes=float(yes), no=float(no)) == pytest.approx(area, abs=1e-7)
    both = carrying.chance_of_mostly(yes=float(no), no=float(yes)) + carrying.chance_of_mostly(
        yes=float(yes), no=float(no)
    )
    assert both == pytest.approx(1.0)


@pytest.mark.parametrize(
    "asked",
    [
        lambda: carrying.part_shared(spread=0.0, alike=0.5),
        lambda: carrying.part_of_its_own(spread=0.1, alike=1.1),
        lambda: carrying.places_apart(within_one=0.1, alike=0.0),
        lambda: carrying.share_by_counting(before_yes=0.0, before_no=1.0, yes=1.0, no=1.0),
        lambda: carrying.chance_of_mostly(yes=-1.0, no=0.0),
    ],
)
def test_what_cannot_be_is_refused(asked):
    with pytest.raises(OutOfRangeError):
        asked()


# ---- carrying


@given(values, spreads, shares)
def test_one_voice_is_what_two_things_that_vary_together_say_of_each_other(value, spread, alike):
    """Conditional mean and variance of two normal values whose covariance is the share that places have in common."""
    first, own = 1.0, 0.1**2
    together, heard = alike * own, own + spread**2
    found = here(site("A", value, spread), alike=alike)

    assert found.value == pytest.approx(first + together / heard * (value - first))
    assert found.spread == pytest.approx(math.sqrt(own - together**2 / heard))


@given(readings, readings)
def test_carried_as_if_the_same_place_and_read_on_is_all_read_at_once(there, then):
    said = alone(read(there), SHIPPED)
    carried = here(site("A", said.value, said.spread), alike=1.0)
    scatter, many = SHIPPED.within, len(then)
    on = learning.normal_posterior(
        prior=carried.value, prior_spread=carried.spread, mean=math.fsum(then) / many, spread=scatter, count=many
    )  # fmt: skip
    first = learning.normal_posterior(
        prior=1.0, prior_spread=0.1, mean=said.value, spread=said.spread, count=1.0
    )  # fmt: skip
    pooled = learning.normal_posterior(
        prior=first.value, prior_spread=first.spread, mean=math.fsum(then) / many, spread=scatter, count=many
    )  # fmt: skip

    assert (on.value, on.spread) == pytest.approx((pooled.value, pooled.spread))
    there_learned = learned_from(read(there), SHIPPED)
    assert (carried.value, carried.spread) == pytest.approx((there_learned.value, there_learned.spread))


@given(values, spreads, shares, shares)
def test_what_traveled_is_never_surer_than_where_it_was_read_nor_less_sure_than_what_is_shipped(
    value, spread, one, two
):
    less, more = sorted((one, two))
    pooled, near, far = (here(site("A", value, spread), alike=alike) for alike in (1.0, more, less))

    assert pooled.spread <= near.spread * (1 + 1e-12) <= far.spread * (1 + 1e-9)
    assert far.spread <= SHIPPED.spread * (1 + 1e-12)
    assert min(1.0, value) - 1e-12 <= near.value <= max(1.0, value) + 1e-12


@given(values, spreads, shares)
def test_where_nothing_was_thought_what_traveled_is_less_sure_than_it_was(value, spread, alike):
    carried = here(site("A", value, spread), alike=alike, prior=UNKNOWN)

    assert carried.value == pytest.approx(value)
    assert carried.spread >= spread * (1 - 1e-12)


@given(st.lists(st.tuples(values, spreads), min_size=2, max_size=4), shares, st.randoms())
def test_the_order_of_places_does_not_matter(said, alike, chance):
    sites = [site(f"place {at}", value, spread) for at, (value, spread) in enumerate(said)]
    mixed = list(sites)
    chance.shuffle(mixed)

    assert here(*sites, alike=alike).value == pytest.approx(here(*mixed, alike=alike).value)
    assert here(*sites, alike=alike).spread == here(*mixed, alike=alike).spread


@given(values, spreads, values, spreads, shares)
def test_another_place_makes_it_surer_never_less(value, spread, other, doubt, alike):
    one, two = (
        here(site("A", value, spread), alike=alike),
        here(site("A", value, spread), site("B", other, doubt), alike=alike),
    )

    assert two.spread <= one.spread * (1 + 1e-12)


def test_nothing_alike_carries_nothing():
    assert here(site("A", 0.8, 0.01), alike=0.0) is SHIPPED


@given(st.lists(st.sampled_from("abcdefghij"), min_size=1, unique=True), st.integers(1, 4))
def test_a_place_that_comes_by_many_ways_counts_once(ids, ways):
    once, told = each_once([site("A", 0.9, 0.03, ids=ids)] * ways)

    assert once == (site("A", 0.9, 0.03, ids=ids),)
    assert told == ()


@given(
    st.lists(st.integers(0, 40), min_size=1, max_size=20, unique=True),
    st.lists(st.integers(0, 40), min_size=1, max_size=20, unique=True),
)
def test_of_places_that_share_an_entry_one_alone_counts(one, other):
    sites = [site("A", 0.9, 0.03, ids=map(str, one), count=len(one))]
    sites.append(site("B", 0.8, 0.03, ids=map(str, other), count=len(other)))
    once, told = each_once(sites)

    assert (len(once) == 1) == (not set(one).isdisjoint(other))
    assert len(told) == 2 - len(once)
    if len(once) == 1:
        assert once[0].figures[0].count == max(len(one), len(other))


def test_what_this_log_holds_itself_is_not_carried_to_it_again():
    carried = Carried(sites=(site("A", 0.9, 0.03, ids=["e1", "e2"]), site("B", 0.9, 0.03, ids=["e9"])))
    left = beside_own(carried, ["e2", "e7"])

    assert [each.name for each in left.sites] == ["B"]
    assert "A is left out" in left.told[0]


@given(st.sets(st.integers(0, 5000), min_size=600, max_size=900), st.sets(st.integers(5001, 9000), max_size=600))
def test_a_log_that_grew_is_still_known_by_its_marks(first, later):
    before, after = marks_of(map(str, first)), marks_of(map(str, first | later))

    assert not set(before).isdisjoint(after)


def test_when_it_was_read_elsewhere_is_one_day_or_from_the_first_to_the_last_of_all_places():
    late = site("B", 1.1, 0.05)
    late = replace(late, figures=(replace(late.figures[0], since="2025-06-02", last="2025-06-02"),))
    both = Carried(sites=(site("A", 1.0, 0.05), late))
    prior = prior_here(SHIPPED, Topic.YIELD, "mortar-S", both, system=System.METRIC)
    learned = SimpleNamespace(value=1.05, spread=0.04, weight=0.3, working=())
    lesson = carried_lesson(learned, prior, Topic.YIELD, "mortar-S", both, told="it yields", used="")

    assert prior.says == (
        "learned at A, 3 entries, 2025-04-01 to 2025-05-01; learned at B, 3 entries, 2025-06-02; spread widened"
    )
    assert (lesson.since, lesson.last) == ("2025-04-01", "2025-06-02")
    assert (lesson.weight, lesson.count) == (0.3, 0)
