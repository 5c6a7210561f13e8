"""The least moves that bring supports within a tolerance, out of the shims on hand: proven by the mixed-integer solver.

Of every support each thickness is put in or taken out in whole shims. What is wanted, one after the other: the fewest
supports touched, then the least lift in all, then the fewest shims handled. A support may come down only as far as the
shims now in its stack can be taken out. What hangs free over its blocks is shimmed up too, moved or not.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import NamedTuple

from pinfold.errors import NoSolutionError
from pinfold.figures import printed
from pinfold.plan.supports import Shim
from pinfold.sources import Standing
from pinfold.studies.leveling.program import CLOSE, SLACK, Place, Program, Reached, Told, stock_of
from pinfold.studies.leveling.words import fine
from pinfold.units import METER, Meter, Second, System

TOLERANCE = {
    System.US: printed("1/4 in", METER, Standing.READ, "CFR-3285-6", "between adjacent piers; here between any two"),
    System.METRIC: printed("6 mm", METER, Standing.DERIVED, "CFR-3285-6", "1/4 in, rounded down, between any two"),
}
"""Most that two supports may differ in the end, unless the plan says another."""
LIMIT: Second = 8.0
"""For all goals together."""
_REASON: Second = 3.0
"""For each question of why nothing does."""
_PLENTY = 400


@dataclass(frozen=True, kw_only=True)
class ShimMove:
    """Shims of one thickness put into a stack, or taken out.

    Attributes:
        thickness: of one.
        count: how many; below zero taken out.
    """

    thickness: Meter
    count: int


@dataclass(frozen=True, kw_only=True)
class Move:
    """What is done at one support.

    Attributes:
        mark: of it.
        lift: of the beam; below zero it comes down.
        shims: put in or taken out.
        after: height of the beam in the end.
    """

    mark: str
    lift: Meter
    shims: tuple[ShimMove, ...]
    after: Meter


@dataclass(frozen=True, kw_only=True)
class Moves:
    """All moves.

    Attributes:
        moves: of every support, in the order given; those that stay have no shims.
        tolerance: that was kept.
        range: highest less lowest support in the end.
        lift: of all supports together, down counted too.
        handled: shims put in or taken out.
        proven: whether no better way is left.
        fewest: no way touches fewer than so many supports.
    """

    moves: tuple[Move, ...]
    tolerance: Meter
    range: Meter
    lift: Meter
    handled: int
    proven: bool
    fewest: int

    @property
    def touched(self) -> tuple[Move, ...]:
        """Those where something is done."""
        return tuple(move for move in self.moves if move.shims)


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was found once is not sought again."""

    told: Told | None = field(compare=False)


def least_moves(
    places: Sequence[Place], shims: Sequence[Shim], *, tolerance: Meter, system: System = System.METRIC,
    told: Told | None = None,
) -> Moves:  # fmt: skip
    """The least moves after which no two supports differ by more than the tolerance.

    Args:
        places: all supports
        shims: on hand beside those in the stacks
        tolerance: highest less lowest support in the end
        system: units that a refusal is told in
        told: of the progress

    Raises:
        NoSolutionError: no way with these shims; the message says what is the best they allow and what would mend it.
    """
    found = _sought(tuple(places), tuple(shims), tolerance, system, _Telling(told))
    if isinstance(found, str):
        raise NoSolutionError(found)
    return found


@lru_cache(maxsize=32)  # the sheet, its page and its form ask for the same
def _sought(
    places: tuple[Place, ...], shims: tuple[Shim, ...], tolerance: Meter, system: System, telling: _Telling
) -> Moves | str:  # fmt: skip
    """The moves, or why there are none."""
    program = Program(places, stock_of(places, shims))
    try:
        found = program.best(program.goals(), tolerance + SLACK, seconds=LIMIT, told=telling.told)
    except NoSolutionError as late:
        return str(late)
    return _why_not(program, tolerance, system) if found is None else _read(program, found, tolerance=tolerance)


class Range(NamedTuple):
    """Smallest difference between highest and lowest support.

    Attributes:
        found: so far; infinite where a gap stays open.
        least: none is smaller than this.
    """

    found: Meter
    least: Meter


def best_range(places: Sequence[Place], shims: Sequence[Shim]) -> Range:
    """The smallest difference between highest and lowest support that these shims allow.

    Raises:
        NoSolutionError: time ran out before anything was found.
    """
    program = Program(tuple(places), stock_of(places, shims))
    found = program.best((program.range_goal(),), None, seconds=_REASON)
    if found is None:
        return Range(math.inf, math.inf)
    return Range(float(found.numbers[program.columns.range]), found.bounds[0])


def _why_not(program: Program, tolerance: Meter, system: System) -> str:
    if not program.stock:
        return "no shims are on hand; write [[neighbor.blocks.shim]] with thickness and count"
    told = fine(tolerance, system)
    told = told if any(digit in told for digit in "123456789") else f"{1e3 * tolerance:g} mm"
    asked = f"supports are to differ by no more than {told}"
    plenty = [replace(shim, count=_PLENTY) for shim in program.stock]
    try:
        best = best_range(program.places, program.stock)
        if not math.isinf(best.found) and _does(program.places, plenty, tolerance):
            return f"{asked}; the shims on hand bring them to {_told(best, system)}. More of the same would do"
        more = best_range(program.places, plenty)
    except NoSolutionError:
        return f"{asked}, and that these shims do not do; how near they come was not found in time"
    if math.isinf(best.found):
        return f"{asked}: a beam hangs farther over its blocks than these shims fill; more or thicker ones mend it"
    return (
        f"{asked}; the shims on hand bring them to {_told(best, system)}, and any number of them to "
        f"{_told(more, system)}: shims thinner than {fine(program.stock[-1].thickness, system)} mend it, or a "
        f"tolerance of {fine(more.found + CLOSE, system)}"
    )


def _does(places: tuple[Place, ...], shims: Sequence[Shim], tolerance: Meter) -> bool:
    """Whether these shims bring the supports within the tolerance at all."""
    program = Program(places, stock_of(places, shims))
    return program.best((program.nothing(),), tolerance + SLACK, seconds=_REASON) is not None


def _told(best: Range, system: System) -> str:
    if best.found - best.least < CLOSE:
        return fine(best.found, system)
    least = f"less than {fine(best.least, system)} they do not"
    return f"{fine(best.found, system)} (the best found in {_REASON:g} s; {least})"


def _read(program: Program, found: Reached, *, tolerance: Meter) -> Moves:
    columns, numbers, moves = program.columns, found.numbers, []
    for number, place in enumerate(program.places):
        shims = tuple(
            ShimMove(thickness=shim.thickness, count=count) for size, shim in enumerate(program.stock)
            if (count := round(numbers[columns.shims(number, size, out=False)])
                - round(numbers[columns.shims(number, size, out=True)]))
        )  # fmt: skip
        filled = sum(each.thickness * each.count for each in shims)
        gap = place.gap if place.gap > CLOSE else 0.0
        lift = filled - gap if shims and abs(filled - gap) > CLOSE * bool(gap) else 0.0
        moves.append(Move(mark=place.mark, lift=lift, shims=shims, after=place.height + lift))
    heights = [move.after for move in moves]
    return Moves(
        moves=tuple(moves), tolerance=tolerance, range=max(heights) - min(heights),
        lift=sum(abs(move.lift) for move in moves),
        handled=sum(abs(each.count) for move in moves for each in move.shims), proven=found.proven,
        fewest=math.ceil(found.bounds[0] - 1e-6),
    )  # fmt: skip
