"""What all parts cost at the very least: fills priced in until none pays (column generation)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog
from scipy.sparse import csc_array, hstack

from pinfold.studies.cutting.filling import Fills, fills
from pinfold.studies.cutting.packing import Fill, Packing, Whole

_FINEST = 2**40
"""Parts into which the dearest piece is divided, so that worths are whole numbers."""
_SLACK = 1e-7
_MORE = 24
"""How many fills come in at a time."""

Real = NDArray[np.float64]


class Bound(NamedTuple):
    """What no plan can undercut, in whole numbers.

    Attributes:
        least: what all parts cost at least, in fine parts of the smallest coin.
        fine: how many of them make a coin.
        worths: of one part of each kind, in fine parts, which prove it.
    """

    least: int
    fine: int
    worths: Whole

    @property
    def coins(self) -> int:
        """Rounded up, as money is whole."""
        return max(-(-self.least // self.fine), 0)


class Relaxed(NamedTuple):
    """The least money if fills could be used in part.

    Attributes:
        bound: what is proven.
        fills: all that were found.
        shares: how much of each is used.
    """

    bound: Bound
    fills: list[Fill]
    shares: Real


def columns(packing: Packing, chosen: list[Fill]) -> csc_array:
    """A column for each fill: the parts in it, then the bay it takes (negative)."""
    kinds = len(packing.needs)
    body = np.zeros((kinds + len(packing.bays), len(chosen)))
    if chosen:
        body[:kinds] = np.array([fill.counts for fill in chosen]).T
        body[[kinds + fill.bay for fill in chosen], range(len(chosen))] = -1
    return csc_array(body)


def openings(packing: Packing) -> csc_array:
    """A column for each room: the bays that one piece of it gives."""
    body = np.zeros((len(packing.needs) + len(packing.bays), len(packing.rooms)))
    for index, bay in enumerate(packing.bays):
        body[len(packing.needs) + index, bay.room] = bay.times
    return csc_array(body)


def rows(packing: Packing) -> Real:
    """What each row must come to at least: the parts wanted, and no bay used that is not there."""
    return np.concatenate([packing.counts, np.zeros(len(packing.bays))]).astype(float)


def prices(packing: Packing, many: int) -> Real:
    """Of so many fills, which cost nothing, and then of the rooms."""
    return np.concatenate([np.zeros(many), [room.price for room in packing.rooms]]).astype(float)


def relaxed(packing: Packing, start: Iterable[Fill], *, enough: int, whole: bool = True) -> Iterator[Relaxed]:
    """Ever better bounds, until money is proven not to be less than what is enough.

    Args:
        packing: the question
        start: fills to start from
        enough: no better bound is asked for
        whole: stop as well where whole coins cannot rise any more, though the bound itself could
    """
    found = list(dict.fromkeys([*start, *_plain(packing)]))
    best, fine = None, max(_FINEST // max(max(room.price for room in packing.rooms), 1), 1)
    while True:
        program = _solved(packing, found)
        worths = np.floor(program.worths * fine).astype(np.int64)
        table = fills(packing.needs, packing.counts, worths, top=packing.top)
        bound = _bound(packing, table, worths, fine)
        best = bound if best is None or bound.least > best.least else best
        yield Relaxed(best, found, program.shares)
        known = set(found)
        new = [fill for fill in _paying(packing, table, worths, program.rents * fine) if fill not in known]
        if not new or best.coins >= enough or (whole and best.coins >= program.money - _SLACK):
            return
        found = found + new


class _Program(NamedTuple):
    """The linear program over some fills, solved.

    Attributes:
        money: the least.
        shares: how much of each fill is used.
        worths: of one part of each kind.
        rents: of one clear length of each bay.
    """

    money: float
    shares: Real
    worths: Real
    rents: Real


def _solved(packing: Packing, found: list[Fill]) -> _Program:
    body = hstack([columns(packing, found), openings(packing)], format="csc")
    limits = [(0.0, None)] * len(found) + [(0.0, float(room.most)) for room in packing.rooms]
    answer = linprog(prices(packing, len(found)), A_ub=-body, b_ub=-rows(packing), bounds=limits, method="highs-ds")
    duals = np.maximum(-answer.ineqlin.marginals, 0.0)
    kinds = len(packing.needs)
    return _Program(answer.fun, answer.x[: len(found)], duals[:kinds], duals[kinds:])


def _plain(packing: Packing) -> Iterator[Fill]:
    """Fills of one kind each, so that there is a plan to start from."""
    for index, bay in enumerate(packing.bays):
        if packing.rooms[bay.room].endless:
            for kind, (need, count) in enumerate(zip(packing.needs.tolist(), packing.counts.tolist(), strict=True)):
                if need <= bay.size:
                    yield Fill(
                        index,
                        tuple(min(bay.size // need, count) * (kind == each) for each in range(len(packing.needs))),
                    )


def _bound(packing: Packing, table: Fills, worths: Whole, fine: int) -> Bound:
    """Worths lowered until no endless room is worth more than its price; what others gain is taken off."""
    gains = [sum(int(table.worth[size]) for size in room.sizes) for room in packing.rooms]
    up, down = 1, 1
    for room, gain in zip(packing.rooms, gains, strict=True):
        if room.endless and gain * up > room.price * fine * down:
            up, down = room.price * fine, gain
    lowered = np.array([worth * up // down for worth in worths.tolist()], dtype=np.int64)
    least = int(lowered @ packing.counts)
    for room, gain in zip(packing.rooms, gains, strict=True):
        if not room.endless:
            least -= room.most * max(-(-gain * up // down) - room.price * fine, 0)
    return Bound(least, fine, lowered)


def _paying(packing: Packing, table: Fills, worths: Whole, rents: Real) -> Iterator[Fill]:
    """The worthiest fill of each bay, and the worthiest ones with one part of each kind."""
    each = max(_MORE // len(packing.bays), 1)
    for index, (bay, rent) in enumerate(zip(packing.bays, rents.tolist(), strict=True)):
        slack = max(1.0, 1e-9 * rent)
        if table.worth[bay.size] <= rent + slack:
            continue
        yield Fill(index, tuple(table.of(bay.size)))
        rest = bay.size - packing.needs
        gain = np.where(rest >= 0, worths + table.worth[np.maximum(rest, 0)], 0)
        for kind in np.argsort(-gain, kind="stable")[: 3 * each].tolist()[:each]:
            if gain[kind] > rent + slack:
                counts = table.of(int(rest[kind]))
                counts[kind] += 1
                if counts[kind] <= packing.counts[kind]:
                    yield Fill(index, tuple(counts))
