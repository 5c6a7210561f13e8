"""Changes of what hangs between posts: stouter rails, wires strained harder."""

from __future__ import annotations

import math

from pinfold.errors import NotFoundError
from pinfold.plan.changes import Put
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.mending.records import Lever
from pinfold.studies.stability.fencing.rails import modulus_of
from pinfold.studies.stability.pulls import is_wire
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import UNIT_BY_SYMBOL, System

_HARDEST = 0.3
"""Share of its breaking strength that a wire is strained to at most when slack is mended (pinfold's own)."""
_STEPS = 4


def rails_stouter(plan: Enclosure, name: str) -> Lever | None:
    """Stouter rails in place of the weakest that bends, pipe for bar."""
    rails = [(number, rail) for number, rail in enumerate(plan.buildups[name].rails) if not is_wire(rail.kind)]
    known = [(strength, number, rail.kind) for number, rail in rails if (strength := _strength(rail.kind)) is not None]
    if not known:
        return None
    here, number, kind = min(known, key=lambda each: each[0])
    others = [(strength, other) for other in shelf("rails").values() if (strength := _strength(other)) is not None]
    stouter = sorted((pair for pair in others if pair[0] > 1.05 * here), key=lambda pair: pair[0])
    kinds = [other.name for _, other in stouter if _alike(kind, other)]
    path = ("buildup", name, "rail", str(number), "kind")
    return Lever("stouter rails", tuple((Put(path, other),) for other in kinds))


def _alike(kind: Kind, other: Kind) -> bool:
    """Of one material, and both by the inch or both by the millimeter."""
    size = "width" if kind.has("width") else "diameter"
    own = "width" if other.has("width") else "diameter"
    inches = [kind.figure(size).printed.endswith("in"), other.figure(own).printed.endswith("in")]
    return not is_wire(other) and other.word("material") == kind.word("material") and inches[0] is inches[1]


def _strength(kind: Kind) -> float | None:
    """Moment of the wind a rail carries; None for wires and where it is not known."""
    if is_wire(kind):
        return None
    try:
        return modulus_of(kind).across * kind.value("allowable")
    except NotFoundError:
        return None


def wires_harder(plan: Enclosure, name: str) -> Lever | None:
    """All wires of the build-up strained harder, step by step."""
    wires = [(number, rail.kind) for number, rail in enumerate(plan.buildups[name].rails) if is_wire(rail.kind)]
    if not wires or not all(kind.has("tension") and kind.has("breaking") for _, kind in wires):
        return None
    steps = [
        tuple(
            Put(("buildup", name, "rail", str(number), "tension"), _text(kind, share / _STEPS, plan.units))
            for number, kind in wires
        )
        for share in range(1, _STEPS + 1)
    ]
    return Lever("wires strained harder", tuple(steps))


def _text(kind: Kind, share: float, system: System) -> str:
    """Part of the way from the tension of a wire to the most it is strained to."""
    own, most = kind.value("tension"), _HARDEST * kind.value("breaking")
    sign = "lbf" if system is System.US else "N"
    return f"{math.ceil((own + share * max(most - own, 0.0)) / UNIT_BY_SYMBOL[sign].factor)} {sign}"
