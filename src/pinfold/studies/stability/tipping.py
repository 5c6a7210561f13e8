"""What turns and pushes a piece of wall about a level: the wind on the wall, and the mesh on posts that stand in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas import walls
from pinfold.plan.buildups import Setting
from pinfold.studies.stability.factors import Combination, Named
from pinfold.studies.stability.loads import Wind
from pinfold.studies.stability.pieces import Piece
from pinfold.units import Meter, NewtonMeterPerMeter, NewtonPerMeter

IN_WALL = (Setting.WALL, Setting.WALL_TOP)
"""Posts held like this hand the wind on the mesh to the wall."""


@dataclass(frozen=True, kw_only=True)
class Panel:
    """A panel of wall between control joints: widths of fence on the posts in it, together, and its length."""

    shares: Meter
    length: Meter


@dataclass(frozen=True, kw_only=True)
class Turning:
    """Moment and level force of what acts, about a level, without factors."""

    moment: NewtonMeterPerMeter
    force: NewtonPerMeter
    working: tuple[Step, ...]


@dataclass(frozen=True, kw_only=True)
class Acting:
    """What an action does to a piece of wall.

    Attributes:
        about: its turning about a level so far below the ground.
        working: how its size was found.
        notes: what it rests on.
        figures: likewise.
        factors: shares of load and weight that go with it.
    """

    about: Callable[[Meter], Turning]
    working: tuple[Step, ...]
    notes: tuple[str, ...]
    figures: Named
    factors: Combination


def carries_mesh(piece: Piece) -> bool:
    """Whether the wall takes the wind on the fence above it."""
    posts = piece.buildup.posts
    return posts is not None and posts.setting in IN_WALL


def turning(piece: Piece, wind: Wind, below: Meter, panel: Panel | None) -> Turning:
    """The wind about a level so far below the ground, the fence's spread evenly or as its posts bring it to a panel."""
    force = work(walls.wind_force, why="wind on the wall", pressure=wind.wall, height=piece.exposed)
    moment = work(
        walls.wind_moment, why="it turns the wall", pressure=wind.wall, height=piece.exposed, arm_share=wind.arm,
        below=below,
    )  # fmt: skip
    if not carries_mesh(piece) or wind.mesh_height <= 0:
        return Turning(moment=moment.number, force=force.number, working=(force, moment))
    pull = work(walls.wind_force, why="wind on the mesh above", pressure=wind.mesh, height=wind.mesh_height)
    pulls: tuple[Step, ...] = (pull,)
    if panel is not None:
        pull = work(
            walls.panel_load, why="what its posts bring to the worst panel", load=pull.number, shares=panel.shares,
            length=panel.length,
        )  # fmt: skip
        pulls = (*pulls, pull)
    turned = work(
        walls.line_load_moment, why="the mesh turns the wall through its posts", line_load=pull.number,
        height=(piece.exposed + wind.mesh_height / 2) * wind.lift, below=below,
    )  # fmt: skip
    return Turning(
        moment=moment.number + turned.number, force=force.number + pull.number,
        working=(force, moment, *pulls, turned),
    )  # fmt: skip
