"""Of plans that cost the same, one that begins few old pieces and takes new ones last."""

from __future__ import annotations

from dataclasses import replace

from pinfold.studies.cutting.packing import Laid, Packing, money, opened
from pinfold.studies.cutting.resting import exact
from pinfold.studies.cutting.solution import Solved
from pinfold.studies.cutting.solving import QUICK, bettered
from pinfold.studies.cutting.watching import Watch, watch

_LONGEST = 1.0
"""Seconds spent on it at most."""


def tidied(packing: Packing, best: Solved, time: Watch) -> Laid:
    """A plan with no more bought than in the best one, cut out of the fewest pieces that are free, old ones first."""
    if all(room.price for room in packing.rooms):
        return exact(packing, best.laid)
    count = int(packing.counts.sum())
    rooms = tuple(
        room._replace(price=0, most=many, endless=False)
        if room.price
        else room._replace(price=1 + count * (room.new > 0))
        for room, many in zip(packing.rooms, opened(packing, best.laid), strict=True)
    )
    free = replace(packing, rooms=rooms)
    start = Solved(laid=best.laid, money=money(free, best.laid), bound=0)
    return exact(packing, bettered(free, start, QUICK, watch(min(max(time.left, 0.1), _LONGEST))).laid)
