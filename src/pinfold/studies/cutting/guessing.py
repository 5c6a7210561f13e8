"""Plans by rules of thumb: first fit, and the worthiest fill of what is left, piece after piece."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

from pinfold.studies.cutting.filling import Fills, fills
from pinfold.studies.cutting.packing import Fill, Laid, Packing, Whole, opened

BENDS = (1.0, 1.02, 1.1)
"""Powers of the length that a part is worth: above 1 long parts come before as many short ones."""
_FINE = 2**20


@dataclass
class _Bay:
    """A clear length that parts are being laid into."""

    bay: int
    spare: int
    counts: list[int]


def first_fit(packing: Packing) -> Laid:
    """Longest parts first, each into the first clear length with room: what is on hand, then the cheapest by length.

    What nothing has room for is left out.
    """
    stock = [room.most for room in packing.rooms]
    begun: list[_Bay] = []
    for index, room in enumerate(packing.rooms):
        for _ in range(room.least if room.price else room.most):
            begun += _cut_into(packing, index, stock)
    for kind, (need, count) in enumerate(zip(packing.needs.tolist(), packing.counts.tolist(), strict=True)):
        at = 0
        for _ in range(count):
            at = _next_with_room(begun, need, at)
            if at == len(begun):
                begun += _cheapest_for(packing, need, stock)
                at = _next_with_room(begun, need, at)
            if at == len(begun):
                break
            begun[at].counts[kind] += 1
            begun[at].spare -= need
    return dict(Counter(Fill(each.bay, tuple(each.counts)) for each in begun if any(each.counts)))


def _next_with_room(begun: list[_Bay], need: int, at: int) -> int:
    return next((index for index in range(at, len(begun)) if begun[index].spare >= need), len(begun))


def _cut_into(packing: Packing, room: int, stock: list[int]) -> list[_Bay]:
    stock[room] -= 1
    return [
        _Bay(bay, each.size, [0] * len(packing.needs))
        for bay, each in enumerate(packing.bays)
        if each.room == room
        for _ in range(each.times)
    ]


def _cheapest_for(packing: Packing, need: int, stock: list[int]) -> list[_Bay]:
    fitting = [index for index, room in enumerate(packing.rooms) if stock[index] and max(room.sizes) >= need]
    if not fitting:
        return []
    best = min(fitting, key=lambda index: packing.rooms[index].price / sum(packing.rooms[index].sizes))
    return _cut_into(packing, best, stock)


def filled_up(packing: Packing, laid: Laid, *, bend: float) -> Laid:
    """A plan begun, with the worthiest fill of what is left in one clear length after another.

    What nothing has room for is left out.
    """
    found = Counter(laid)
    left = packing.counts.copy()
    for fill, times in laid.items():
        left -= times * np.array(fill.counts)
    left = np.maximum(left, 0)
    worths = np.rint(_FINE * (packing.needs / packing.needs.max()) ** bend).astype(np.int64)
    stock, spare = _unused(packing, laid)
    while left.any():
        best = fills(packing.needs, left, worths, top=packing.top)
        bay = _fullest(packing, best, spare)
        if bay is None:
            if not _open_next(packing, best, (stock, spare)):
                break
            continue
        counts = best.of(packing.bays[bay].size)
        times = _how_often(counts, left, spare[bay])
        found[Fill(bay, tuple(counts))] += times
        spare[bay] -= times
        left -= times * np.array(counts)
    return dict(found)


def _unused(packing: Packing, laid: Laid) -> tuple[list[int], list[int]]:
    """Pieces of each room still whole, and clear lengths of each bay that cost nothing more."""
    many = opened(packing, laid)
    stock = [room.most - used for room, used in zip(packing.rooms, many, strict=True)]
    spare = [bay.times * (many[bay.room] if packing.rooms[bay.room].price else packing.rooms[bay.room].most)
             for bay in packing.bays]  # fmt: skip
    for fill, times in laid.items():
        spare[fill.bay] -= times
    return stock, spare


def _fullest(packing: Packing, best: Fills, spare: list[int]) -> int | None:
    """The spare bay that is filled best; None where no part goes into any."""
    open_ = [index for index, many in enumerate(spare) if many and best.worth[packing.bays[index].size]]
    return max(open_, key=lambda index: best.worth[packing.bays[index].size] / packing.bays[index].size, default=None)


def _open_next(packing: Packing, best: Fills, unused: tuple[list[int], list[int]]) -> bool:
    """Cuts into the piece that costs least for what goes into it; whether there is one."""
    stock, spare = unused
    worth = [sum(int(best.worth[size]) for size in room.sizes) for room in packing.rooms]
    able = [index for index, room in enumerate(packing.rooms) if room.price and stock[index] and worth[index]]
    if not able:
        return False
    room = min(able, key=lambda index: packing.rooms[index].price / worth[index])
    stock[room] -= 1
    for index, bay in enumerate(packing.bays):
        if bay.room == room:
            spare[index] += bay.times
    return True


def _how_often(counts: list[int], left: Whole, most: int) -> int:
    return min(most, *(int(have) // many for have, many in zip(left, counts, strict=True) if many))
