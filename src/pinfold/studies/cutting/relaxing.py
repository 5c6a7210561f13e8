"""What all parts cost at the very least: fills priced in until none pays (column generation)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from pinfold.studies.cutting.filling import Fills, fills
from pinfold.studies.cutting.master import Master, Real
from pinfold.studies.cutting.packing import Fill, Laid, Packing, Whole

_FINEST = 2**40
"""Parts into which the dearest piece is divided, so that worths are whole numbers."""
_SLACK = 1e-7
_NEAR = 1e-6
"""Shares that are no further below a whole number are whole."""
_MORE = 24
"""How many fills come in at a time."""


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
        pieces: how many of each room are used.
    """

    bound: Bound
    fills: list[Fill]
    shares: Real
    pieces: Real

    @property
    def whole(self) -> Laid:
        """Fills as often as they are used whole."""
        shares = zip(self.fills, self.shares.tolist(), strict=True)
        return {fill: int(share + _NEAR) for fill, share in shares if share + _NEAR >= 1}


def relaxed(packing: Packing, master: Master, *, enough: int, whole: bool = True) -> Iterator[Relaxed]:
    """Ever better bounds, until money is proven not to be less than what is enough.

    Args:
        packing: the question; its rooms may be held to other numbers than the master was made with
        master: takes in the fills that are found
        enough: no better bound is asked for
        whole: stop as well where whole coins cannot rise any more, though the bound itself could
    """
    master.hold(packing.rooms)
    best, fine = None, max(_FINEST // max(max(room.price for room in packing.rooms), 1), 1)
    while True:
        program = master.solved()
        worths = np.floor(program.worths * fine).astype(np.int64)
        table = fills(packing.needs, packing.counts, worths, top=packing.top)
        bound = _bound(packing, table, worths, fine)
        best = bound if best is None or bound.least > best.least else best
        yield Relaxed(best, master.fills, program.shares, program.pieces)
        paying = list(_paying(packing, table, worths, program.rents * fine))
        if best.coins >= enough or (whole and best.coins >= program.money - _SLACK) or not master.add(paying):
            return


def master_of(packing: Packing, start: Iterable[Fill]) -> Master:
    """A master with some fills, and fills of one kind each, so that there is a plan to start from."""
    return Master(packing, [*start, *_plain(packing)])


def _plain(packing: Packing) -> Iterator[Fill]:
    """Of each kind as many as go into an endless bay."""
    for index, bay in enumerate(packing.bays):
        if packing.rooms[bay.room].endless:
            for kind, (need, count) in enumerate(zip(packing.needs.tolist(), packing.counts.tolist(), strict=True)):
                if need <= bay.size:
                    yield Fill(
                        index,
                        tuple(min(bay.size // need, count) * (kind == each) for each in range(len(packing.needs))),
                    )


def _bound(packing: Packing, table: Fills, worths: Whole, fine: int) -> Bound:
    """Worths lowered until no endless room is worth more than its price; what others gain is taken off.

    What is bought in any case, though it costs more than it is worth, is added.
    """
    gains = [sum(int(table.worth[size]) for size in room.sizes) for room in packing.rooms]
    up, down = 1, 1
    for room, gain in zip(packing.rooms, gains, strict=True):
        if room.endless and gain * up > room.price * fine * down:
            up, down = room.price * fine, gain
    lowered = np.array([worth * up // down for worth in worths.tolist()], dtype=np.int64)
    least = int(lowered @ packing.counts)
    for room, gain in zip(packing.rooms, gains, strict=True):
        over = room.price * fine - -(-gain * up // down)
        least += over * (room.least if over > 0 else 0 if room.endless else room.most)
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
