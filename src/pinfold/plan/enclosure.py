"""The whole of what is to be built: one validated, frozen record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from pinfold.plan.buildups import Buildup
from pinfold.plan.cutting import METRIC, Cutting
from pinfold.plan.grounds import Bank
from pinfold.plan.hanging import USUAL, Hanging, Sill
from pinfold.plan.outline import BuriedLine, Corner, Neighbor, Point, Run, Side, SurveyPoint
from pinfold.plan.people import People
from pinfold.plan.place import Family, Haul, Mixing, Place
from pinfold.tables.shelf import Kind
from pinfold.units import Kilogram, Meter, Newton, System


class Paper(StrEnum):
    """Paper the binder is printed on."""

    A4 = "a4"
    LETTER = "letter"


class Swing(StrEnum):
    """Which way a gate opens."""

    IN = "in"
    OUT = "out"


class Hand(StrEnum):
    """Which jamb the hinges are on, seen from outside; both for double leaves."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


@dataclass(frozen=True, kw_only=True)
class Gate:
    """A gate and its opening.

    Attributes:
        name: the builder's word for it.
        side: name of the side it is in.
        start: nearer edge of the opening, measured along the side from its first corner.
        width: clear between the gate posts.
        height: of the leaf.
        leaves: 1 or 2.
        hinges: seen from outside.
        swing: which way it opens.
        gap: between leaf and post on each side, and between two leaves.
        under: gap under the leaf.
        kind: of shelf `gates`: frame and infill.
        post: kind of shelf `posts` for both gate posts.
        embed: depth of the gate posts in the ground.
        collar: width of their concrete collar; None when set in soil.
        leaf_mass: weighed or reckoned mass of one leaf; None to reckon it from the kind.
        hinge_capacity: load that one hinge carries by its maker; None when not known.
        hanging: how its leaves are braced, hung and latched.
        sill: what lies under the leaf; None where that is the ground.
    """

    name: str
    side: str
    start: Meter
    width: Meter
    height: Meter
    leaves: int
    hinges: Hand
    swing: Swing
    gap: Meter
    under: Meter
    kind: Kind
    post: Kind
    embed: Meter
    collar: Meter | None
    leaf_mass: Kilogram | None
    hinge_capacity: Newton | None
    hanging: Hanging = USUAL
    sill: Sill | None = None

    @property
    def end(self) -> Meter:
        """Farther edge of the opening along the side."""
        return self.start + self.width

    @property
    def taken(self) -> tuple[Meter, Meter]:
        """What it takes of its side: the clear opening and the width of both posts, as far as that is known."""
        post = self.post.value("width") if self.post.has("width") else 0.0
        return self.start - post, self.end + post

    @property
    def leaf_width(self) -> Meter:
        """Width of one leaf after its gaps."""
        return (self.width - self.gap * (self.leaves + 1)) / self.leaves


def _holds(run: Run, gate: Gate) -> bool:
    return run.start - 1e-6 <= gate.start and gate.end <= run.end + 1e-6


_USUAL_PEOPLE = People()


@dataclass(frozen=True, kw_only=True)
class Enclosure:
    """What is to be built, read and checked.

    Attributes:
        name: of the plot.
        units: how answers are shown.
        family: which standards are followed.
        paper: of the binder.
        place: wind, frost and ground.
        haul: vehicle and distances.
        mixing: mixer, bucket, bag.
        ground: surveyed heights; empty means level ground at 0.
        corners: in the order of the file.
        sides: in order around the plot.
        gates: in the order of the file.
        neighbors: in the order of the file.
        lines: buried lines, in the order of the file.
        buildups: by name.
        banks: earth higher on one face, in the order of the file.
        people: who builds, and when.
        cutting: saw and habits of cutting.
    """

    name: str
    units: System
    family: Family
    paper: Paper
    place: Place
    haul: Haul
    mixing: Mixing
    ground: tuple[SurveyPoint, ...]
    corners: tuple[Corner, ...]
    sides: tuple[Side, ...]
    gates: tuple[Gate, ...]
    neighbors: tuple[Neighbor, ...]
    lines: tuple[BuriedLine, ...]
    buildups: Mapping[str, Buildup]
    banks: tuple[Bank, ...] = ()
    people: People = _USUAL_PEOPLE
    cutting: Cutting = METRIC

    def corner(self, name: str) -> Point:
        """Where a corner is."""
        return self._spots[name]

    @cached_property
    def _spots(self) -> Mapping[str, Point]:
        return {corner.name: corner.at for corner in self.corners}

    @property
    def is_closed(self) -> bool:
        """Whether the sides come back to where they start."""
        return len(self.sides) > 2 and self.sides[-1].end == self.sides[0].start

    @property
    def path(self) -> tuple[Point, ...]:
        """The corners along the sides in order; the first is not repeated at the end of a closed plot."""
        points = [self.corner(self.sides[0].start), *(self.corner(side.end) for side in self.sides)]
        return tuple(points[:-1] if self.is_closed else points)

    @property
    def runs(self) -> tuple[tuple[Side, Run], ...]:
        """Every run with its side, in order around the plot."""
        return tuple((side, run) for side in self.sides for run in side.runs)

    def run_of(self, gate: Gate) -> Run | None:
        """The run that holds the whole clear opening of a gate; None across two runs, or without its side."""
        side = next((side for side in self.sides if side.name == gate.side), None)
        return next((run for run in side.runs if _holds(run, gate)), None) if side is not None else None

    def gates_in(self, side: str) -> tuple[Gate, ...]:
        """The gates of a side, from its first corner on."""
        return tuple(sorted((gate for gate in self.gates if gate.side == side), key=lambda gate: gate.start))
