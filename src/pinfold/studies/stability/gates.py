"""Gates: what leaf and wind do to the posts and hinges, and whether the leaf clears the ground as it swings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import gates as formulas
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.enclosure import Gate
from pinfold.studies.gates import weight as weighing
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.records import GatePlace, Layout, Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import LEFT_OUT, embedment
from pinfold.studies.stability.factors import HINGE_INSET, SWING_ROOM, Named
from pinfold.studies.stability.fences import Pull, bands_on, fence_of, pull_of
from pinfold.studies.stability.fencing.leaning import lean_of
from pinfold.studies.stability.fencing.stresses import stress_of
from pinfold.studies.stability.leaves import leaf_band
from pinfold.studies.stability.pieces import caution, limit
from pinfold.studies.stability.pulls import Wires, bent_by, told_of, wires_on, with_wind
from pinfold.units import METER, NEWTON, PASCAL, Meter, Newton

OPEN_LEAF = "a leaf that stands open in a storm, slams or is ridden on"


@dataclass(frozen=True, kw_only=True)
class Hung:
    """A gate post with what hangs on it.

    Attributes:
        post: in its place.
        place: the gate in its place.
        fence: the post stands in.
        hinged: whether a leaf hangs on it, not only latches.
        wires: of the fence that ends at it.
    """

    post: Post
    place: GatePlace
    fence: Exposed
    hinged: bool
    wires: Wires

    @property
    def gate(self) -> Gate:
        """The gate."""
        return self.place.gate

    @cached_property
    def load(self) -> Load:
        """All that acts on it in the wind."""
        return _load(self)

    @cached_property
    def along(self) -> tuple[Wires, Named, str]:
        """What pulls along the fence: wires, and a leaf that hangs on it, with its figures and what they rest on.

        Raises:
            NotFoundError: how heavy the leaf is is not known.
        """
        return _along(self)


@dataclass(frozen=True, kw_only=True)
class Load:
    """What acts on a gate post.

    Attributes:
        across: the wind, square to the fence.
        along: the weight of the leaf and the wires, along it.
        notes: what they rest on.
        figures: likewise.
    """

    across: Pull
    along: Wires
    notes: tuple[str, ...]
    figures: Named


def gate_findings(layout: Layout, fences: Mapping[str, Exposed]) -> tuple[Finding, ...]:
    """Posts, hinges and swing of every gate."""
    findings: list[Finding] = []
    for place in layout.gates.values():
        posts = hung_posts(layout, fences, place)
        for hung in posts:
            findings += _post(hung)
        findings += [_leaning(place, posts), _hinge(place), _swing(place)]
    return tuple(findings)


def hung_posts(layout: Layout, fences: Mapping[str, Exposed], place: GatePlace) -> tuple[Hung, ...]:
    """Both posts of a gate with what hangs on them."""
    by_name = {post.name: post for post in layout.posts if post.gate}
    at_start = {way > 0 for _, way in hinges_of(layout.plan, place.gate)}
    return tuple(
        Hung(
            post=by_name[name], place=place, fence=fence_of(fences, by_name[name]), hinged=first in at_start,
            wires=wires_on(fences, by_name[name], by_name[name].ground),
        )
        for name, first in zip(place.posts, (True, False), strict=True)
    )  # fmt: skip


@lru_cache(maxsize=128)  # while one corner is dragged, most gates stay where they were
def _post(hung: Hung) -> tuple[Finding, ...]:
    subject = f"gate {hung.gate.name}, post {hung.post.name}"
    left_out = f"{LEFT_OUT}; {OPEN_LEAF}"
    return (
        answered(Question(check="embedment", subject=subject, left_out=left_out), lambda: _embedment(hung)),
        answered(Question(check="bending", subject=subject, left_out=left_out), lambda: _bending(hung)),
    )


def _load(hung: Hung) -> Load:
    fence, post, wind = hung.fence, hung.post, hung.fence.wind
    leaf, steps, leafed = leaf_band(fence, hung.place, post)
    across = pull_of((*bands_on(fence, post, wind, 0.0), leaf), fence.factors.service.value)
    across = replace(across, working=(*wind.mesh_working, *steps, *across.working))
    latch = "half the leaf's wind on either post: it wants a latch, and double leaves a drop bolt"
    notes = (told_of(hung.wires), latch, *wind.mesh_notes)
    figures = (*fence.figures, *leafed, *hung.wires.figures, *fence.factors.allowable)
    along, massed, note = hung.along
    both = "a leaf swung back pulls the way the wires do: both count" if hung.hinged and hung.wires.force > 0 else ""
    return Load(across=across, along=along, notes=(*notes, note, both), figures=(*figures, *massed))


def _along(hung: Hung) -> tuple[Wires, Named, str]:
    if not hung.hinged:
        return hung.wires, (), ""
    weight, massed, note = leaf_weight(hung.gate)
    reach = hung.gate.gap + hung.gate.leaf_width / 2 + _half(hung.post)
    pulled = work(formulas.post_moment, why="the leaf pulls its post over", weight=weight, reach=reach)
    along = replace(
        hung.wires, moment=hung.wires.moment + pulled.number, working=(*hung.wires.working, pulled)
    )  # fmt: skip
    return along, massed, note


def _half(post: Post) -> Meter:
    return post.kind.value("width") / 2 if post.kind.has("width") else 0.0


def leaf_weight(gate: Gate) -> tuple[Newton, Named, str]:
    """Weight of one leaf, weighed or reckoned."""
    found = weighing.leaf_weight(gate)
    note = "" if found.weighed else "the leaf's weight is that of frame and infill, without hinges and latch"
    return found.mass * GRAVITY, weighing.weight_figures(gate), note


def _embedment(hung: Hung) -> Finding:
    along = hung.load.along
    both = with_wind(hung.load.across, along)
    if both.force <= 0 < both.moment:
        raise NotFoundError("the method wants wind beside the leaf's weight, and none comes to this post")
    found = embedment(hung.fence.family, hung.fence.place, hung.post, both)
    square = hung.hinged and not along.turned
    aslant = "the moments of wind and leaf stand square to each other and count together" if square else ""
    return replace(
        found,
        because=told(found.because, aslant, *hung.load.notes),
        figures=(*hung.load.figures, *found.figures),
    )


def _bending(hung: Hung) -> Finding:
    load = hung.load
    moment, pulled = bent_by(load.across, load.along, hung.post.kind)
    stress = stress_of(
        hung.post.kind, moment, steady=load.along.moment, why="stress at the ground, all of it together"
    )  # fmt: skip
    return Finding(
        check="bending", subject="", demand=stress.demand, capacity=stress.capacity, unit=PASCAL,
        because=told(*load.notes, stress.note), working=(*pulled, *stress.working),
        figures=(*load.figures, *stress.figures),
        mend="" if keeps_to(stress.demand, stress.capacity)
        else "a stouter or braced post, slacker wires, a lighter leaf",
    )  # fmt: skip


def _hinge(place: GatePlace) -> Finding:
    question = Question(
        check="hinge", subject=f"gate {place.gate.name}", left_out=f"wind on the leaf and {OPEN_LEAF}; screws and welds"
    )
    return answered(question, lambda: _hinge_force(place.gate))


def _leaning(place: GatePlace, posts: tuple[Hung, ...]) -> Finding:
    """How far the tops of its posts move, the worse of the two: a leaf that sags and a latch that misses."""
    left_out = f"a rail over the gate; {OPEN_LEAF}"
    question = Question(check="deflection", subject=f"gate {place.gate.name}", left_out=left_out)
    return answered(question, lambda: governing(tried(partial(_lean, hung)) for hung in posts))


@lru_cache(maxsize=128)  # while one corner is dragged, most gates stay where they were
def _lean(hung: Hung) -> Finding:
    found = lean_of(hung.post, with_wind(hung.load.across, hung.load.along), hung.post.top - hung.post.ground)
    return replace(
        found, because=told(f"the worse of both: post {hung.post.name}", found.because, *hung.load.notes),
        figures=(*hung.load.figures, *found.figures),
    )  # fmt: skip


_UNKNOWN_HINGE = "what the hinges carry is not known: write hinge_capacity beside the gate, by their maker"


def _hinge_force(gate: Gate) -> Finding:
    weight, figures, note = leaf_weight(gate)
    apart = gate.height - 2 * HINGE_INSET.value
    couple = work(
        formulas.hinge_couple, why="the upper hinge pulled, the lower pushed", weight=weight, reach=gate.leaf_width / 2,
        spacing=apart,
    )  # fmt: skip
    force = work(
        formulas.hinge_force, why="either hinge may carry all the weight", couple=couple.number, vertical=weight
    )  # fmt: skip
    carried = None if gate.hinge_capacity is None else given(gate.hinge_capacity, NEWTON)
    because = "" if carried is not None else _UNKNOWN_HINGE
    return Finding(
        check="hinge", subject="", demand=force.number, capacity=carried.value if carried is not None else None,
        unit=NEWTON, because=told(because, note, "hinges a hand's breadth from the edges of the leaf"),
        working=(couple, force), figures=(*figures, ("hinge from the edge", HINGE_INSET)),
        caution=caution("heavy-gate") if weight / GRAVITY > limit("heavy-gate") else "",
    )  # fmt: skip


def _swing(place: GatePlace) -> Finding:
    """How much the ground rises under the leaf as it swings, against the gap planned under it."""
    rise = max(place.swing_high - place.sill, 0.0) + SWING_ROOM.value
    clears = rise <= place.gate.under
    return Finding(
        check="swing", subject=f"gate {place.gate.name}", demand=rise, capacity=place.gate.under, unit=METER,
        because="" if clears else "the leaf is laid out hung higher by what the ground rises: the gap under it grows",
        figures=(("room under the leaf", SWING_ROOM), ("gap under the leaf", given(place.gate.under, METER))),
        left_out="roots, snow and what is laid down in its way; a leaf that sags",
        mend="" if clears else "rising hinges, ground cut away under the swing, or the other way of opening",
    )  # fmt: skip
