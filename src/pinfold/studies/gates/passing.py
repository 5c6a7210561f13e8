"""Who passes the gaps of a gate: under it, beside it, between its leaves, through its mesh."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.figures import Figure
from pinfold.studies.gates.latching import mesh_opening
from pinfold.studies.gates.records import GateFrame
from pinfold.studies.layout.records import GatePlace
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Meter


class Passes(StrEnum):
    """Whether one passes."""

    STOPPED = "stopped"
    PASSES = "may pass"
    NOT_SHOWN = "NOT SHOWN"


@dataclass(frozen=True, kw_only=True)
class GateGap:
    """One gap of a gate.

    Attributes:
        name: under, beside, between or mesh.
        width: its least size, the ground at its lowest.
        long: whether it is long the other way.
    """

    name: str
    width: Meter
    long: bool


@dataclass(frozen=True, kw_only=True)
class Passer:
    """An animal, or a child, at all gaps.

    Attributes:
        name: of the shelf `passers`.
        says: in words.
        at: for each gap in order, whether one passes.
        figures: what that rests on.
    """

    name: str
    says: str
    at: tuple[Passes, ...]
    figures: tuple[tuple[str, Figure], ...]


def gaps_of(frame: GateFrame, place: GatePlace) -> tuple[GateGap, ...]:
    """Every gap, measured where it is largest."""
    size = frame.size
    found = [
        GateGap(name="under", width=_under(place), long=True),
        GateGap(name="beside", width=size.meters(max(size.gaps[0], size.gaps[-1])), long=True),
    ]
    if place.gate.leaves == 2:
        found.append(GateGap(name="between", width=size.meters(size.gaps[1]), long=True))
    opening = mesh_opening(frame)
    if opening is not None:
        found.append(GateGap(name="mesh", width=opening[0], long=opening[1] > 1.5 * opening[0]))
    return tuple(found)


def _under(place: GatePlace) -> Meter:
    """Down to the lowest ground; with a sill the larger of the gaps above and below it."""
    if place.gate.sill is None:
        return place.hang - place.low
    return max(place.hang - place.sill, place.sill - place.gate.sill.height - place.low)


def passers(gaps: tuple[GateGap, ...]) -> tuple[Passer, ...]:
    """Everyone of the shelf at all gaps."""
    return tuple(
        Passer(
            name=each.name, says=each.says, at=tuple(passes(each, gap) for gap in gaps),
            figures=tuple((f"{each.says}, {name}", each.figure(name)) for name in ("slot", "round") if each.has(name)),
        )
        for each in shelf("passers").values()
    )  # fmt: skip


def passes(who: Kind, gap: GateGap) -> Passes:
    """Whether one passes a gap; NOT SHOWN where no figure is known."""
    asked = "slot" if gap.long else "round"
    if not who.has(asked):
        return Passes.NOT_SHOWN
    return Passes.PASSES if gap.width >= who.value(asked) - 1e-9 else Passes.STOPPED
