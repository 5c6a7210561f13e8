"""In which order supports are jacked: small lifts by turns, so that no two neighbors are ever bent past their limit.

The bend between two neighbors is how far one stands over the other, over their distance. No step brings a pair past the
limit, or past what it has now or is to have in the end, whichever is most: so the lowest can always be lifted.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pinfold.errors import NoSolutionError
from pinfold.figures import practice, printed
from pinfold.sources import Standing
from pinfold.studies.leveling.solving import Numbers
from pinfold.units import METER, RATIO, Meter, Ratio, System

STEP = {
    System.US: printed("1/8 in", METER, Standing.READ, "LIFT-RATE", "lift at one place before the next"),
    System.METRIC: printed("3 mm", METER, Standing.DERIVED, "LIFT-RATE", "1/8 in, rounded down"),
}
"""Most that a jack lifts before it goes on to the next support, unless the plan says another."""
BEND = practice("0.0033", RATIO, "1/300, the limit of damage that is seen, kept while jacking")
"""Most that neighbors may be bent against each other, unless they are already."""
_PARTS = (1.0, 0.5, 0.25)
_DONE: Meter = 1e-6
_MOST_STEPS = 2000


@dataclass(frozen=True, kw_only=True)
class Lifted:
    """A support to be moved.

    Attributes:
        mark: of it.
        at: its place in plan.
        height: it stands at now.
        lift: it is to get; below zero it comes down.
    """

    mark: str
    at: tuple[Meter, Meter]
    height: Meter
    lift: Meter


@dataclass(frozen=True, kw_only=True)
class JackStep:
    """One lift at one support.

    Attributes:
        number: from 1.
        mark: of the support.
        lift: of this step; below zero it comes down.
        so_far: lift of this support with this step.
        left: that it still is to get.
        bend: worst of all pairs of neighbors after the step.
        allowed: for that pair.
        pair: marks of it.
    """

    number: int
    mark: str
    lift: Meter
    so_far: Meter
    left: Meter
    bend: Ratio
    allowed: Ratio
    pair: tuple[str, str]


def neighbors(places: Sequence[tuple[Meter, Meter]]) -> tuple[tuple[int, int], ...]:
    """Pairs with no third place inside the circle over their distance."""
    pairs = []
    for i, one in enumerate(places):
        for j in range(i + 1, len(places)):
            other = places[j]
            middle, reach = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2), math.dist(one, other) / 2
            if reach > 0 and all(
                math.dist(middle, third) > reach * (1 - 1e-9) for k, third in enumerate(places) if k not in (i, j)
            ):
                pairs.append((i, j))
    return tuple(pairs)


class _Bends:
    """How neighbors are bent, and what each pair may be."""

    def __init__(self, supports: Sequence[Lifted], limit: Ratio) -> None:
        places = [support.at for support in supports]
        self.pairs = neighbors(places)
        self.reach = np.array([math.dist(places[i], places[j]) for i, j in self.pairs])
        now = np.array([support.height for support in supports])
        end = now + np.array([support.lift for support in supports])
        self.allowed = np.maximum.reduce([np.full(len(self.pairs), limit), self.of(now), self.of(end)])

    def of(self, heights: Numbers) -> Numbers:
        """Bend of each pair."""
        bent: Numbers = np.array([abs(heights[i] - heights[j]) for i, j in self.pairs]) / self.reach
        return bent

    def use(self, heights: Numbers) -> tuple[float, int]:
        """Share of what is allowed that the worst pair takes, and its place."""
        shares: Numbers = self.of(heights) / self.allowed
        worst = int(np.argmax(shares))
        return float(shares[worst]), worst


def jacking_order(
    supports: Sequence[Lifted], *, step: Meter, limit: Ratio = BEND.value
) -> tuple[JackStep, ...]:  # fmt: skip
    """Every lift in order; each time the one that bends the structure least, at another support where one can be.

    Args:
        supports: all, those that stay with a lift of 0
        step: most that is lifted at one place before the next
        limit: most that neighbors may be bent, unless they are now

    Raises:
        NoSolutionError: no step keeps within the limits.
    """
    bends = _Bends(supports, limit)
    heights = np.array([support.height for support in supports])
    left = np.array([support.lift for support in supports])
    steps: list[JackStep] = []
    while np.abs(left).max() > _DONE:
        last = steps[-1].mark if steps else ""
        others = np.array([0.0 if support.mark == last else rest for support, rest in zip(supports, left, strict=True)])
        chosen = _next(bends, heights, others, step) or _next(bends, heights, left, step)
        if chosen is None or len(steps) >= _MOST_STEPS:
            raise NoSolutionError(
                f"after {len(steps)} steps no lift keeps neighbors within 1/{1 / limit:.0f}; a smaller step than "
                f"{1e3 * step:.3g} mm may do, else an engineer is to look at it"
            )
        place, lift = chosen
        heights[place] += lift
        left[place] -= lift
        _, worst = bends.use(heights)
        i, j = bends.pairs[worst]
        steps.append(JackStep(
            number=len(steps) + 1, mark=supports[place].mark, lift=lift,
            so_far=float(supports[place].lift - left[place]), left=float(left[place]),
            bend=float(bends.of(heights)[worst]), allowed=float(bends.allowed[worst]),
            pair=(supports[i].mark, supports[j].mark),
        ))  # fmt: skip
    return tuple(steps)


def _next(bends: _Bends, heights: Numbers, left: Numbers, step: Meter) -> tuple[int, float] | None:
    """The support that is lifted next, and by how much: whole steps before parts of one."""
    for part in _PARTS:
        best: tuple[float, float, int, float] | None = None
        for place, rest in enumerate(left):
            if abs(rest) <= _DONE:
                continue
            lift = math.copysign(min(abs(rest), part * step), rest)
            after = heights.copy()
            after[place] += lift
            use, _ = bends.use(after)
            if use <= 1 + 1e-9:
                best = min(best or (math.inf, 0.0, 0, 0.0), (use, -abs(float(rest)), place, float(lift)))
        if best is not None:
            return best[2], best[3]
    return None
