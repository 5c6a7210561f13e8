"""What is known of a gate's leaf before it is built: its size in whole marks of the tape, its pieces, its swing.

Lengths that are cut or measured are whole steps of `studies.cutting` (1/64 inch or 0.1 mm), on a mark of the tape.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.plan.enclosure import Gate, Hand, Swing
from pinfold.plan.hanging import Bracing, Foot
from pinfold.studies.cutting.records import STEP, Steps
from pinfold.tables.shelf import Kind
from pinfold.units import Kilogram, Meter, Radian, System

MARK: Mapping[System, Steps] = {System.US: 4, System.METRIC: 10}
"""Steps from one mark of the tape to the next: 1/16 inch or 1 mm."""


def marks_in(length: Meter, system: System) -> Steps:
    """The last mark of the tape at or under a length, in steps."""
    mark = MARK[system]
    return int((length + 1e-7) / (STEP[system] * mark)) * mark


def nearest_mark(length: Meter, system: System) -> Steps:
    """The mark of the tape nearest to a length, in steps."""
    mark = MARK[system]
    return round(length / (STEP[system] * mark)) * mark


@dataclass(frozen=True, kw_only=True)
class LeafSize:
    """A leaf in its opening.

    Attributes:
        system: of the tape it is measured with.
        opening: clear between the posts.
        width: of one leaf.
        height: of the leaf.
        gaps: beside and between the leaves, from the hinges of the first; with the leaves they make up the opening.
    """

    system: System
    opening: Steps
    width: Steps
    height: Steps
    gaps: tuple[Steps, ...]

    def meters(self, steps: Steps) -> Meter:
        """A length in meters."""
        return steps * STEP[self.system]


class Lap(NamedTuple):
    """A notch of half a piece's thickness, over its whole width.

    Attributes:
        start: from the piece's lower or hinge-side end.
        end: likewise.
    """

    start: Steps
    end: Steps


@dataclass(frozen=True, kw_only=True)
class FramePiece:
    """One piece of a leaf's frame.

    Attributes:
        says: gate stile, gate rail or gate brace.
        place: which of them.
        length: from the furthest point of one end to the furthest of the other.
        left: how far its lower or hinge-side cut leans off square as it lies, its upper edge further right.
        right: likewise its other cut.
        ends: how both are cut, in words.
        laps: half laps; of a strut as far as they reach at most, to be scribed in place.
        at: its lower edge above the leaf's foot; of a stile, its near edge from the hinge edge.
    """

    says: str
    place: str
    length: Steps
    ends: str
    left: Radian = 0.0
    right: Radian = 0.0
    laps: tuple[Lap, ...] = ()
    at: Steps = 0


@dataclass(frozen=True, kw_only=True)
class BraceLie:
    """How strut or wire lies in the leaf.

    Attributes:
        bracing: strut or wire.
        foot: where its lower end stands.
        right: whether that is the right stile: a strut is pressed, a wire pulled.
        angle: of its axis above level.
        cut: from level to the cut at its ends: a right angle along the stiles, 0 along the rails; of a wire the same.
        width: level length between the stiles.
        height: between the rails.
    """

    bracing: Bracing
    foot: Foot
    right: bool
    angle: Radian
    cut: Radian
    width: Meter
    height: Meter

    @property
    def axis(self) -> tuple[Meter, Meter]:
        """Level length and height of its middle line from end to end."""
        if self.cut:
            return self.width, self.width * math.tan(self.angle)
        return self.height / math.tan(self.angle), self.height


@dataclass(frozen=True, kw_only=True)
class GateFrame:
    """The frame of one leaf; where there are two, both are alike, one seen in a mirror.

    Attributes:
        gate: as planned.
        size: of the leaf.
        made: kind of shelf `frames`.
        member: width of its members.
        joint: half-lap, welded or fittings.
        pieces: in the order they are cut.
        brace: strut or wire; None where the leaf has none.
        diagonal: from corner to corner of the leaf, to check it square by.
    """

    gate: Gate
    size: LeafSize
    made: Kind
    member: Steps
    joint: str
    pieces: tuple[FramePiece, ...]
    brace: BraceLie | None
    diagonal: Steps

    @property
    def rails(self) -> tuple[FramePiece, ...]:
        """From the lowest to the highest."""
        return tuple(piece for piece in self.pieces if piece.says == "gate rail")

    @property
    def bracing(self) -> Bracing:
        """What keeps it square."""
        planned = self.gate.hanging.bracing
        if planned is not None:
            return planned
        return self.brace.bracing if self.brace is not None else Bracing.NONE


@dataclass(frozen=True, kw_only=True)
class LeafWeight:
    """Mass of one leaf and where it hangs.

    Attributes:
        mass: weighed, or of frame and infill.
        reach: level distance from the hinge edge to its center of gravity.
        rise: height of that center above the leaf's foot.
        weighed: whether the plan gives the mass.
    """

    mass: Kilogram
    reach: Meter
    rise: Meter
    weighed: bool


@dataclass(frozen=True, kw_only=True)
class HingePlaces:
    """Where the two hinges sit, as heights above the leaf's foot.

    Attributes:
        lower: middle of the lower one.
        upper: middle of the upper one.
    """

    lower: Steps
    upper: Steps


@dataclass(frozen=True, kw_only=True)
class SwingWay:
    """One way a gate may open, its leaf hung level at its gap over the sill.

    Attributes:
        swing: in or out.
        hinges: seen from outside.
        planned: whether the plan has it so.
        clearance: least height of the leaf's foot above the ground on its way open, below 0 where it strikes.
        angle: how far it is open there; 0 shut.
        radius: from the hinge, where on the leaf.
        lift: how much rising hinges would have to lift it on its whole way; 0 where it clears.
        cut: how much would have to be cut off its foot at the latch end, slanting; 0 where it clears.
        unsurveyed: whether part of the way lies outside the surveyed ground.
    """

    swing: Swing
    hinges: Hand
    planned: bool
    clearance: Meter
    angle: Radian
    radius: Meter
    lift: Meter
    cut: Meter
    unsurveyed: bool
