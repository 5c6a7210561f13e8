"""A plan of rolls by rule of thumb: whole bands first, and one cut on a post where a roll would else be wasted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, repeat
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from pinfold.studies.cutting.records import Steps
from pinfold.studies.cutting.roll_records import Band, Roll, RollOrder, Stretched, Unrolled

_TRIES = 30
_OLD = 1e-3


class Bought(NamedTuple):
    """Rolls that are long enough together.

    Attributes:
        money: what they cost.
        rolls: each by itself, old ones first, short ones of those first.
    """

    money: int
    rolls: tuple[Roll, ...]


@dataclass
class _Tail:
    """What of a band is still to be covered."""

    band: Band
    layer: int
    first: int

    @property
    def length(self) -> Steps:
        return self.band.between(self.first, len(self.band.posts) - 1)


def cheapest(order: RollOrder, length: Steps) -> Bought | None:
    """Rolls of least money that come to a length together; None where all there are do not."""
    if length <= 0:
        return Bought(0, ())
    most = [np.inf if roll.count is None else roll.count for roll in order.rolls]
    weights = [roll.price + (_OLD if roll.old else 2 * _OLD) for roll in order.rolls]
    lengths = np.array([[float(roll.length) for roll in order.rolls]])
    answer = milp(weights, constraints=[LinearConstraint(lengths, length, np.inf)], bounds=Bounds(0, most),
                  integrality=np.ones(len(weights)), options={"mip_rel_gap": 0.0})  # fmt: skip
    if answer.x is None:
        return None
    many = np.rint(answer.x).astype(int).tolist()
    rolls = [roll for roll, times in zip(order.rolls, many, strict=True) for _ in range(times)]
    return Bought(sum(roll.price for roll in rolls), tuple(sorted(rolls, key=lambda roll: (not roll.old, roll.length))))


def chained(order: RollOrder) -> tuple[Unrolled, ...] | None:
    """The best plan that the rule finds; None where the rolls on hand and for sale do not do."""
    need = sum(band.many * band.length for band in order.bands)
    prices = {roll.mark: roll.price for roll in order.rolls}
    best: tuple[int, int] | None = None
    found = None
    for extra in range(_TRIES):
        bought = cheapest(order, need + extra * max(order.lap, need // 100))
        if bought is None or (best is not None and bought.money >= best[0]):
            break
        for eager in (False, True):
            laid = _laid(order, bought.rolls, eager=eager)
            worth = None if laid is None else (sum(prices[each.roll] for each in laid), _pieces(laid))
            if worth is not None and (best is None or worth < best):
                best, found = worth, laid
    return found


def _pieces(laid: tuple[Unrolled, ...]) -> int:
    return sum(len(each.pieces) for each in laid)


def _laid(order: RollOrder, rolls: tuple[Roll, ...], *, eager: bool) -> tuple[Unrolled, ...] | None:
    """The bands off these rolls, and off further ones where they do not do.

    Joined as seldom as they allow, or wherever a roll has room for a bay.
    """
    tails = [_Tail(band, layer, 0) for band in order.bands for layer in range(1, band.many + 1)]
    spare = sum(roll.length for roll in rolls)
    found: list[Unrolled] = []
    for number, roll in enumerate(chain(rolls, _further(order, rolls))):
        if not tails:
            break
        spare = max(spare - roll.length, 0)
        pieces, rest = _off(roll.length, tails, lap=order.lap, spare=0 if eager else spare)
        if pieces:
            found.append(Unrolled(roll=roll.mark, pieces=tuple(pieces), rest=rest, kept=rest >= order.keep > 0))
        elif number >= len(rolls) and roll.count is None:
            return None
    return None if tails else tuple(found)


def _further(order: RollOrder, rolls: tuple[Roll, ...]) -> Iterator[Roll]:
    """Rolls that are left, then as many of the longest that is for sale as are asked for."""
    used = Counter(roll.mark for roll in rolls)
    for roll in order.rolls:
        if roll.count is not None:
            yield from repeat(roll, roll.count - used[roll.mark])
    endless = [roll for roll in order.rolls if roll.count is None]
    if endless:
        yield from repeat(max(endless, key=lambda roll: roll.length))


def _off(room: Steps, tails: list[_Tail], *, lap: Steps, spare: Steps) -> tuple[list[Stretched], Steps]:
    """Pieces off one roll: the longest that fit in whole, then a part of one where the other rolls lack the room."""
    pieces = []
    while whole := [tail for tail in tails if tail.length <= room]:
        tail = max(whole, key=lambda each: each.length)
        tails.remove(tail)
        pieces.append(_piece(tail, len(tail.band.posts) - 1, 0))
        room -= tail.length
    if tails and (not pieces or sum(tail.length for tail in tails) > spare):
        tail = max(tails, key=lambda each: _reach(each, room - lap))
        last = _last(tail, room - lap)
        if last > tail.first:
            pieces.append(_piece(tail, last, lap))
            room -= pieces[-1].length
            tail.first = last
    return pieces, room


def _last(tail: _Tail, room: Steps) -> int:
    inner = range(tail.first, len(tail.band.posts) - 1)
    return max((at for at in inner if tail.band.between(tail.first, at) <= room), default=tail.first)


def _reach(tail: _Tail, room: Steps) -> Steps:
    return tail.band.posts[_last(tail, room)] - tail.band.posts[tail.first]


def _piece(tail: _Tail, last: int, lap: Steps) -> Stretched:
    band = tail.band
    start, end = band.posts[tail.first], band.posts[last]
    return Stretched(band.mark, band.place, tail.layer, start, end, band.between(tail.first, last) + lap)
