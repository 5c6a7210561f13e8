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
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from pinfold.studies.lessons.habits import FREEDOM
from pinfold.units import Ratio

_ROUNDS = 100
_STILL = 1e-7
_DAMPED = 0.7
"""Share of the way a coarse reading's stand-in goes in one round, so that many of them do not swing."""
_FLATTEST = -0.9
"""Old bodies weaker than young ones make a curve almost flat, never one that turns down."""
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
        along[0], beside, center = 1.0, 0.0, self.center
        if mix in self.mixes:
            at = 1 + 2 * self.mixes.index(mix)
            along[at : at + 2] = 1.0, growth
            center = center.copy()
            center[at + 1] = max(center[at + 1], _FLATTEST)
        else:
            beside = self.spreads.mix**2 + (self.spreads.age * growth) ** 2
        return Level(float(along @ center), math.sqrt(max(along @ self.scatter @ along + beside, 0.0)))


def believed(tests: Sequence[Tried], spreads: Spreads, freedom: Ratio = FREEDOM) -> Belief:
    """What is believed after readings; their order does not matter.

    Args:
        tests: of mixes of one family; none for what is thought before
        spreads: known of the levels
        freedom: degrees of freedom of the tails; so many that there is no end for readings that scatter just normally
    """
    return _believed(tuple(sorted(tests, key=repr)), spreads, freedom)


@lru_cache(maxsize=64)  # a new entry of one family leaves what is believed of all others
def _believed(in_order: tuple[Tried, ...], spreads: Spreads, freedom: Ratio) -> Belief:
    mixes = tuple(dict.fromkeys(test.mix for test in in_order))
    told = _Told.of(in_order, mixes, spreads)
    sites = told.first()
    center, scatter = told.solved(sites)
    for _ in range(_ROUNDS if in_order else 0):
        sites = told.next(sites, (center, scatter), freedom)
        before, (center, scatter) = center, told.solved(sites)
        if float(np.max(np.abs(center - before))) < _STILL:
            break
    return Belief(spreads, mixes, center, scatter)


class _Sites(NamedTuple):
    """Each reading as a normal one: how surely it is known (one over its variance), and that times where it is."""

    sure: np.ndarray
    pull: np.ndarray


class _Told(NamedTuple):
    """Readings as a linear system.

    Attributes:
        design: what of a, b and g of each mix, and of the doubt of each kind of body, is in each reading.
        before: one over the variance of each of these.
        batch: of which batch each reading is.
        batches: scatter of batches, as a variance.
        over: of each reading.
        noise: as a variance.
        coarse: places of the readings that say only between what and what, and those ends.
    """

    design: np.ndarray
    before: np.ndarray
    batch: np.ndarray
    batches: float
    over: np.ndarray
    noise: np.ndarray
    coarse: tuple[np.ndarray, np.ndarray, np.ndarray]

    @classmethod
    def of(cls, tests: Sequence[Tried], mixes: tuple[str, ...], spreads: Spreads) -> _Told:
        bodies = tuple(dict.fromkeys((test.body, test.doubt) for test in tests if test.body and test.doubt > 0))
        known = [spreads.family, *(each for _ in mixes for each in (spreads.mix, spreads.age)), *(d for _, d in bodies)]
        numbers: dict[tuple[str, str], int] = {}
        ends = [(row, test.low, test.high) for row, test in enumerate(tests) if test.is_coarse]
        return cls(
            design=_design(tests, mixes, bodies),
            before=1 / np.square(np.array(known)),
            batch=np.array([numbers.setdefault((test.mix, test.batch), len(numbers)) for test in tests], dtype=int),
            batches=spreads.batch**2,
            over=np.array([test.over for test in tests]),
            noise=np.square(np.array([test.noise for test in tests])),
            coarse=(
                np.array([row for row, _, _ in ends], dtype=int),
                np.array([-math.inf if low is None else low for _, low, _ in ends]),
                np.array([math.inf if high is None else high for _, _, high in ends]),
            ),
        )  # fmt: skip

    def first(self) -> _Sites:
        """All exact readings in full; coarse ones say nothing yet."""
        sure = 1 / self.noise
        sure[self.coarse[0]] = 0.0
        return _Sites(sure, sure * self.over)

    def solved(self, sites: _Sites) -> tuple[np.ndarray, np.ndarray]:
        """Center and covariance of all levels; batches are summed out."""
        weighed = self.design * sites.sure[:, None]
        whole, pull = np.diag(self.before) + self.design.T @ weighed, self.design.T @ sites.pull
        exact = np.ones(len(self.over), dtype=bool)
        exact[self.coarse[0]] = False  # a coarse reading is taken as of a batch of its own, in its noise
        if self.batches > 0 and exact.any():
            batch, count = self.batch[exact], int(self.batch.max()) + 1
            per_batch = np.zeros((count, self.design.shape[1]))
            np.add.at(per_batch, batch, weighed[exact])
            share = 1 / (1 / self.batches + np.bincount(batch, sites.sure[exact], minlength=count))
            whole = whole - per_batch.T @ (per_batch * share[:, None])
            pull = pull - per_batch.T @ (share * np.bincount(batch, sites.pull[exact], minlength=count))
        scatter = np.linalg.inv(whole)
        return scatter @ pull, scatter

    def next(self, sites: _Sites, now: tuple[np.ndarray, np.ndarray], freedom: Ratio) -> _Sites:
        """Readings weighed by how far out they lie, coarse ones by what they say beside all else."""
        center, scatter = now
        middle, variance = self.design @ center, np.sum((self.design @ scatter) * self.design, axis=1)
        whole = self.noise + self.batches
        weight = np.minimum(1.0, (freedom + 1) / (freedom + np.square(self.over - middle) / (whole + variance)))
        sure = 1 / (whole / weight - self.batches)  # learning.tail_weight of each, its batch's scatter counted in
        pull = sure * self.over
        rows = self.coarse[0]
        if len(rows):
            before = _Sites(sites.sure[rows], sites.pull[rows])
            sure[rows], pull[rows] = self._stand_ins(before, middle[rows], variance[rows])
        return _Sites(sure, pull)

    def _stand_ins(self, sites: _Sites, middle: np.ndarray, variance: np.ndarray) -> _Sites:
        """The normal readings that say as much as the coarse ones beside all else, most of the way from the last."""
        rows, low, high = self.coarse
        left = 1 / variance - sites.sure
        alone, spread = (middle / variance - sites.pull) / left, 1 / left
        mean, narrowed = _cut(alone, spread, (low, high), self.noise[rows] + self.batches)
        wanted = np.maximum(1 / narrowed - left, 0.0)
        pull = mean * (left + wanted) - alone * left
        return _Sites(
            (1 - _DAMPED) * sites.sure + _DAMPED * wanted, (1 - _DAMPED) * sites.pull + _DAMPED * pull
        )  # fmt: skip


def _design(tests: Sequence[Tried], mixes: tuple[str, ...], bodies: Sequence[tuple[str, float]]) -> np.ndarray:
    design = np.zeros((len(tests), 1 + 2 * len(mixes) + len(bodies)))
    design[:, 0] = 1.0
    for row, test in enumerate(tests):
        at = 1 + 2 * mixes.index(test.mix)
        design[row, at : at + 2] = 1.0, test.growth
        if (test.body, test.doubt) in bodies:
            design[row, 1 + 2 * len(mixes) + bodies.index((test.body, test.doubt))] = 1.0
    return design


def _cut(
    middle: np.ndarray, variance: np.ndarray, ends: tuple[np.ndarray, np.ndarray], noise: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Mean and variance of levels by coarse readings of them, which one time in twenty say nothing."""
    whole = np.sqrt(variance + noise)
    low, high = ((end - middle) / whole for end in ends)
    chance = SLIP + (1 - SLIP) * (_below(high) - _below(low))
    first = (1 - SLIP) * (_dense(low) - _dense(high)) / chance
    second = (1 - SLIP) * (_times(high) - _times(low)) / chance
    step = variance / whole
    return middle + step * first, variance - step * step * (first * first + second)


def _below(z: np.ndarray) -> np.ndarray:
    return np.array([0.5 * (1 + math.erf(each / _ROOT_2)) for each in z])


def _dense(z: np.ndarray) -> np.ndarray:
    dense: np.ndarray = np.exp(-np.square(z) / 2) / math.sqrt(2 * math.pi)
    return dense


def _times(z: np.ndarray) -> np.ndarray:
    times: np.ndarray = np.where(np.isfinite(z), z, 0.0) * _dense(z)
    return times
