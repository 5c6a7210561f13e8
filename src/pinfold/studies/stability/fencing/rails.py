"""Rails between posts: bent by the mesh in the wind and by their weight, and how far they give."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import cantilevers, post_sections
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.bays import Loaded, loaded_rails
from pinfold.studies.stability.fencing.figures import RAIL_SAG
from pinfold.studies.stability.pulls import is_wire
from pinfold.tables.shelf import Kind
from pinfold.units import METER, PASCAL, CubicMeter, Meter

CHECK = "rail"
LEFT_OUT = "what fixes it to the posts; somebody climbing over; help from the mesh between rails"


class Modulus(NamedTuple):
    """Section moduli of a rail with their edges and working: against wind, and against weight."""

    across: CubicMeter
    down: CubicMeter
    edge: Meter
    steps: tuple[Step, ...]


def rails(fence: Exposed) -> tuple[Finding, ...]:
    """Rails of one stretch that bend, the worst of them; nothing where it has none."""
    if fence.stretch.buildup.posts is None or all(is_wire(rail.kind) for rail in fence.stretch.buildup.rails):
        return ()
    question = Question(check=CHECK, subject=f"stretch {fence.stretch.name}", left_out=LEFT_OUT)
    return (answered(question, lambda: _worst(fence)),)


def _worst(fence: Exposed) -> Finding:
    stiff = [each for each in loaded_rails(fence) if not is_wire(each.rail.kind)]
    return governing(tried(partial(find, fence, each)) for each in stiff for find in (_bent, _sagged))


def _bent(fence: Exposed, each: Loaded) -> Finding:
    across = work(cantilevers.span_moment, why="bent by the wind", load=each.across, span=each.span)
    down = work(cantilevers.span_moment, why="bent by the weight", load=each.down, span=each.span)
    found = bent(each.rail.kind, across, down)
    return replace(
        found, because=_says(fence, each), working=(*each.working, *found.working),
        figures=(*fence.figures, *found.figures, *fence.factors.allowable),
        mend=found.mend and "a stouter rail, closer posts, a rail more or lower mesh",
    )  # fmt: skip


def bent(kind: Kind, across: Step, down: Step) -> Finding:
    """Stress in a rail bent level and down, by moments found before.

    Raises:
        NotFoundError: its size, or what it may take, is not known.
    """
    if not kind.has("allowable"):
        raise NotFoundError(
            f"no allowable stress is known for {kind.name}; write allowable beside the rail in the plan"
        )
    allowed, section = kind.figure("allowable"), modulus_of(kind)
    stresses = [
        work(post_sections.bending_stress, why="stress by either", moment=moment.number, modulus=modulus)
        for moment, modulus in ((across, section.across), (down, section.down))
    ]
    stress = _together(kind, stresses[0].number, stresses[1].number)
    return Finding(
        check=CHECK, subject="", demand=stress, capacity=allowed.value, unit=PASCAL,
        working=(*section.steps, across, down, *stresses),
        figures=(*_sizes(kind), (f"allowable stress of {kind.name}", allowed)),
        mend="" if keeps_to(stress, allowed.value) else "a stouter rail or closer posts",
    )  # fmt: skip


def _together(kind: Kind, across: float, down: float) -> float:
    """Round ones bend one way, by both as arrows; square ones over an edge, where the stresses add."""
    return across + down if kind.word("section") == "rectangle" else math.hypot(across, down)


def _sagged(fence: Exposed, each: Loaded) -> Finding:
    kind = each.rail.kind
    if not kind.has("modulus"):
        raise NotFoundError(f"no modulus of elasticity is known for {kind.name}; write modulus beside the rail")
    section, allowed = modulus_of(kind), RAIL_SAG.value * each.span
    inertia = work(
        cantilevers.second_moment, why="stiffness against the wind", modulus=section.across, edge=section.edge
    )  # fmt: skip
    moved = work(
        cantilevers.span_sag, why="how far it gives in the wind", load=each.across, span=each.span,
        modulus=kind.value("modulus"), second_moment=inertia.number,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=moved.number, capacity=allowed, unit=METER,
        because=told("how far it gives between posts", _says(fence, each)),
        working=(*each.working, *section.steps, inertia, moved),
        figures=(*fence.figures, *_sizes(kind), *fence.factors.allowable, ("give of a rail", RAIL_SAG)),
        mend="" if keeps_to(moved.number, allowed) else "a stouter rail, closer posts, a rail more or lower mesh",
    )  # fmt: skip


def modulus_of(kind: Kind) -> Modulus:
    """Section moduli of a rail; sawn ones stand on edge.

    Raises:
        NotFoundError: its size is not known.
    """
    section = kind.word("section")
    if section == "rectangle":
        width, depth = kind.value("width"), kind.value("depth")
        why = "section of the rail on edge"
        across = work(post_sections.rectangle_modulus, why=f"{why}, against wind", width=depth, depth=width)
        down = work(post_sections.rectangle_modulus, why=f"{why}, against weight", width=width, depth=depth)
        return Modulus(across.number, down.number, width / 2, (across, down))
    diameter = kind.value("diameter")
    if section == "pipe":
        step = work(post_sections.pipe_modulus, why="section of the rail", outside=diameter, wall=kind.value("wall"))
    else:
        step = work(post_sections.round_modulus, why="section of the rail", diameter=diameter)
    return Modulus(step.number, step.number, diameter / 2, (step,))


def _sizes(kind: Kind) -> Named:
    names = ("diameter", "wall", "width", "depth", "mass_per_length")
    return tuple((f"{name.replace('_', ' ')} of {kind.name}", kind.figure(name)) for name in names if kind.has(name))


def _says(fence: Exposed, each: Loaded) -> str:
    return told(f"{each.rail.kind.name}, jointed on the posts", *fence.wind.mesh_notes)
