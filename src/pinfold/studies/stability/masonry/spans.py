"""A plain wall that spans level between uprights: tension along its beds."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import masonry, wall_spans
from pinfold.plan.buildups import Wall
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.bed_strengths import tension_along
from pinfold.studies.stability.bedding import section_of
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.factors import MATERIAL_FACTOR
from pinfold.units import NEWTON_METER_PER_METER, PASCAL, Meter, Pascal, Ratio


@dataclass(frozen=True, kw_only=True)
class Span:
    """A panel of plain wall that spans level.

    Attributes:
        check: the check's word.
        wall: as it stands between the uprights.
        length: that it spans.
        coefficient: of its moment, over pressure and length squared.
        added: pressure beside that of the wind on the wall.
        working: how the coefficient was found.
        notes: what the panel rests on.
        left_out: what the check does not look at.
        mend: what would mend it.
    """

    check: str
    wall: Wall
    length: Meter
    coefficient: Ratio
    added: Pascal
    working: tuple[Step, ...]
    notes: tuple[str, ...]
    left_out: str
    mend: str


def spanning_level(case: Case, span: Span) -> Finding:
    """Whether the wall between two uprights carries the wind on it.

    Raises:
        NotFoundError: the wind or the tension along the beds is not known.
        OutOfRangeError: past the tables.
    """
    factors, wind = case.acting.factors, case.wind
    tension = tension_along(case.of.family, span.wall)
    _, modulus, section = section_of(span.wall)
    bent = work(
        wall_spans.panel_moment, why="moment along the beds", coefficient=span.coefficient,
        pressure=wind.wall + span.added, length=span.length,
    )  # fmt: skip
    working = (*case.acting.working, *span.working, *section, bent)
    figures = (*case.acting.figures, ("tension along the beds", tension))
    notes = told(*span.notes, "no arching from upright to upright is counted", *wind.notes)
    if case.of.family is Family.US:
        demand, capacity, unit = factors.service.value * bent.number / modulus, tension.value, PASCAL
        figures = (*figures, *factors.allowable)
    else:
        held = work(
            masonry.moment_by_en1996, why="moment that the wall resists along its beds", strength=tension.value,
            material_factor=MATERIAL_FACTOR.value, stress=0.0, modulus=modulus,
        )  # fmt: skip
        demand, capacity, unit = factors.strength.value * bent.number, held.number, NEWTON_METER_PER_METER
        working = (*working, held)
        figures = (*figures, ("material factor", MATERIAL_FACTOR), (f"factor on the {factors.of}", factors.strength))
    return Finding(
        check=span.check, subject="", demand=demand, capacity=capacity, unit=unit, because=notes, working=working,
        figures=figures, left_out=span.left_out, mend="" if keeps_to(demand, capacity) else span.mend,
    )  # fmt: skip
