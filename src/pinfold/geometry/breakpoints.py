"""Where a line is best broken into stretches that each need a level top and a level bed.

The line is cut into cells at candidate places. Each cell needs a top at least so many courses high and a bed at least
so many courses low; a stretch of cells needs the highest top and the lowest bed among them. What a stretch costs is
its length times the courses between. The search is exact among the candidates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pinfold.geometry.profiles import Profile
from pinfold.geometry.segments import SAME_PLACE
from pinfold.units import Meter

_TIE = 1e-7
"""What a further stretch must save in courses times meters, so that equals go to the fewest stretches."""
_CHAIN = 2


@dataclass(frozen=True, kw_only=True)
class Cells:
    """A line cut at candidate places.

    Attributes:
        places: distances along the line, ascending, both ends included.
        tops: courses the top must reach in each cell, counted from any line.
        beds: courses the bed must reach down to in each cell, counted from the same line.
    """

    places: tuple[Meter, ...]
    tops: tuple[int, ...]
    beds: tuple[int, ...]


def candidates(
    profile: Profile, *, levels: tuple[Meter, ...], course: Meter, minimum_step: Meter, module: Meter | None
) -> tuple[Meter, ...]:
    """Places worth trying: where the profile passes a course line of any of the levels, and steps from there.

    Between two such passages nothing that a stretch needs changes, so its ends may be slid until they meet a passage,
    an end of the line, or a neighbor that is itself held by the minimum step. Hence whole minimum steps from passages
    and ends are tried too; on a module all of them, without one the nearest two either way.
    """
    start, end = profile[0][0], profile[-1][0]
    passages = _passages(profile, levels, course)
    if module is None:
        anchors = [0.0, end - start, *(place - start for place in passages)]
        offsets = [number * minimum_step for number in range(-_CHAIN, _CHAIN + 1)]
        return _apart(start, end, [anchor + offset for anchor in anchors for offset in offsets])
    numbers = _chained(
        {math.floor((place - start) / module + up) for place in (start, end, *passages) for up in (1e-9, 1 - 1e-9)},
        math.ceil(minimum_step / module - 1e-9),
        math.floor((end - start) / module + 1e-9),
    )
    return _apart(start, end, [number * module for number in numbers])


def chosen(cells: Cells, *, minimum_step: Meter, worth: float) -> tuple[Meter, ...]:
    """The places to break at, both ends included.

    Args:
        cells: the line and what its cells need
        minimum_step: shortest stretch; a line shorter than that is one stretch [m]
        worth: courses times meters that a further stretch must save
    """
    places, price = cells.places, worth + _TIE
    needs = [
        (top - bed) * (end - start)
        for top, bed, (start, end) in zip(cells.tops, cells.beds, pairwise(places), strict=True)
    ]
    needed = [0.0]
    for need in needs:
        needed.append(needed[-1] + need)
    last = len(places) - 1
    best, back = [0.0] + [math.inf] * last, [0] * (last + 1)
    shortest, latest = minimum_step - SAME_PLACE, -1
    for end in range(1, last + 1):
        while places[end] - places[latest + 1] >= shortest:
            latest += 1
        best[end], back[end] = _cheapest(cells, needed, best, (end, latest, shortest, price))
    breaks = [last]
    while breaks[-1]:
        breaks.append(back[breaks[-1]])
    return tuple(places[number] for number in reversed(breaks))


def _cheapest(
    cells: Cells, needed: list[float], best: list[float], wanted: tuple[int, int, Meter, float]
) -> tuple[float, int]:
    """The least excess over the cells' own needs of any way to break the line up to an end, and the break before it.

    `latest` is the last start that leaves the stretch long enough, below 0 when there is none. Going back from the
    end, the excess of a stretch only grows. Once a stretch could be cut in two lawful ones, of
    which the later would save more than a cut costs, every longer stretch is worse than its two parts too.
    """
    end, latest, shortest, price = wanted
    places, tops, beds, reach = cells.places, cells.tops, cells.beds, cells.places[end]
    if latest < 0:
        is_whole = end == len(places) - 1
        return (price if is_whole else math.inf), 0
    top, bed = max(tops[latest:end]), min(beds[latest:end])
    later_courses, later_size, parted = top - bed, reach - places[latest], places[latest] - shortest
    cheapest, before = math.inf, 0
    for start in range(latest, -1, -1):
        if tops[start] > top:
            top = tops[start]
        if beds[start] < bed:
            bed = beds[start]
        courses = top - bed
        excess = courses * (reach - places[start]) - needed[end] + needed[start] + price
        if excess >= cheapest:
            break
        if best[start] + excess < cheapest:
            cheapest, before = best[start] + excess, start
        if places[start] <= parted and (courses - later_courses) * later_size > price:
            break
    return cheapest, before


def _passages(profile: Profile, levels: tuple[Meter, ...], course: Meter) -> list[Meter]:
    places = []
    for (start, low), (end, high) in pairwise(profile):
        if low == high:
            continue
        for level in levels:
            bottom, top = sorted(((low - level) / course, (high - level) / course))
            for number in range(math.ceil(bottom - 1e-9), math.floor(top + 1e-9) + 1):
                share = (level + number * course - low) / (high - low)
                places.append(start + min(max(share, 0.0), 1.0) * (end - start))
    return places


def _chained(numbers: set[int], step: int, last: int) -> set[int]:
    """Numbers from 0 to the last that lie whole steps from any of the given ones, or from the last's end."""
    rests = {number % step for number in numbers}
    return {number for rest in rests for number in range(rest, last + 1, step)}


def _apart(start: Meter, end: Meter, distances: list[Meter]) -> tuple[Meter, ...]:
    kept = [start]
    for distance in sorted(distances):
        if kept[-1] + SAME_PLACE < start + distance < end - SAME_PLACE:
            kept.append(start + distance)
    return (*kept, end)
