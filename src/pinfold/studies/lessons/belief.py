"""From readings to a belief: the normal update, with slips counted little and the readings' own scatter counted in."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from pinfold.findings import Step, work
from pinfold.formulas import learning
from pinfold.studies.lessons.habits import CLIP, FREEDOM, OWN_FROM, USUAL_COUNTS
from pinfold.studies.lessons.records import Alone, Prior, Reading

_MOST_ROUNDS = 200
_STILL = 1e-13


class Learned(NamedTuple):
    """A belief with its lines of working."""

    value: float
    spread: float
    weight: float
    working: tuple[Step, ...]


class _Weighed(NamedTuple):
    mean: float
    many: float


def learned_from(readings: Sequence[Reading], prior: Prior) -> Learned:
    """What is believed after readings; their order does not matter.

    Each reading counts by `tail_weight`, so that one slip does not carry the value away; where the middle is depends on
    the weights and they on the middle, so both are found by turns, from the median on (from the prior with one or two
    readings). The scatter of one reading is the usual one joined with the readings' own.

    Args:
        readings: at least one
        prior: what was thought before
    """
    in_order = sorted(readings)
    values = np.array([reading.value for reading in in_order])
    ages = np.array([reading.weight for reading in in_order])
    scatter, steps = _scatter(values, prior)
    middle = _start(values, prior)
    weighed = _weighed(values, ages, middle, scatter)
    for _ in range(_MOST_ROUNDS):
        before, middle = middle, _belief(weighed, prior, scatter).value
        weighed = _weighed(values, ages, middle, scatter)
        if abs(middle - before) <= _STILL * max(abs(middle), scatter):
            break
    last = work(learning.normal_posterior, why="before and readings weighed", **_inputs(weighed, prior, scatter))
    belief = last.result
    assert isinstance(belief, learning.Belief)
    return Learned(belief.value, belief.spread, belief.weight, (*steps, last))


def alone(readings: Sequence[Reading], prior: Prior) -> Alone:
    """What readings say by themselves: what is believed after them with the prior taken out again.

    Args:
        readings: at least one
        prior: what was thought before
    """
    found = learned_from(readings, prior)
    if prior.value is None or prior.spread is None:
        return Alone(found.value, found.spread)
    sure = 1 / found.spread**2 - 1 / prior.spread**2
    value = (found.value / found.spread**2 - prior.value / prior.spread**2) / sure
    return Alone(value, 1 / math.sqrt(sure))


def _belief(weighed: _Weighed, prior: Prior, scatter: float) -> learning.Belief:
    return learning.normal_posterior(**_inputs(weighed, prior, scatter))


def _inputs(weighed: _Weighed, prior: Prior, scatter: float) -> dict[str, float]:
    thought = prior.value is not None and prior.spread is not None
    return {
        "prior": prior.value if thought and prior.value is not None else weighed.mean,
        "prior_spread": prior.spread if thought and prior.spread is not None else math.inf,
        "mean": weighed.mean,
        "spread": scatter,
        "count": weighed.many,
    }


def _start(values: np.ndarray, prior: Prior) -> float:
    return float(np.median(values)) if prior.value is None or len(values) >= OWN_FROM else prior.value


def _weighed(values: np.ndarray, ages: np.ndarray, middle: float, scatter: float) -> _Weighed:
    """Mean and count of the readings, each counted by its age and by how far out it lies."""
    far = np.abs(values - middle) / scatter
    weights = ages * np.minimum(1.0, (FREEDOM + 1) / (FREEDOM + far * far))  # learning.tail_weight of each
    count = math.fsum(weights)
    return _Weighed(math.fsum(weights * values) / count, count)


def _scatter(values: np.ndarray, prior: Prior) -> tuple[float, tuple[Step, ...]]:
    """Scatter of one reading with its line of working; the usual one where there are too few to tell."""
    if len(values) < (OWN_FROM if prior.value is not None else 2):
        return prior.within, ()
    median = float(np.median(values))
    deviation = float(np.median(np.abs(values - median)))
    robust = work(learning.spread_by_deviation, why="scatter by the middle distance", deviation=deviation)
    reach = CLIP * max(robust.number, prior.within)
    own = float(np.std(np.clip(values, median - reach, median + reach), ddof=1))
    pooled = work(
        learning.pooled_spread, why="scatter of one reading, the usual and their own", usual=prior.within,
        usual_count=USUAL_COUNTS, own=own, own_count=float(len(values) - 1),
    )  # fmt: skip
    return pooled.number, (robust, pooled)
