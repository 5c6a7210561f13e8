"""Where upright bars stand in the thickness of a wall: the cover they need and the depth at which they work."""

from __future__ import annotations

from pinfold.figures import Figure, printed
from pinfold.plan.buildups import BarPlace, Wall
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind
from pinfold.units import METER, Meter, read

_STOUT: Meter = read("0.7 in", like=METER)
"""Bars from this on want the larger cover: #6 and up."""


_COVER = printed(
    "1.5 in", METER, Standing.MEMORY, "TMS-402-13", "6.1, bars to #5 in masonry in the weather, the unit counts"
)
_COVER_STOUT = printed(
    "2 in", METER, Standing.MEMORY, "TMS-402-13", "6.1, bars from #6 on in masonry in the weather, the unit counts"
)


def cover_of(bar: Kind) -> Figure:
    """Least masonry between a bar and a face in the weather.

    Raises:
        NotFoundError: its diameter is not known.
    """
    return _COVER if bar.value("diameter") < _STOUT else _COVER_STOUT


def bar_depth(wall: Wall) -> Meter:
    """From the pressed face to the bar that pulls; wind blows from both sides, so for one near a face the lesser depth.

    Raises:
        NotFoundError: the bar's diameter is not known.
    """
    if wall.bar is None or wall.bar_place is BarPlace.MIDDLE:
        return wall.thickness / 2
    near = cover_of(wall.bar).value + wall.bar.value("diameter") / 2
    return wall.thickness - near if wall.bar_place is BarPlace.BOTH else min(near, wall.thickness / 2)
