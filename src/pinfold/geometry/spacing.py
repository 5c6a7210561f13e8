"""Spacing along a line: posts in equal bays, joints in equal panels, never wider than a maximum, as few as can be."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.geometry.intervals import Interval, merged, subtract
from pinfold.geometry.segments import SAME_PLACE
from pinfold.units import Meter

MOST_BAYS = 100_000
"""More bays than this in one stretch are taken for a slip of the pen."""
_SLACK = 1e-9


@dataclass(frozen=True, kw_only=True)
class Bays:
    """Places along a line and the bays between them.

    Attributes:
        places: distances from the line's start, ascending, both ends included.
        spans: the bays as (start, end), openings left out.
    """

    places: tuple[Meter, ...]
    spans: tuple[Interval, ...]

    @property
    def bay(self) -> Meter:
        """Width of the widest bay, which is every bay's where they are equal; 0 where there is none [m]."""
        return max((end - start for start, end in self.spans), default=0.0)

    @property
    def widths(self) -> tuple[Meter, ...]:
        """Width of every bay, in order [m]."""
        return tuple(end - start for start, end in self.spans)


def bay_count(length: Meter, maximum: Meter) -> int:
    """Fewest equal bays of at most the maximum in a length; a billionth over the maximum is not over it.

    Raises:
        InputError: a length that is not above 0, or more than `MOST_BAYS` bays.
    """
    if not (0 < length < math.inf and maximum > 0):
        raise InputError(f"a stretch of {length:g} m cannot be shared out in bays of at most {maximum:g} m")
    bays = length / maximum
    if bays > MOST_BAYS:
        raise InputError(f"bays of {maximum:g} m in {length:g} m would be more than {MOST_BAYS}")
    return max(math.ceil(bays * (1 - _SLACK)), 1)


def equal_bays(length: Meter, maximum: Meter) -> Bays:
    """The fewest equal bays, none wider than the maximum, from 0 to the length.

    Raises:
        InputError: a length that is not above 0, or more than `MOST_BAYS` bays.
    """
    places = _shared_out(0.0, length, maximum)
    return Bays(places=places, spans=tuple(pairwise(places)))


def bays_between(fixed: Iterable[Meter], maximum: Meter, *, openings: Iterable[Interval] = ()) -> Bays:
    """Equal bays between each fixed place and the next: ends, corners, gate posts.

    Args:
        fixed: places that must be kept, in any order; one place given twice counts once
        maximum: widest bay [m]
        openings: stretches to keep free, such as gates; their ends become fixed places, the first and last place bound
            them

    Raises:
        InputError: fewer than two places, a place inside an opening, openings that overlap, or more than `MOST_BAYS`.
    """
    gates = tuple(sorted(openings))
    kept = _apart([*fixed, *(end for gate in gates for end in gate)])
    if len(kept) < 2:
        raise InputError("bays need two fixed places at least, such as the ends of the run")
    _refuse_filled(gates, kept)
    places = [kept[0]]
    spans: list[Interval] = []
    for start, end in pairwise(kept):
        if subtract((start, end), gates):
            stretch = _shared_out(start, end, maximum)
            spans.extend(pairwise(stretch))
            places.extend(stretch[1:])
        else:
            places.append(end)
    return Bays(places=tuple(places), spans=tuple(spans))


def joint_places(length: Meter, maximum: Meter, at: Iterable[Meter] = ()) -> tuple[Meter, ...]:
    """Where joints stand so that no panel is longer than the maximum: the forced ones and equal ones between them.

    Args:
        length: of the wall [m]
        maximum: longest panel [m]
        at: distances from the start where a joint must be; ends of the wall are no joints and may be among them

    Returns:
        distances from the start, ascending, the wall's ends left out [m]; `intervals.split` gives the panels

    Raises:
        InputError: a forced joint off the wall, a length not above 0, or more than `MOST_BAYS` panels in one stretch.
    """
    forced = tuple(at)
    if not (length > 0 and all(-SAME_PLACE <= place <= length + SAME_PLACE for place in forced)):
        raise InputError(f"a joint at {', '.join(f'{place:g} m' for place in forced)} is not on a wall of {length:g} m")
    inner = (place for place in forced if SAME_PLACE < place < length - SAME_PLACE)
    return bays_between((0.0, *inner, length), maximum).places[1:-1]


def _shared_out(start: Meter, end: Meter, maximum: Meter) -> tuple[Meter, ...]:
    count = bay_count(end - start, maximum)
    return (start, *(start + (end - start) * number / count for number in range(1, count)), end)


def _apart(places: list[Meter]) -> tuple[Meter, ...]:
    kept: list[Meter] = []
    for place in sorted(places):
        if not math.isfinite(place):
            raise InputError(f"{place:g} m is no place")
        if not kept or place - kept[-1] > SAME_PLACE:
            kept.append(place)
    return tuple(kept)


def _refuse_filled(gates: tuple[Interval, ...], kept: tuple[Meter, ...]) -> None:
    merged(gates)
    for start, end in gates:
        for place in kept:
            if start + SAME_PLACE < place < end - SAME_PLACE:
                raise InputError(f"a fixed place at {place:g} m stands in the opening from {start:g} m to {end:g} m")
