"""A quick schedule: slot by slot, what much waits for goes first, as far as allowed; and better ones by trying."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.days.problem import NOT_YET, Problem, Starts

_SEED = 5
_TRIES = 1500


def listed(problem: Problem) -> Starts:
    """Where each piece begins; what finds no room does not.

    A piece takes the first slot it may. Where a later one of the same day costs it clearly less, in the shade of the
    afternoon say, it leaves the earlier one to others.
    """
    bench = _Bench(problem)
    return bench.lay(bench.usual)


def tried(problem: Problem, tries: int = _TRIES) -> Starts:
    """The best of many quick schedules, each a small change of the best so far; the same every time.

    Args:
        problem: pieces and slots
        tries: how many
    """
    bench = _Bench(problem)
    best = bench.usual
    starts = bench.lay(best)
    cost = problem.cost_of(starts)
    chance = np.random.default_rng(_SEED)
    for _ in range(tries if len(problem.pieces) > 1 and problem.slots.count else 0):
        order = _changed(best, problem, chance)
        laid = bench.lay(order)
        found = problem.cost_of(laid)
        if found <= cost:
            best, starts, cost = order, laid, found
    return starts


class _Order(NamedTuple):
    """How pieces are taken: the lowest turn first, none before its slot."""

    turns: tuple[int, ...]
    soonest: tuple[int, ...]


def _changed(order: _Order, problem: Problem, chance: np.random.Generator) -> _Order:
    """Two pieces change turns, or one is held back to some slot, or no longer."""
    count = len(order.turns)
    one, other = (int(number) for number in chance.integers(0, count, size=2))
    turns, soonest = list(order.turns), list(order.soonest)
    kind = chance.random()
    if kind < 0.5:
        turns[one], turns[other] = turns[other], turns[one]
    elif kind < 0.8:
        soonest[one] = int(chance.integers(0, problem.slots.count))
    else:
        soonest[one] = 0
    return _Order(tuple(turns), tuple(soonest))


class _Bench:
    """What all quick schedules of one problem share."""

    def __init__(self, problem: Problem) -> None:
        pieces = problem.pieces
        self.problem = problem
        self.days: list[int] = problem.slots.days.tolist()
        self.day_ends: list[int] = np.searchsorted(problem.slots.days, range(1, len(problem.slots.dates) + 1)).tolist()
        good = problem.allowed & _no_better_later(problem)
        self.good = [row.tobytes() for row in good]  # one place of it is looked at at a time
        self.behind: list[list[int]] = [[] for _ in pieces]
        for number, piece in enumerate(pieces):
            for wait in piece.after:
                self.behind[wait.piece].append(number)
        self._free: dict[tuple[int, int, int], int] = {}
        ranked = sorted(range(len(pieces)), key=lambda number: (-pieces[number].tail, number))
        turns = {number: turn for turn, number in enumerate(ranked)}
        self.usual = _Order(tuple(turns[number] for number in range(len(pieces))), (0,) * len(pieces))

    def lay(self, order: _Order) -> Starts:
        """Where each piece begins, taken in an order."""
        return _Laying(self, order).run() if self.problem.slots.count else (NOT_YET,) * len(self.problem.pieces)

    def soonest(self, number: int, starts: Sequence[int]) -> int:
        """First slot in which a piece may begin after what it waits for."""
        found = 0
        for place, wait in enumerate(self.problem.pieces[number].after):
            key = number, place, starts[wait.piece]
            if key not in self._free:
                self._free[key] = self.problem.free_from(wait, starts[wait.piece])
            found = max(found, self._free[key])
        return found


class _Laying:
    """A quick schedule while it is made."""

    def __init__(self, bench: _Bench, order: _Order) -> None:
        problem = bench.problem
        self.bench, self.problem, self.order = bench, problem, order
        self.used = [0] * problem.slots.count
        self.day_used = [0] * len(problem.slots.dates)
        self.starts = [NOT_YET] * len(problem.pieces)
        self.waiting = [len(piece.after) for piece in problem.pieces]
        self.coming: list[tuple[int, int, int]] = []
        for number, piece in enumerate(problem.pieces):
            if not piece.after:
                self._comes(number, order.soonest[number])

    def run(self) -> Starts:
        """Slot by slot, in each slot the lowest turn first; a piece comes again where it next may begin."""
        while self.coming:
            slot, _, number = heapq.heappop(self.coming)
            free = self._free(number, slot)
            if free > slot:
                self._comes(number, free)
            else:
                self._begin(number, slot)
        return tuple(self.starts)

    def _comes(self, number: int, slot: int) -> None:
        """A piece is looked at in the first slot from this one that is good for it; never where there is none."""
        good = self.bench.good[number].find(1, slot)
        if good >= 0:
            heapq.heappush(self.coming, (good, self.order.turns[number], number))

    def _free(self, number: int, slot: int) -> int:
        """This slot where people are free for a piece, else the first after it in which they may be."""
        piece, day = self.problem.pieces[number], self.bench.days[slot]
        if self.day_used[day] + piece.slots * piece.people > self.problem.day_most:
            return self.bench.day_ends[day]
        most = self.problem.crew - piece.people
        for taken in range(slot + piece.slots - 1, slot - 1, -1):
            if self.used[taken] > most:
                return taken + 1
        return slot

    def _begin(self, number: int, slot: int) -> None:
        piece = self.problem.pieces[number]
        for taken in range(slot, slot + piece.slots):
            self.used[taken] += piece.people
        self.day_used[self.bench.days[slot]] += piece.slots * piece.people
        self.starts[number] = slot
        for other in self.bench.behind[number]:  # what waited for it alone comes as soon as it may
            self.waiting[other] -= 1
            if self.waiting[other] == 0:
                soonest = max(self.bench.soonest(other, self.starts), self.order.soonest[other])
                self._comes(other, max(soonest, slot + 1))


def _no_better_later(problem: Problem) -> NDArray[np.bool_]:
    """(pieces, slots) where no later allowed slot of the same day costs less."""
    if not problem.risk.any():
        return problem.allowed
    costs = np.where(problem.allowed, problem.costs, np.inf)
    best = costs.copy()
    for slot in range(problem.slots.count - 2, -1, -1):
        if problem.slots.days[slot] == problem.slots.days[slot + 1]:
            np.minimum(best[:, slot], best[:, slot + 1], out=best[:, slot])
    found: NDArray[np.bool_] = costs <= best + 1e-12
    return found
