"""Values to try for one key of the plan, from the least change on, written as a builder would measure them."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.plan.changes import Change, Put
from pinfold.units import Meter, System

INCH: Meter = 0.0254
GRID = {System.US: (INCH, "in"), System.METRIC: (0.01, "cm")}
"""What lengths are rounded to, and its sign."""
SMALL = {System.US: 2 * INCH, System.METRIC: 0.05}
"""A step of a width, depth or height."""
FINE = {System.US: INCH, System.METRIC: 0.02}
"""A step of a thickness."""
LARGE = {System.US: 6 * INCH, System.METRIC: 0.15}
"""A step of a spacing."""


def length(value: Meter, system: System) -> str:
    """A length in whole inches or centimeters, halves where it is on a half."""
    unit, sign = GRID[system]
    return f"{round(2 * value / unit) / 2:g} {sign}"


def rising(start: Meter, most: Meter, *, step: Meter, system: System) -> tuple[str, ...]:
    """Lengths above a start on the grid of the step, up to a most."""
    first = math.floor(start / step + 1e-6) + 1
    return tuple(length(number * step, system) for number in range(first, int(most / step + 1e-6) + 1))


def falling(start: Meter, least: Meter, *, step: Meter, system: System) -> tuple[str, ...]:
    """Lengths below a start on the grid of the step, down to a least."""
    first, last = math.ceil(start / step - 1e-6) - 1, math.ceil(least / step - 1e-6)
    return tuple(length(number * step, system) for number in range(first, last - 1, -1))


def writes(path: tuple[str, ...], texts: Iterable[str]) -> tuple[Change, ...]:
    """One key with one text after another."""
    return tuple((Put(path, text),) for text in texts)
