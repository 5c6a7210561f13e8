"""Plans by settling the fills that are used most, asking anew what the rest costs, and so on until all is laid."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

import numpy as np

from pinfold.studies.cutting.choosing import Limits, all_that_pay, chosen
from pinfold.studies.cutting.packing import Fill, Laid, Packing, money
from pinfold.studies.cutting.relaxing import Relaxed, master_of, relaxed
from pinfold.studies.cutting.resting import Rest, rest_of
from pinfold.studies.cutting.watching import Watch

_FEW = 300
"""So few fills are searched through whole."""
_LONGEST = 1.0
"""Seconds for one such search."""
_WAYS = (((0.8, 0.98), 0.15), ((0.6, 0.9), 0.3))
"""Dives take turns in how much of a fill must be used for it to be settled once more, somewhere in a range, and in how
far such shares are shaken at most, so that no two are alike. The first way finds more, the second is quicker."""
_KNOWN = 0.7
"""Share of the known fills that a dive starts from, for the same reason."""


def dived(packing: Packing, start: Iterable[Fill], most: int, *, seed: int, watch: Watch) -> Laid | None:
    """A plan of no more than so many coins; None where this dive ends in none."""
    chance = np.random.default_rng(seed)
    between, most_shaken = _WAYS[seed % len(_WAYS)]
    way = float(chance.uniform(*between)), float(chance.uniform(0, most_shaken))
    known = [fill for fill in start if chance.random() < _KNOWN]
    laid: Counter[Fill] = Counter()
    while True:
        rest = rest_of(packing, laid)
        if not len(rest.kinds):
            return dict(laid)
        spend = most - money(packing, laid)
        found = _within(rest, known, spend, watch)
        if found is None:
            return None
        last = _whole_rest(rest, found, spend, watch)
        if last is not None:
            laid.update(rest.all_of_whole(last))
            return dict(laid) if last else None
        laid.update(rest.all_of_whole(_settled(rest.packing, found, way, chance)))
        known = [rest.of_whole(fill) for fill in found.fills]


def _within(rest: Rest, known: list[Fill], spend: int, watch: Watch) -> Relaxed | None:
    """What the rest costs at least; None where that is more than can be spent, or the time is over."""
    found = None
    for found in relaxed(rest.packing, master_of(rest.packing, rest.still(known)), enough=spend + 1):
        if found.bound.coins > spend or watch.left < 0:
            return None
    return found


def _whole_rest(rest: Rest, found: Relaxed, spend: int, watch: Watch) -> Laid | None:
    """The rest searched through whole: a plan, an empty one where there is none; None where that is too much."""
    fills = all_that_pay(rest.packing, found.bound, most=spend, limit=_FEW)
    if fills is None:
        return None
    answer = chosen(rest.packing, fills, Limits(found.bound.coins, spend, min(watch.left, _LONGEST)))
    if answer.laid is None and answer.whole:
        return {}
    return answer.laid


def _settled(packing: Packing, found: Relaxed, way: tuple[float, float], chance: np.random.Generator) -> Laid:
    """The fills used most, as often as is surely right, at least one."""
    sure, shaken = way
    shares = found.shares + (found.shares > 1e-6) * chance.uniform(0, shaken, len(found.shares))
    left, laid = packing.counts.copy(), Counter[Fill]()
    free = [bay.times * packing.rooms[bay.room].most for bay in packing.bays]
    for at in np.argsort(-shares, kind="stable").tolist():
        share = float(shares[at])
        if share < sure and laid:
            break
        counts = np.array(found.fills[at].counts)
        bay = found.fills[at].bay
        times = min(max(int(share + 1 - sure), 1), free[bay], int((left // np.maximum(counts, 1))[counts > 0].min()))
        if times:
            laid[found.fills[at]] = times
            left -= times * counts
            free[bay] -= times
    return laid
