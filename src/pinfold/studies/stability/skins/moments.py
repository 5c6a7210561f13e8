"""Moments at which a coated wall cracks, and which it holds, whichever face is pulled."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import skins
from pinfold.plan.buildups import Faces
from pinfold.studies.stability.skins.layers import CORE, Layer, Stack
from pinfold.studies.stability.skins.strengths import Mesh
from pinfold.units import Meter, NewtonMeterPerMeter, NewtonPerMeter, Pascal

SIDES = (Faces.OUTER, Faces.INNER)
WEIGHT = "weight alone"


class Moment(NamedTuple):
    """A moment and what sets it: `core`, the kind of a coat, `mesh`, `skin`, or `weight alone`."""

    moment: NewtonMeterPerMeter
    governs: str


@dataclass(frozen=True, kw_only=True)
class Loaded:
    """A stack with what presses on it and what its parts may take.

    Attributes:
        stack: the layers.
        load: weight above, with its factor.
        core: tension the core may take.
        pressed: what the core may be pressed with.
    """

    stack: Stack
    load: NewtonPerMeter
    core: Pascal
    pressed: Pascal


Pull = Callable[[Layer], Pascal]
"""What a coat may be pulled."""


def first_crack(wall: Loaded, pull: Pull) -> Moment:
    """The least moment at which something cracks, of both ways of bending."""
    return min(crack_on(wall, pull, side) for side in SIDES)


def skin_crack(wall: Loaded, pull: Pull) -> tuple[Moment, Step]:
    """The least moment at which a coat cracks, and its working."""
    found = [
        (Moment(step.number, layer.what), step)
        for side in SIDES for layer in wall.stack.skins_on(side) for step in [crack_of(wall, layer, pull(layer), side)]
    ]  # fmt: skip
    return min(found, key=lambda each: each[0].moment)


def crack_on(wall: Loaded, pull: Pull, side: Faces) -> Moment:
    """The least moment at which something cracks while one face is pulled."""
    pulled = [layer for layer in wall.stack.layers if layer.modulus > 0 and wall.stack.distance(layer, side) > 0]
    return min(
        Moment(crack_of(wall, layer, wall.core if layer.what == CORE else pull(layer), side).number, layer.what)
        for layer in pulled
    )


def crack_of(wall: Loaded, layer: Layer, strength: Pascal, side: Faces) -> Step:
    """Working of the moment at which a layer cracks."""
    return work(
        skins.cracking_moment, why=f"{layer.what} cracks", strength=strength, modulus=layer.modulus,
        distance=wall.stack.distance(layer, side), stiffness=wall.stack.stiffness, load=wall.load,
        axial=wall.stack.axial,
    )  # fmt: skip


def held_by_weight(wall: Loaded) -> Moment:
    """What a wall holds that is cracked all through on its pulled side; nothing where its edge is crushed."""
    return min(_cracked(wall, side, 0.0, 0.0, WEIGHT) for side in SIDES)


def held_by_skin(wall: Loaded, pull: Pull) -> Moment:
    """What a wall holds whose core is cracked and whose pulled skin is whole, on the weaker face."""
    found = []
    for side in SIDES:
        coats = wall.stack.skins_on(side)
        force = sum(pull(layer) * (layer.far - layer.near) for layer in coats)
        at = (coats[0].near + coats[-1].far) / 2 if coats else 0.0
        if coats and side is Faces.OUTER:
            at = (coats[0].far + coats[-1].near) / 2
        found.append(_cracked(wall, side, force, at, "skin" if force > 0 else WEIGHT))
    return min(found)


def held_by_mesh(wall: Loaded, meshes: tuple[Mesh | None, Mesh | None]) -> Moment:
    """What a wall holds whose skins are cracked down to their mesh, on the weaker face."""
    return min(
        _cracked(wall, side, mesh.pull if mesh else 0.0, mesh.at if mesh else 0.0, "mesh" if mesh else WEIGHT)
        for side, mesh in zip(SIDES, meshes, strict=True)
    )


def _cracked(wall: Loaded, side: Faces, pull: NewtonPerMeter, at: Meter, what: str) -> Moment:
    """By balance, pressed on the face opposite to the pulled one."""
    whole = wall.stack.whole
    try:
        held = skins.meshed_moment(
            pull=pull, load=wall.load, mesh_depth=_depth(wall.stack, side, at) if pull > 0 else whole,
            load_depth=_depth(wall.stack, side, _middle(wall.stack)), strength=wall.pressed,
        )  # fmt: skip
    except OutOfRangeError:
        return Moment(0.0, "pressed edge")
    return Moment(held, what)


def _middle(stack: Stack) -> Meter:
    """Middle of the core, over which the weight stands."""
    core = [layer for layer in stack.layers if layer.what == CORE]
    return (core[0].near + core[-1].far) / 2


def _depth(stack: Stack, side: Faces, at: Meter) -> Meter:
    """Of a place from the face opposite to the pulled one."""
    return stack.whole - at if side is Faces.OUTER else at
