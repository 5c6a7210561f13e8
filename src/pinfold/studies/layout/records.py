"""What laying out gives: stretches, steps, joints, posts and gates in their places. All in meters, plan coordinates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from pinfold.geometry.ground import Surface
from pinfold.geometry.profiles import Profile
from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Buildup
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.plan.outline import Point
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, SquareMeter


class EndKind(StrEnum):
    """What a stretch ends against."""

    CORNER = "corner"  # mitered with the wall of the next side
    BUTT = "butt"  # against another run of the same side
    NEIGHBOR = "neighbor"  # against an existing structure
    GATE = "gate"  # a gate post
    OPEN = "open"  # nothing


class Joint(NamedTuple):
    """A control joint across the wall.

    Attributes:
        at: along the side, from its first corner.
        point: in plan.
        why: `step` or `spacing`.
    """

    at: Meter
    point: Point
    why: str


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """An unbroken stretch of a run, between its ends and the gates in it.

    Attributes:
        name: `run` plus a letter where the run has several, such as `south/1b`.
        run: name of the run.
        side: name of the side.
        buildup: how it is built.
        start: along the side, from its first corner.
        end: likewise.
        points: both ends in plan, on the center line.
        start_kind: what its start is against.
        end_kind: what its end is against.
        outer: length of the outer face of the bare wall, corners mitered; the center line's length without wall.
        inner: length of the inner face, likewise.
        ground: (distance from the stretch's start, height) along the center line.
        outside: whether part of it lies outside the surveyed ground.
        steps: wall steps with distances from the stretch's start; empty without wall.
        tops: (distance, height) of the wall's top over each step, coping not counted.
        joints: control joints, from the start on.
    """

    name: str
    run: str
    side: str
    buildup: Buildup
    start: Meter
    end: Meter
    points: tuple[Point, Point]
    start_kind: EndKind
    end_kind: EndKind
    outer: Meter
    inner: Meter
    ground: Profile
    outside: bool
    steps: tuple[Step, ...]
    tops: tuple[Profile, ...]
    joints: tuple[Joint, ...]

    @property
    def length(self) -> Meter:
        """Along the center line; for a wall its plan area is this times its thickness, corners counted once."""
        return self.end - self.start

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:  # studies keep answers by stretch and ask for it again and again
        return hash((self.name, self.buildup, self.points, self.outer, self.inner, self.ground, self.steps))

    @cached_property
    def between_ends(self) -> Stretch:
        """Itself with faces as long as its center line: what is asked of all but its coats, wherever it mitres."""
        return replace(self, outer=self.length, inner=self.length)

    @property
    def open_ends(self) -> int:
        """How many of its ends show an end face."""
        return sum(kind in (EndKind.GATE, EndKind.OPEN) for kind in (self.start_kind, self.end_kind))

    @cached_property
    def tallest(self) -> Meter:
        """Greatest height of wall above the lowest ground of a step; 0 without wall."""
        return max((step.top - step.lowest_ground for step in self.steps), default=0.0)


class Role(StrEnum):
    """What a post does."""

    LINE = "line"
    CORNER = "corner"
    END = "end"
    GATE = "gate"


class Post(NamedTuple):
    """One post in its place.

    Attributes:
        name: `P1` and so on around the plot.
        side: name of the side it is counted with.
        run: name of the run whose fence it carries.
        gate: name of the gate it holds; empty for others.
        along: along the side.
        point: in plan, where it really stands: inside of the wall when set in the ground beside one.
        line_point: in plan, on the side's center line.
        role: what it does.
        kind: of shelf `posts`.
        ground: height of the ground at it.
        base: height where it stands free: top of the wall, or the ground.
        foot: height of its lower end.
        top: height of its upper end.
        hole: depth of its hole below the ground; 0 for posts in the wall.
        collar: width of its concrete collar; 0 without.
        share: width of fence whose wind it takes, half a bay to each side.
    """

    name: str
    side: str
    run: str
    gate: str
    along: Meter
    point: Point
    line_point: Point
    role: Role
    kind: Kind
    ground: Meter
    base: Meter
    foot: Meter
    top: Meter
    hole: Meter
    collar: Meter
    share: Meter

    @property
    def length(self) -> Meter:
        """Length to cut."""
        return self.top - self.foot


@dataclass(frozen=True, kw_only=True)
class GatePlace:
    """A gate in its place.

    Attributes:
        gate: as planned.
        run: the run it is in.
        buildup: of that run.
        opening: both edges of the clear opening in plan, first corner's side first.
        sill: highest ground across the opening, or the top of what lies there: the leaf hangs its gap above this.
        low: lowest ground across the opening.
        swing_high: highest ground under the leaf as it swings.
        posts: names of its two posts, first corner's side first.
    """

    gate: Gate
    run: str
    buildup: Buildup
    opening: tuple[Point, Point]
    sill: Meter
    low: Meter
    swing_high: Meter
    posts: tuple[str, str]

    @property
    def hang(self) -> Meter:
        """Height of the underside of the leaf so that it clears the ground all along its swing."""
        return max(self.sill, self.swing_high) + self.gate.under


@dataclass(frozen=True, kw_only=True, eq=False)
class Layout:
    """The plan laid out. One is equal to itself alone, so that what was found from it can be kept by it.

    Attributes:
        plan: what was laid out.
        surface: the ground; None where it is level at 0.
        stretches: in order around the plot.
        posts: in order around the plot.
        gates: by name.
        area: enclosed; None for an open plot.
        length: of all built runs along their center lines, gates and all.
        perimeter: of all sides, neighbors' parts and all.
        outer_is_right: whether the outside lies right of the way from first to last corner.
    """

    plan: Enclosure
    surface: Surface | None
    stretches: tuple[Stretch, ...]
    posts: tuple[Post, ...]
    gates: Mapping[str, GatePlace]
    area: SquareMeter | None
    length: Meter
    perimeter: Meter
    outer_is_right: bool
