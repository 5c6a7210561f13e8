"""The surface of scores over the factors: a Gaussian process through the trials, sure near them and unsure far off.

Factors lie in their ranges, 0 at the low end and 1 at the high one. How fast the score may change along each factor,
how much it changes in all, and how far alike trials scatter are weighed between what is usual and what the trials say:
with few trials what is usual has the say.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from sklearn.gaussian_process import GaussianProcessRegressor
    from sklearn.gaussian_process.kernels import Kernel

Objective = Callable[..., tuple[float, np.ndarray]]

_LENGTH, _LENGTH_SPREAD = 0.6, 0.7
"""How far along a single factor the score stays alike, as a share of its range; times the root of how many there
are. The spread is of its logarithm (common practice)."""
_SIGNAL_SPREAD = 0.7
"""Of the logarithm of how much the score changes, squared, beside its scatter over the trials."""
_LENGTHS = (0.1, 8.0)
_SIGNALS = (0.05, 20.0)
_NOISES = (1e-8, 25.0)
_USUAL_SCATTER, _USUAL_COUNT = 2.0, 2.0
"""How far scores of different trials lie apart as a rule, and for how many trials that stands: none are taken for alike
because the first few happen to be."""
_MARGIN = 1e-3
"""Kept from the ends of a range of logarithms, so that what lies there is told by us and not by a warning."""


class Seen(NamedTuple):
    """Trials as numbers, in an order of their own so that it does not matter in which they came.

    Attributes:
        places: of each trial, its factors in their ranges.
        scores: of each.
    """

    places: tuple[tuple[float, ...], ...]
    scores: tuple[float, ...]


class Noise(NamedTuple):
    """How far scores of alike trials lie apart.

    Attributes:
        spread: one standard deviation.
        repeats: for how many it stands; what is usual counts for some.
    """

    spread: float
    repeats: float


@dataclass(frozen=True, kw_only=True)
class Surface:
    """Scores over the factors.

    Attributes:
        seen: the trials it goes through.
        lengths: how far along each factor the score stays alike, as a share of the range.
        signal: how far the score goes up and down, one standard deviation.
        noise: how far alike trials scatter, one standard deviation.
        settled: whether the search for these came to rest.
        center: score far from all trials.
        fitted: the library's Gaussian process, over scores less `center`.
    """

    seen: Seen
    lengths: tuple[float, ...]
    signal: float
    noise: float
    settled: bool
    center: float
    fitted: GaussianProcessRegressor

    def at(self, places: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Mean and spread of the true score at places, one a row."""
        mean, spread = self.fitted.predict(np.asarray(places, dtype=float), return_std=True)
        return self.center + mean, spread

    def mean_at(self, places: np.ndarray) -> np.ndarray:
        """The mean alone, which is found much faster."""
        mean: np.ndarray = self.center + self.fitted.predict(places)
        return mean

    def believing(self, place: Sequence[float]) -> Surface:
        """The same as if a trial there had come out as expected: it grows sure there and thinks no better of it."""
        (mean,) = self.mean_at(np.array([place]))
        seen = Seen((*self.seen.places, tuple(place)), (*self.seen.scores, float(mean)))
        fitted = through(self.fitted.kernel_, seen, center=self.center, noise=self.noise)
        return Surface(
            seen=seen, lengths=self.lengths, signal=self.signal, noise=self.noise, settled=self.settled,
            center=self.center, fitted=fitted,
        )  # fmt: skip


def seen_of(places: Sequence[Sequence[float]], scores: Sequence[float]) -> Seen:
    """Trials sorted by their numbers."""
    rows = sorted(zip((tuple(place) for place in places), scores, strict=True))
    return Seen(tuple(place for place, _ in rows), tuple(score for _, score in rows))


def through(kernel: Kernel, seen: Seen, *, center: float, noise: float) -> GaussianProcessRegressor:
    """A process with a kernel as it is through trials.

    Args:
        kernel: of the score, without the scatter of alike trials
        seen: the trials
        center: score far from all of them
        noise: how far alike trials scatter
    """
    from sklearn.gaussian_process import GaussianProcessRegressor

    fitted = GaussianProcessRegressor(kernel=kernel, alpha=noise**2 + _JITTER, optimizer=None)
    return fitted.fit(np.array(seen.places), np.array(seen.scores) - center)


_JITTER = 1e-10


@lru_cache(maxsize=64)  # a page asks again with the same trials
def surface_of(seen: Seen, noise: Noise) -> Surface:
    """The surface through trials.

    Args:
        seen: at least one trial
        noise: how far alike trials scatter, as repeats and habit tell
    """
    from sklearn.gaussian_process import GaussianProcessRegressor
    from sklearn.gaussian_process.kernels import ConstantKernel, Matern, WhiteKernel

    center, scale = _level(seen.scores)
    usual = _usual(len(seen.places[0]), noise, scale)
    search = _Search(usual)
    kernel = ConstantKernel(1.0, _SIGNALS) * Matern(
        length_scale=np.exp(usual.middle[1:-1]), length_scale_bounds=_LENGTHS, nu=2.5
    ) + WhiteKernel(math.exp(usual.middle[-1]), _NOISES)
    fitted = GaussianProcessRegressor(kernel=kernel, alpha=_JITTER, optimizer=search)
    fitted.fit(np.array(seen.places), (np.array(seen.scores) - center) / scale)
    found = np.exp(fitted.kernel_.theta)
    signal, lengths, scatter = scale * math.sqrt(found[0]), found[1:-1], scale * math.sqrt(found[-1])
    own = ConstantKernel(signal**2) * Matern(length_scale=lengths, nu=2.5)
    return Surface(
        seen=seen, lengths=tuple(map(float, lengths)), signal=signal, noise=scatter, settled=search.settled,
        center=center, fitted=through(own, seen, center=center, noise=scatter),
    )  # fmt: skip


def _level(scores: Sequence[float]) -> tuple[float, float]:
    """Middle of the scores and how far they lie from it, what is usual counted in."""
    values = np.array(scores)
    center = float(np.mean(values))
    squares = float(np.sum((values - center) ** 2))
    freedom = len(values) - 1 + _USUAL_COUNT
    return center, math.sqrt((squares + _USUAL_COUNT * _USUAL_SCATTER**2) / freedom)


class _Usual(NamedTuple):
    """What is usual before any trial: logarithms of signal, lengths and noise, and their spreads."""

    middle: np.ndarray
    spread: np.ndarray


def _usual(factors: int, noise: Noise, scale: float) -> _Usual:
    length = math.log(_LENGTH * math.sqrt(factors))
    scatter = math.log(np.clip((noise.spread / scale) ** 2, _NOISES[0] * 2, _NOISES[1] / 2))
    middle = np.array([0.0, *[length] * factors, scatter])
    return _Usual(middle, np.array([_SIGNAL_SPREAD, *[_LENGTH_SPREAD] * factors, math.sqrt(2 / noise.repeats)]))


class _Search:
    """Finds the most likely logarithms of signal, lengths and noise; handed to the library, which calls it once."""

    def __init__(self, usual: _Usual) -> None:
        self._usual = usual
        self.settled = False

    def __call__(self, objective: Objective, start: np.ndarray, bounds: np.ndarray) -> tuple[np.ndarray, float]:
        """The library's way to ask: its objective gives minus the log likelihood with its slope."""
        from scipy.optimize import minimize

        middle, spread = self._usual

        def unlikely(theta: np.ndarray) -> tuple[float, np.ndarray]:
            value, slope = objective(theta, eval_gradient=True)
            off = (theta - middle) / spread
            return value + float(off @ off) / 2, slope + off / spread

        inner = [(low + _MARGIN, high - _MARGIN) for low, high in bounds]
        found = minimize(unlikely, middle, jac=True, method="L-BFGS-B", bounds=inner, options={"maxiter": 60})
        self.settled = bool(found.success)
        return found.x, float(found.fun)
