"""The worthiest fill of every length at once: a bounded knapsack by dynamic programming, in whole numbers."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.cutting.packing import Whole, shares


class _Lot(NamedTuple):
    """Some parts of a kind that are taken together or not at all.

    Attributes:
        kind: index of the kind.
        many: how many.
        need: their length.
        taken: for each length whether the worthiest fill takes them.
    """

    kind: int
    many: int
    need: int
    taken: NDArray[np.bool_]


class Fills(NamedTuple):
    """The worthiest fills of all lengths.

    Attributes:
        worth: of the worthiest fill of each length from nothing up.
        lots: what was decided, lot by lot.
        kinds: how many kinds there are.
    """

    worth: Whole
    lots: tuple[_Lot, ...]
    kinds: int

    def of(self, size: int) -> list[int]:
        """How many of each kind the worthiest fill of a length holds."""
        counts = [0] * self.kinds
        for lot in reversed(self.lots):
            if size >= lot.need and lot.taken[size - lot.need]:
                counts[lot.kind] += lot.many
                size -= lot.need
        return counts


def fills(needs: Whole, counts: Whole, worths: Whole, *, top: int) -> Fills:
    """The worthiest fill of every length up to the top, with no more of a kind than are counted."""
    best = np.zeros(top + 1, dtype=np.int64)
    lots: list[_Lot] = []
    for kind, (need, count, worth) in enumerate(zip(needs.tolist(), counts.tolist(), worths.tolist(), strict=True)):
        if worth > 0:
            lots += [
                _Lot(kind, many, many * need, _laid_in(best, many * need, many * worth))
                for many in shares(min(count, top // need))
            ]
    return Fills(best, tuple(lots), len(needs))


def _laid_in(best: Whole, need: int, worth: int) -> NDArray[np.bool_]:
    with_it = best[: best.size - need] + worth
    without = best[need:]
    taken = with_it > without
    np.maximum(without, with_it, out=without)
    return taken
