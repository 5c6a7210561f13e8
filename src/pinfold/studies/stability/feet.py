"""The foot of one stretch of wall: its lowest bed, its corners helping where they do, and the dowels of its bars."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.studies.stability.beds import BARRED_CHECK, CHECK, foot_of_wall
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.corners.bedding import bedded_at_corner
from pinfold.studies.stability.dowels import dowels
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.walls import over_steps


def feet(ask: Exposed) -> tuple[Finding, ...]:
    """The foot of one stretch of wall, its worst step; nothing where no wall stands by itself.

    Where bars out of the footing carry what the bed cannot, they do so at corners too: no wall around one is asked.
    """
    wall = ask.stretch.buildup.wall
    if wall is None or not has_wall(ask.stretch):
        return ()
    barred = wall.bar is not None and wall.dowels
    found = over_steps(ask, CHECK, foot_of_wall, lean=None if barred else bedded_at_corner)
    return (found, *dowels(ask.stretch, found)) if found.check == BARRED_CHECK else (found,)
