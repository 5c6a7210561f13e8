"""What the layers of a coated wall can take, by design: a third of what they break at, or what the code allows."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pinfold.figures import practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import skins
from pinfold.plan.buildups import Buildup, Coat, Faces, Wall
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.bedding import tension_across
from pinfold.studies.stability.factors import MATERIAL_FACTOR, Named
from pinfold.studies.stability.skins.layers import Layer, Stack
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, Meter, NewtonPerMeter, Pascal

STEEL_DENSITY = practice("490 lb/ft3", KG_PER_CUBIC_METER, "steel")
MESH_SHARE = printed("0.6", RATIO, Standing.MEMORY, "ACI-549", "of the yield, working stress")
CLOTH_SHARE = practice("0.25", RATIO, "of new cloth, after years in lime")
USUAL_MESH = "plaster-hex-1in"
"""Mesh that is shown where none is planned."""


@dataclass(frozen=True, kw_only=True)
class Mesh:
    """Mesh in the skin of one face: what it pulls by design, and its distance from the outer face of the wall."""

    pull: NewtonPerMeter
    at: Meter


def core_tension(family: Family, wall: Wall) -> tuple[Pascal, Named, str]:
    """Tension the core may take above the ground, the figure behind it, and why if none.

    Raises:
        NotFoundError: it is not known.
    """
    usual = "flexural_tension_en" if family is Family.EU else "flexural_tension"
    figure, why = (wall.kind.figure(usual), "") if _is_poured(wall) else tension_across(family, wall)
    if figure is None or figure.value <= 0:
        return 0.0, (), why
    part = MATERIAL_FACTOR.value if family is Family.EU else 1.0
    return figure.value / part, (("tension of the core", figure),), why


def _is_poured(wall: Wall) -> bool:
    return wall.kind.word("make") == "poured"


def pressed_strength(wall: Wall) -> Pascal:
    """What the core may be pressed with.

    Raises:
        NotFoundError: its strength is not known.
    """
    return wall.kind.value("compressive") / MATERIAL_FACTOR.value


@lru_cache(maxsize=1024)  # asked for every step of every stretch
def dried(stack: Stack, layer: Layer) -> Step:
    """Tension that a coat's own drying leaves in it, all coats shrinking together on the core."""
    restraint = skins.skin_restraint(skins=stack.axial - stack.core, core=stack.core)
    return work(
        skins.drying_tension, why=f"{layer.what}: its own drying pulls it", modulus=layer.modulus,
        shrinkage=layer.kind.value("shrinkage"), restraint=restraint, relaxation=layer.kind.value("relaxation"),
    )  # fmt: skip


def left_after_drying(stack: Stack, layer: Layer) -> Pascal:
    """Tension a coat can still take from outside, by design; none where its own drying cracks it."""
    return max(layer.kind.value("tension") - dried(stack, layer).number, 0.0) / MATERIAL_FACTOR.value


def meshes_in(buildup: Buildup, stack: Stack, side: Faces) -> Mesh | None:
    """The mesh in the skin of a face, the one farthest out; None where no coat there has one."""
    found = [coat for coat in buildup.coats if coat.mesh is not None and coat.faces in (Faces.BOTH, side)]
    if not found or found[-1].mesh is None:
        return None
    return _bedded(found[-1], found[-1].mesh, stack, side)


def usual_mesh(buildup: Buildup, stack: Stack, side: Faces) -> Mesh | None:
    """The same with the usual mesh in the first coat of that face; None where it has no coat."""
    found = [coat for coat in buildup.coats if coat.faces in (Faces.BOTH, side)]
    return _bedded(found[0], kind("meshes", USUAL_MESH), stack, side) if found else None


def _bedded(coat: Coat, mesh: Kind, stack: Stack, side: Faces) -> Mesh:
    layer = next(layer for layer in stack.skins_on(side) if layer.kind is coat.kind)
    return Mesh(pull=_pull(mesh), at=(layer.near + layer.far) / 2)


def _pull(mesh: Kind) -> NewtonPerMeter:
    if mesh.has("pull"):
        return CLOTH_SHARE.value * mesh.value("pull")
    area = skins.mesh_area(
        mass_per_area=mesh.value("mass_per_area"), density=STEEL_DENSITY.value, efficiency=mesh.value("efficiency")
    )
    return MESH_SHARE.value * mesh.value("yield_stress") * area
