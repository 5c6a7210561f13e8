"""The least moves that bring supports within a tolerance, out of the shims on hand: proven by the mixed-integer solver.

Of every support each thickness is put in or taken out in whole shims. What is wanted, one after the other: the fewest
supports touched, then the least lift in all, then the fewest shims handled. A support may come down only as far as the
shims now in its stack can be taken out. What hangs free over its blocks is shimmed up too, moved or not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from pinfold.errors import NoSolutionError
from pinfold.figures import printed
from pinfold.plan.supports import Shim
from pinfold.sources import Standing
from pinfold.studies.leveling.solving import Numbers
from pinfold.studies.leveling.words import fine
from pinfold.units import METER, Meter, System

TOLERANCE = {
    System.US: printed("1/4 in", METER, Standing.READ, "CFR-3285-6", "between adjacent piers; here between any two"),
    System.METRIC: printed("6 mm", METER, Standing.DERIVED, "CFR-3285-6", "1/4 in, rounded down, between any two"),
}
"""Most that two supports may differ in the end, unless the plan says another."""
CLOSE: Meter = 0.0005
"""A gap or a last difference this small counts as none: wood gives more."""
_SECONDS = 8.0
"""For each of the three goals."""
_SLACK = 1e-6
_PLENTY = 400
_OUT_OF_TIME = 1


class Place(NamedTuple):
    """A support to be moved.

    Attributes:
        mark: of it.
        height: it stands at now.
        shims: thickness of each shim in its stack.
        gap: by which the beam hangs free over it.
    """

    mark: str
    height: Meter
    shims: tuple[Meter, ...] = ()
    gap: Meter = 0.0


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
    """

    moves: tuple[Move, ...]
    tolerance: Meter
    range: Meter
    lift: Meter
    handled: int
    proven: bool

    @property
    def touched(self) -> tuple[Move, ...]:
        """Those where something is done."""
        return tuple(move for move in self.moves if move.shims)


@dataclass(frozen=True)
class _Columns:
    """Where the unknowns stand: shims put in and taken out, lift up and down, touched, level, range."""

    places: int
    sizes: int

    def shims(self, place: int, size: int, *, out: bool) -> int:
        return (place * self.sizes + size) * 2 + out

    def lift(self, place: int, *, down: bool) -> int:
        return 2 * self.places * self.sizes + 2 * place + down

    def touched(self, place: int) -> int:
        return 2 * self.places * (self.sizes + 1) + place

    @property
    def level(self) -> int:
        return 2 * self.places * (self.sizes + 1) + self.places

    @property
    def range(self) -> int:
        return self.level + 1

    @property
    def count(self) -> int:
        return self.level + 2


@dataclass(frozen=True, eq=False)
class _Programme:
    """The moves as a mixed-integer programme on one set of shims."""

    places: tuple[Place, ...]
    stock: tuple[Shim, ...]

    @property
    def columns(self) -> _Columns:
        return _Columns(len(self.places), len(self.stock))

    def in_stack(self, place: Place, size: int) -> int:
        return sum(abs(thick - self.stock[size].thickness) < _SLACK for thick in place.shims)

    def bounds(self, tolerance: Meter | None) -> tuple[Numbers, Numbers]:
        low, high = np.zeros(self.columns.count), np.full(self.columns.count, np.inf)
        for number, place in enumerate(self.places):
            for size in range(len(self.stock)):
                ready = self.stock[size].count + sum(self.in_stack(each, size) for each in self.places)
                high[self.columns.shims(number, size, out=False)] = ready
                high[self.columns.shims(number, size, out=True)] = self.in_stack(place, size)
            high[self.columns.touched(number)] = 1
        low[self.columns.level] = -np.inf
        high[self.columns.range] = np.inf if tolerance is None else tolerance
        return low, high

    def rows(self) -> tuple[Numbers, Numbers, Numbers]:
        """Left side, lower and upper limits of every row."""
        rows: list[tuple[dict[int, float], float, float]] = []
        for number, place in enumerate(self.places):
            rows += self._of_place(number, place)
        for size, shim in enumerate(self.stock):
            net = {
                self.columns.shims(number, size, out=out): -1.0 if out else 1.0
                for number in range(len(self.places)) for out in (False, True)
            }  # fmt: skip
            rows.append((net, -np.inf, float(shim.count)))
        left = np.zeros((len(rows), self.columns.count))
        for line, (row, _, _) in zip(left, rows, strict=True):
            for column, factor in row.items():
                line[column] = factor
        return left, np.array([low for _, low, _ in rows]), np.array([high for _, _, high in rows])

    def _of_place(self, number: int, place: Place) -> list[tuple[dict[int, float], float, float]]:
        columns = self.columns
        up, down = columns.lift(number, down=False), columns.lift(number, down=True)
        thick = {
            columns.shims(number, size, out=out): (-1.0 if out else 1.0) * shim.thickness
            for size, shim in enumerate(self.stock) for out in (False, True)
        }  # fmt: skip
        handled = dict.fromkeys(thick, 1.0)
        most = 2.0 * sum(shim.count for shim in self.stock) + 2.0 * sum(len(each.shims) for each in self.places) + 1.0
        lifted = {up: 1.0, down: -1.0}
        taken = {columns.shims(number, size, out=True): -shim.thickness for size, shim in enumerate(self.stock)}
        gap = place.gap if place.gap > CLOSE else 0.0
        return [
            ({**thick, up: -1.0, down: 1.0}, gap, gap + (CLOSE if gap else 0.0)),
            ({**taken, down: 1.0}, -np.inf, 0.0),
            ({**handled, columns.touched(number): -most}, -np.inf, 0.0),
            ({**lifted, columns.level: -1.0}, -place.height, np.inf),
            ({**lifted, columns.level: -1.0, columns.range: -1.0}, -np.inf, -place.height),
        ]

    def best(self, goals: Sequence[Numbers], tolerance: Meter | None) -> tuple[Numbers, bool] | None:
        """Unknowns that serve the goals one after the other, and whether that is proven; None where nothing does.

        Raises:
            NoSolutionError: time ran out before anything was found.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp

        low, high = self.bounds(tolerance)
        constraints = [LinearConstraint(*self.rows())]
        whole = np.zeros(self.columns.count)
        whole[: 2 * len(self.places) * len(self.stock)] = 1
        whole[[self.columns.touched(number) for number in range(len(self.places))]] = 1
        answer, proven = None, True
        for goal in goals:
            found = milp(goal, integrality=whole, bounds=Bounds(low, high), constraints=constraints,
                         options={"time_limit": _SECONDS, "mip_rel_gap": 0.0})  # fmt: skip
            if found.x is None and answer is None and found.status == _OUT_OF_TIME:
                raise NoSolutionError(
                    f"no way was found in {_SECONDS:g} s; more shims or a wider tolerance make it easier"
                )
            if found.x is None:
                proven = False
                break
            answer, proven = found.x, proven and found.status == 0
            reach = float(goal @ answer)
            constraints.append(LinearConstraint(goal[None, :], -np.inf, reach + 1e-7 * max(1.0, abs(reach))))
        return None if answer is None else (answer, proven)

    def goals(self) -> tuple[Numbers, Numbers, Numbers]:
        columns, places = self.columns, range(len(self.places))
        touched, lift, handled = (np.zeros(columns.count) for _ in range(3))
        touched[[columns.touched(number) for number in places]] = 1
        lift[[columns.lift(number, down=down) for number in places for down in (False, True)]] = 1
        handled[: 2 * len(self.places) * len(self.stock)] = 1
        return touched, lift, handled


def least_moves(
    places: Sequence[Place], shims: Sequence[Shim], *, tolerance: Meter, system: System = System.METRIC
) -> Moves:  # fmt: skip
    """The least moves after which no two supports differ by more than the tolerance.

    Args:
        places: all supports
        shims: on hand beside those in the stacks
        tolerance: highest less lowest support in the end
        system: units that a refusal is told in

    Raises:
        NoSolutionError: no way with these shims; the message says what is the best they allow and what would mend it.
    """
    programme = _Programme(tuple(places), _stock(places, shims))
    found = programme.best(programme.goals(), tolerance + _SLACK)
    if found is None:
        raise NoSolutionError(_why_not(programme, tolerance, system))
    return _read(programme, *found, tolerance=tolerance)


def best_range(places: Sequence[Place], shims: Sequence[Shim]) -> Meter:
    """Smallest difference between highest and lowest support that these shims allow; infinite where a gap stays open.

    Raises:
        NoSolutionError: time ran out before anything was found.
    """
    programme = _Programme(tuple(places), _stock(places, shims))
    goal = np.zeros(programme.columns.count)
    goal[programme.columns.range] = 1
    found = programme.best((goal,), None)
    return float("inf") if found is None else float(found[0][programme.columns.range])


def _stock(places: Sequence[Place], shims: Sequence[Shim]) -> tuple[Shim, ...]:
    """Every thickness on hand or in a stack, thickest first."""
    counts: dict[float, int] = {}
    for shim in shims:
        counts[round(shim.thickness, 6)] = counts.get(round(shim.thickness, 6), 0) + shim.count
    for place in places:
        for thick in place.shims:
            counts.setdefault(round(thick, 6), 0)
    return tuple(Shim(thickness=thick, count=counts[thick]) for thick in sorted(counts, reverse=True))


def _why_not(programme: _Programme, tolerance: Meter, system: System) -> str:
    if not programme.stock:
        return "no shims are on hand; write [[neighbor.blocks.shim]] with thickness and count"
    best = best_range(programme.places, programme.stock)
    asked = f"supports are to differ by no more than {fine(tolerance, system)}"
    if best == float("inf"):
        return f"{asked}: a beam hangs farther over its blocks than these shims fill; more or thicker ones mend it"
    plenty = [replace(shim, count=_PLENTY) for shim in programme.stock]
    more = best_range(programme.places, plenty)
    if more <= tolerance:
        return f"{asked}; the shims on hand bring them to {fine(best, system)}. More of the same would do"
    return (
        f"{asked}; the shims on hand bring them to {fine(best, system)}, and any number of them to "
        f"{fine(more, system)}: shims thinner than {fine(programme.stock[-1].thickness, system)} mend it, "
        f"or a tolerance of {fine(more + CLOSE, system)}"
    )


def _read(programme: _Programme, numbers: Numbers, proven: bool, *, tolerance: Meter) -> Moves:  # noqa: FBT001 - as it comes
    columns, moves = programme.columns, []
    for number, place in enumerate(programme.places):
        shims = tuple(
            ShimMove(thickness=shim.thickness, count=count) for size, shim in enumerate(programme.stock)
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
        handled=sum(abs(each.count) for move in moves for each in move.shims), proven=proven,
    )  # fmt: skip
