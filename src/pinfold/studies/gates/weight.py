"""What a leaf weighs and where its center of gravity is, from its pieces and what fills it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, given
from pinfold.plan.enclosure import Gate
from pinfold.studies.gates.frame import HALF_LAP, frame_of
from pinfold.studies.gates.records import GateFrame, LeafWeight
from pinfold.units import KILOGRAM, Kilogram, Meter, System

_ASKED = ("frame_mass", "infill_mass")


class _Lump(NamedTuple):
    """A mass in its place: from the hinge edge and above the leaf's foot."""

    mass: Kilogram
    x: Meter
    y: Meter


def leaf_weight(gate: Gate) -> LeafWeight:
    """Mass and center of gravity of one leaf, without hinges and latch; by the millimeter, whatever the plan's tape.

    Raises:
        NotFoundError: a mass of the kind is not known; leaf_mass in the plan stands in for it.
        OutOfRangeError: its members leave nothing between them.
    """
    for name in _ASKED:
        if not gate.kind.has(name) and gate.leaf_mass is None:
            what = name.replace("_", " ")
            raise NotFoundError(f"no {what} is known for {gate.kind.name}; weigh the leaf and write leaf_mass")
    if gate.leaf_mass is not None:
        return LeafWeight(mass=gate.leaf_mass, reach=gate.leaf_width / 2, rise=gate.height / 2, weighed=True)
    lumps = tuple(_lumps(frame_of(gate, System.METRIC)))
    mass = math.fsum(lump.mass for lump in lumps)
    return LeafWeight(
        mass=mass, reach=math.fsum(lump.mass * lump.x for lump in lumps) / mass,
        rise=math.fsum(lump.mass * lump.y for lump in lumps) / mass, weighed=False,
    )  # fmt: skip


def weight_figures(gate: Gate) -> tuple[tuple[str, Figure], ...]:
    """What the mass rests on."""
    if gate.leaf_mass is not None:
        return (("mass of the leaf", given(gate.leaf_mass, KILOGRAM)),)
    return tuple((name.replace("_", " "), gate.kind.figure(name)) for name in _ASKED)


def _lumps(frame: GateFrame) -> Iterator[_Lump]:
    size, kind = frame.size, frame.gate.kind
    wide, high, half = size.meters(size.width), size.meters(size.height), size.meters(frame.member) / 2
    by_length = kind.value("frame_mass")
    for piece in frame.pieces:
        mass, at = by_length * size.meters(piece.length), size.meters(piece.at)
        if piece.says == "gate stile":
            yield _Lump(mass, at + half, high / 2)
        elif piece.says == "gate rail":
            yield _Lump(mass, wide / 2, at + half)
        else:
            yield _Lump(mass, wide / 2, high / 2)
    if frame.joint == HALF_LAP:
        for rail in frame.rails:
            yield _Lump(-2 * by_length * 2 * half, wide / 2, size.meters(rail.at) + half)
    yield _Lump(kind.value("infill_mass") * wide * high, wide / 2, high / 2)
