"""Flexure where a wall changes over its foot: at a damp-proof sheet, where grout or bars stop, as its faces lean in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from pinfold.figures import Figure
from pinfold.findings import Finding, Step, work
from pinfold.formulas import wall_levels, walls
from pinfold.plan.buildups import Grout, Wall
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.bedding import Section, section_of, tension_across
from pinfold.studies.stability.beds import Bed, Foot, crossing_bars, plain_bed
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.pieces import Piece
from pinfold.studies.stability.tipping import carries_mesh
from pinfold.studies.stability.weights import weight_above
from pinfold.units import Meter, NewtonMeterPerMeter

CHECK = "change in the wall"
LEFT_OUT = "pushes and earthquakes at that level; the foot of the wall, which is checked by itself"
PARTS = 4
"""A wall that leans in is looked at on the beds between so many equal parts of its height (pinfold's own number)."""


@dataclass(frozen=True, kw_only=True)
class Level:
    """A level of a piece where the wall changes.

    Attributes:
        at: over the lowest bed.
        says: what changes there.
        bonded: whether tension may cross it.
        wall: as it stands over the level.
    """

    at: Meter
    says: str
    bonded: bool
    wall: Wall


def changes(ask: Exposed) -> tuple[Finding, ...]:
    """The worst level of a stretch where its wall changes; nothing where it goes up all alike."""
    asked = [partial(_finding, case, level) for case in ask.cases for level in levels_of(case.piece)]
    if not asked:
        return ()
    question = Question(check=CHECK, subject=f"stretch {ask.stretch.name}", left_out=LEFT_OUT)
    return (answered(question, lambda: governing(map(tried, asked))),)


def levels_of(piece: Piece) -> Iterator[Level]:
    """Every level over the lowest bed where the wall of a piece changes."""
    wall, body = piece.wall, piece.body
    if wall.membrane and _within(wall.membrane_at, body):
        yield Level(at=wall.membrane_at or 0.0, says="at the damp-proof sheet", bonded=False, wall=wall)
    if wall.grout is not Grout.NONE and _within(wall.grout_height, body):
        plain = replace(wall, grout=Grout.NONE, grout_spacing=None, bar=None)
        yield Level(at=wall.grout_height or 0.0, says="at the bed where the grout stops", bonded=True, wall=plain)
    if crossing_bars(piece) is not None and _within(wall.bar_height, body):
        yield Level(at=wall.bar_height or 0.0, says="where the upright bars stop", bonded=True, wall=wall)
    if wall.head < wall.thickness:
        for number in range(1, PARTS):
            says = f"{number} / {PARTS} of the way up, where the wall is thinner"
            yield Level(at=body * number / PARTS, says=says, bonded=True, wall=wall)


def _within(at: Meter | None, body: Meter) -> bool:
    return at is not None and 0 < at < body


def _finding(case: Case, level: Level) -> Finding:
    reached, piece = _reaching(case, level), case.piece
    tension, why = _tension(case.of.family, level)
    thickness = wall_levels.thickness_at(
        foot=piece.wall.thickness, top=piece.wall.head, height=piece.body, level=level.at
    )
    bed = Bed(wall=level.wall, half=thickness / 2, tension=tension, why=why, section=_section(level.wall, thickness))
    found = plain_bed(case.of.family, bed, reached)
    mend = "bars or grout carried up higher, the sheet laid higher, a thicker or lower wall, or less mesh above it"
    return replace(
        found, check=CHECK, because=told(level.says, found.because), mend=mend if found.mend else "", left_out=LEFT_OUT
    )  # fmt: skip


def _section(wall: Wall, thickness: Meter) -> Section:
    """Of the bed; where the faces lean in, of the solid wall as thick as it is there."""
    if wall.head >= wall.thickness:
        return section_of(wall)
    solid = work(walls.solid_modulus, why="section of the wall at that level", thickness=thickness)
    return thickness, solid.number, (solid,)


def _tension(family: Family, level: Level) -> tuple[Figure | None, str]:
    """What the bed pulls; within a pour, what the concrete itself does."""
    if not level.bonded:
        return None, "no tension is taken across it"
    kind = level.wall.kind
    if kind.word("make") == "poured":
        return kind.figure("flexural_tension_en" if family is Family.EU else "flexural_tension"), ""
    return tension_across(family, level.wall)


def _reaching(case: Case, level: Level) -> Foot:
    """The wind on what stands over a level, and its weight."""
    above = level.at - case.piece.sunk
    turned = case.acting.about(-above) if above <= 0 else None
    moment, steps = (turned.moment, turned.working) if turned is not None else _turned(case, above)
    weights = weight_above(case.piece, level.at)
    return Foot(
        moment=moment, load=math.fsum(line.number for line in weights),
        working=(*case.acting.working, *weights, *steps), notes=case.acting.notes,
        figures=(*case.acting.figures, *case.light.figures), factors=case.acting.factors, left_out=LEFT_OUT,
    )  # fmt: skip


def _turned(case: Case, above: Meter) -> tuple[NewtonMeterPerMeter, tuple[Step, ...]]:
    """Moment of the wind about a level over the ground."""
    piece, wind = case.piece, case.wind
    own = work(
        wall_levels.moment_above, why="the wind turns what stands over the level", pressure=wind.wall,
        height=piece.exposed, arm_share=wind.arm, level=above,
    )  # fmt: skip
    if not carries_mesh(piece) or wind.mesh_height <= 0:
        return own.number, (own,)
    pull = work(walls.wind_force, why="wind on the mesh above", pressure=wind.mesh, height=wind.mesh_height)
    brought = work(
        walls.panel_load, why="what its posts bring to the worst panel", load=pull.number, shares=case.panel.shares,
        length=case.panel.length,
    )  # fmt: skip
    turned = work(
        walls.line_load_moment, why="the mesh turns the wall through its posts", line_load=brought.number,
        height=(piece.exposed + wind.mesh_height / 2) * wind.lift - above, below=0.0,
    )  # fmt: skip
    return own.number + turned.number, (own, pull, brought, turned)
