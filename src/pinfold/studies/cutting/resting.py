"""What is left to lay after some fills are settled, as a question of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.cutting.packing import Fill, Laid, Packing, Room, Whole, opened, spare_bays


@dataclass(frozen=True, kw_only=True, eq=False)
class Rest:
    """Parts and rooms left.

    Attributes:
        packing: of them alone.
        kinds: which kinds of the whole its kinds are.
        bays: which bays of the whole its bays are.
        of_kinds: how many kinds the whole has.
    """

    packing: Packing
    kinds: Whole
    bays: tuple[int, ...]
    of_kinds: int

    @cached_property
    def _bay_by_whole(self) -> dict[int, int]:
        return {whole: bay for bay, whole in reversed(list(enumerate(self.bays)))}

    def of_whole(self, fill: Fill) -> Fill:
        """Its fill as one of the whole."""
        counts = np.zeros(self.of_kinds, dtype=np.int64)
        counts[self.kinds] = fill.counts
        return Fill(self.bays[fill.bay], tuple(counts.tolist()))

    def all_of_whole(self, laid: Laid) -> Laid:
        """Its plan as one of the whole."""
        found: Counter[Fill] = Counter()
        for fill, times in laid.items():
            found[self.of_whole(fill)] += times
        return found

    def still(self, fills: Iterable[Fill]) -> list[Fill]:
        """Fills of the whole that can still be used as they are, as fills of its own."""
        left = np.zeros(self.of_kinds, dtype=np.int64)
        left[self.kinds] = self.packing.counts
        able = [fill for fill in fills if fill.bay in self._bay_by_whole]
        if not able:
            return []
        counts = np.array([fill.counts for fill in able])
        good: NDArray[np.bool_] = np.all(counts <= left, axis=1)
        kept = counts[good][:, self.kinds].tolist()
        bays = [fill.bay for fill, each in zip(able, good.tolist(), strict=True) if each]
        return [Fill(self._bay_by_whole[bay], tuple(row)) for bay, row in zip(bays, kept, strict=True)]


def uncovered(packing: Packing, laid: Laid) -> Whole:
    """How many of each kind a plan does not cut."""
    left = packing.counts.copy()
    for fill, times in laid.items():
        left -= times * np.array(fill.counts)
    return np.maximum(left, 0)


def exact(packing: Packing, laid: Laid) -> Laid:
    """A plan without the parts that it cuts too many."""
    over = -packing.counts.copy()
    for fill, times in laid.items():
        over += times * np.array(fill.counts)
    found: Counter[Fill] = Counter()
    for fill, times in laid.items():
        counts = np.array(fill.counts)
        for _ in range(times):
            less = np.minimum(np.maximum(over, 0), counts)
            over -= less
            found[Fill(fill.bay, tuple((counts - less).tolist()))] += 1
    return {fill: times for fill, times in found.items() if any(fill.counts)}


def rest_of(packing: Packing, laid: Laid) -> Rest:
    """What a plan leaves to lay: the parts it lacks, pieces still whole, and clear lengths left in those begun."""
    left = uncovered(packing, laid)
    kinds = np.flatnonzero(left)
    rooms, bays = [], []
    for index, (room, many) in enumerate(zip(packing.rooms, opened(packing, laid), strict=True)):
        if room.most > many:
            rooms.append(room._replace(most=room.most - many, least=0))
            bays += [bay for bay, each in enumerate(packing.bays) if each.room == index]
    for bay, many in enumerate(spare_bays(packing, laid)):
        if many:
            rooms.append(Room((packing.bays[bay].size,), 0, many))
            bays.append(bay)
    part = Packing(needs=packing.needs[kinds], counts=left[kinds], rooms=tuple(rooms))
    return Rest(packing=part, kinds=kinds, bays=tuple(bays), of_kinds=len(left))
