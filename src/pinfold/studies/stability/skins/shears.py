"""Shear of a coated wall: under the skins, in the core, and at the ends of a skin that dries."""

from __future__ import annotations

from functools import lru_cache

from pinfold.findings import Step, work
from pinfold.formulas import skins
from pinfold.plan.buildups import Faces
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.studies.stability.skins.layers import CORE, Layer, Stack, beyond
from pinfold.studies.stability.skins.moments import SIDES
from pinfold.studies.stability.skins.strengths import dried
from pinfold.units import NewtonPerMeter, Pascal

SHEAR_SHARE = 0.4
"""Shear modulus over modulus, of masonry, earth and foamed concrete alike (from memory)."""


def coated_sides(stack: Stack) -> tuple[Faces, ...]:
    """Faces that have a coat."""
    return tuple(side for side in SIDES if stack.skins_on(side))


def face_shear(stack: Stack, shear: NewtonPerMeter) -> Step:
    """The greatest shear between a skin and the core."""
    found = [_shear(stack, shear, side, _face(stack, side), "under the skin") for side in coated_sides(stack)]
    return max(found, key=lambda step: step.number)


def core_shear(stack: Stack, shear: NewtonPerMeter) -> Step:
    """The greatest shear in the core: at the neutral axis, or at the face of the core nearest to it."""
    core = [layer for layer in stack.layers if layer.what == CORE]
    at = min(max(stack.neutral.number, core[0].near), core[-1].far)
    return _shear(stack, shear, Faces.OUTER, at, "in the core")


def _shear(stack: Stack, shear: NewtonPerMeter, side: Faces, at: float, why: str) -> Step:
    return work(
        skins.shear_between, why=f"shear {why}, wind with its factor", shear=shear, beyond=beyond(stack, side, at),
        stiffness=stack.stiffness,
    )  # fmt: skip


def _face(stack: Stack, side: Faces) -> float:
    first = stack.skins_on(side)[0]
    return first.far if side is Faces.OUTER else first.near


def first_coat(stack: Stack, side: Faces) -> Layer:
    """The coat that lies on the core."""
    return stack.skins_on(side)[0]


@lru_cache(maxsize=256)  # asked for every step of every stretch
def bond_allowed(stack: Stack) -> Pascal:
    """What the weaker bond may take from the wind, by design.

    Raises:
        NotFoundError: no bond is known for a coat.
    """
    return min(first_coat(stack, side).kind.value("bond") for side in coated_sides(stack)) / MATERIAL_FACTOR.value


@lru_cache(maxsize=256)  # likewise
def end_shear(stack: Stack) -> tuple[Step, Pascal]:
    """Shear at the end of a skin that its own drying pulls, no harder than until it cracks, and the bond against it.

    Raises:
        NotFoundError: shrinkage, relaxation or bond are not known.
    """
    found = [(_end(stack, side), first_coat(stack, side).kind.value("bond")) for side in coated_sides(stack)]
    return max(found, key=lambda each: each[0].number / max(each[1], 1.0))


def _end(stack: Stack, side: Faces) -> Step:
    coats, core = stack.skins_on(side), [layer for layer in stack.layers if layer.what == CORE]
    thickness, deep = sum(layer.far - layer.near for layer in coats), core[-1].far - core[0].near
    pull = sum(
        min(dried(stack, layer).number, layer.kind.value("tension")) * (layer.far - layer.near) for layer in coats
    )
    return work(
        skins.edge_shear, why="shear under the end of the skin as it dries", tension=pull / thickness,
        skin=sum(layer.modulus * (layer.far - layer.near) for layer in coats), skin_thickness=thickness,
        core_shear=SHEAR_SHARE * stack.core / deep, core_thickness=deep,
    )  # fmt: skip
