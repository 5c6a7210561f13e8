"""The foot of one stretch of wall: its lowest bed, its corners helping where they do, and the dowels of its bars."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.studies.stability.beds import BARRED_CHECK, CHECK, crossing_bars, foot_of_wall
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.corners.bedding import bedded_at_corner
from pinfold.studies.stability.corners.parting import with_corners
from pinfold.studies.stability.dowels import dowels
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.walls import over_steps

_AT_CORNERS = with_corners(foot_of_wall, bedded_at_corner)


def feet(ask: Exposed) -> tuple[Finding, ...]:
    """The foot of one stretch of wall, its worst step; nothing where no wall stands by itself."""
    if not has_wall(ask.stretch):
        return ()
    found = over_steps(ask, CHECK, _foot)
    return (found, *dowels(ask.stretch, found)) if found.check == BARRED_CHECK else (found,)


def _foot(case: Case) -> Finding:
    """Bars across the bed carry what it cannot, at corners as elsewhere: there no wall around one is asked."""
    return _AT_CORNERS(case) if crossing_bars(case.piece) is None else foot_of_wall(case)
