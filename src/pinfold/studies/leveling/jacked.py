"""What jacking that was written down leaves: shims in each stack and on hand, and from when on surveys count."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pinfold.plan.supports import Leveling, Shim
from pinfold.units import Meter, Second

_DIGITS = 6


@dataclass(frozen=True, kw_only=True)
class Jacked:
    """One support that was jacked.

    Attributes:
        mark: of it.
        at: when, in seconds since the epoch.
        lift: how far its beam went up; below zero down.
        shims: thickness of each in its stack since; None where nobody says.
    """

    mark: str
    at: Second
    lift: Meter
    shims: tuple[Meter, ...] | None


def since_jacked(leveling: Leveling, jacked: Sequence[Jacked]) -> Leveling:
    """Stacks as they were left last; what went into them is gone from what is on hand, what came out lies there.

    Args:
        leveling: as planned
        jacked: in order of time
    """
    stacks = {each.mark: each.shims for each in jacked if each.shims is not None}
    supports = tuple(replace(each, shims=stacks.get(each.mark, each.shims)) for each in leveling.supports)
    ready = Counter[Meter]()
    for shim in leveling.shims:
        ready[round(shim.thickness, _DIGITS)] += shim.count
    for before, after in zip(leveling.supports, supports, strict=True):
        ready.update(round(thick, _DIGITS) for thick in before.shims)
        ready.subtract(round(thick, _DIGITS) for thick in after.shims)
    shims = tuple(Shim(thickness=thick, count=max(ready[thick], 0)) for thick in sorted(ready, reverse=True))
    return replace(leveling, supports=supports, shims=shims)
