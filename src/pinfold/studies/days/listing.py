"""A quick schedule: slot by slot, what much waits for goes first, as far as it is allowed."""

from __future__ import annotations

import heapq

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.days.problem import NOT_YET, Problem, Starts


def listed(problem: Problem) -> Starts:
    """Where each piece begins; what finds no room does not.

    A piece takes the first slot it may. Where a later one of the same day costs it clearly less, in the shade of the
    afternoon say, it leaves the earlier one to others.
    """
    return _Listing(problem).run() if problem.slots.count else (NOT_YET,) * len(problem.pieces)


class _Listing:
    """The schedule while it is made."""

    def __init__(self, problem: Problem) -> None:
        pieces = problem.pieces
        self.problem = problem
        self.used = [0] * problem.slots.count
        self.day_used = [0] * len(problem.slots.dates)
        self.days = problem.slots.days.tolist()
        self.starts = [NOT_YET] * len(pieces)
        self.good = problem.allowed & _no_better_later(problem)
        self.waiting = [len(piece.after) for piece in pieces]
        self.behind: list[list[int]] = [[] for _ in pieces]
        for number, piece in enumerate(pieces):
            for wait in piece.after:
                self.behind[wait.piece].append(number)
        ranked = sorted(range(len(pieces)), key=lambda number: (-pieces[number].tail, number))
        self.rank = {number: turn for turn, number in enumerate(ranked)}
        self.coming = [(0, number) for number in range(len(pieces)) if not pieces[number].after]
        heapq.heapify(self.coming)

    def run(self) -> Starts:
        """Slot by slot."""
        ready: list[tuple[int, int]] = []
        for slot in range(len(self.used)):
            while self.coming and self.coming[0][0] <= slot:
                _, number = heapq.heappop(self.coming)
                ready.append((self.rank[number], number))
                ready.sort()
            if ready and self._has_room(slot):
                ready = [pair for pair in ready if not self._begin(pair[1], slot)]
            if not ready and not self.coming:
                break
        return tuple(self.starts)

    def _has_room(self, slot: int) -> bool:
        return self.used[slot] < self.problem.crew and self.day_used[self.days[slot]] < self.problem.day_most

    def _begin(self, number: int, slot: int) -> bool:
        piece, day = self.problem.pieces[number], self.days[slot]
        work = piece.slots * piece.people
        if not self.good[number, slot] or self.day_used[day] + work > self.problem.day_most:
            return False
        if max(self.used[slot : slot + piece.slots]) + piece.people > self.problem.crew:
            return False
        for taken in range(slot, slot + piece.slots):
            self.used[taken] += piece.people
        self.day_used[day] += work
        self.starts[number] = slot
        self._free(number)
        return True

    def _free(self, number: int) -> None:
        """What waited for a piece alone comes as soon as it may."""
        for other in self.behind[number]:
            self.waiting[other] -= 1
            if self.waiting[other] == 0:
                waits = self.problem.pieces[other].after
                soonest = max(self.problem.free_from(wait, self.starts[wait.piece]) for wait in waits)
                heapq.heappush(self.coming, (soonest, other))


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
