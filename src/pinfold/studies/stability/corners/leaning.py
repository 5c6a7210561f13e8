"""Panels at corners that lean on the wall around: overturning, and the ground under both walls."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import bearing, corners, walls
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.corners.plates import Hold, Plate, hold_of, panel_length, plate_of
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.left_out import left_out_of
from pinfold.studies.stability.returns import Return
from pinfold.studies.stability.weights import Weight
from pinfold.units import PASCAL, Meter, NewtonMeterPerMeter, Pascal, Ratio


def leans_on(around: Return) -> str:
    """What to say of a panel that leans on the wall around its corner."""
    return f"at its corner it leans on stretch {around.name}, with which it is bonded course by course"


@dataclass(frozen=True, kw_only=True)
class Handed:
    """What a panel hands around its corner.

    Attributes:
        moment: about the underside of the base, per length of panel, with the factor on the wind.
        hold: the wall around the corner.
        working: how it was found.
        figures: that went in.
    """

    moment: NewtonMeterPerMeter
    hold: Hold
    working: tuple[Step, ...]
    figures: Named


def blown_about(case: Case, below: Meter) -> NewtonMeterPerMeter:
    """Moment of the wind on the wall itself about a level so far below the ground, with its factor."""
    turned = walls.wind_moment(pressure=case.wind.wall, height=case.piece.exposed, arm_share=case.wind.arm, below=below)
    return case.acting.factors.load.value * turned


@lru_cache(maxsize=64)  # asked of the wall turning over, then of the ground under it
def handed_around(case: Case, around: Return) -> Handed:
    """The most that goes around a corner: what the panel can hand on and the wall around it can hold.

    Raises:
        NotFoundError: that is not known, or is nothing.
        OutOfRangeError: past the tables.
    """
    plate, hold = plate_of(case), hold_of(case, around)
    factors, on_base = case.acting.factors, blown_about(case, case.piece.depth)
    back = work(
        corners.return_moment, why="what the weight of the wall around the corner holds, with its factor",
        load=factors.weight.value * hold.lifted, reach=hold.reach, length=panel_length(case),
    )  # fmt: skip
    share = _share(case, plate, back.number / on_base if on_base > 0 else 0.0)
    moved = work(
        corners.moment_around, why="moment about the base that goes around the corner", share=share.number,
        blown=on_base,
    )  # fmt: skip
    if moved.number <= 0:
        raise NotFoundError("the panel does not carry its wind to it")
    return Handed(
        moment=moved.number, hold=hold, working=(*plate.working, *hold.working, back, share, moved),
        figures=(*plate.figures, *hold.figures),
    )  # fmt: skip


def _share(case: Case, plate: Plate, held: Ratio) -> Step:
    """Share of the wind that goes around, the bed bearing what is left beside the twist."""
    bent = case.acting.factors.load.value * case.about_bed.moment
    return work(
        corners.share_around_corner, why="greatest share of the wind that the panel carries to the corner",
        along=plate.along, across=plate.across, bent=bent, blown=min(blown_about(case, case.piece.sunk), bent),
        twist=plate.twist, most=min(plate.by_shear, held, 1.0),
    )  # fmt: skip


def leaning_over(case: Case, alone: Finding) -> Finding:
    """Whether panel and wall around the corner stand together, given what was found of the panel alone.

    Raises:
        NotFoundError: what goes around the corner is not known, or is nothing.
        OutOfRangeError: past the tables.
    """
    if case.around is None or alone.demand is None or alone.capacity is None:
        return alone
    handed = handed_around(case, case.around)
    capacity = alone.capacity + handed.moment
    return replace(
        alone, capacity=capacity, because=told(leans_on(case.around), alone.because),
        working=(*alone.working, *handed.working), figures=(*alone.figures, *handed.figures),
        mend="" if keeps_to(alone.demand, capacity) else alone.mend,
    )  # fmt: skip


def pressing_both(case: Case, alone: Finding) -> Finding:
    """Whether the ground bears panel and wall around the corner together, the panel pressing it all over.

    Raises:
        NotFoundError: what goes around the corner, or the soil, is not known.
        OutOfRangeError: one of the two tips over before it presses, or past the tables.
    """
    soil, factors = case.of.place.soil, case.acting.factors
    if case.around is None or soil is None:
        return alone
    allowed, handed = soil.figure("bearing"), handed_around(case, case.around)
    weights = (case.light,) if case.heavy is case.light else (case.light, case.heavy)
    ways = [
        _under(case, case.around, handed, (weight, share.value)) for weight in weights for share in factors.pressing
    ]
    demand, working = max(ways, key=lambda way: way[0])
    return Finding(
        check="bearing", subject="", demand=demand, capacity=allowed.value, unit=PASCAL,
        because=told(leans_on(case.around), *case.acting.notes, *case.light.notes),
        working=(*case.acting.working, *case.light.working, *case.about_base.working, *handed.working, *working),
        figures=(*case.acting.figures, *case.light.figures, *handed.figures, ("bearing of the ground", allowed),
                 *factors.allowable),
        mend="" if keeps_to(demand, allowed.value) else "wider footing",
        left_out="; ".join(part for part in (left_out_of(case.of), soil.word("note")) if part),
    )  # fmt: skip


def _under(case: Case, around: Return, handed: Handed, by: tuple[Weight, Ratio]) -> tuple[Pascal, tuple[Step, ...]]:
    """Pressure under the worse of both: the panel leans as far as it presses all over, the other takes the rest."""
    (weight, share), factors = by, case.acting.factors
    load, width = share * weight.total, case.piece.base.width
    turned = factors.service.value * case.about_base.moment
    most = handed.moment * factors.service.value / factors.load.value
    moved = min(max(turned - load * width / 6, 0.0), most)
    under_panel = work(
        bearing.base_pressure, why="under the panel", load=load, width=width, eccentricity=(turned - moved) / load,
    )  # fmt: skip
    other, reach = share * handed.hold.weight.total, handed.hold.reach
    under_other = work(
        bearing.base_pressure, why="under the wall around the corner, tilted along its length",
        load=other * reach / around.piece.base.width, width=reach,
        eccentricity=moved * panel_length(case) / (other * reach),
    )  # fmt: skip
    first, second = under_panel.result, under_other.result
    assert isinstance(first, bearing.BasePressure)
    assert isinstance(second, bearing.BasePressure)
    return max(first.toe, second.toe), (under_panel, under_other)
