"""Trials that are alike: how far their scores scatter, and where two of them contradict each other."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from pinfold.formulas import learning
from pinfold.studies.trials.choosing import ALIKE
from pinfold.studies.trials.records import Contradiction, Factor, Trial
from pinfold.studies.trials.surface import Noise

USUAL_NOISE = 0.7
"""How far a builder's scores of alike trials lie apart, one standard deviation, 0 to 10 (common practice)."""
USUAL_REPEATS = 3.0
"""For how many repeats that counts."""
_NINETEEN = 1.96 * math.sqrt(2)
_SAID_LATER = ("score", "slump", "wet_density")
"""Words of an entry that tell how it came out."""


def scored(trials: Sequence[Trial]) -> list[tuple[Trial, float]]:
    """Trials that have a score, with it."""
    return [(trial, trial.score) for trial in trials if trial.score is not None]


def alike(one: Trial, other: Trial, factors: Sequence[Factor]) -> bool:
    """Whether two trials are alike in all factors, as far as a bucket can tell."""
    return all(
        abs(one.values[factor.key] - other.values[factor.key]) <= ALIKE * (factor.high - factor.low)
        for factor in factors
    )


def noise_of(trials: Sequence[Trial], factors: Sequence[Factor]) -> tuple[Noise, int]:
    """How far alike trials scatter, and how many repeats say so: what is usual and what they say, joined."""
    squares, freedom = _within(list(_repeats(trials, factors)))
    own = math.sqrt(squares / freedom) if freedom else 0.0
    spread = learning.pooled_spread(
        usual=USUAL_NOISE, usual_count=USUAL_REPEATS, own=own, own_count=float(freedom)
    )  # fmt: skip
    return Noise(spread, USUAL_REPEATS + freedom), freedom


def contradictions(trials: Sequence[Trial], factors: Sequence[Factor]) -> tuple[Contradiction, ...]:
    """Pairs of alike trials whose scores lie further apart than alike ones do, the furthest first.

    What is allowed is told by all the others: a pair that contradicts itself does not excuse itself.
    """
    found = []
    for one, other in combinations(scored(trials), 2):
        if not alike(one[0], other[0], factors):
            continue
        rest = [trial for trial in trials if trial not in (one[0], other[0])]
        allowed = _NINETEEN * noise_of(rest, factors)[0].spread
        (higher, most), (lower, least) = sorted((one, other), key=lambda pair: -pair[1])
        if most - least > allowed:
            found.append(
                Contradiction(
                    higher=higher, lower=lower, apart=most - least, allowed=allowed, differed=differed(higher, lower)
                )
            )
    return tuple(sorted(found, key=lambda each: (-each.apart, each.higher.seq, each.lower.seq)))


def differed(one: Trial, other: Trial) -> tuple[tuple[str, str, str], ...]:
    """What was not the same in two trials: conditions, then what was said of them, then the day."""
    rows = []
    for own, others in ((one.conditions, other.conditions), (one.scores, other.scores)):
        keys = [key for key in (*own, *(key for key in others if key not in own)) if key not in _SAID_LATER]
        rows += [(key, own.get(key, ""), others.get(key, "")) for key in keys if own.get(key) != others.get(key)]
    return (*rows, *((("day", one.day, other.day),) if one.day != other.day else ()))


def _same_conditions(one: Trial, other: Trial) -> bool:
    both = one.conditions.keys() & other.conditions.keys() & _WORDED
    return all(one.conditions[key] == other.conditions[key] for key in both)


_WORDED = frozenset({"base", "air", "wind", "sun"})
"""Conditions told in words: trials under other ones are no repeats."""


def _repeats(trials: Sequence[Trial], factors: Sequence[Factor]) -> Iterator[list[float]]:
    """Scores of trials that repeat each other, group by group."""
    left = sorted(scored(trials), key=lambda pair: ([pair[0].values[factor.key] for factor in factors], pair[1]))
    while left:
        first = left[0][0]
        group = [pair for pair in left if alike(first, pair[0], factors) and _same_conditions(first, pair[0])]
        left = [pair for pair in left if pair not in group]
        if len(group) > 1:
            yield [score for _, score in group]


def _within(groups: Sequence[Sequence[float]]) -> tuple[float, int]:
    squares = sum(
        math.fsum((score - math.fsum(group) / len(group)) ** 2 for score in group) for group in groups
    )  # fmt: skip
    return squares, sum(len(group) - 1 for group in groups)
