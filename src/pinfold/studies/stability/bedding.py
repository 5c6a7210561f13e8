"""What the lowest bed of a wall can do by itself: the tension it pulls, its area and its section."""

from __future__ import annotations

from functools import lru_cache

from pinfold.figures import Figure
from pinfold.findings import Step, keeps_to, work
from pinfold.formulas import masonry, walls
from pinfold.plan.buildups import Grout, Wall
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.factors import CORE_WIDTH, STRONG_MORTAR, USUAL_MORTAR
from pinfold.studies.stability.pieces import Piece
from pinfold.units import CubicMeterPerMeter, SquareMeterPerMeter

Section = tuple[SquareMeterPerMeter, CubicMeterPerMeter, tuple[Step, ...]]
"""Bedded area and section modulus per length, and their working."""


def tension_of(family: Family, piece: Piece) -> tuple[Figure | None, str]:
    """What the lowest bed can pull, or None with the reason why nothing is taken.

    Raises:
        NotFoundError: the kind's tension is not known; the message names it.
    """
    wall = piece.wall
    if wall.membrane and not wall.membrane_at:
        return None, "a damp-proof sheet cuts the wall at its foot: no tension is taken there"
    if piece.base.on_stone:
        return None, "no tension is taken between wall and tamped stone"
    if wall.kind.word("make") == "poured":
        return None, "a pour on hardened concrete: no tension is taken across the joint"
    return tension_across(family, wall)


def tension_across(family: Family, wall: Wall) -> tuple[Figure | None, str]:
    """What any bed of a wall can pull, or None with the reason why nothing is taken.

    Raises:
        NotFoundError: the kind's tension is not known; the message names it.
    """
    name = _row(family, wall)
    if name is None:
        return None, "for so weak a mortar, or none of known strength, no tension is published: none is taken"
    figure = wall.kind.figure(name)
    return figure, "no tension is taken across its beds" if figure.value <= 0 else ""


def _row(family: Family, wall: Wall) -> str | None:
    """Which figure of tension a kind has for the mortar it is laid in."""
    kind, mortar = wall.kind, wall.mortar
    usual = "flexural_tension_en" if family is Family.EU else "flexural_tension"
    if kind.has(usual) and (kind.value(usual) <= 0 or kind.figure(usual).standing is Standing.GIVEN):
        return usual
    strength = mortar.value("strength") if mortar is not None and mortar.has("strength") else 0.0
    if not keeps_to(USUAL_MORTAR.value, strength):
        return None
    if family is Family.EU:
        return usual
    grouted = "_grouted" if wall.grout is Grout.FULL else ""
    weaker = "" if keeps_to(STRONG_MORTAR.value, strength) else "_n"
    return f"flexural_tension{grouted}{weaker}"


@lru_cache(maxsize=256)  # asked for every step of every stretch
def section_of(wall: Wall) -> Section:
    """Bedded area and section modulus per length, and their working.

    Raises:
        NotFoundError: the shells of hollow units are not known.
    """
    thickness = wall.thickness
    if wall.kind.word("bedding") != "face-shell" or wall.grout is Grout.FULL:
        solid = work(walls.solid_modulus, why="section of the solid wall", thickness=thickness)
        return thickness, solid.number, (solid,)
    filled, steps = 0.0, []
    if wall.grout is Grout.PARTIAL:
        share = work(
            masonry.filled_share, why="length that grout makes solid", core_width=CORE_WIDTH.value,
            spacing=wall.grout_spacing,
        )  # fmt: skip
        filled = share.number
        steps.append(share)
    hollow = work(
        masonry.hollow_section, why="section bedded on its shells", thickness=thickness,
        shell=wall.kind.value("shell"), filled=filled,
    )  # fmt: skip
    result = hollow.result
    assert isinstance(result, masonry.WallSection)
    return result.area, result.modulus, (*steps, hollow)
