"""The foot of one stretch of wall: its lowest bed, its corners helping where they do, and the dowels of its bars."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.studies.stability.answers import Question, answered, governing
from pinfold.studies.stability.beds import BARRED_CHECK, CHECK, foot_of_wall
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.corners.bedding import bedded_at_corner
from pinfold.studies.stability.dowels import dowels
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.walls import over_steps


def feet(ask: Exposed) -> tuple[Finding, ...]:
    """The foot of one stretch of wall, its worst step; nothing where no wall stands by itself.

    Where bars out of the footing carry what the bed cannot, they do so at corners too: no wall around one is asked. Of
    steps some of which hold by their bed and some by their bars the worst of each is told.
    """
    wall = ask.stretch.buildup.wall
    if wall is None or not has_wall(ask.stretch):
        return ()
    if wall.bar is None or not wall.dowels:
        return (over_steps(ask, CHECK, foot_of_wall, lean=bedded_at_corner),)
    steps: list[Finding] = []
    found = over_steps(ask, CHECK, lambda case: _kept(foot_of_wall(case), steps))
    if found.check == BARRED_CHECK:
        return found, *dowels(ask.stretch, found)
    by_bars = [each for each in steps if each.check == BARRED_CHECK]
    if not by_bars:
        return (found,)
    bent = answered(
        Question(check=BARRED_CHECK, subject=found.subject, left_out=found.left_out), lambda: governing(by_bars)
    )
    return found, bent, *dowels(ask.stretch, bent)


def _kept(finding: Finding, steps: list[Finding]) -> Finding:
    """What was found of one step, put to what was found of the others."""
    steps.append(finding)
    return finding
