"""The frame of a leaf: stiles, rails and brace with their joints, every length on a mark of the tape."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.enclosure import Gate
from pinfold.plan.hanging import Bracing
from pinfold.studies.cutting.records import STEP, Steps
from pinfold.studies.gates.bracing import brace_lie, brace_pieces
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.gates.records import FramePiece, GateFrame, Lap, LeafSize, nearest_mark
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import System

HALF_LAP = "half-lap"


def frame_kind(gate: Gate) -> Kind:
    """What the frame of a gate's leaves is made of.

    Raises:
        NotFoundError: no frame is known for the kind.
    """
    for made in shelf("frames").values():
        known = made.words.get("of", ())
        if isinstance(known, list) and gate.kind.name in known:
            return made
    raise NotFoundError(f"how the frame of {gate.kind.name} is joined is not known")


@lru_cache(maxsize=64)
def frame_of(gate: Gate, system: System) -> GateFrame:
    """The frame of one leaf of a gate.

    Raises:
        NotFoundError: the width of its members, the number of its rails or its joints are not known.
        OutOfRangeError: nothing is left between its members.
    """
    return framed(gate, leaf_size(gate, system))


def framed(gate: Gate, size: LeafSize) -> GateFrame:
    """The frame of a leaf of a size; raises as `frame_of`."""
    made, system = frame_kind(gate), size.system
    member = nearest_mark(gate.kind.value("member_width"), system)
    rails_at = rail_heights(size, member, round(gate.kind.value("rails")))
    if size.width <= 2 * member or min(high - low for low, high in pairwise(rails_at)) <= member:
        raise OutOfRangeError(f"its members leave nothing between them in a leaf of {gate.name}")
    joint = made.word("joint")
    pieces = [*_stiles(size, member, rails_at, joint), *_rails(size, member, rails_at, joint)]
    inside = (size.meters(size.width - 2 * member), size.meters(size.height - 2 * member))
    brace = brace_lie(gate, inside, size.meters(member))
    if brace is not None and brace.bracing is Bracing.STRUT:
        pieces += brace_pieces(brace, size, member, rails_at, joint=joint)
    across = math.hypot(size.width, size.height) * STEP[system]
    return GateFrame(
        gate=gate, size=size, made=made, member=member, joint=joint, pieces=tuple(pieces), brace=brace,
        diagonal=nearest_mark(across, system),
    )  # fmt: skip


def rail_heights(size: LeafSize, member: Steps, count: int) -> tuple[Steps, ...]:
    """Lower edges of the rails above the leaf's foot, evenly from its foot to its top, on marks."""
    many, rise = max(count, 2), size.height - member
    last = many - 1
    return tuple(
        rise if number == last else nearest_mark(size.meters(rise) * number / last, size.system)
        for number in range(many)
    )


def _stiles(size: LeafSize, member: Steps, rails_at: tuple[Steps, ...], joint: str) -> Iterator[FramePiece]:
    laps = tuple(Lap(at, at + member) for at in rails_at) if joint == HALF_LAP else ()
    for place, at in (("at the hinges", 0), ("at the latch", size.width - member)):
        yield FramePiece(says="gate stile", place=place, length=size.height, ends="square", laps=laps, at=at)


def _rails(size: LeafSize, member: Steps, rails_at: tuple[Steps, ...], joint: str) -> Iterator[FramePiece]:
    lapped = joint == HALF_LAP
    length = size.width if lapped else size.width - 2 * member
    laps = (Lap(0, member), Lap(size.width - member, size.width)) if lapped else ()
    for number, at in enumerate(rails_at):
        place = "bottom" if number == 0 else "top" if number == len(rails_at) - 1 else "middle"
        yield FramePiece(says="gate rail", place=place, length=length, ends="square", laps=laps, at=at)
