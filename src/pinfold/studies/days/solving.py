"""The best schedule of a few days: whole numbers by HiGHS, with how far it may be from the very best."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.days.listing import listed, tried
from pinfold.studies.days.problem import NOT_YET, Problem, Starts
from pinfold.units import Ratio, Second


class Solved(NamedTuple):
    """A schedule and what is known of it.

    Attributes:
        starts: slot that each piece begins in.
        cost: of it.
        bound: no schedule costs less.
        proven: whether it is the best there is.
    """

    starts: Starts
    cost: float
    bound: float
    proven: bool

    @property
    def gap(self) -> Ratio:
        """By what share a better one could cost less at most."""
        return max(self.cost - self.bound, 0.0) / self.cost if self.cost > 0 else 0.0


def solved(problem: Problem, *, time: Second, near: Ratio = 0.005) -> Solved:
    """The best schedule that is found, with a bound that no schedule is under.

    What is proven best in the time is taken; else the best of many quick schedules, which is the same on a slow machine
    as on a quick one, and the time only says how near the bound comes. It is kept for problems that are the same in
    numbers: most of what a log teaches changes neither how long work takes nor where it may begin.

    Args:
        problem: pieces and slots
        time: for the proof
        near: to how near the best it is proven
    """
    return _solved(_Case(_numbers_of(problem), problem), time, near)


@dataclass(frozen=True)
class _Case:
    """A problem, known by its numbers alone."""

    numbers: tuple[object, ...]
    problem: Problem = field(compare=False)


def _numbers_of(problem: Problem) -> tuple[object, ...]:
    """All that a schedule hangs on."""
    pieces = tuple(
        (each.slots, each.people, each.tail, *(wait.piece for wait in each.after)) for each in problem.pieces
    )
    free = tuple(
        problem.free_from(wait, int(slot))
        for each in problem.pieces
        for wait in each.after
        for slot in np.flatnonzero(problem.allowed[wait.piece])
    )
    arrays = (problem.slots.seconds, problem.slots.days, problem.allowed, problem.risk)
    return problem.crew, problem.day_most, pieces, free, *(array.tobytes() for array in arrays)


@lru_cache(maxsize=4)
def _solved(case: _Case, time: Second, near: Ratio) -> Solved:
    problem = case.problem
    if not problem.pieces or not problem.slots.count:
        quick = listed(problem)
        return Solved(quick, problem.cost_of(quick), problem.cost_of(quick), proven=True)
    best = tried(problem)
    cost = problem.cost_of(best)
    found = _Model(problem).solve(time, near)
    if found is None:
        return Solved(best, cost, min(_loose(problem), cost), proven=False)
    starts, bound, proven = found
    if proven and starts is not None and problem.cost_of(starts) <= cost:
        best, cost = starts, problem.cost_of(starts)
    near_enough = cost - bound <= near * cost + 1e-12
    return Solved(best, cost, min(bound, cost), proven=proven or near_enough)


def _loose(problem: Problem) -> float:
    """Every piece where it costs least, others left aside."""
    costs = np.where(problem.allowed, problem.costs, np.inf)
    return float(np.minimum(costs.min(axis=1), problem.left_costs).sum())


class _Rows:
    """Rows of a sparse matrix with their bounds, while they are gathered."""

    def __init__(self) -> None:
        self.rows: list[int] = []
        self.columns: list[int] = []
        self.values: list[float] = []
        self.highs: list[float] = []

    def add(self, terms: list[tuple[int, float]], high: float) -> None:
        """Terms together at most so much."""
        number = len(self.highs)
        for column, value in terms:
            self.rows.append(number)
            self.columns.append(column)
            self.values.append(value)
        self.highs.append(high)


class _Model:
    """One variable for each piece and slot it may begin in: 1 once it has begun there or before."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.places = [np.flatnonzero(row) for row in problem.allowed]
        sizes = [len(place) for place in self.places]
        self.first = np.concatenate([[0], np.cumsum(sizes)]).astype(np.int64)
        self.count = int(self.first[-1])
        self.rows = _Rows()

    def begun(self, piece: int, slot: int) -> int | None:
        """The variable that says whether a piece has begun by a slot; None where it cannot have."""
        number = int(np.searchsorted(self.places[piece], slot, side="right"))
        return None if number == 0 else int(self.first[piece]) + number - 1

    def solve(self, time: Second, near: Ratio) -> tuple[Starts | None, float, bool] | None:
        """Starts, the bound and whether they are the best; None where not even a bound was found."""
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_array

        if self.count == 0:
            nothing = (NOT_YET,) * len(self.problem.pieces)
            return nothing, self.problem.cost_of(nothing), True
        self._in_turn()
        self._waits()
        self._people()
        shape = (len(self.rows.highs), self.count)
        matrix = coo_array((self.rows.values, (self.rows.rows, self.rows.columns)), shape=shape).tocsr()
        answer = milp(
            c=self._costs(), integrality=np.ones(self.count), bounds=Bounds(0, 1),
            constraints=LinearConstraint(matrix, -np.inf, np.array(self.rows.highs)),
            options={"time_limit": time, "mip_rel_gap": near, "presolve": False},  # it took ten times what it saved
        )  # fmt: skip
        base = float(self.problem.left_costs.sum())
        if answer.mip_dual_bound is None or not np.isfinite(answer.mip_dual_bound):
            return None
        starts = None if answer.x is None else self._starts(answer.x)
        return starts, base + float(answer.mip_dual_bound), answer.status == 0

    def _costs(self) -> NDArray[np.float64]:
        """Cost of beginning in a slot rather than the one after, and in the last rather than never."""
        found = np.zeros(self.count)
        for number, place in enumerate(self.places):
            costs = np.append(self.problem.costs[number, place], self.problem.left_costs[number])
            found[self.first[number] : self.first[number + 1]] = costs[:-1] - costs[1:]
        return found

    def _in_turn(self) -> None:
        for number in range(len(self.places)):
            for column in range(int(self.first[number]), int(self.first[number + 1]) - 1):
                self.rows.add([(column, 1.0), (column + 1, -1.0)], 0.0)

    def _waits(self) -> None:
        """No piece has begun by a slot unless each that it waits for has begun early enough."""
        problem = self.problem
        for number, piece in enumerate(problem.pieces):
            for wait in piece.after:
                before = self.places[wait.piece]
                free = np.array([problem.free_from(wait, int(slot)) for slot in before], dtype=np.int64)
                for column, slot in enumerate(self.places[number]):
                    done = int(np.searchsorted(free, slot, side="right"))
                    mine = (int(self.first[number]) + column, 1.0)
                    other = [] if done == 0 else [(int(self.first[wait.piece]) + done - 1, -1.0)]
                    self.rows.add([mine, *other], 0.0)

    def _people(self) -> None:
        problem = self.problem
        for slot in range(problem.slots.count):
            terms = [term for number in range(len(problem.pieces)) for term in self._at_work(number, slot)]
            if terms:
                self.rows.add(terms, float(problem.crew))
        for day in range(len(problem.slots.dates)):
            inside = np.flatnonzero(problem.slots.days == day)
            terms = [
                term for number, piece in enumerate(problem.pieces)
                for term in self._between(number, int(inside[0]), int(inside[-1]), float(piece.slots * piece.people))
            ]  # fmt: skip
            if terms:
                self.rows.add(terms, float(problem.day_most))

    def _at_work(self, number: int, slot: int) -> Iterator[tuple[int, float]]:
        piece = self.problem.pieces[number]
        return self._between(number, slot - piece.slots + 1, slot, float(piece.people))

    def _between(self, number: int, low: int, high: int, each: float) -> Iterator[tuple[int, float]]:
        """Whether a piece begins from one slot to another, times so much."""
        until, before = self.begun(number, high), self.begun(number, low - 1)
        if until is not None and until != before:
            yield until, each
            if before is not None:
                yield before, -each

    def _starts(self, values: NDArray[np.float64]) -> Starts:
        found = []
        for number, place in enumerate(self.places):
            own = values[self.first[number] : self.first[number + 1]] > 0.5
            found.append(int(place[int(np.argmax(own))]) if own.any() else NOT_YET)
        return tuple(found)
