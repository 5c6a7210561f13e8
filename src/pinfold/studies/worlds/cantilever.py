"""A piece of wall as what many worlds need of it: the lines of working that turn it, weigh it and hold it."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.plan.place import Family
from pinfold.studies.stability.bedding import section_of, tension_of
from pinfold.studies.stability.beds import crossing_bars, foot_of_wall
from pinfold.studies.stability.cases import Case
from pinfold.studies.worlds.replay import replayed, steps_named
from pinfold.units import Meter, Ratio

_PRESSURES = ("wind.wall_pressure", "wind.lattice_pressure")


@dataclass(frozen=True, kw_only=True)
class Bars:
    """Bars across the lowest bed: the line of working that tells what one carries, and their spacing."""

    step: Step
    spacing: Meter


@dataclass(frozen=True, kw_only=True)
class Cantilever:
    """A piece of wall on its footing.

    Attributes:
        family: of standards its figures come from.
        cast: whether it is poured, rammed, bagged or of stone, not laid of sized units.
        about_bed: lines that turn it about its lowest bed.
        about_base: lines that turn it about the underside of its base.
        layers: lines of its weight above the lowest bed, the wall itself first.
        below: lines of the weight of footing and of soil on it.
        eased: how many times smaller the pressures are without the least pressure that the standard asks for.
        section: line of its bedded section.
        thickness: of the wall.
        height: of the wall above its lowest bed.
        width: of the base.
        tension: what the lowest bed pulls by the checks; None where it pulls nothing.
        bars: that cross the lowest bed; None without.
    """

    family: Family
    cast: bool
    about_bed: tuple[Step, ...]
    about_base: tuple[Step, ...]
    layers: tuple[Step, ...]
    below: tuple[Step, ...]
    eased: Ratio
    section: Step
    thickness: Meter
    height: Meter
    width: Meter
    tension: Figure | None
    bars: Bars | None


def cantilever_of(case: Case) -> Cantilever:
    """A piece of wall ready for many worlds.

    Raises:
        NotFoundError: wind, masses or strengths are not known.
        OutOfRangeError: past the tables.
    """
    piece, weight = case.piece, case.light
    tension, _ = tension_of(case.of.family, piece)
    _, _, steps = section_of(piece.wall)
    split = len(weight.working) - _below(case)
    return Cantilever(
        family=case.of.family, cast=piece.wall.kind.word("make") != "units", about_bed=case.about_bed.working,
        about_base=case.about_base.working, layers=weight.working[:split], below=weight.working[split:],
        eased=_eased(case), section=steps[-1], thickness=piece.wall.thickness, height=piece.body,
        width=piece.base.width, tension=tension if tension is not None and tension.value > 0 else None,
        bars=_bars(case),
    )  # fmt: skip


def _below(case: Case) -> int:
    """How many of the lines of weight lie below the lowest bed."""
    return 0 if case.light.below <= 0 else 1 if case.light.fill <= 0 else 2


def _eased(case: Case) -> Ratio:
    """The governing pressure on the wall without the standard's least pressure, beside the one with it."""
    steps = [step for name in _PRESSURES for step in steps_named(case.wind.on_wall, name)]
    if not steps or case.wind.wall <= 0:
        return 1.0
    return float(replayed(steps[-1], minimum=0.0)) / case.wind.wall


def _bars(case: Case) -> Bars | None:
    crossing = crossing_bars(case.piece)
    if crossing is None:
        return None
    carried = steps_named(foot_of_wall(case).working, "masonry.moment_in_steel")
    if not carried:
        return None  # the bed holds without them
    return Bars(step=carried[-1], spacing=crossing[1])
