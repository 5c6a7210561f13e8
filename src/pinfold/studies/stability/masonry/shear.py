"""Shear at the foot of a wall: one course sliding on another, the bond of mortar, and masonry with bars."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import bed_shear, walls
from pinfold.plan.buildups import Grout
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.bed_strengths import initial_shear, rub_of
from pinfold.studies.stability.bedding import section_of, tension_of
from pinfold.studies.stability.beds import crossing_bars
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.units import NEWTON_PER_METER, PASCAL

CHECK = "shear in a bed"
_MEND = "mortar of a stronger kind, bars with dowels, a heavier wall, or the sheet left out at its foot"


def shear(case: Case) -> Finding:
    """Whether the lowest bed of a piece holds what pushes it level.

    Raises:
        NotFoundError: what acts, masses or strengths are not known.
        OutOfRangeError: past the tables.
    """
    wall, family = case.piece.wall, case.of.family
    at_sheet = wall.membrane and not wall.membrane_at
    if not at_sheet and family is Family.EU:
        initial = initial_shear(wall)
        if initial is not None:
            return _european(case, initial)
    tension, _ = tension_of(family, case.piece)
    if not at_sheet and family is Family.US and tension is not None and tension.value > 0:
        return _american(case)
    return _rubbed(case, at_sheet=at_sheet)


def _american(case: Case) -> Finding:
    factors, wall, weight = case.acting.factors, case.piece.wall, case.light
    area, _, section = section_of(wall)
    made = work(
        bed_shear.shear_stress, why="shear in the lowest bed, the load with its factor",
        force=factors.load.value * case.about_bed.force, area=area,
    )  # fmt: skip
    strength = wall.kind.figure("compressive")
    allowed = work(
        bed_shear.shear_by_tms402, why="what the bed stands, weight with its factor", masonry_strength=strength.value,
        load=factors.weight.value * weight.wall, area=area,
        bond="grouted" if wall.grout is Grout.FULL else "running",
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=made.number, capacity=allowed.number, unit=PASCAL,
        because=told(*case.acting.notes, *weight.notes),
        working=(*case.acting.working, *weight.working, *case.about_bed.working, *section, made, allowed),
        figures=(*case.acting.figures, *weight.figures, ("strength of the masonry", strength), *factors.balance),
        mend="" if keeps_to(made.number, allowed.number) else _MEND,
    )  # fmt: skip


def _european(case: Case, initial: Figure) -> Finding:
    factors, wall, weight = case.acting.factors, case.piece.wall, case.light
    area, _, section = section_of(wall)
    units = wall.kind.figure("compressive")
    strength = work(
        bed_shear.shear_by_en1996, why="shear strength of the bed, weight with its factor", initial=initial.value,
        stress=factors.weight.value * weight.wall / area, unit_strength=units.value,
    )  # fmt: skip
    demand, capacity = factors.strength.value * case.about_bed.force, strength.number * area / MATERIAL_FACTOR.value
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=capacity, unit=NEWTON_PER_METER,
        because=told(
            "the masonry's own strength stands for that of its units", "the strength is divided by the material factor",
            *case.acting.notes, *weight.notes,
        ),
        working=(*case.acting.working, *weight.working, *case.about_bed.working, *section, strength),
        figures=(
            *case.acting.figures, *weight.figures, ("initial shear strength", initial), ("strength", units),
            ("material factor", MATERIAL_FACTOR), (f"factor on the {factors.of}", factors.strength),
            ("factor on weight that helps", factors.weight),
        ),
        mend="" if keeps_to(demand, capacity) else _MEND,
    )  # fmt: skip


def _rubbed(case: Case, *, at_sheet: bool) -> Finding:
    factors, weight = case.acting.factors, case.light
    rub = rub_of(case.piece.wall, at_sheet=at_sheet)
    held = work(
        walls.sliding_resistance, why="friction on the lowest bed, weight with its factor",
        load=factors.weight.value * weight.wall, friction=rub.friction.value, cohesion=0.0,
        width=case.piece.wall.thickness,
    )  # fmt: skip
    demand = factors.load.value * case.about_bed.force
    dowels = "the bars across it are not counted" if crossing_bars(case.piece) is not None else ""
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=held.number, unit=NEWTON_PER_METER,
        because=told(rub.why, dowels, *case.acting.notes, *weight.notes),
        working=(*case.acting.working, *weight.working, *case.about_bed.working, held),
        figures=(*case.acting.figures, *weight.figures, ("friction", rub.friction), *factors.balance),
        mend="" if keeps_to(demand, held.number) else _MEND,
    )  # fmt: skip
