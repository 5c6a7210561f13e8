"""Laws of learning: what is true is found, how unsure it is is told honestly, one slip does no harm."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize, stats

from pinfold.errors import OutOfRangeError
from pinfold.formulas import learning
from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.habits import FREEDOM
from pinfold.studies.lessons.records import Prior, Reading
from pinfold.units import KILOGRAM

sizes = st.floats(0.1, 100.0)
numbers = st.floats(-1e3, 1e3)


def prior(value: float | None = 18.0, *, spread: float = 2.7, within: float = 1.0) -> Prior:
    spread_or_none = None if value is None else spread
    return Prior(value=value, spread=spread_or_none, within=within, unit=KILOGRAM, figure=None, says="")


def learn(values, before=None):
    return learned_from([Reading(value, "2026-05-03") for value in values], before or prior())


# ---- the formulas against rivals


@given(numbers, sizes, numbers, sizes, st.integers(1, 50))
def test_the_update_is_what_multiplying_the_two_bells_gives(before, before_spread, mean, spread, count):
    belief = learning.normal_posterior(
        prior=before, prior_spread=before_spread, mean=mean, spread=spread, count=float(count)
    )
    near = belief.value + belief.spread * np.linspace(-9, 9, 4001)
    logs = stats.norm.logpdf(near, before, before_spread) + stats.norm.logpdf(near, mean, spread / math.sqrt(count))
    bell = np.exp(logs - logs.max())
    whole = integrate.simpson(bell, x=near)
    value = integrate.simpson(bell * near, x=near) / whole
    variance = integrate.simpson(bell * (near - value) ** 2, x=near) / whole

    assert value == pytest.approx(belief.value, abs=1e-6 * belief.spread)
    assert math.sqrt(variance) == pytest.approx(belief.spread, rel=1e-6)


@given(numbers, sizes, st.lists(numbers, min_size=2, max_size=6), sizes)
def test_readings_one_by_one_teach_the_same_as_together(before, before_spread, values, spread):
    together = learning.normal_posterior(
        prior=before, prior_spread=before_spread, mean=math.fsum(values) / len(values), spread=spread,
        count=float(len(values)),
    )  # fmt: skip
    value, unsure = before, before_spread
    for each in values:
        step = learning.normal_posterior(prior=value, prior_spread=unsure, mean=each, spread=spread, count=1.0)
        value, unsure = step.value, step.spread

    assert value == pytest.approx(together.value, rel=1e-9, abs=1e-6)
    assert unsure == pytest.approx(together.spread, rel=1e-9)


@given(numbers, sizes, numbers, sizes, st.floats(0.0, 1e4))
def test_what_is_believed_lies_between_and_is_never_less_sure_than_before(before, before_spread, mean, spread, count):
    belief = learning.normal_posterior(prior=before, prior_spread=before_spread, mean=mean, spread=spread, count=count)

    assert min(before, mean) - 1e-9 <= belief.value <= max(before, mean) + 1e-9
    assert belief.spread <= before_spread * (1 + 1e-12)
    assert 0 <= belief.weight <= 1


def test_without_readings_the_prior_stands_to_the_last_digit():
    belief = learning.normal_posterior(prior=0.1 + 0.2, prior_spread=0.7, mean=123.4, spread=0.3, count=0.0)

    assert belief.value == 0.1 + 0.2
    assert belief.weight == 0.0


def test_without_a_prior_the_readings_alone_count():
    belief = learning.normal_posterior(prior=0.0, prior_spread=math.inf, mean=12.0, spread=3.0, count=9.0)

    assert (belief.value, belief.spread, belief.weight) == (12.0, 1.0, 1.0)
    with pytest.raises(OutOfRangeError):
        learning.normal_posterior(prior=0.0, prior_spread=math.inf, mean=12.0, spread=3.0, count=0.0)


@given(st.floats(1.0, 50.0), st.floats(0.5, 30.0))
def test_far_out_a_reading_weighs_as_the_t_density_pulls(distance, freedom):
    step = 1e-5 * distance
    slope = (stats.t.logpdf(distance + step, freedom) - stats.t.logpdf(distance - step, freedom)) / (2 * step)

    assert learning.tail_weight(distance=distance, freedom=freedom) == pytest.approx(-slope / distance, rel=1e-4)


@given(st.floats(0.0, 60.0), st.floats(0.0, 60.0), st.floats(0.5, 30.0))
def test_further_out_never_weighs_more_and_near_weighs_in_full(one, other, freedom):
    near, far = sorted((one, other))

    assert learning.tail_weight(distance=near, freedom=freedom) >= learning.tail_weight(distance=far, freedom=freedom)
    assert learning.tail_weight(distance=-far, freedom=freedom) == learning.tail_weight(distance=far, freedom=freedom)
    assert learning.tail_weight(distance=min(near, 1.0), freedom=freedom) == 1.0


@given(st.floats(0.1, 9.0), st.integers(2, 40), st.floats(0.1, 9.0), st.integers(2, 40))
def test_the_pooled_scatter_is_the_one_in_the_two_sample_t_test(one, many, other, more):
    pooled = learning.pooled_spread(usual=one, usual_count=many - 1.0, own=other, own_count=more - 1.0)
    rival = stats.ttest_ind_from_stats(3.0, one, many, 1.0, other, more, equal_var=True).statistic

    assert 2.0 / (pooled * math.sqrt(1 / many + 1 / more)) == pytest.approx(rival, rel=1e-9)


@given(st.lists(st.floats(-50, 50), min_size=3, max_size=30))
def test_the_robust_scatter_is_the_scaled_median_deviation(values):
    deviation = float(np.median(np.abs(np.array(values) - np.median(values))))

    got = learning.spread_by_deviation(deviation=deviation)
    assert got == pytest.approx(stats.median_abs_deviation(values, scale="normal"), rel=1e-9, abs=1e-12)
    assert learning.spread_by_deviation(deviation=1.0) == pytest.approx(1 / stats.norm.ppf(0.75), rel=1e-12)


@given(st.floats(0, 1e6), st.floats(0, 1e6), st.floats(1e4, 1e6))
def test_forgetting_over_two_spans_is_forgetting_twice(first, second, half_life):
    both = learning.forgetting(age=first + second, half_life=half_life)

    assert both == pytest.approx(
        learning.forgetting(age=first, half_life=half_life) * learning.forgetting(age=second, half_life=half_life)
    )
    assert learning.forgetting(age=half_life, half_life=half_life) == 0.5
    assert learning.forgetting(age=0.0, half_life=half_life) == 1.0


@given(sizes, st.floats(0.001, 0.1), st.floats(0, 0.3), st.floats(0, 0.5), st.floats(0, 0.5))
def test_a_bucket_of_the_density_found_weighs_what_was_weighed(mass, volume, moisture, swelling, usual):
    density = learning.loose_density(
        mass=mass, volume=volume, moisture=moisture, swelling=swelling, usual_swelling=usual
    )
    true_volume = volume / (1 + swelling)
    at_usual = true_volume * (1 + usual)

    assert density * at_usual * (1 + moisture) == pytest.approx(mass)
    plain = learning.loose_density(mass=mass, volume=volume, moisture=0.0, swelling=0.0, usual_swelling=0.0)
    assert plain == pytest.approx(mass / volume)


@given(sizes, sizes)
def test_the_ratio_of_yields_gives_the_yield_back(made, reckoned):
    ratio = learning.yield_ratio(made=made, reckoned=reckoned)

    assert learning.taught_yield(reckoned=reckoned, ratio=ratio) == pytest.approx(made)


@given(sizes, st.floats(0.001, 0.1), st.floats(0.5, 3.0))
def test_a_coat_used_up_to_the_last_uses_its_own_volume(area, thickness, use):
    assert learning.coat_use(used=use * area * thickness, area=area, thickness=thickness) == pytest.approx(use)


@given(st.floats(60, 36000), st.floats(1, 10), sizes)
def test_twice_the_people_for_half_the_time_is_the_same_work(time, people, done):
    once = learning.time_each(time=time, people=people, done=done)

    assert learning.time_each(time=time / 2, people=people * 2, done=done) == pytest.approx(once)
    assert learning.time_each(time=time, people=people, done=done * 2) == pytest.approx(once / 2)


# ---- the belief as a whole


@given(st.lists(st.floats(10, 30), min_size=1, max_size=9), st.randoms(use_true_random=False))
def test_the_order_of_readings_does_not_matter(values, chance):
    shuffled = list(values)
    chance.shuffle(shuffled)

    assert learn(values)[:3] == learn(shuffled)[:3]


@given(st.lists(st.floats(10, 30), min_size=1, max_size=9), st.floats(0.001, 1000))
def test_units_do_not_matter(values, factor):
    before = prior()
    other = prior(18.0 * factor, spread=2.7 * factor, within=factor)
    one, scaled = learn(values, before), learn([value * factor for value in values], other)

    assert scaled.value == pytest.approx(one.value * factor, rel=1e-6)
    assert scaled.spread == pytest.approx(one.spread * factor, rel=1e-4)


def test_entries_within_one_scatter_give_the_textbook_update():
    got = learn([19.0, 19.4], prior(19.0))
    rival = learning.normal_posterior(prior=19.0, prior_spread=2.7, mean=19.2, spread=1.0, count=2.0)

    assert got.value == pytest.approx(rival.value, rel=1e-12)
    assert got.spread == pytest.approx(rival.spread, rel=1e-12)


@pytest.mark.parametrize("values", [(20.0, 21.0, 40.0), (20.5, 21.0, 21.3, 21.2, 210.0), (17.0, 25.0), (23.0,)])
def test_the_value_is_a_best_fit_of_bells_with_long_tails(values):
    got = learn(values)
    scatter = dict(got.working[-1].inputs)["spread"]

    def misfit(middle: float) -> float:
        total = ((middle - 18.0) / 2.7) ** 2 / 2
        for value in values:
            z = abs(value - middle) / scatter
            tail = 0.5 + (FREEDOM + 1) / 2 * math.log((FREEDOM + z * z) / (FREEDOM + 1))
            total += z * z / 2 if z <= 1 else tail
        return total

    near = optimize.minimize_scalar(misfit, bounds=(got.value - 0.5, got.value + 0.5), method="bounded",
                                    options={"xatol": 1e-10})  # fmt: skip
    assert near.x == pytest.approx(got.value, abs=1e-6)


@given(st.lists(st.floats(20, 22), min_size=5, max_size=12), st.floats(50, 1e6))
def test_one_wild_entry_does_not_carry_the_value_away(values, wild):
    without, with_it = learn(values), learn([*values, wild])

    before = 2.7  # spread of what was thought before any entry
    assert abs(with_it.value - without.value) < 0.5
    assert with_it.spread < before / 2


@given(st.floats(100, 1e6))
def test_one_wild_entry_alone_leaves_the_prior_nearly_as_it_was(wild):
    assert learn([wild]).value == pytest.approx(18.0, rel=0.15)


HONEST = {
    0.5: {1: (0.95, 1.0), 3: (0.95, 1.0), 10: (0.95, 1.0), 30: (0.94, 0.99)},
    1.0: {1: (0.93, 0.97), 3: (0.92, 0.97), 10: (0.91, 0.97), 30: (0.92, 0.97)},
    2.0: {1: (0.65, 0.75), 3: (0.77, 0.85), 10: (0.86, 0.92), 30: (0.91, 0.96)},
}
"""How often the truth lies within 1.96 spreads, by true scatter over the usual one and how many entries there are.

Where entries scatter as usual it is the 95 % it should be. Where they scatter less it is more; where they scatter twice as
much, it is too few until some ten entries have taught their own scatter.
"""


@pytest.mark.parametrize("scatter", sorted(HONEST))
def test_the_truth_lies_within_the_spread_as_often_as_it_says(scatter):
    """Buckets of builders whose true weight is 18 kg give or take 2.7, each weighed some times with this scatter."""
    chance = np.random.default_rng(20261125)
    for count, (least, most) in HONEST[scatter].items():
        truths = chance.normal(18.0, 2.7, 1200)
        found = [learn(chance.normal(truth, scatter, count)) for truth in truths]
        held = np.mean([abs(got.value - truth) <= 1.96 * got.spread for got, truth in zip(found, truths, strict=True)])

        assert least <= held <= most, (count, held)


def test_more_entries_come_nearer_to_the_truth():
    chance = np.random.default_rng(7)
    misses = []
    for count in (1, 4, 16, 64, 256):
        each = [abs(learn(chance.normal(21.0, 1.0, count)).value - 21.0) for _ in range(200)]
        misses.append(float(np.mean(each)))

    assert all(later < 0.7 * earlier for earlier, later in itertools.pairwise(misses))
    assert misses[-1] < 0.08


def test_without_a_prior_the_spread_is_honest_too():
    chance = np.random.default_rng(11)
    held = 0
    for _ in range(1500):
        values = chance.normal(10.0, 3.0, 5)
        got = learn(values, prior(None, within=3.0))
        held += abs(got.value - 10.0) <= 1.96 * got.spread

    assert 0.90 <= held / 1500 <= 0.98
