"""What the ground does to the plot: earth that stands higher on one face, and structures that stand on blocks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.plan.buildups import Faces
from pinfold.plan.supports import UNTOLD, Leveling
from pinfold.tables.shelf import Kind
from pinfold.units import Kilogram, Meter, Newton, Pascal, Radian


@dataclass(frozen=True, kw_only=True)
class Bank:
    """Earth or a raised bed that stands higher on one face of a wall than the ground on the other.

    Attributes:
        name: the builder's word for it.
        side: name of the side it lies against.
        start: where it begins, along the side from its first corner.
        end: where it ends.
        height: of its top above the ground on the other face.
        face: which face it lies against.
        soil: what it is made of, with its friction angle and density; None when not given.
        slope: of its surface, rising away from the wall.
        surcharge: what stands or drives on it, per area.
        drained: whether water finds its way out behind the wall; without it the bank counts as soaked to the top.
        wall_friction: angle at which the earth hangs on the wall; 0 for a smooth wall (Rankine), else Coulomb.
        passive: whether the earth in front of the footing is counted against sliding.
    """

    name: str
    side: str
    start: Meter
    end: Meter
    height: Meter
    face: Faces
    soil: Kind | None
    slope: Radian
    surcharge: Pascal
    drained: bool
    wall_friction: Radian
    passive: bool


class Stack(StrEnum):
    """How the blocks of a pier lie."""

    SINGLE = "single"  # one block on another, 8 by 16 in
    DOUBLE = "double"  # two beside each other, each layer crossed, 16 by 16 in


@dataclass(frozen=True, kw_only=True)
class Blocks:
    """What a structure on blocks stands on. What is None was not given.

    Attributes:
        mass: of the structure with what is always in it.
        live: what may come on top: goods, people, snow; 0 without.
        count: number of piers of blocks.
        spacing: between piers along a beam, the widest.
        pad_length: of the pad under a pier.
        pad_width: of it.
        pad_below: depth of the pad's underside below the ground.
        stack: how the blocks lie.
        stack_height: from the pad to the top of the blocks.
        ties: number of ties to the ground on one long side.
        tie_capacity: what one holds, by its maker or a pull test.
        leveling: its supports one by one, and what they are leveled with.
    """

    mass: Kilogram | None
    live: Newton
    count: int
    spacing: Meter | None
    pad_length: Meter | None
    pad_width: Meter | None
    pad_below: Meter
    stack: Stack
    stack_height: Meter
    ties: int
    tie_capacity: Newton | None
    leveling: Leveling = UNTOLD
