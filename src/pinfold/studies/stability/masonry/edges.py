"""The pressed edge of a wall whose beds pull nothing: dry stone, earth, weak mortar, a sheet at its foot."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import bearing, wall_levels
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.bed_strengths import pressed_share
from pinfold.studies.stability.bedding import tension_of
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.studies.stability.weights import Weight
from pinfold.units import NEWTON_PER_METER, PASCAL

CHECK = "pressed edge"
_MEND = "a thicker or lower wall, stronger units along its foot, or less mesh above it"


def pulls_nothing(case: Case) -> bool:
    """Whether no tension is taken across the lowest bed."""
    tension, _ = tension_of(case.of.family, case.piece)
    return tension is None or tension.value <= 0


def pressed_edge(case: Case) -> Finding:
    """Whether the edge that the load leans on bears it.

    Raises:
        NotFoundError: what acts, masses or the strength are not known.
        OutOfRangeError: the load leaves the wall; the message names the check that tells.
    """
    strength = case.piece.wall.kind.figure("compressive")
    weights = (case.light,) if case.heavy is case.light else (case.light, case.heavy)
    try:
        found = [_under(case, strength, weight) for weight in weights]
    except OutOfRangeError as off:
        raise OutOfRangeError(f"the load leaves the wall, see the resultant in its base: {off}") from None
    return max(found, key=lambda finding: finding.use or 0.0)


def _under(case: Case, strength: Figure, weight: Weight) -> Finding:
    factors, wall = case.acting.factors, case.piece.wall
    load = factors.weight.value * weight.wall
    off = work(
        bearing.eccentricity, why="how far off the middle the load stands on the lowest bed",
        moment=factors.load.value * case.about_bed.moment, load=load,
    )  # fmt: skip
    notes = told("of the whole thickness, cells and gaps in it", *case.acting.notes, *weight.notes)
    common = (*case.acting.figures, *weight.figures, ("strength", strength), *factors.balance)
    if case.of.family is Family.EU:
        held = work(
            wall_levels.crushing_load, why="load at which the pressed part crushes",
            strength=strength.value / MATERIAL_FACTOR.value, thickness=wall.thickness, eccentricity=off.number,
        )  # fmt: skip
        demand, capacity, unit, last, share = load, held.number, NEWTON_PER_METER, held, MATERIAL_FACTOR
    else:
        edge = work(
            bearing.base_pressure, why="pressure at the edge", load=load, width=wall.thickness, eccentricity=off.number
        )
        assert isinstance(edge.result, bearing.BasePressure)
        share = pressed_share(wall)
        demand, capacity, unit, last = edge.result.toe, share.value * strength.value, PASCAL, edge
    named = "material factor" if case.of.family is Family.EU else "share of the strength"
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=capacity, unit=unit, because=notes,
        working=(*case.acting.working, *weight.working, *case.about_bed.working, off, last),
        figures=(*common, (named, share)), mend="" if keeps_to(demand, capacity) else _MEND,
    )  # fmt: skip
