"""Posts built into the wall, or through it into the footing: the forces that hold them, and what may break out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import anchors, fence_loads, sockets
from pinfold.geometry.stepping import Step as Flight
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import FOOTING_STRENGTH
from pinfold.studies.stability.fences import Pull, listed
from pinfold.studies.stability.fencing.figures import BEARING_SHARE, BREAKOUT
from pinfold.studies.stability.fencing.stresses import stress_of
from pinfold.studies.stability.post_groups import Group, hardest
from pinfold.studies.stability.pulls import told_of
from pinfold.tables.shelf import Kind
from pinfold.units import NEWTON, PASCAL, Meter

CHECK = "anchorage"
LEFT_OUT = "grip of the filling on the post; hollows in it; cracks by rust or swelling wood"
FIRM = ("concrete-masonry", "clay", "concrete")
"""Materials whose breaking out a rule is known for."""
_PASSES_ON = "the wall takes moment and force on: see overturning and bending of its stretch"


@dataclass(frozen=True, kw_only=True)
class Socket:
    """What holds a post, from its mouth down.

    Attributes:
        depth: of the part that holds.
        cover: from the post to the nearest face.
        strength: of what holds.
        below: of its mouth under the level where the post stands free.
        notes: what it rests on.
    """

    depth: Meter
    cover: Meter
    strength: Figure
    below: Meter
    notes: tuple[str, ...]


def built_in(groups: Iterable[Group]) -> tuple[Finding, ...]:
    """Posts built into walls, those of a build-up together, the worst of them."""
    alike: dict[str, list[Group]] = {}
    for group in groups:
        alike.setdefault(group.fence.stretch.buildup.name, []).append(group)
    return tuple(_worst(some) for some in alike.values())


def _worst(groups: list[Group]) -> Finding:
    posts = [post for group in groups for post in group.posts]
    question = Question(check=CHECK, subject=listed(posts), left_out=LEFT_OUT)
    return answered(question, lambda: _of_groups(groups))


def _of_groups(groups: list[Group]) -> Finding:
    must_end_within((group.fence, post) for group in groups for post in group.posts)
    return governing(tried(partial(_of_group, group)) for group in hardest(groups))


def must_end_within(standing: Iterable[tuple[Exposed, Post]]) -> None:
    """Posts built into walls end above what the wall stands on.

    Raises:
        NotFoundError: some reach below it.
    """
    deep = [post.name for fence, post in standing if post.foot < _floor(fence, post) - 1e-6]
    if deep:
        raise NotFoundError(f"{', '.join(deep)} would reach below what the wall stands on: shorten embed")


def _of_group(group: Group) -> Finding:
    found = held(group.fence, group.worst, group.together)
    return replace(
        found, because=told(found.because, told_of(group.wires), *group.fence.wind.mesh_notes),
        figures=(*group.fence.figures, *found.figures, *group.wires.figures, *group.fence.factors.allowable),
    )  # fmt: skip


def held(fence: Exposed, post: Post, pull: Pull) -> Finding:
    """Whether wall or footing holds a post built into it: pressed on no harder than it bears, and nothing broken out.

    Raises:
        NotFoundError: no width of the post, or no strength of what holds it, is known.
    """
    if not post.kind.has("width"):
        raise NotFoundError(f"no width is known for {post.kind.name}; measure it and write it beside its kind")
    socket, width = _socket(fence, post), post.kind.value("width")
    moment, lower = _at_mouth(pull, socket)
    grip = work(
        sockets.socket_grip, why="the pair of forces that holds the post", force=pull.force, moment=moment,
        depth=socket.depth, width=width,
    )  # fmt: skip
    parts = grip.result
    assert isinstance(parts, sockets.SocketGrip)
    steps = (*pull.working, *lower, grip)
    found = [_pressed(socket, parts, steps), _broken_out(socket, parts, width, steps)]
    if lower:
        found.append(_bent(post, moment, steps))
    worst = governing(found)
    return replace(
        worst, because=told(worst.because, *socket.notes, _PASSES_ON),
        figures=(*worst.figures, ("width of the post", post.kind.figure("width"))),
    )  # fmt: skip


def _at_mouth(pull: Pull, socket: Socket) -> tuple[float, tuple[Step, ...]]:
    """Moment at the mouth of what holds, lower than where the post comes out of the wall or not."""
    if socket.below <= 0:
        return pull.moment, ()
    more = work(fence_loads.wire_moment, why="down through the wall", tension=pull.force, height=socket.below)
    return pull.moment + more.number, (more,)


def _pressed(socket: Socket, parts: sockets.SocketGrip, steps: tuple[Step, ...]) -> Finding:
    allowed = BEARING_SHARE.value * socket.strength.value
    return Finding(
        check=CHECK, subject="", demand=parts.top, capacity=allowed, unit=PASCAL, working=steps,
        because="pressure of the post at the mouth of its socket",
        figures=(("strength of what holds", socket.strength), ("bearing share", BEARING_SHARE)),
        mend="" if keeps_to(parts.top, allowed) else "the post deeper in the wall, closer posts or lower mesh",
    )  # fmt: skip


def _broken_out(socket: Socket, parts: sockets.SocketGrip, width: Meter, steps: tuple[Step, ...]) -> Finding:
    cone = work(sockets.face_cone, why="piece it may push out of the face", width=width, cover=socket.cover)
    held_ = work(
        anchors.breakout_held, why="what that piece holds", area=cone.number, masonry_strength=socket.strength.value,
        rate=BREAKOUT.value,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=parts.upper, capacity=held_.number, unit=NEWTON, working=(*steps, cone, held_),
        because="push on the face of the wall at the mouth of the socket",
        figures=(("strength of what holds", socket.strength), ("breakout", BREAKOUT)),
        mend="" if keeps_to(parts.upper, held_.number)
        else "the post deeper in a thicker wall, closer posts or lower mesh",
    )  # fmt: skip


def _bent(post: Post, moment: float, steps: tuple[Step, ...]) -> Finding:
    stress = stress_of(post.kind, moment, steady=0.0, why="stress at the top of the footing")
    return Finding(
        check=CHECK, subject="", demand=stress.demand, capacity=stress.capacity, unit=PASCAL,
        working=(*steps, *stress.working), figures=stress.figures, because="bent at the top of the footing",
        mend="" if keeps_to(stress.demand, stress.capacity) else "a stouter post, closer posts or lower mesh",
    )  # fmt: skip


def _socket(fence: Exposed, post: Post) -> Socket:
    buildup, flight = fence.stretch.buildup, _flight(fence, post)
    wall, footing = buildup.wall, buildup.footing
    assert wall is not None
    width, below_bed = post.kind.value("width"), flight.bed - post.foot
    if wall.kind.word("material") in FIRM:
        hollow = "its cell must be filled from top to bottom" if wall.kind.words.get("hollow") else ""
        through = "it goes through the wall into the footing: all of its length counts" if below_bed > 0 else ""
        return Socket(
            depth=post.base - post.foot, cover=_cover(wall.thickness, width), strength=_strength(wall.kind), below=0.0,
            notes=(hollow, through),
        )  # fmt: skip
    if footing is None or footing.kind.word("make") != "strip" or below_bed <= 0:
        raise NotFoundError(
            f"no rule is known for a post that breaks out of {wall.kind.name}: let it go through the wall into a strip "
            "of concrete, or set the posts in ground or collar"
        )
    return Socket(
        depth=below_bed, cover=_cover(footing.width, width), strength=FOOTING_STRENGTH, below=post.base - flight.bed,
        notes=("the footing alone is taken to hold it: for such a wall no rule is known",),
    )  # fmt: skip


def _cover(thickness: Meter, width: Meter) -> Meter:
    if width >= thickness:
        raise NotFoundError("the post is as wide as what should hold it; set it in ground or collar beside the wall")
    return (thickness - width) / 2


def _strength(kind: Kind) -> Figure:
    if not kind.has("compressive"):
        raise NotFoundError(f"no compressive strength is known for {kind.name}; write compressive beside it")
    return kind.figure("compressive")


def _flight(fence: Exposed, post: Post) -> Flight:
    """The step of wall a post stands in, the lower of two at a step."""
    place = post.along - fence.stretch.start
    near = [step for step in fence.stretch.steps if step.start - 0.2 <= place <= step.end + 0.2]
    return min(near or fence.stretch.steps, key=lambda step: step.bed)


def _floor(fence: Exposed, post: Post) -> Meter:
    """Lowest level of what may hold a post: under the strip of concrete, else the lowest bed."""
    flight, footing = _flight(fence, post), fence.stretch.buildup.footing
    strip = footing is not None and footing.kind.word("make") == "strip"
    return flight.footing_bottom if strip else flight.bed
