"""Braces at ends, corners and gates: pressure in rail or strut, pull in the wire, and the lift of the end post."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import braces as formulas
from pinfold.formulas.steel import thermal_force
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.fences import Brace, BraceForm
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fences import listed
from pinfold.studies.stability.fencing.figures import (
    BOND,
    BUCKLING,
    COLLAR_DENSITY,
    EXPANSION,
    MOST_FRICTION,
    WIRE_SHARE,
)
from pinfold.studies.stability.fencing.seasons import colder
from pinfold.studies.stability.fencing.sections import area_of, inertia_of
from pinfold.studies.stability.pulls import Arm, Strand, Wires
from pinfold.tables.shelf import Kind
from pinfold.units import NEWTON, Celsius, Meter, Newton, Pascal

CHECK = "brace"
_SAME: Meter = 0.005
LEFT_OUT = "the brace post and the foot of a strut in the ground; what fixes rail and wire to the posts; rot"


@dataclass(frozen=True, kw_only=True)
class Braced:
    """A post with a brace along each fence whose wires end there.

    Attributes:
        post: in its place.
        fence: it stands in.
        wires: that end there.
    """

    post: Post
    fence: Exposed
    wires: Wires

    @property
    def arms(self) -> tuple[tuple[Arm, Brace], ...]:
        """Fences with their braces."""
        return tuple((arm, arm.brace) for arm in self.wires.arms if arm.brace is not None)


@dataclass(frozen=True, kw_only=True)
class Pressed:
    """Forces in one brace, cold in them."""

    forces: formulas.BraceForces
    working: tuple[Step, ...]
    figures: Named


def braces(posts: Iterable[Braced]) -> tuple[Finding, ...]:
    """Rail or strut, wire and lift of all braced posts of a build-up, the worst of each."""
    alike: dict[str, list[Braced]] = {}
    for each in posts:
        if each.arms:
            alike.setdefault(each.fence.stretch.buildup.name, []).append(each)
    return tuple(finding for some in alike.values() for finding in _of(some))


def _of(some: list[Braced]) -> tuple[Finding, ...]:
    where, brace = f"brace at {listed(each.post for each in some)}", some[0].arms[0][1]
    pole = "rail" if brace.form is BraceForm.RAIL else "strut"
    along = [(each, arm, own) for each in some for arm, own in each.arms]
    found = [_worst(f"{where}: {pole}", [partial(_pole, *each) for each in along])]
    if brace.form is BraceForm.RAIL:
        found.append(_worst(f"{where}: wire", [partial(_wire, *each) for each in along]))
    found.append(_worst(f"{where}: lift of the post", [partial(_lift, each) for each in some]))
    return tuple(found)


def _worst(subject: str, finds: list[partial[Finding]]) -> Finding:
    question = Question(check=CHECK, subject=subject, left_out=LEFT_OUT)
    return answered(question, lambda: governing(tried(find) for find in finds))


def _pressed(each: Braced, arm: Arm, brace: Brace) -> Pressed:
    """All strands of a fence as they pull in the cold, at their common height."""
    _on_the_post(each.post, brace)
    steps: list[Step] = []
    figures: dict[str, Named] = {}
    change, season = colder(each.fence.place)
    pull = turn = 0.0
    for strand in arm.strands:
        force, more = _in_the_cold(strand, change)
        steps += more
        pull, turn = pull + force, turn + force * strand.height
        figures[strand.kind.name] = ((f"tension of {strand.kind.name}", strand.tension),)
    found = work(
        formulas.corner_brace, why="forces in the brace, the wires as the cold strains them", pull=pull,
        pull_height=turn / pull if pull > 0 else 0.0, rail_height=brace.rail_at, rail_length=brace.rail_length,
    )  # fmt: skip
    forces = found.result
    assert isinstance(forces, formulas.BraceForces)
    named = tuple(pair for pairs in figures.values() for pair in pairs)
    return Pressed(forces=forces, working=(*steps, found), figures=(*named, *season))


def _on_the_post(post: Post, brace: Brace) -> None:
    over = post.top - (post.ground if post.hole > 0 else post.base)
    if brace.rail_at > over + _SAME:
        raise NotFoundError(f"its rail is higher than post {post.name} stands over what holds it: lower rail_at")


def _in_the_cold(strand: Strand, change: Celsius) -> tuple[Newton, tuple[Step, ...]]:
    """Pull of one strand on a stiff end; of a mesh as strained, for its crimps and twists give."""
    kind = strand.kind
    if strand.tall is not None or not (kind.has("modulus") and kind.has("diameter")):
        return strand.force, ()
    colder = work(
        thermal_force, why="what cold adds, below 0 a pull", modulus=kind.value("modulus"),
        area=math.pi * kind.value("diameter") ** 2 / 4, expansion=EXPANSION.value, change_c=change,
    )  # fmt: skip
    return strand.force - colder.number, (colder,)


def _pole(each: Braced, arm: Arm, brace: Brace) -> Finding:
    """Rail or strut pressed along its length."""
    kind, pressed = brace.rail, _pressed(each, arm, brace)
    strut = brace.form is BraceForm.STRUT
    demand = pressed.forces.diagonal if strut else pressed.forces.rail
    length = math.hypot(brace.rail_length, brace.rail_at) if strut else brace.rail_length
    inertia, steps, sized = inertia_of(kind)
    held = work(
        formulas.buckling_held, why="pressure under which it buckles, with its safety", modulus=kind.value("modulus"),
        second_moment=inertia, length=length, safety=BUCKLING.value,
    )  # fmt: skip
    crushed, pressed_by = _crushed(kind)
    capacity = min(held.number, crushed)
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=capacity, unit=NEWTON,
        because=told(f"{kind.name}, pressed", _STOUT if crushed < held.number else ""),
        working=(*pressed.working, *steps, held),
        figures=(*pressed.figures, *sized, *pressed_by, ("modulus of the rail", kind.figure("modulus")),
                 ("buckling", BUCKLING)),
        mend="" if keeps_to(demand, capacity) else "a stouter rail, one higher up the post, or slacker wires",
    )  # fmt: skip


_STOUT = "too stout to buckle: its section by its allowable stress counts"


def _crushed(kind: Kind) -> tuple[Newton, Named]:
    """What its section takes without buckling, and the figure behind it; no limit where neither is known."""
    area = area_of(kind)
    if area is None or not kind.has("allowable"):
        return math.inf, ()
    allowed = kind.figure("allowable")
    return area.area * allowed.value, (("allowable stress of the rail", allowed),)


def _wire(each: Braced, arm: Arm, brace: Brace) -> Finding:
    wire, pressed = brace.wire, _pressed(each, arm, brace)
    if wire is None:
        raise NotFoundError("what the diagonal is made of is not said; write wire below the brace")
    if not wire.has("breaking"):
        raise NotFoundError(f"no breaking strength is known for {wire.name}; write breaking beside it")
    breaking = wire.figure("breaking")
    capacity = WIRE_SHARE.value * brace.strands * breaking.value
    return Finding(
        check=CHECK, subject="", demand=pressed.forces.diagonal, capacity=capacity, unit=NEWTON,
        because="all strands of the diagonal together", working=pressed.working,
        figures=(*pressed.figures, (f"breaking strength of {wire.name}", breaking), ("share of it", WIRE_SHARE)),
        mend="" if keeps_to(pressed.forces.diagonal, capacity)
        else "more strands, a stouter wire, or a higher or longer rail",
    )  # fmt: skip


def _lift(each: Braced) -> Finding:
    """Lift of the end post by all its braces, against its weight and the ground or wall around it."""
    pressed = [_pressed(each, arm, brace) for arm, brace in each.arms]
    demand = math.fsum(one.forces.uplift for one in pressed)
    weight, share = _weight(each.post), each.fence.factors.weight
    friction, skin, figures = _skin(each)
    held = work(
        formulas.uplift_held, why="weight with its factor, and the hold on its sides", weight=share.value * weight,
        friction=friction, perimeter=_perimeter(each.post), depth=each.post.hole or each.post.base - each.post.foot,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=held.number, unit=NEWTON,
        because=told("all braces at the post lift it together" if len(pressed) > 1 else ""),
        working=(*(step for one in pressed for step in one.working), *skin, held),
        figures=(*(pair for one in pressed for pair in one.figures), *figures, ("factor on weight that helps", share)),
        mend="" if keeps_to(demand, held.number) else "a longer rail, a deeper post, a wider collar, or slacker wires",
    )  # fmt: skip


def _skin(each: Braced) -> tuple[Pascal, tuple[Step, ...], Named]:
    if each.post.hole <= 0:
        return BOND.value, (), (("bond in the wall", BOND),)
    soil = each.fence.place.soil
    if soil is None or not soil.has("bearing"):
        raise NotFoundError("what the ground holds at the sides of a post is not known; write soil under [place]")
    skin = work(
        formulas.skin_friction, why="friction of the ground on its sides", bearing=soil.value("bearing"),
        most=MOST_FRICTION.value,
    )  # fmt: skip
    return skin.number, (skin,), (("bearing of the ground", soil.figure("bearing")), ("most friction", MOST_FRICTION))


def _weight(post: Post) -> Newton:
    own = post.kind.value("mass_per_length") * post.length if post.kind.has("mass_per_length") else 0.0
    around = COLLAR_DENSITY * math.pi * post.collar**2 / 4 * post.hole
    return (own + around) * GRAVITY


def _perimeter(post: Post) -> Meter:
    if post.collar > 0:
        return math.pi * post.collar
    return _around(post.kind)


def _around(kind: Kind) -> Meter:
    if not kind.has("width"):
        raise NotFoundError(f"no width is known for {kind.name}; measure it and write it beside its kind")
    return kind.value("width") * (4.0 if kind.word("section") == "square" else math.pi)
