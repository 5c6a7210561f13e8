"""The moves as a mixed-integer program: unknowns, rows and goals, solved goal after goal within one time limit."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.errors import NoSolutionError
from pinfold.plan.supports import Shim
from pinfold.studies.leveling.solving import Numbers
from pinfold.units import Meter, Second

Told = Callable[[int, int], None]
"""Is told how many of how many goals are reached."""
CLOSE: Meter = 0.0005
"""A gap or a last difference this small counts as none: wood gives more."""
SLACK = 1e-6
_LEAST: Second = 0.5
"""For a goal that comes late."""
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


class Reached(NamedTuple):
    """What the solver came to.

    Attributes:
        numbers: the unknowns.
        bounds: of each goal, less than which nothing comes to; of those that were looked at.
        proven: whether every goal is at its bound.
    """

    numbers: Numbers
    bounds: tuple[float, ...]
    proven: bool


@dataclass(frozen=True)
class Columns:
    """Where the unknowns stand: shims put in and taken out, lift up and down, touched, level, range."""

    places: int
    sizes: int

    def shims(self, place: int, size: int, *, out: bool) -> int:
        """Shims of one size put into a stack, or taken out."""
        return (place * self.sizes + size) * 2 + out

    def lift(self, place: int, *, down: bool) -> int:
        """How far a support goes up, or down."""
        return 2 * self.places * self.sizes + 2 * place + down

    def touched(self, place: int) -> int:
        """Whether anything is done at a support."""
        return 2 * self.places * (self.sizes + 1) + place

    @property
    def level(self) -> int:
        """The height of the lowest support in the end."""
        return 2 * self.places * (self.sizes + 1) + self.places

    @property
    def range(self) -> int:
        """Highest less lowest support in the end."""
        return self.level + 1

    @property
    def count(self) -> int:
        """Of all unknowns."""
        return self.level + 2


@dataclass(frozen=True, eq=False)
class Program:
    """The moves as a mixed-integer program on one set of shims."""

    places: tuple[Place, ...]
    stock: tuple[Shim, ...]

    @property
    def columns(self) -> Columns:
        """Where its unknowns stand."""
        return Columns(len(self.places), len(self.stock))

    def in_stack(self, place: Place, size: int) -> int:
        """Shims of one size in a stack now."""
        return sum(abs(thick - self.stock[size].thickness) < SLACK for thick in place.shims)

    def bounds(self, tolerance: Meter | None) -> tuple[Numbers, Numbers]:
        """Lower and upper bound of every unknown."""
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

    def best(
        self, goals: Sequence[Numbers], tolerance: Meter | None, *, seconds: Second, told: Told | None = None
    ) -> Reached | None:
        """Unknowns that serve the goals one after the other; None where nothing does.

        Raises:
            NoSolutionError: time ran out before anything was found.
        """
        from scipy.optimize import Bounds, LinearConstraint, milp

        tell = told if told is not None else _nobody
        tell(0, len(goals))
        constraints, until = [LinearConstraint(*self.rows())], time.monotonic() + seconds
        bounds, whole = Bounds(*self.bounds(tolerance)), self._whole()
        answer, proven, least = None, True, list[float]()
        for number, goal in enumerate(goals, start=1):
            found = milp(goal, integrality=whole, bounds=bounds, constraints=constraints,
                         options={"time_limit": max(until - time.monotonic(), _LEAST), "mip_rel_gap": 0.0})  # fmt: skip
            if found.x is None and answer is None and found.status == _OUT_OF_TIME:
                raise NoSolutionError(
                    f"no way was found in {seconds:g} s; more shims or a wider tolerance make it easier"
                )
            if found.x is None:
                proven = False
                break
            answer, proven = found.x, proven and found.status == 0
            least.append(_bound(found.mip_dual_bound))
            reach = float(goal @ answer)
            constraints.append(LinearConstraint(goal[None, :], -np.inf, reach + _room(goal, whole, reach)))
            tell(number, len(goals))
        return None if answer is None else Reached(answer, tuple(least), proven)

    def _whole(self) -> Numbers:
        """Which unknowns are whole numbers."""
        whole = np.zeros(self.columns.count)
        whole[: 2 * len(self.places) * len(self.stock)] = 1
        whole[[self.columns.touched(number) for number in range(len(self.places))]] = 1
        return whole

    def goals(self) -> tuple[Numbers, Numbers, Numbers]:
        """Fewest supports touched, then least lift, then fewest shims handled."""
        columns, places = self.columns, range(len(self.places))
        touched, lift, handled = (np.zeros(columns.count) for _ in range(3))
        touched[[columns.touched(number) for number in places]] = 1
        lift[[columns.lift(number, down=down) for number in places for down in (False, True)]] = 1
        handled[: 2 * len(self.places) * len(self.stock)] = 1
        return touched, lift, handled

    def nothing(self) -> Numbers:
        """No goal at all: any way is as good as another."""
        return np.zeros(self.columns.count)

    def range_goal(self) -> Numbers:
        """The difference between highest and lowest support alone."""
        goal = self.nothing()
        goal[self.columns.range] = 1
        return goal


def _nobody(done: int, whole: int) -> None:
    """Is told of the progress where nobody else is."""


def _bound(told: float | None) -> float:
    return 0.0 if told is None or not math.isfinite(told) else max(float(told), 0.0)


def _room(goal: Numbers, whole: Numbers, reach: float) -> float:
    """How far a goal that was reached may be passed later: a count by less than one, a length by next to nothing."""
    return 0.5 if not goal[whole == 0].any() else 2 * SLACK * max(1.0, abs(reach))


def stock_of(places: Sequence[Place], shims: Sequence[Shim]) -> tuple[Shim, ...]:
    """Every thickness on hand or in a stack, thickest first."""
    counts: dict[float, int] = {}
    for shim in shims:
        counts[round(shim.thickness, 6)] = counts.get(round(shim.thickness, 6), 0) + shim.count
    for place in places:
        for thick in place.shims:
            counts.setdefault(round(thick, 6), 0)
    return tuple(Shim(thickness=thick, count=counts[thick]) for thick in sorted(counts, reverse=True))
