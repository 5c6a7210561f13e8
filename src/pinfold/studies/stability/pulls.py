"""Pull of strained wires on the posts where they end or turn, and how it joins the wind."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import fence_loads
from pinfold.plan.buildups import Buildup
from pinfold.plan.fences import Brace
from pinfold.plan.outline import Point
from pinfold.studies.layout.posting import top_at
from pinfold.studies.layout.records import Post, Stretch
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fences import Pull
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Newton, NewtonMeter, Radian

SQUARE_ON: Radian = math.pi / 2
SAME_WAY: Radian = 0.0
_REACH: Meter = 0.02
_STRAIGHT: Radian = math.radians(1)


@dataclass(frozen=True, kw_only=True)
class Wires:
    """What wires do to a post where it is held, and a leaf that hangs on it: steady loads, no factor in them.

    Attributes:
        force: level pull.
        moment: where the post is held.
        turned: whether two fences meet there at an angle.
        angle: between the pull and the wind, the least it can be: the wind pushes square to either fence or between.
        working: lines that lead there.
        figures: tensions.
        unknown: what is missing to tell; empty when nothing is.
        arms: fences that pull, each with its wires.
    """

    force: Newton = 0.0
    moment: NewtonMeter = 0.0
    turned: bool = False
    angle: Radian = SQUARE_ON
    working: tuple[Step, ...] = ()
    figures: Named = ()
    unknown: str = ""
    arms: tuple[Arm, ...] = ()

    @property
    def acts(self) -> bool:
        """Whether it pulls or turns at all."""
        return self.force > 0 or self.moment > 0

    @property
    def braced(self) -> bool:
        """Whether a brace takes the moment of the wires of every fence that pulls."""
        return bool(self.arms) and all(arm.brace is not None for arm in self.arms)


NO_WIRES = Wires()
"""Where no wire ends or turns."""

_Pulled = tuple[Point, Newton, NewtonMeter]
"""Way of a fence from a post, the force of its wires and their moment."""


class Strand(NamedTuple):
    """A wire, or a mesh strained by itself, that ends at a post.

    Attributes:
        kind: of rail or mesh.
        tall: height of the mesh that pulls; None for a wire.
        height: of its middle above the level where the post is held.
    """

    kind: Kind
    tall: Meter | None
    height: Meter

    @property
    def tension(self) -> Figure:
        """How hard it is strained; of a mesh for its height."""
        if not self.kind.has("tension"):
            raise NotFoundError(
                f"say how hard the wires are strained: write tension = … beside {self.kind.name} in the plan"
            )
        return self.kind.figure("tension")

    @property
    def force(self) -> Newton:
        """Its pull."""
        return self.tension.value * (1.0 if self.tall is None else self.tall)


@dataclass(frozen=True, kw_only=True)
class Arm:
    """A fence that comes to a post.

    Attributes:
        way: that it lies from the post.
        strands: its wires, and its mesh where that is strained by itself.
        brace: along it; None without.
        span: between its posts.
    """

    way: Point
    strands: tuple[Strand, ...]
    brace: Brace | None
    span: Meter


def is_wire(kind: Kind) -> bool:
    """Whether a rail is wire off a roll, which holds nothing unless it is strained."""
    return kind.word("sold") == "roll"


def wires_on(fences: Mapping[str, Exposed], post: Post, held_at: Meter) -> Wires:
    """Pull of all wires that end or turn at a post.

    Args:
        fences: all stretches by name
        post: the post
        held_at: height of the level where it is held
    """
    arms = _arms(fences, post, held_at)
    if not arms or (len(arms) == 2 and _goes_on(*arms)):
        return NO_WIRES
    turned = len(arms) > 1 and abs(_between(arms[0].way, arms[1].way)) < math.pi - _STRAIGHT
    try:
        return _pulled(arms, turned=turned)
    except NotFoundError as missing:
        return Wires(turned=turned, unknown=str(missing))


def _arms(fences: Mapping[str, Exposed], post: Post, held_at: Meter) -> tuple[Arm, ...]:
    reach = (post.kind.value("width") if post.gate and post.kind.has("width") else 0.0) + _REACH
    arms, x = list[Arm](), post.line_point[0]
    for fence in fences.values():
        stretch = fence.stretch
        own = stretch.buildup.posts
        if own is None:
            continue
        for number, point in enumerate(stretch.points):
            if abs(point[0] - x) <= reach and math.dist(point, post.line_point) <= reach:
                far = stretch.points[1 - number]
                foot = _foot(stretch, at_end=number == 1) - held_at
                arms.append(
                    Arm(way=(far[0] - point[0], far[1] - point[1]), strands=_strands(stretch.buildup, foot),
                        brace=stretch.buildup.brace, span=own.spacing)
                )  # fmt: skip
    return tuple(arms)


def _strands(buildup: Buildup, foot: Meter) -> tuple[Strand, ...]:
    """Wires of a build-up, and its mesh where the plan says how hard that is strained by itself."""
    found = [Strand(rail.kind, None, max(foot + rail.at, 0.0)) for rail in buildup.rails if is_wire(rail.kind)]
    mesh = buildup.mesh
    if mesh is not None and mesh.kind.has("tension"):
        found.append(Strand(mesh.kind, mesh.height, max(foot + mesh.height / 2, 0.0)))
    return tuple(found)


def _foot(stretch: Stretch, *, at_end: bool) -> Meter:
    """Height of the foot of the mesh at an end of a stretch."""
    if stretch.steps:
        return top_at(stretch, stretch.end if at_end else stretch.start)
    return stretch.ground[-1 if at_end else 0][1]


def _between(one: Point, other: Point) -> Radian:
    return math.atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1])


def _goes_on(one: Arm, other: Arm) -> bool:
    """Whether the same wires come in on one side and leave straight on the other."""
    straight = abs(_between(one.way, other.way)) > math.pi - _STRAIGHT
    alike = [[(strand.kind.name, round(strand.height, 2)) for strand in arm.strands] for arm in (one, other)]
    return straight and alike[0] == alike[1]


@lru_cache(maxsize=256)  # while one corner is dragged, most posts stay what they were
def _pulled(arms: tuple[Arm, ...], *, turned: bool) -> Wires:
    """All of them on one post; where a brace takes the moment of a fence, its level pull alone stays on the post."""
    steps: list[Step] = []
    named: dict[str, Named] = {}
    pulls: list[_Pulled] = []
    for arm in arms:
        force = moment = 0.0
        for strand in arm.strands:
            turn = work(fence_loads.wire_moment, why=f"{strand.kind.says}, strained", tension=strand.force,
                        height=strand.height)  # fmt: skip
            steps.append(turn)
            force, moment = force + strand.force, moment + turn.number
            named[strand.kind.name] = ((f"tension of {strand.kind.name}", strand.tension),)
        if arm.strands:
            pulls.append((arm.way, force, 0.0 if arm.brace is not None else moment))
    force, moment, more = _joined(pulls)
    return Wires(
        force=force, moment=moment, turned=turned, angle=_to_wind(arms, pulls) if turned else SQUARE_ON,
        working=(*steps, *more), figures=tuple(pair for pairs in named.values() for pair in pairs),
        arms=tuple(arm for arm in arms if arm.strands),
    )  # fmt: skip


def _to_wind(arms: tuple[Arm, ...], pulls: list[_Pulled]) -> Radian:
    """Least angle between what wires pull, by force or by moment, and the wind square to either fence or between."""
    (x, y), (far_x, far_y) = arms[0].way, arms[1].way
    normals = (y, -x), (-far_y, far_x)
    ways = [_sum((_unit(way), force) for way, force, _ in pulls), _sum((_unit(way), turn) for way, _, turn in pulls)]
    return min((_apart(way, *normals) for way in ways if math.hypot(*way) > 0), default=SQUARE_ON)


def _apart(way: Point, one: Point, other: Point) -> Radian:
    """Angle from a line to the nearest direction between two."""
    wide, found = _between(one, other), math.inf
    for sign in (1, -1):
        line = sign * way[0], sign * way[1]
        at = _between(one, line)
        if min(wide, 0.0) <= at <= max(wide, 0.0):
            return SAME_WAY
        found = min(found, abs(at), abs(_between(other, line)))
    return found


def _unit(way: Point) -> Point:
    length = math.hypot(*way)
    return way[0] / length, way[1] / length


def _sum(arrows: Iterable[tuple[Point, float]]) -> Point:
    parts = [(way[0] * size, way[1] * size) for way, size in arrows]
    return math.fsum(x for x, _ in parts), math.fsum(y for _, y in parts)


def _joined(pulls: list[_Pulled]) -> tuple[Newton, NewtonMeter, tuple[Step, ...]]:
    """The wires of both sides together."""
    if not pulls:
        return 0.0, 0.0, ()
    (way, force, moment), *others = pulls
    steps: list[Step] = []
    for other, their_force, their_moment in others[:1]:
        angle = abs(_between(way, other))
        why = "the wires of both sides, each along its own"
        one = work(fence_loads.force_together, why=why, first=force, second=their_force, angle=angle)
        two = work(fence_loads.moment_together, why="their moments likewise", first=moment, second=their_moment,
                   angle=angle)  # fmt: skip
        force, moment, steps = one.number, two.number, [one, two]
    return force, moment, tuple(steps)


def with_wind(wind: Pull, wires: Wires) -> Pull:
    """Wind and wires on one post together.

    Raises:
        NotFoundError: how hard a wire is strained is not known.
    """
    if wires.unknown:
        raise NotFoundError(wires.unknown)
    if not wires.acts:
        return wind
    why = "wind and steady pull, as they stand to each other"
    force = work(fence_loads.force_together, why=why, first=wind.force, second=wires.force, angle=wires.angle)
    moment = work(fence_loads.moment_together, why="their moments likewise", first=wind.moment, second=wires.moment,
                  angle=wires.angle)  # fmt: skip
    return Pull(
        force=force.number, moment=moment.number, working=(*wind.working, *wires.working, force, moment)
    )  # fmt: skip


def bent_by(wind: Pull, wires: Wires, kind: Kind) -> tuple[NewtonMeter, tuple[Step, ...]]:
    """Moment that a post's section feels, with its working: a round one the arrow, a square one both ways at once.

    Raises:
        NotFoundError: how hard a wire is strained is not known.
    """
    if wires.unknown:
        raise NotFoundError(wires.unknown)
    both = with_wind(wind, wires)
    if kind.word("section") in ("pipe", "round", "bar"):
        return both.moment, both.working
    if wires.turned:
        why = "a corner bends a square post over its edge: both its ways at once"
        over = work(fence_loads.moment_together, why=why, first=both.moment, second=both.moment, angle=SQUARE_ON)
        return over.number, (*both.working, over)
    if not wires.acts:
        return both.moment, both.working
    added = work(fence_loads.moment_together, why="a square post is bent both ways at once: the stresses add",
                 first=wind.moment, second=wires.moment, angle=SAME_WAY)  # fmt: skip
    return added.number, (*wind.working, *wires.working, added)


def told_of(wires: Wires) -> str:
    """What the reader should know of them."""
    if wires.force <= 0:
        return ""
    if wires.braced:
        return "a brace takes what the strained wires turn; their level pull stays on the foot of the post"
    if wires.turned:
        return "the wires of both sides pull at it beside the wind; no brace is counted"
    return "the strained wires pull along the fence, the wind across it; no brace is counted"
