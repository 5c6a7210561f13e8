"""What beds stand beside tension: shear and friction, pressing at an edge, tension along them; each with its source."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, practice, printed
from pinfold.findings import keeps_to
from pinfold.plan.buildups import Grout, Wall
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.factors import STRONG_MORTAR, USUAL_MORTAR
from pinfold.tables.shelf import kind, shelf
from pinfold.units import PASCAL, RATIO

BED_FRICTION = printed("0.4", RATIO, Standing.MEMORY, "EN-1996-1-1", "3.6.2, share of the pressure on a bed")
SHEET_FRICTION = printed("0.3", RATIO, Standing.MEMORY, "AS-3700", "shear factor of usual damp-proof sheets")
POUR_FRICTION = printed("0.6", RATIO, Standing.MEMORY, "ACI-318", "22.9.4, on hardened concrete, not roughened")
PRESSED_SHARE = printed("1/3", RATIO, Standing.READ, "NCMA-TEK-14-19A", "of the strength, bending")
PRESSED_SHARE_EARTH = printed("0.1", RATIO, Standing.MEMORY, "ADOBE-STRENGTHS", "30 psi allowed on adobe of 300 psi")

_CLASSES = (
    (printed("10 MPa", PASCAL, Standing.READ, "EN-1996-SHEAR-TABLE", "M10"), "initial_shear_10"),
    (practice("2.4 MPa", PASCAL, "M2.5, which mortar O meets"), "initial_shear_2"),
    (printed("1 MPa", PASCAL, Standing.READ, "EN-1996-SHEAR-TABLE", "M1"), "initial_shear_1"),
)
"""Least strength of a mortar and its column in the table of initial shear strengths."""


@dataclass(frozen=True, kw_only=True)
class Rub:
    """Friction across a joint that has no bond.

    Attributes:
        friction: share of the weight.
        why: what the joint is.
    """

    friction: Figure
    why: str


def rub_of(wall: Wall, *, at_sheet: bool) -> Rub:
    """Friction of a joint, by what lies in it."""
    if at_sheet:
        return Rub(friction=SHEET_FRICTION, why="on a damp-proof sheet friction alone is taken")
    if wall.kind.word("make") == "poured":
        return Rub(friction=POUR_FRICTION, why="on the joint under a pour friction alone is taken")
    if wall.kind.has("friction"):
        return Rub(friction=wall.kind.figure("friction"), why="course on course friction alone is taken")
    return Rub(friction=BED_FRICTION, why="course on course friction alone is taken")


def initial_shear(wall: Wall) -> Figure | None:
    """European shear strength of a bed without pressure; None where none is published for the wall and its mortar."""
    material, mortar = wall.kind.word("material"), wall.mortar
    if material not in shelf("bedded") or mortar is None or not mortar.has("strength"):
        return None
    for least, name in _CLASSES:
        if keeps_to(least.value, mortar.value("strength")):
            return kind("bedded", material).figure(name)
    return None


def along_beds(family: Family, wall: Wall) -> Figure:
    """Tension along the beds of a wall that spans level.

    Raises:
        NotFoundError: none is published for the wall and its mortar.
    """
    mortar = wall.mortar.value("strength") if wall.mortar is not None and wall.mortar.has("strength") else 0.0
    if not keeps_to(USUAL_MORTAR.value, mortar) or wall.kind.word("make") != "units":
        raise NotFoundError(f"no tension along the beds is published for {wall.kind.name} in such a mortar")
    if family is Family.EU:
        return kind("bedded", wall.kind.word("material")).figure("along_en")
    if wall.kind.word("material") not in ("clay", "concrete-masonry"):
        raise NotFoundError(f"no tension along the beds is published for {wall.kind.name}")
    row = "us-grouted" if wall.grout is Grout.FULL else "us-hollow" if wall.kind.words.get("hollow") else "us-solid"
    return kind("bedded", row).figure("along" if keeps_to(STRONG_MORTAR.value, mortar) else "along_n")


def tension_along(family: Family, wall: Wall) -> Figure:
    """Tension along the beds; in a pour that of the concrete.

    Raises:
        NotFoundError: none is known.
    """
    if wall.kind.word("make") != "poured":
        return along_beds(family, wall)
    name = "flexural_tension_en" if family is Family.EU else "flexural_tension"
    if not wall.kind.has(name):
        raise NotFoundError(
            f"no tension is known for {wall.kind.name}: whether it spans from upright to upright is not shown"
        )
    return wall.kind.figure(name)


def pressed_share(wall: Wall) -> Figure:
    """Share of its strength that the pressed edge of a wall may be worked at, American."""
    return PRESSED_SHARE_EARTH if wall.kind.word("material") in ("earth", "stone") else PRESSED_SHARE
