"""Small lengths and directions in the builder's words."""

from __future__ import annotations

import math
from fractions import Fraction

from pinfold.formulas import leveling as formulas
from pinfold.units import Meter, Radian, Ratio, System

_INCH: Meter = 0.0254
_PARTS = 32
"""Parts of an inch that a difference in level is told in."""
_NAMES = ("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest")


def fine(length: Meter, system: System) -> str:
    """A difference in level: millimeters and their halves, or inches and their 32nds."""
    if system is System.METRIC:
        return f"{round(2e3 * length) / 2:g} mm"
    parts = Fraction(round(abs(length) / _INCH * _PARTS), _PARTS)
    whole, rest = divmod(parts, 1)
    text = f"{whole} {rest}" if whole and rest else str(rest or whole)
    return f"{'-' if length < 0 and parts else ''}{text} in"


def compass(azimuth: Radian) -> str:
    """The nearest of eight directions of the compass."""
    return _NAMES[round(azimuth / (math.pi / 4)) % 8]


def falling_to(slope_x: Ratio, slope_y: Ratio, north: Radian) -> str:
    """The direction that a slope on the plan falls to."""
    return compass(formulas.fall_azimuth(slope_x=slope_x, slope_y=slope_y, north=north))
