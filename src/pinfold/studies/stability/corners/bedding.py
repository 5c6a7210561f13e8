"""The lowest bed of a panel at a corner that hands part of its wind to the wall around."""

from __future__ import annotations

from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import corners
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.beds import CHECK
from pinfold.studies.stability.cases import Case
from pinfold.studies.stability.corners.leaning import blown_about, leans_on
from pinfold.studies.stability.corners.plates import hold_of, panel_length, plate_of
from pinfold.units import NEWTON_METER_PER_METER


def bedded_at_corner(case: Case, alone: Finding) -> Finding:
    """Whether bed and corner together carry what acts on the panel, given what was found of its bed alone.

    Beds that pull nothing stay as they are.

    Raises:
        NotFoundError: what goes around the corner is not known.
        OutOfRangeError: past the tables.
    """
    blown = blown_about(case, case.piece.sunk)
    if case.around is None or alone.check != CHECK or alone.demand is None or blown <= 0:
        return alone
    plate, hold, factors = plate_of(case), hold_of(case, case.around), case.acting.factors
    back = work(
        corners.return_moment, why="what the weight on the bed around the corner holds, with its factor",
        load=factors.weight.value * hold.weight.wall, reach=hold.reach, length=panel_length(case),
    )  # fmt: skip
    held = work(
        corners.moment_with_corner, why="what bed and corner bear together", along=plate.along, across=plate.across,
        blown=blown, twist=plate.twist, most=min(plate.by_shear, back.number / blown, 1.0),
    )  # fmt: skip
    demand = factors.load.value * case.about_bed.moment
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=held.number, unit=NEWTON_METER_PER_METER,
        because=told(leans_on(case.around), *case.acting.notes),
        working=(*case.acting.working, *case.light.working, *case.about_bed.working, *plate.working, *hold.working,
                 back, held),
        figures=(*case.acting.figures, *case.light.figures, *plate.figures, *hold.figures, *factors.balance),
        mend="" if keeps_to(demand, held.number) else "bars lapped with dowels out of the footing, or a thicker wall",
        left_out=alone.left_out,
    )  # fmt: skip
