"""Changes of what is in a wall and of its piers: laps, where bars, grout and sheet end, piers and their pads."""

from __future__ import annotations

from pinfold.plan.enclosure import Enclosure
from pinfold.studies.mending.ladders import LARGE, SMALL, falling, rising, writes
from pinfold.studies.mending.records import Lever
from pinfold.units import Meter

_LONGEST_LAP: Meter = 2.0
_WIDEST_PAD: Meter = 1.5


def lap_longer(plan: Enclosure, name: str) -> Lever | None:
    """A longer lap, where the plan lays one of its own."""
    wall = plan.buildups[name].wall
    if wall is None or wall.lap is None:
        return None
    texts = rising(wall.lap, _LONGEST_LAP, step=SMALL[plan.units], system=plan.units)
    return Lever("a longer lap", writes(("buildup", name, "wall", "lap"), texts))


def bars_higher(plan: Enclosure, name: str) -> Lever | None:
    """Upright bars carried up higher, where the plan ends them."""
    wall = plan.buildups[name].wall
    if wall is None or wall.bar_height is None:
        return None
    texts = rising(wall.bar_height, wall.height + 1.0, step=SMALL[plan.units], system=plan.units)
    return Lever("bars carried up higher", writes(("buildup", name, "wall", "bar_height"), texts))


def grout_higher(plan: Enclosure, name: str) -> Lever | None:
    """Grout carried up higher, where the plan ends it."""
    wall = plan.buildups[name].wall
    if wall is None or wall.grout_height is None:
        return None
    texts = rising(wall.grout_height, wall.height + 1.0, step=SMALL[plan.units], system=plan.units)
    return Lever("grout carried up higher", writes(("buildup", name, "wall", "grout_height"), texts))


def sheet_higher(plan: Enclosure, name: str) -> Lever | None:
    """The damp-proof sheet laid higher up, where less wall turns about it."""
    wall = plan.buildups[name].wall
    if wall is None or not wall.membrane_at:
        return None
    texts = rising(wall.membrane_at, wall.height + 0.5, step=SMALL[plan.units], system=plan.units)
    return Lever("the sheet laid higher", writes(("buildup", name, "wall", "membrane_at"), texts))


def piers_closer(plan: Enclosure, name: str) -> Lever | None:
    """Piers nearer together."""
    piers = plan.buildups[name].piers
    if piers is None:
        return None
    texts = falling(piers.spacing, 2 * piers.width, step=LARGE[plan.units], system=plan.units)
    return Lever("piers nearer together", writes(("buildup", name, "piers", "spacing"), texts))


def pads_wider(plan: Enclosure, name: str) -> Lever | None:
    """Wider pads under the piers."""
    piers = plan.buildups[name].piers
    if piers is None:
        return None
    texts = rising(piers.pad_width, max(2 * piers.pad_width, _WIDEST_PAD), step=SMALL[plan.units], system=plan.units)
    return Lever("wider pads under the piers", writes(("buildup", name, "piers", "pad_width"), texts))
