"""How many pieces of each room are bought, settled by branching: one branch buys at most so many, one more."""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import count
from typing import NamedTuple

import numpy as np

from pinfold.studies.cutting.choosing import Limits, chosen
from pinfold.studies.cutting.diving import dived
from pinfold.studies.cutting.guessing import BENDS, filled_up
from pinfold.studies.cutting.master import Master
from pinfold.studies.cutting.packing import Laid, Packing, Room, money, next_sum
from pinfold.studies.cutting.relaxing import Relaxed, master_of, relaxed
from pinfold.studies.cutting.solution import Solved
from pinfold.studies.cutting.watching import Watch

_OFF = 1e-6
"""Numbers of pieces that are no further off are whole."""
_DEAR = 4
"""A piece that is lacking costs so many times the best plan, so that no better plan has any."""
_SECONDS, _NODES = 2.0, 300
"""For choosing among known fills where the numbers are whole."""
_FEW = 600
"""So few known fills are chosen among."""
_DIVES = 3


class _Branch(NamedTuple):
    """A part of all plans.

    Attributes:
        bound: none of them costs less.
        number: of branches before it.
        rooms: how many of each its plans may and must buy.
    """

    bound: int
    number: int
    rooms: tuple[Room, ...]


def branched(packing: Packing, best: Solved, watch: Watch) -> Solved:
    """A better plan or a better bound, branch after branch, the one that may be cheapest first."""
    lacking = Room((packing.top,), _DEAR * best.money, int(packing.counts.sum()), endless=True)
    numbers = count(1)
    whole = replace(packing, rooms=(*packing.rooms, lacking))
    master = master_of(whole, best.fills)
    open_ = [_Branch(best.bound, 0, whole.rooms)]
    unsettled = best.money
    while open_ and open_[0].bound < best.money and watch.left > 0:
        branch = heapq.heappop(open_)
        part = replace(packing, rooms=branch.rooms)
        found = _within(part, master, best.money, watch)
        bound = next_sum(part, max(branch.bound, found.bound.coins), below=best.money)
        at = _most_off(part, found)
        best = _bettered(packing, best, (part, found, bound), watch)
        if bound < best.money and at is None:
            unsettled = min(unsettled, bound)
        elif bound < best.money and at is not None:
            for rooms in _halves(branch.rooms, at, float(found.pieces[at])):
                least = next_sum(replace(packing, rooms=rooms), bound, below=best.money)
                heapq.heappush(open_, _Branch(least, next(numbers), rooms))
        watch.say("how many of each to buy", best.money, bound)
    return replace(best, bound=max(best.bound, min([best.money, unsettled, *(branch.bound for branch in open_)])))


def _within(part: Packing, master: Master, enough: int, watch: Watch) -> Relaxed:
    """What plans of a branch cost at least."""
    rounds = relaxed(part, master, enough=enough)
    found = next(rounds)
    for better in rounds:
        found = better
        if watch.left < 0:
            break
    return found


def _most_off(part: Packing, found: Relaxed) -> int | None:
    """The room with a price whose pieces are furthest from a whole number; None where all are whole."""
    off = [abs(many - round(many)) if room.price else 0.0
           for room, many in zip(part.rooms, found.pieces.tolist(), strict=True)]  # fmt: skip
    at = int(np.argmax(off))
    return at if off[at] > _OFF else None


def _halves(rooms: tuple[Room, ...], at: int, many: float) -> Iterator[tuple[Room, ...]]:
    room, low = rooms[at], math.floor(many)
    for half in (room._replace(least=low + 1), room._replace(most=low, endless=False)):
        yield (*rooms[:at], half, *rooms[at + 1 :])


def _bettered(packing: Packing, best: Solved, branch: tuple[Packing, Relaxed, int], watch: Watch) -> Solved:
    """The best plan, or a better one of a branch."""
    part, found, bound = branch
    if bound >= best.money:
        return best
    for laid in _plans(packing, part, found, Limits(bound, best.money - 1, _SECONDS, _NODES), watch):
        best = best.or_better(packing, laid if money(part, laid) < best.money else None)
        if bound >= best.money:
            break
    return best


def _plans(packing: Packing, part: Packing, found: Relaxed, limits: Limits, watch: Watch) -> Iterator[Laid]:
    """Plans of a branch: rounded; where numbers of pieces are whole, chosen out of known fills and dived for too."""
    yield filled_up(part, found.whole, bend=BENDS[1])
    if _most_off(part, found) is not None:
        return
    yield filled_up(part, found.whole, bend=BENDS[0])
    few = len(found.fills) <= _FEW
    tried = [chosen(part, found.fills, limits._replace(seconds=min(watch.left, _SECONDS))).laid] if few else []
    one = sum(room.price > 0 for room in packing.rooms) == 1  # then the number of pieces need not be held: money does
    known = [fill for fill in found.fills if fill.bay < len(packing.bays)] if one else found.fills
    for seed in range(_DIVES):
        yield from (laid for laid in tried if laid is not None)
        tried = [dived(packing if one else part, known, limits.least, seed=seed, watch=watch)]
    yield from (laid for laid in tried if laid is not None)
