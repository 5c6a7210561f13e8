"""Belief at three levels, family, mix and batch: exact for readings that scatter normally, closed form.

Everything is on one scale where spreads add: the logarithm of what was read over what was thought before. The level of
a mix at an age is a + b + g x: a of the family on this site, b of the mix beside it, g of how it grows beside its curve
(x the logarithm of the share of the 28-day strength by the curve, so that it grows steeper or flatter and never turns
down). A body brings its batch, how its kind is turned into the one all are told in (the same for all bodies of that
kind), and its own scatter. All are normal around 0 with known spreads, so that what is
believed of a, b and g after any readings is one linear solution; a mix nobody tried is a with b and g as before.

Two things are not normal and are met by turns until nothing moves: a reading far out counts less (`tail_weight`), and a
coarse reading, that says only between which two strengths something lies, stands in as the normal reading that moves
the belief as much (expectation propagation).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from pinfold.studies.lessons.habits import FREEDOM
from pinfold.units import Ratio

_ROUNDS = 100
_STILL = 1e-9
_DAMPED = 0.7
"""Share of the way a coarse reading's stand-in goes in one round, so that many of them do not swing."""
SLIP: Ratio = 0.05
"""One coarse reading in twenty was looked at wrongly and says nothing."""
_ROOT_2 = math.sqrt(2.0)


class Spreads(NamedTuple):
    """Known spreads of the levels, one standard deviation of the logarithm."""

    family: Ratio
    mix: Ratio
    age: Ratio
    batch: Ratio


class Tried(NamedTuple):
    """One reading.

    Attributes:
        mix: of which mix.
        batch: bodies of one batch share this.
        over: logarithm of the reading over what was thought; of a coarse reading unused.
        growth: logarithm of the share of the 28-day strength at its age, by the curve.
        noise: scatter of one such body within its batch.
        body: kind of body that `doubt` is shared by; empty for the one all are told in.
        doubt: how unsure the turning of such bodies into that one is.
        low: of a coarse reading, likewise over what was thought; None for an exact one.
        high: likewise.
    """

    mix: str
    batch: str
    over: float
    growth: float
    noise: float
    body: str = ""
    doubt: float = 0.0
    low: float | None = None
    high: float | None = None

    @property
    def is_coarse(self) -> bool:
        """Whether it says only between what and what."""
        return self.low is not None or self.high is not None


class Level(NamedTuple):
    """What is believed of a level: logarithm over what was thought before, and its standard deviation."""

    over: float
    spread: float


class Belief(NamedTuple):
    """What is believed of a family and each of its mixes.

    Attributes:
        spreads: known of the levels.
        mixes: that were tried, in order of `center`.
        center: a, then b and g of each mix tried, then each kind of body.
        scatter: covariance of the same.
    """

    spreads: Spreads
    mixes: tuple[str, ...]
    center: np.ndarray
    scatter: np.ndarray

    def level(self, mix: str, growth: float) -> Level:
        """Of a mix at an age, tried or not."""
        along = np.zeros(len(self.center))
        along[0], beside = 1.0, 0.0
        if mix in self.mixes:
            at = 1 + 2 * self.mixes.index(mix)
            along[at : at + 2] = 1.0, growth
        else:
            beside = self.spreads.mix**2 + (self.spreads.age * growth) ** 2
        return Level(float(along @ self.center), math.sqrt(max(along @ self.scatter @ along + beside, 0.0)))


def believed(tests: Sequence[Tried], spreads: Spreads, freedom: Ratio = FREEDOM) -> Belief:
    """What is believed after readings; their order does not matter.

    Args:
        tests: of mixes of one family; none for what is thought before
        spreads: known of the levels
        freedom: degrees of freedom of the tails; so many that there is no end for readings that scatter just normally
    """
    in_order = sorted(tests, key=repr)
    mixes = tuple(dict.fromkeys(test.mix for test in in_order))
    told = _Told.of(in_order, mixes, spreads)
    sites = _first_sites(in_order, spreads)
    center, scatter = told.solved(sites)
    for _ in range(_ROUNDS if in_order else 0):
        sites = _next_sites(told, sites, (center, scatter), freedom)
        before, (center, scatter) = center, told.solved(sites)
        if float(np.max(np.abs(center - before))) < _STILL:
            break
    return Belief(spreads, mixes, center, scatter)


class _Sites(NamedTuple):
    """Each reading as a normal one: where, and how surely (one over its variance, less where it lies far out)."""

    at: np.ndarray
    sure: np.ndarray


class _Told(NamedTuple):
    """Readings as a linear system."""

    design: np.ndarray
    before: np.ndarray
    batch: np.ndarray
    batch_sure: float
    over: np.ndarray
    noise: np.ndarray
    coarse: np.ndarray
    low: np.ndarray
    high: np.ndarray
    batch_variance: float

    @classmethod
    def of(cls, tests: Sequence[Tried], mixes: tuple[str, ...], spreads: Spreads) -> _Told:
        bodies = tuple(dict.fromkeys((test.body, test.doubt) for test in tests if test.body and test.doubt > 0))
        design = np.zeros((len(tests), 1 + 2 * len(mixes) + len(bodies)))
        design[:, 0] = 1.0
        for row, test in enumerate(tests):
            at = 1 + 2 * mixes.index(test.mix)
            design[row, at : at + 2] = 1.0, test.growth
            if (test.body, test.doubt) in bodies:
                design[row, 1 + 2 * len(mixes) + bodies.index((test.body, test.doubt))] = 1.0
        known = [spreads.family, *(each for _ in mixes for each in (spreads.mix, spreads.age)), *(d for _, d in bodies)]
        batches: dict[tuple[str, str], int] = {}
        return cls(
            design=design,
            before=1 / np.square(np.array(known)),
            batch=np.array([batches.setdefault((test.mix, test.batch), len(batches)) for test in tests], dtype=int),
            batch_sure=1 / spreads.batch**2 if spreads.batch > 0 else math.inf,
            over=np.array([test.over for test in tests]),
            noise=np.array([test.noise for test in tests]),
            coarse=np.array([test.is_coarse for test in tests], dtype=bool),
            low=np.array([-math.inf if test.low is None else test.low for test in tests]),
            high=np.array([math.inf if test.high is None else test.high for test in tests]),
            batch_variance=spreads.batch**2,
        )  # fmt: skip

    def solved(self, sites: _Sites) -> tuple[np.ndarray, np.ndarray]:
        """Center and covariance of all levels; batches are summed out."""
        weighed = self.design * sites.sure[:, None]
        whole = np.diag(self.before) + self.design.T @ weighed
        pull = weighed.T @ sites.at
        exact = ~self.coarse  # a coarse reading is taken as of a batch of its own, in its noise
        if exact.any():
            count = int(self.batch.max()) + 1
            per_batch = np.zeros((count, self.design.shape[1]))
            np.add.at(per_batch, self.batch[exact], weighed[exact])
            sums = np.bincount(self.batch[exact], (sites.sure * sites.at)[exact], minlength=count)
            share = 1 / (self.batch_sure + np.bincount(self.batch[exact], sites.sure[exact], minlength=count))
            whole = whole - per_batch.T @ (per_batch * share[:, None])
            pull = pull - per_batch.T @ (share * sums)
        scatter = np.linalg.inv(whole)
        return scatter @ pull, scatter

    def levels(self, center: np.ndarray, scatter: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Of each reading's own place: what is believed there and its variance."""
        return self.design @ center, np.einsum("ij,jk,ik->i", self.design, scatter, self.design)


def _first_sites(tests: Sequence[Tried], spreads: Spreads) -> _Sites:
    coarse = np.array([test.is_coarse for test in tests], dtype=bool)
    sure = 1 / np.square(np.array([test.noise for test in tests]))
    return _Sites(np.array([0.0 if test.is_coarse else test.over for test in tests]), np.where(coarse, 0.0, sure))


def _next_sites(told: _Told, sites: _Sites, now: tuple[np.ndarray, np.ndarray], freedom: Ratio) -> _Sites:
    """Readings weighed by how far out they lie, coarse ones by what they say beside all else."""
    middle, variance = told.levels(*now)
    far = np.square(told.over - middle) / (np.square(told.noise) + told.batch_variance + variance)
    weight = np.minimum(1.0, (freedom + 1) / (freedom + far))  # learning.tail_weight of each
    at, sure = sites.at.copy(), np.where(told.coarse, sites.sure, weight / np.square(told.noise))
    for row in np.flatnonzero(told.coarse):
        at[row], sure[row] = _stand_in(told, sites, int(row), (float(middle[row]), float(variance[row])))
    return _Sites(at, sure)


def _stand_in(told: _Told, sites: _Sites, row: int, level: tuple[float, float]) -> tuple[float, float]:
    """Where and how surely a normal reading would stand that says as much as a coarse one."""
    at, sure = float(sites.at[row]), float(sites.sure[row])
    left = 1 / level[1] - sure
    if left <= 0:
        return at, sure
    without, spread = (level[0] / level[1] - sure * at) / left, 1 / left
    found = _cut(without, spread, told, row)
    wanted = max(1 / found[1] - left, 0.0)
    pull = found[0] / found[1] - without * left if wanted else 0.0
    new_sure = (1 - _DAMPED) * sure + _DAMPED * wanted
    new_pull = (1 - _DAMPED) * sure * at + _DAMPED * pull
    return (new_pull / new_sure if new_sure > 0 else 0.0), new_sure


def _cut(middle: float, variance: float, told: _Told, row: int) -> tuple[float, float]:
    """Mean and variance of a level by a coarse reading of it, which one time in twenty says nothing."""
    whole = math.sqrt(variance + float(told.noise[row]) ** 2 + told.batch_variance)
    low, high = (float(told.low[row]) - middle) / whole, (float(told.high[row]) - middle) / whole
    inside = (1 - SLIP) * (_below(high) - _below(low))
    chance = SLIP + inside
    first = (1 - SLIP) * (_dense(low) - _dense(high)) / chance
    second = (1 - SLIP) * (_times(high) - _times(low)) / chance
    step = variance / whole
    return middle + step * first, variance - step * step * (first * first + second)


def _below(z: float) -> float:
    return 0.5 * (1 + math.erf(z / _ROOT_2))


def _dense(z: float) -> float:
    return math.exp(-z * z / 2) / math.sqrt(2 * math.pi) if math.isfinite(z) else 0.0


def _times(z: float) -> float:
    return z * _dense(z) if math.isfinite(z) else 0.0
