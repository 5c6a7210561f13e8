"""Changes of how a gate's leaves are hung, braced and latched, and of the way they open."""

from __future__ import annotations

from collections.abc import Iterator

from pinfold.errors import NotFoundError
from pinfold.plan.changes import Change, Put
from pinfold.plan.enclosure import Enclosure, Gate, Hand, Swing
from pinfold.plan.hanging import Bracing
from pinfold.studies.gates.bracing import RIGHT
from pinfold.studies.gates.frame import frame_kind
from pinfold.studies.mending.fence_levers import gate_of
from pinfold.studies.mending.records import Lever
from pinfold.studies.stability.hanging.figures import LATCH_THROW
from pinfold.studies.stability.hanging.fixings import suits
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import Meter, System

_GAP = {System.US: (0.0254 / 8, "in", 8), System.METRIC: (0.002, "mm", 1)}
"""A step of a gap, the sign it is written with, and parts of an inch."""
_NARROWEST_GAP: Meter = 0.003
_TWO_FROM: Meter = 1.8
"""Openings narrower than this are not made of two leaves."""


def _hung(name: str, key: str, text: str) -> Put:
    return Put(("gate", name, "hanging", key), text)


def gate_hinge(plan: Enclosure, name: str) -> Lever | None:
    """Other hinges that hold in what leaf and post are of, those with stouter screws last."""
    gate = gate_of(plan, name)
    try:
        leaf, post = frame_kind(gate).word("material"), gate.post.word("material")
    except NotFoundError:
        return None
    here = gate.hanging.hinge
    others = [
        each for each in shelf("hinges").values()
        if suits(each, leaf, post) and each != here and (here or each.word("usual") != f"{leaf}/{post}")
    ]  # fmt: skip
    others.sort(key=_stoutness)
    return Lever("other hinges", tuple((_hung(name, "hinge", each.name),) for each in others))


def _stoutness(hinge: Kind) -> float:
    """Section of what holds it at its weaker end."""
    return min(
        hinge.value(f"on_{where}") * kind("screws", hinge.word(where)).value("diameter") ** 2
        for where in ("leaf", "post")
    )


def gate_two_leaves(plan: Enclosure, name: str) -> Lever | None:
    """Two leaves in place of one wide one."""
    gate = gate_of(plan, name)
    if gate.leaves == 2 or gate.width < _TWO_FROM:
        return None
    both = (Put(("gate", name, "leaves"), 2), Put(("gate", name, "hinges"), Hand.BOTH.value))
    return Lever("two leaves", (both,))


def gate_brace_turned(plan: Enclosure, name: str) -> Lever | None:
    """The brace the right way round."""
    hanging = gate_of(plan, name).hanging
    right = RIGHT.get(hanging.bracing or Bracing.STRUT)
    if hanging.foot is None or right is None or hanging.foot is right:
        return None
    return Lever("the brace the other way round", ((_hung(name, "foot", right.value),),))


def gate_wire(plan: Enclosure, name: str) -> Lever | None:
    """A wire with a turnbuckle as brace, or a stouter one."""
    gate = gate_of(plan, name)
    if gate.hanging.bracing is Bracing.SHEET:
        return None
    now = gate.hanging.wire
    least = now.value("breaking") if now is not None and now.has("breaking") else 0.0
    wires = [each for each in shelf("rails").values() if _braces(each, plan.units) and each.value("breaking") > least]
    wires.sort(key=lambda each: each.value("breaking"))
    says = "a stouter wire as brace" if now is not None else "a wire with a turnbuckle as brace"
    return Lever(says, tuple(tuple(_wired(gate, each)) for each in wires))


def _braces(rail: Kind, system: System) -> bool:
    """Whether it is a wire of known strength, sold by the measure of the plan."""
    inches = rail.has("diameter") and rail.figure("diameter").printed.endswith("in")
    return rail.word("section") == "round" and rail.has("breaking") and inches is (system is System.US)


def _wired(gate: Gate, wire: Kind) -> Iterator[Put]:
    yield _hung(gate.name, "bracing", Bracing.WIRE.value)
    yield _hung(gate.name, "wire", wire.name)
    if gate.hanging.foot is not None:
        yield _hung(gate.name, "foot", RIGHT[Bracing.WIRE].value)


def gate_gap(plan: Enclosure, name: str) -> Lever | None:
    """More room beside the leaf where it is narrow; less where it is wide, so that the latch reaches."""
    wide = gate_of(plan, name).gap > LATCH_THROW.value / 2
    says = f"a {'narrower' if wide else 'wider'} gap beside the leaf"
    return Lever(says, tuple(_gaps(plan, name, most=_NARROWEST_GAP if wide else LATCH_THROW.value)))


def _gaps(plan: Enclosure, name: str, *, most: Meter) -> Iterator[Change]:
    """Gaps from the one planned on, step by step, up or down to a most."""
    gap, (step, sign, parts) = gate_of(plan, name).gap, _GAP[plan.units]
    first, last = round(gap / step), round(most / step)
    way = 1 if last > first else -1
    for number in range(first + way, last + way, way):
        size = f"{number}/{parts}" if parts > 1 else f"{number * 2}"
        yield (Put(("gate", name, "gap"), f"{size} {sign}"),)


def gate_other_way(plan: Enclosure, name: str) -> Lever | None:
    """Opened the other way."""
    other = Swing.IN if gate_of(plan, name).swing is Swing.OUT else Swing.OUT
    return Lever(f"opened {other.value}", ((Put(("gate", name, "swing"), other.value),),))


def gate_other_post(plan: Enclosure, name: str) -> Lever | None:
    """A single leaf hung from its other post."""
    gate = gate_of(plan, name)
    if gate.leaves == 2:
        return None
    other = Hand.RIGHT if gate.hinges is Hand.LEFT else Hand.LEFT
    return Lever("hung from the other post", ((Put(("gate", name, "hinges"), other.value),),))
