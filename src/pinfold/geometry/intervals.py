"""Stretches along a line as pairs of distances (start, end) in meters: taking some out, splitting, joining.

Stretches shorter than a thousandth of a millimeter are none.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.geometry.segments import SAME_PLACE
from pinfold.units import Meter

Interval = tuple[Meter, Meter]
"""From a start to an end beyond it, in meters along a line."""


def merged(intervals: Iterable[Interval]) -> tuple[Interval, ...]:
    """The same ground in as few stretches as can be, in order; touching ones become one.

    Raises:
        InputError: an end lies before its start, or is not finite.
    """
    joined: list[Interval] = []
    for start, end in sorted(map(_checked, intervals)):
        if joined and start <= joined[-1][1] + SAME_PLACE:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return tuple(joined)


def subtract(interval: Interval, holes: Iterable[Interval]) -> tuple[Interval, ...]:
    """What is left of a stretch, in order, when others are taken out; those may overlap or reach beyond it.

    Raises:
        InputError: an end lies before its start, or is not finite.
    """
    reached, end = _checked(interval)
    left: list[Interval] = []
    for hole_start, hole_end in merged(holes):
        left.append((reached, min(hole_start, end)))
        reached = max(reached, hole_end)
    left.append((reached, end))
    return tuple((start, stop) for start, stop in left if stop - start > SAME_PLACE)


def split(interval: Interval, places: Iterable[Meter]) -> tuple[Interval, ...]:
    """A stretch cut at places; those outside it or on its ends cut nothing.

    Raises:
        InputError: an end lies before its start, or is not finite.
    """
    start, end = _checked(interval)
    cuts = [start]
    for place in sorted(places):
        if cuts[-1] + SAME_PLACE < place < end - SAME_PLACE:
            cuts.append(place)
    return tuple(pairwise((*cuts, end)))


def overlap(first: Interval, second: Interval) -> Interval | None:
    """What two stretches have in common; nothing where they only touch.

    Raises:
        InputError: an end lies before its start, or is not finite.
    """
    start, end = max(_checked(first)[0], _checked(second)[0]), min(first[1], second[1])
    return (start, end) if end - start > SAME_PLACE else None


def total(intervals: Iterable[Interval]) -> Meter:
    """Length covered by stretches, overlaps once [m].

    Raises:
        InputError: an end lies before its start, or is not finite.
    """
    return math.fsum(end - start for start, end in merged(intervals))


def _checked(interval: Interval) -> Interval:
    start, end = interval
    if not (math.isfinite(start) and math.isfinite(end) and start <= end):
        raise InputError(f"a stretch from {start:g} m to {end:g} m does not go forward")
    return interval
