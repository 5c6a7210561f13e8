"""What a wall holds just above the ground: bare, coated, meshed, and with its pulled skin cracked."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache, partial
from typing import NamedTuple

from pinfold.plan.buildups import Buildup, Coat, Faces
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.studies.stability.skins.coated import Coated, stack_with_all
from pinfold.studies.stability.skins.layers import Layer, Stack, stack_of
from pinfold.studies.stability.skins.moments import (
    SIDES,
    Moment,
    crack_on,
    first_crack,
    held_by_mesh,
    held_by_skin,
    held_by_weight,
)
from pinfold.studies.stability.skins.shears import bond_allowed, coated_sides, core_shear, face_shear
from pinfold.studies.stability.skins.strengths import left_after_drying, meshes_in, usual_mesh
from pinfold.units import Pascal, Ratio

BOND, SHEARED = "bond of the skin", "shear in the core"


class Held(NamedTuple):
    """The moment at which a wall first cracks, and the one it holds, by design."""

    cracks: Moment
    holds: Moment


def bare(wall: Coated) -> Held:
    """Without its coats and their weight."""
    loaded = wall.loaded(stack_of(wall.case.piece.buildup, ()), coats=0.0)
    cracks = first_crack(loaded, _nothing)
    return Held(cracks=cracks, holds=max(cracks, held_by_weight(loaded)))


def cracked(wall: Coated) -> Held:
    """With all coats, the pulled skin cracked: the core and the pressed skin, on the weaker face."""
    buildup = wall.case.piece.buildup
    found = min(
        crack_on(wall.loaded(_coated_on(buildup, pressed)), _nothing, side)
        for side, pressed in zip(SIDES, reversed(SIDES), strict=True)
    )
    return Held(cracks=found, holds=max(found, held_by_weight(wall.loaded(stack_with_all(buildup)))))


def skinned(wall: Coated, coats: tuple[Coat, ...], *, drying: bool = True) -> Held:
    """With some of its coats as skins that are pulled."""
    buildup = wall.case.piece.buildup
    stack = stack_with_all(buildup) if coats == buildup.coats else stack_of(buildup, coats)
    pull = partial(left_after_drying, stack) if drying else _undried
    loaded = wall.loaded(stack, coats=_share(buildup, coats))
    cracks = first_crack(loaded, pull)
    whole = min(max(cracks, held_by_skin(loaded, pull)), *_sheared(wall, stack))
    return Held(cracks=cracks, holds=max(whole, cracked(wall).holds))


def meshed(wall: Coated) -> tuple[Held, bool]:
    """With all coats cracked down to their mesh, and whether the mesh is planned; else as if the usual one were."""
    buildup = wall.case.piece.buildup
    stack = stack_with_all(buildup)
    planned = any(coat.mesh is not None for coat in buildup.coats)
    find = meshes_in if planned else usual_mesh
    loaded = wall.loaded(stack)
    outer, inner = (find(buildup, stack, side) for side in SIDES)
    held = min(held_by_mesh(loaded, (outer, inner)), *_sheared(wall, stack))
    first = first_crack(loaded, partial(left_after_drying, stack))
    return Held(cracks=first, holds=max(held, cracked(wall).holds)), planned


def _sheared(wall: Coated, stack: Stack) -> tuple[Moment, Moment]:
    """Moments at which the shear that comes with them loosens a skin or cuts the core."""
    if not coated_sides(stack) or wall.shear <= 0:
        return Moment(float("inf"), BOND), Moment(float("inf"), SHEARED)
    under, inside = face_shear(stack, wall.shear).number, core_shear(stack, wall.shear).number
    return (
        Moment(wall.moment * bond_allowed(stack) / under, BOND),
        Moment(wall.moment * core_shear_allowed(wall) / inside, SHEARED),
    )


def core_shear_allowed(wall: Coated) -> Pascal:
    """What the core may be sheared with, by design, no weight counted.

    Raises:
        NotFoundError: it is not known.
    """
    return wall.case.piece.wall.kind.value("shear") / MATERIAL_FACTOR.value


def _nothing(_: Layer) -> Pascal:
    return 0.0


def _undried(layer: Layer) -> Pascal:
    return layer.kind.value("tension") / MATERIAL_FACTOR.value


@lru_cache(maxsize=256)  # asked for every step of every stretch
def _coated_on(buildup: Buildup, side: Faces) -> Stack:
    """The wall with the coats of one face alone."""
    coats = (replace(coat, faces=side) for coat in buildup.coats if coat.faces in (Faces.BOTH, side))
    return stack_of(buildup, tuple(coats))


def _share(buildup: Buildup, coats: tuple[Coat, ...]) -> Ratio:
    """Share of the thickness of all coats that some of them make up."""
    thick = [coat.thickness * (2 if coat.faces is Faces.BOTH else 1) for coat in buildup.coats]
    some = [coat.thickness * (2 if coat.faces is Faces.BOTH else 1) for coat in coats]
    return sum(some) / sum(thick)
