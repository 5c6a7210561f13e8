"""Stress in a bent post against what it may take: a shipped or given stress, or wood by its table with the factors."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import post_sections, wood
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.figures import STEADY_DURATION, WIND_DURATION
from pinfold.studies.stability.fencing.sections import ROUND, modulus_of
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, NewtonMeter, Pascal

THICK: Meter = 5 * 0.0254 - 0.02
"""Sawn posts from 5 in by name on are timbers: nothing off for wet ground, and off for depth only past a foot."""


@dataclass(frozen=True, kw_only=True)
class Stress:
    """Stress in a post, and what it may take.

    Attributes:
        demand: stress at the edge.
        capacity: allowed.
        working: lines that lead to both.
        figures: that went in.
        note: what the stress allowed rests on; may be empty.
    """

    demand: Pascal
    capacity: Pascal
    working: tuple[Step, ...]
    figures: Named
    note: str = ""


def stress_of(
    kind: Kind, moment: NewtonMeter, *, steady: NewtonMeter, why: str, lasts: Figure = WIND_DURATION
) -> Stress:  # fmt: skip
    """Stress in a post of so much moment, a part of which never lets go.

    Args:
        kind: of post
        moment: all of it, wind or push in it
        steady: of wires and leaves alone
        why: what the line of working says
        lasts: load duration of wood for what comes and goes

    Raises:
        NotFoundError: its section, or what it may take, is not known.
    """
    modulus, steps, sized = modulus_of(kind)
    bent = work(post_sections.bending_stress, why=why, moment=moment, modulus=modulus)
    if not kind.has("table_bending"):
        allowed = _allowed(kind)
        return Stress(
            demand=bent.number, capacity=allowed.value, working=(*steps, bent),
            figures=(*sized, ("allowable stress of the post", allowed)),
        )  # fmt: skip
    passing = _by_table(kind, bent, lasts)
    if steady <= 0:
        return _with(passing, steps, sized)
    pulled = work(post_sections.bending_stress, why="by what pulls for good alone", moment=steady, modulus=modulus)
    lasting = _by_table(kind, pulled, STEADY_DURATION)
    worse = max(passing, lasting, key=lambda each: each.demand / each.capacity if each.capacity > 0 else math.inf)
    return _with(worse, steps, sized)


def _allowed(kind: Kind) -> Figure:
    if not kind.has("allowable"):
        raise NotFoundError(f"no allowable stress is known for {kind.name}; write allowable beside it in the plan")
    return kind.figure("allowable")


def _by_table(kind: Kind, bent: Step, duration: Figure) -> Stress:
    """Wood by the stress of its table: factors for duration, wet ground, size and treatment cut in."""
    table, sawn = kind.figure("table_bending"), kind.word("section") not in ROUND
    thin = sawn and kind.value("width") < THICK
    steps, size, wet = [bent], 1.0, 1.0
    if thin:
        damp = work(wood.wet_factor, why="wet in the ground", bending=table.value)
        steps, wet = [*steps, damp], damp.number
    else:
        deep = work(wood.timber_size_factor, why="size of a timber", depth=kind.value("width"))
        steps, size = [*steps, deep], deep.number
    incised = kind.value("incising") if kind.has("incising") else 1.0
    allowed = work(
        wood.adjusted_stress, why="stress of the table with its factors", reference=table.value,
        duration=duration.value, wet=wet, size=size, incised=incised,
    )  # fmt: skip
    cut = (("factor for treatment cut in", kind.figure("incising")),) if kind.has("incising") else ()
    return Stress(
        demand=bent.number, capacity=allowed.number, working=(*steps, allowed),
        figures=(("bending stress of its table", table), ("load duration", duration), *cut),
        note="" if duration is not STEADY_DURATION else "what pulls for good counts by itself, where wood takes less",
    )  # fmt: skip


def _with(stress: Stress, steps: tuple[Step, ...], sized: Named) -> Stress:
    return replace(stress, working=(*steps, *stress.working), figures=(*sized, *stress.figures))
