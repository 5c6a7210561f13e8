"""Mesh by the roll: which height of roll, how many strips, how much overlap."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.studies.quantities.lines import habit
from pinfold.studies.quantities.stocked import stocked_lengths
from pinfold.tables.shelf import Kind
from pinfold.units import Meter


@dataclass(frozen=True, kw_only=True)
class Strips:
    """How a band of mesh comes off the roll.

    Attributes:
        roll_height: of the rolls to buy.
        strips: one above the other.
        slit: bands cut out of one roll's height side by side; 1 unless the roll is slit.
        pieces: length of each piece of roll, overlaps with the next piece in it.
    """

    roll_height: Meter
    strips: int
    slit: int
    pieces: tuple[Meter, ...]

    @property
    def length(self) -> Meter:
        """Of roll, all pieces together."""
        return math.fsum(self.pieces)


def strips_of(mesh: Kind, *, height: Meter, length: Meter) -> Strips:
    """A band of mesh so high and so long: the lowest roll that covers it, else strips of the highest one.

    Raises:
        NotFoundError: the roll's height or length is not known.
    """
    high = roll_height(mesh, height)
    joint = habit("mesh", "strip_joint")
    count = 1 if height <= high + 1e-9 else math.ceil((height - joint) / (high - joint) - 1e-9)
    return Strips(roll_height=high, strips=count, slit=1, pieces=_pieces(mesh, length) * count)


def slit_of(mesh: Kind, *, width: Meter, length: Meter, fence: Meter) -> Strips:
    """A narrow band slit out of the rolls that the fence of that height takes, as many side by side as one gives.

    Raises:
        NotFoundError: the roll's height or length is not known.
    """
    high = roll_height(mesh, fence)
    side_by_side = max(math.floor(high / width + 1e-9), 1)
    if side_by_side == 1:
        return strips_of(mesh, height=width, length=length)
    return Strips(roll_height=high, strips=1, slit=side_by_side, pieces=_pieces(mesh, length / side_by_side))


def roll_height(mesh: Kind, wanted: Meter) -> Meter:
    """The lowest roll that is high enough, else the highest there is.

    Raises:
        NotFoundError: no height is known.
    """
    stocked = mesh.words.get("heights")
    heights = stocked_lengths(tuple(map(str, stocked))) if isinstance(stocked, list) else (mesh.value("roll_height"),)
    return min((height for height in heights if height >= wanted - 1e-9), default=max(heights))


def _pieces(mesh: Kind, length: Meter) -> tuple[Meter, ...]:
    roll = mesh.value("roll_length")
    joint = mesh.value("overlap") if mesh.has("overlap") else habit("mesh", "roll_joint")
    if length <= roll:
        return (length,)
    count = math.ceil((length - joint) / (roll - joint) - 1e-9)
    return (*(roll,) * (count - 1), length + (count - 1) * (joint - roll))
