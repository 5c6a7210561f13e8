"""Whole plans chosen out of known fills, and all the fills that a cheaper plan could use."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csc_array, hstack

from pinfold.studies.cutting.master import Real
from pinfold.studies.cutting.packing import Fill, Laid, Packing, Whole
from pinfold.studies.cutting.relaxing import Bound

_OPTIMAL, _INFEASIBLE = 0, 2
_WIDEST = 2 * 10**7
"""Cells of the largest table of fills that is kept."""


class Limits(NamedTuple):
    """What a choice is held to.

    Attributes:
        least: no plan costs less, as is known.
        most: the plan must not cost more.
        seconds: for the search.
        nodes: of the search tree.
    """

    least: int
    most: int
    seconds: float
    nodes: int = 10**6


class Chosen(NamedTuple):
    """The answer of a choice.

    Attributes:
        laid: the best plan found; None where none was.
        whole: whether the search came to its end.
    """

    laid: Laid | None
    whole: bool


def chosen(packing: Packing, known: list[Fill], limits: Limits) -> Chosen:
    """The plan out of known fills that costs least, within limits."""
    coins = _prices(packing, len(known))
    body = hstack([_columns(packing, known), _openings(packing)], format="csc")
    lower = np.concatenate([np.zeros(len(known)), [room.least for room in packing.rooms]])
    upper = np.concatenate([np.full(len(known), np.inf), [room.most for room in packing.rooms]])
    answer = milp(
        coins,
        constraints=[
            LinearConstraint(body, _rows(packing), np.inf),
            LinearConstraint(coins[None, :], limits.least, limits.most),
        ],
        bounds=Bounds(lower, upper),
        integrality=np.ones(len(coins)),
        options={"time_limit": max(limits.seconds, 0.01), "node_limit": limits.nodes, "mip_rel_gap": 0},
    )
    if answer.x is None:
        return Chosen(None, answer.status == _INFEASIBLE)
    times = np.rint(answer.x[: len(known)]).astype(int).tolist()
    return Chosen({fill: many for fill, many in zip(known, times, strict=True) if many}, answer.status == _OPTIMAL)


def _columns(packing: Packing, chosen: list[Fill]) -> csc_array:
    """A column for each fill: the parts in it, then the bay it takes (negative)."""
    kinds = len(packing.needs)
    body = np.zeros((kinds + len(packing.bays), len(chosen)))
    if chosen:
        body[:kinds] = np.array([fill.counts for fill in chosen]).T
        body[[kinds + fill.bay for fill in chosen], range(len(chosen))] = -1
    return csc_array(body)


def _openings(packing: Packing) -> csc_array:
    """A column for each room: the bays that one piece of it gives."""
    body = np.zeros((len(packing.needs) + len(packing.bays), len(packing.rooms)))
    for index, bay in enumerate(packing.bays):
        body[len(packing.needs) + index, bay.room] = bay.times
    return csc_array(body)


def _rows(packing: Packing) -> Real:
    """What each row must come to at least: the parts wanted, and no bay used that is not there."""
    return np.concatenate([packing.counts, np.zeros(len(packing.bays))]).astype(float)


def _prices(packing: Packing, many: int) -> Real:
    """Of so many fills, which cost nothing, and then of the rooms."""
    return np.concatenate([np.zeros(many), [room.price for room in packing.rooms]]).astype(float)


def all_that_pay(packing: Packing, bound: Bound, *, most: int, limit: int) -> list[Fill] | None:
    """Every full fill that a plan of no more than so many coins could use; None where they are too many.

    A fill is left out only where any plan with it is worth so little that, by the worths that prove the bound, it costs
    more than that. A fill with room for another part is left out too: the fuller one serves as well.
    """
    if (len(packing.needs) + 1) * (packing.top + 1) > _WIDEST:
        return None
    suffix = _suffixes(packing, bound.worths)
    spare = most * bound.fine - bound.least
    found: list[Fill] = []
    for index, bay in enumerate(packing.bays):
        room = packing.rooms[bay.room]
        missing = max(room.price * bound.fine - sum(int(suffix[0][size]) for size in room.sizes), 0)
        least = int(suffix[0][bay.size]) - spare + (0 if room.least else missing)
        part = _full_fills(packing, (bound.worths, suffix), size=bay.size, least=least, limit=limit - len(found))
        if part is None:
            return None
        found += [Fill(index, tuple(counts)) for counts in part.tolist() if any(counts)]
    return found


def _suffixes(packing: Packing, worths: Whole) -> Whole:
    """For each kind the worthiest fill of each length with it and those after it."""
    table = np.zeros((len(packing.needs) + 1, packing.top + 1), dtype=np.int64)
    for kind in range(len(packing.needs) - 1, -1, -1):
        need, worth = int(packing.needs[kind]), int(worths[kind])
        best = table[kind]
        best[:] = table[kind + 1]
        for _ in range(min(int(packing.counts[kind]), packing.top // need) if worth else 0):
            np.maximum(best[need:], best[: best.size - need] + worth, out=best[need:])
    return table


def _full_fills(packing: Packing, valued: tuple[Whole, Whole], *, size: int, least: int, limit: int) -> Whole | None:
    """Counts of all fills of a length that are worth enough and have no room for another part; None if too many."""
    worths, suffix = valued
    spare, worth = np.array([size]), np.zeros(1, dtype=np.int64)
    counts = np.zeros((1, len(packing.needs)), dtype=np.int16)
    for kind, (need, count) in enumerate(zip(packing.needs.tolist(), packing.counts.tolist(), strict=True)):
        many = np.minimum(spare // need, count)
        row = np.repeat(np.arange(len(spare)), many + 1)
        taken = np.arange(len(row)) - np.repeat(np.cumsum(many + 1) - many - 1, many + 1)
        left, gained = spare[row] - taken * need, worth[row] + taken * worths[kind]
        good = gained + suffix[kind + 1][left] >= least
        if good.sum() > limit:
            return None
        spare, worth, counts = left[good], gained[good], counts[row[good]]
        counts[:, kind] = taken[good]
    shortest = np.where(counts < packing.counts, packing.needs, size + 1).min(axis=1)
    full: Whole = counts[spare < shortest]
    return full
