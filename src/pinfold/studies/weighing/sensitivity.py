"""Which of many unsure figures an answer hangs on: shares of its variance, by themselves and in all."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from scipy.stats import qmc

from pinfold.units import Ratio

Array = npt.NDArray[np.float64]
Model = Callable[[Array], Array]
"""Takes chances between 0 and 1, (figures, n), gives answers, (answers, n)."""

POINTS = 4096
"""Points of either sample; a power of 2."""
SEED = 20_118
"""The same question gives the same answer each time."""
RESAMPLES = 200
CONFIDENCE: Ratio = 0.90


class Share(NamedTuple):
    """One share with its confidence, 90 of 100 lie in it."""

    value: Ratio
    low: Ratio
    high: Ratio


class Indices(NamedTuple):
    """What one answer hangs on.

    Attributes:
        first: of the variance that each figure brings by itself, in the order of the figures.
        total: that it brings with all others together; the sum may pass 1.
        answers: drawn, (n,).
    """

    first: tuple[Share, ...]
    total: tuple[Share, ...]
    answers: Array


def indices_of(model: Model, figures: int, *, points: int = POINTS) -> tuple[Indices, ...]:
    """First-order and total indices of every answer, by two Sobol' samples and each figure swapped between them.

    The first order is estimated as Saltelli (2010), the total as Jansen (1999); the confidence by drawing the points
    again and again. An answer that does not vary has no indices: all 0.

    Args:
        model: to ask
        figures: how many it takes
        points: of either sample; a power of 2
    """
    chance = np.random.default_rng(SEED)
    drawn = qmc.Sobol(d=2 * figures, rng=chance).random(points).T
    drawn = np.clip(drawn, _EDGE, 1 - _EDGE)
    one, other = drawn[:figures], drawn[figures:]
    at_one, at_other = model(one), model(other)
    swapped = np.stack([model(_with_row(one, other, number)) for number in range(figures)], axis=1)
    again = chance.multinomial(points, np.full(points, 1 / points), size=RESAMPLES) / points
    weights = np.vstack([np.full(points, 1 / points), again])
    return tuple(_of_answer(*each, weights) for each in zip(at_one, at_other, swapped, strict=True))


_EDGE = 1e-9
_STILL = 1e-12


def _with_row(one: Array, other: Array, number: int) -> Array:
    swapped = one.copy()
    swapped[number] = other[number]
    return swapped


def _of_answer(one: Array, other: Array, swapped: Array, weights: Array) -> Indices:
    """Indices of one answer, under every weighing of the points; the first weighs all alike.

    Args:
        one: answers on one sample, (n,)
        other: on the other, (n,)
        swapped: on the one with each figure from the other, (figures, n)
        weights: of the points, adding up to 1, (resamples + 1, n)
    """
    both = np.concatenate([one, other])
    if both.std() <= _STILL * (1 + np.abs(both).max()):
        none = (Share(0.0, 0.0, 0.0),) * len(swapped)
        return Indices(first=none, total=none, answers=one)
    a, b, mixed = one - both.mean(), other - both.mean(), swapped - both.mean()
    variance = weights @ ((a**2 + b**2) / 2) - (weights @ ((a + b) / 2)) ** 2
    first = weights @ (b * (mixed - a)).T / variance[:, None]
    total = weights @ ((a - mixed) ** 2 / 2).T / variance[:, None]
    return Indices(first=_shares(first), total=_shares(total), answers=one)


def _shares(found: Array) -> tuple[Share, ...]:
    """Figure by figure: as all points say, and where nine tenths of the resamples lie, (resamples + 1, figures)."""
    low, high = np.quantile(found[1:], ((1 - CONFIDENCE) / 2, (1 + CONFIDENCE) / 2), axis=0)
    return tuple(Share(*each) for each in zip(found[0].tolist(), low.tolist(), high.tolist(), strict=True))
