"""The bare question under a cut order: needs, counts and rooms as whole numbers, without marks or ends."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]

_WIDEST = 10**6
"""Coins up to which all sums are looked at."""


class Room(NamedTuple):
    """Pieces alike with the clear lengths between their defects.

    Attributes:
        sizes: of its clear lengths; parts laid end to end, each with one kerf, fill them.
        price: of one piece.
        most: how many there are.
        endless: whether there are as many as are wanted; `most` then says how many can be of use.
        new: length bought with one; 0 for what is on hand.
        least: how many are bought in any case.
    """

    sizes: tuple[int, ...]
    price: int
    most: int
    endless: bool = False
    new: int = 0
    least: int = 0


class Bay(NamedTuple):
    """Clear lengths of one size in one room.

    Attributes:
        room: index of the room.
        size: of each.
        times: how many of them one piece has.
    """

    room: int
    size: int
    times: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Packing:
    """Kinds of parts and the rooms that they are laid into.

    Attributes:
        needs: length of each kind with one kerf, the longest first.
        counts: how many of each.
        rooms: what they are laid into.
    """

    needs: Whole
    counts: Whole
    rooms: tuple[Room, ...]

    @cached_property
    def bays(self) -> tuple[Bay, ...]:
        """All clear lengths, room by room; equal ones of a piece together."""
        return tuple(
            Bay(index, size, room.sizes.count(size))
            for index, room in enumerate(self.rooms)
            for size in dict.fromkeys(room.sizes)
        )

    @cached_property
    def top(self) -> int:
        """The longest clear length."""
        return max((bay.size for bay in self.bays), default=0)

    @cached_property
    def sizes(self) -> Whole:
        """Of all bays."""
        return np.array([bay.size for bay in self.bays], dtype=np.int64)


class Fill(NamedTuple):
    """What is cut out of one clear length.

    Attributes:
        bay: index of the bay.
        counts: how many of each kind.
    """

    bay: int
    counts: tuple[int, ...]


Laid = dict[Fill, int]
"""A way to lay all parts: each fill and how often it is used."""


def opened(packing: Packing, laid: Laid) -> list[int]:
    """How many pieces of each room are cut into, or bought in any case."""
    filled = [0] * len(packing.bays)
    for fill, times in laid.items():
        filled[fill.bay] += times
    many = [room.least for room in packing.rooms]
    for bay, times in zip(packing.bays, filled, strict=True):
        many[bay.room] = max(many[bay.room], -(-times // bay.times))
    return many


def money(packing: Packing, laid: Laid) -> int:
    """What the pieces cut into cost."""
    return sum(room.price * many for room, many in zip(packing.rooms, opened(packing, laid), strict=True))


def spare_bays(packing: Packing, laid: Laid) -> list[int]:
    """Clear lengths of each bay left in pieces that are paid for and cut into already."""
    many = opened(packing, laid)
    spare = [bay.times * many[bay.room] for bay in packing.bays]
    for fill, times in laid.items():
        spare[fill.bay] -= times
    return spare


def next_sum(packing: Packing, least: int, *, below: int) -> int:
    """The next money from `least` up that pieces can come to at all; `below` where there is none under it."""
    start = sum(room.price * room.least for room in packing.rooms)
    if below > _WIDEST:
        return max(least, start)
    sums, mask = 1 << start if start < below else 0, (1 << below) - 1
    for room in packing.rooms:
        if room.price:
            for many in shares(min(room.most - room.least, below // room.price)):
                sums |= sums << many * room.price & mask
    sums >>= least
    return least + (sums & -sums).bit_length() - 1 if sums else below


def shares(count: int) -> list[int]:
    """Lots out of which every number up to the count can be put together: 1, 2, 4 … and the rest."""
    found, lot = [], 1
    while count > 0:
        found.append(min(lot, count))
        count -= lot
        lot *= 2
    return found
