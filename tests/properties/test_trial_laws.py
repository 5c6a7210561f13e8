"""Laws of the expected gain, of the surface through trials, and of what is proposed from it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import trials

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
