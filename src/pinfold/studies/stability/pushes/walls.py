"""Walls pushed at: overturning, sliding, the ground and the lowest bed under each push."""

from __future__ import annotations

from functools import partial

from pinfold.findings import Finding, Step, work
from pinfold.formulas import pushes as formulas
from pinfold.formulas import walls
from pinfold.studies.stability.acted import Asked, acted_on
from pinfold.studies.stability.cases import Action, Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.panels import shortest_panel
from pinfold.studies.stability.pieces import Piece
from pinfold.studies.stability.pushes.who import Push, pushes_at
from pinfold.studies.stability.tipping import Acting, Turning, carries_mesh
from pinfold.units import Meter

UNDER = "under a push"
NOT_IN_IT = (
    "a blow: a kick, a fall against it, a run-up; wind at the same time, since nobody leans on a wall in a storm "
    "(ASCE 7 would take three quarters of both); a single stone or block pushed out"
)


def pushed_walls(ask: Exposed) -> tuple[Finding, ...]:
    """What pushes do to one stretch of wall; nothing where no wall stands by itself or nobody pushes."""
    if not has_wall(ask.stretch) or ask.place.pushes == ():
        return ()
    return acted_on(ask, Asked(under=UNDER, left_out=NOT_IN_IT, actions=_actions))


def _actions(ask: Exposed) -> tuple[Action, ...]:
    return tuple(pushing(push) for push in pushes_at(ask.family, ask.place))


def pushing(push: Push) -> Action:
    """A push as an action on a piece of wall."""

    def action(case: Case) -> Acting:
        panel = shortest_panel(case.of.panels, case.of.stretch, case.piece.step)
        height = min(push.height, case.piece.exposed + _fence(case.of, case.piece))
        return Acting(
            about=partial(_turned, push, height, panel), working=push.working, notes=push.notes, figures=push.figures,
            factors=push.factors,
        )  # fmt: skip

    return action


def _fence(ask: Exposed, piece: Piece) -> Meter:
    """Height of the fence above a wall that its posts hand a push on to."""
    return ask.lattice.height if carries_mesh(piece) and ask.lattice is not None else 0.0


def _turned(push: Push, height: Meter, panel: Meter, below: Meter) -> Turning:
    """A push about a level so far below the ground."""
    arm = height + below
    if arm <= 0:
        return Turning(moment=0.0, force=0.0, working=())
    load, steps = push.line, list[Step]()
    if push.point > 0:
        spread = work(
            formulas.spread_push, why="at the end of a panel, spread down at 45° to one side", force=push.point,
            arm=arm, length=panel,
        )  # fmt: skip
        load, steps = spread.number, [spread]
    turned = work(walls.line_load_moment, why="the push turns the wall", line_load=load, height=height, below=below)
    return Turning(moment=turned.number, force=load, working=(*steps, turned))
