"""What a trial not yet made may bring: how much better than the best it is expected to be, and the chance of it.

Scores are on one scale, whichever it is; a score not yet seen is thought of as a mean with a spread of one standard
deviation.
"""

from __future__ import annotations

import math

import numpy as np
from scipy.special import ndtr

from pinfold.formulas.ranges import within
from pinfold.units import Ratio

_HALF_SQUARE: Ratio = math.sqrt(2 * math.pi)


def expected_gain(*, mean: Ratio, spread: Ratio, best: Ratio) -> Ratio:
    """How much better than the best a trial is expected to come out: g = (μ − b) Φ(z) + σ φ(z), z = (μ − b) / σ.

    What turns out worse than the best counts as no gain, not as a loss: the best stays at hand.

    Args:
        mean: μ, score expected of it [-]
        spread: σ, how unsure that is, one standard deviation [-]
        best: b, score to beat [-]

    Returns:
        g, expected gain over the best, never below 0 [-]

    Raises:
        OutOfRangeError: the spread is below 0, or a number is none.

    Range:
        σ ≥ 0, refused outside; numbers or arrays. With σ = 0 the gain is μ − b, or nothing.

    Source:
        EXPECTED-IMPROVEMENT, the closed form of the expected improvement, for a maximum (memory)
        NORMAL-LOSS, the same expectation as loss function of the normal distribution (read)

    Example:
        >>> expected_gain(mean=6.0, spread=1.0, best=6.0)
        0.3989
    """
    ahead = np.asarray(within(mean, "mean score") - within(best, "best score"), dtype=float)
    wide = np.asarray(within(spread, "spread of a score", low=0.0), dtype=float)
    z = np.divide(ahead, wide, out=np.zeros(np.broadcast(ahead, wide).shape), where=wide > 0)
    unsure = ahead * ndtr(z) + wide * np.exp(-z * z / 2) / _HALF_SQUARE
    gain: Ratio = np.maximum(np.where(wide > 0, unsure, ahead), 0.0)[()]  # type: ignore[assignment]  # a float is one
    return gain


def chance_better(*, mean: Ratio, spread: Ratio, best: Ratio) -> Ratio:
    """Chance that a trial comes out better than the best: P = Φ((μ − b) / σ).

    Args:
        mean: μ, score expected of it [-]
        spread: σ, how unsure that is, one standard deviation [-]
        best: b, score to beat [-]

    Returns:
        P, chance from 0 to 1 [-]

    Raises:
        OutOfRangeError: the spread is not above 0, or a number is none.

    Range:
        σ > 0, refused outside; numbers or arrays.

    Source:
        STATISTICS, normal distribution (derived)

    Example:
        >>> chance_better(mean=7.0, spread=1.0, best=6.0)
        0.8413
    """
    ahead = within(mean, "mean score") - within(best, "best score")
    chance: Ratio = ndtr(ahead / within(spread, "spread of a score", above=0.0))
    return chance
