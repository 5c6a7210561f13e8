"""Laws of the expected gain, of the surface through trials, and of what is proposed from it."""

from __future__ import annotations

from importlib.resources import files

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import trials
from pinfold.store.planfile import plan_of
from pinfold.studies.lessons.holding import volumes_of
from pinfold.studies.lessons.things import Measures
from pinfold.studies.trials.choosing import next_place, spread_out, spread_over
from pinfold.studies.trials.contents import contents_of
from pinfold.studies.trials.makeup import keys_of, mix_with, ratios_of, usual_of
from pinfold.studies.trials.records import Asked
from pinfold.studies.trials.study import trials_told
from pinfold.studies.trials.surface import Noise, seen_of, surface_of
from pinfold.tables.shelf import kind
from plaster_story import entries, raw_trial, story

SCORES = st.floats(-10, 20)
SPREADS = st.floats(0.01, 10)


@given(SCORES, SPREADS, SCORES)
def test_the_expected_gain_is_the_integral_of_what_is_better(mean, spread, best):
    from scipy.integrate import quad
    from scipy.stats import norm

    low, high = max(best, mean - 12 * spread), mean + 12 * spread
    rival = quad(lambda score: (score - best) * norm.pdf(score, mean, spread), low, high)[0] if high > low else 0.0

    assert trials.expected_gain(mean=mean, spread=spread, best=best) == pytest.approx(rival, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(("mean", "spread", "best"), [(6.0, 1.5, 7.0), (7.0, 0.5, 6.0), (2.0, 2.0, 8.0)])
def test_the_expected_gain_and_the_chance_are_those_of_many_draws(mean, spread, best):
    drawn = np.random.default_rng(7).normal(mean, spread, 400_000)

    gain = trials.expected_gain(mean=mean, spread=spread, best=best)
    assert gain == pytest.approx(np.maximum(drawn - best, 0).mean(), abs=4 * spread / 600)
    assert trials.chance_better(mean=mean, spread=spread, best=best) == pytest.approx((drawn > best).mean(), abs=0.004)


@given(SCORES, SPREADS, SCORES, st.floats(0, 5))
def test_more_mean_and_more_spread_never_gain_less(mean, spread, best, more):
    gain = trials.expected_gain(mean=mean, spread=spread, best=best)

    assert gain >= max(mean - best, 0) - 1e-12
    assert trials.expected_gain(mean=mean + more, spread=spread, best=best) >= gain - 1e-12
    assert trials.expected_gain(mean=mean, spread=spread + more, best=best) >= gain - 1e-12


@given(SCORES, SCORES)
def test_a_score_that_is_sure_gains_what_it_is_ahead(mean, best):
    assert trials.expected_gain(mean=mean, spread=0.0, best=best) == max(mean - best, 0.0)


def test_a_spread_below_nothing_is_refused():
    with pytest.raises(OutOfRangeError, match="spread"):
        trials.expected_gain(mean=1.0, spread=-0.1, best=0.0)
    with pytest.raises(OutOfRangeError, match="spread"):
        trials.chance_better(mean=1.0, spread=0.0, best=0.0)


PLACES = st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), min_size=5, max_size=9, unique=True)


def direct(surface, places):
    """Mean and spread by plain linear algebra: Matérn 5/2 with the surface's own lengths, signal and noise."""
    seen = np.array(surface.seen.places)

    def kernel(one, other):
        far = np.sqrt((((one[:, None, :] - other[None, :, :]) / surface.lengths) ** 2).sum(axis=2))
        return surface.signal**2 * (1 + np.sqrt(5) * far + 5 * far**2 / 3) * np.exp(-np.sqrt(5) * far)

    whole = kernel(seen, seen) + surface.noise**2 * np.eye(len(seen))
    across = kernel(places, seen)
    mean = surface.center + across @ np.linalg.solve(whole, np.array(surface.seen.scores) - surface.center)
    return mean, np.sqrt(surface.signal**2 - np.einsum("ij,ji->i", across, np.linalg.solve(whole, across.T)))


@settings(max_examples=15, deadline=None)
@given(PLACES, st.integers(0, 10**6))
def test_the_surface_is_what_plain_linear_algebra_gives(places, seed):
    scores = np.random.default_rng(seed).uniform(0, 10, len(places))
    surface = surface_of(seen_of(places, scores), Noise(0.7, 3.0))
    asked = np.random.default_rng(seed + 1).uniform(0, 1, (20, 2))

    mean, spread = surface.at(asked)
    rival_mean, rival_spread = direct(surface, asked)
    assert mean == pytest.approx(rival_mean, abs=1e-5)
    assert spread == pytest.approx(rival_spread, abs=1e-4)


@settings(max_examples=10, deadline=None)
@given(PLACES, st.randoms(use_true_random=False))
def test_the_order_of_trials_changes_nothing(places, chance):
    scores = [10 * first * (1 - second) for first, second in places]
    rows = list(zip(places, scores, strict=True))
    chance.shuffle(rows)
    shuffled = surface_of(seen_of(*zip(*rows, strict=True)), Noise(0.7, 3.0))

    assert shuffled is surface_of(seen_of(places, scores), Noise(0.7, 3.0))


def test_scores_all_alike_make_a_level_surface_and_no_warning():
    surface = surface_of(seen_of([[0.1], [0.3], [0.5], [0.7], [0.9]], [6.0] * 5), Noise(0.7, 3.0))
    mean, spread = surface.at(np.array([[0.0], [0.5], [1.0]]))

    assert mean == pytest.approx([6.0] * 3)
    assert spread[1] < spread[0]


def hill(place):
    """A score without noise, best at 0.7 and 0.3."""
    return 10 - 20 * ((place[0] - 0.7) ** 2 + (place[1] - 0.3) ** 2)


def test_the_top_of_a_known_hill_is_found_in_a_few_trials():
    offered = spread_over(2)
    places = [(0.1, 0.9), (0.9, 0.9), (0.1, 0.1), (0.9, 0.1), (0.5, 0.5)]
    for _ in range(8):
        index = next_place(seen_of(places, [hill(place) for place in places]), Noise(0.05, 50.0), offered)
        places.append(tuple(offered[index]))

    assert max(hill(place) for place in places) > 9.85


def test_believing_makes_sure_where_it_believes_and_no_better():
    surface = surface_of(seen_of([[0.1], [0.3], [0.5], [0.7], [0.9]], [2.0, 5.0, 7.0, 5.0, 2.0]), Noise(0.5, 3.0))
    place = np.array([[0.6]])
    after = surface.believing((0.6,))

    assert after.at(place)[0] == pytest.approx(surface.at(place)[0], abs=1e-6)
    assert after.at(place)[1] < surface.at(place)[1]


@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1)), max_size=6))
def test_filling_takes_the_place_furthest_from_all(taken):
    offered = spread_over(2)
    (first,) = spread_out(taken, offered, many=1)

    if taken:
        near = np.sqrt(((offered[:, None, :] - np.array(taken)[None, :, :]) ** 2).sum(axis=2)).min(axis=1)
        assert near[first] == near.max()
    else:
        assert tuple(offered[first]) == (0.5, 0.5)


MIXES = ("plaster-scratch", "plaster-brown-lime", "mortar-N", "earth-plaster", "lime-plaster-hydraulic", "foamed-1000",
         "grout-coarse", "concrete-footing", "stabilized-earth")  # fmt: skip


@pytest.mark.parametrize("name", MIXES)
def test_a_mix_turned_to_ratios_and_back_is_the_same_mix(name):
    mix = kind("mixes", name)
    usual = usual_of(mix)
    again = usual_of(mix_with(mix, {key: usual[key] for key in keys_of(mix)}))

    assert again == pytest.approx(usual)


@pytest.mark.parametrize("name", MIXES)
@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_what_is_proposed_lies_in_its_ranges_once_measured_out_and_read_back(name, sample):
    mix, measures, system = kind("mixes", name), *site_of(sample)
    told = trials_told((), mix, Asked(), measures=measures, system=system)

    assert told.filling
    assert len(told.next) == 3
    for trial in told.next:
        ratios = ratios_of(contents_of(trial.amounts, mix, measures), mix)[0]
        for factor in told.factors:
            assert factor.holds(ratios.get(factor.key, trial.values[factor.key])), (factor, ratios)


@settings(max_examples=12, deadline=None)
@given(st.lists(st.tuples(st.integers(16, 32), st.integers(18, 48), st.integers(0, 10)), min_size=5, max_size=9))
def test_after_any_trials_what_is_proposed_lies_in_its_ranges_and_gains_what_it_says(rows):
    raws = [raw_trial(at, sand / 4, water, {"score": str(score)}) for at, (sand, water, score) in enumerate(rows)]
    measures, system = site_of("seed-garden")
    told = trials_told(entries(raws), kind("mixes", "plaster-scratch"), Asked(), measures=measures, system=system)

    for trial in told.next:
        ratios = ratios_of(contents_of(trial.amounts, told.mix, measures), told.mix)[0]
        assert all(factor.holds(ratios[factor.key]) for factor in told.factors if factor.key in ratios)
        assert trial.expected is not None
        assert trial.expected.gain >= 0
        assert 0 <= trial.expected.chance <= 1
        assert trial.outside == ()


def test_the_order_of_the_log_changes_no_proposal():
    measures, system = site_of("seed-garden")
    own = entries(story())
    mixed = [own[at] for at in (3, 7, 0, 5, 2, 6, 1, 4)]
    mix = kind("mixes", "plaster-scratch")
    one, other = (trials_told(each, mix, Asked(), measures=measures, system=system) for each in (own, mixed))

    assert [trial.amounts for trial in one.next] == [trial.amounts for trial in other.next]
    assert one.best == other.best


def site_of(sample):
    """Measures and units of a sample."""
    plan = plan_of(files("pinfold.store").joinpath(f"samples/{sample}/plan.toml").read_text(encoding="utf-8"))
    return Measures(mixing=plan.mixing, volumes=volumes_of(plan.mixing)), plan.units
