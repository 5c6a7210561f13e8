"""Factors, allowances and rules of thumb that the checks take, each with where it comes from."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pinfold.figures import Figure, practice, printed
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.units import KG_PER_CUBIC_METER, METER, PASCAL, RATIO, SQUARE_METER_PER_METER

Named = tuple[tuple[str, Figure], ...]
"""Figures by the name a report gives them."""


@dataclass(frozen=True, kw_only=True)
class Combination:
    """Which share of a load and of the weight goes into which check.

    Attributes:
        of: what the load is, such as `wind`.
        load: on the load where balance is checked: overturning, sliding, the resultant on dry beds.
        weight: on weight that helps there.
        service: on the load where allowable pressures and stresses are checked: ground, posts, bars.
        strength: on the load where a design strength is checked.
        pressing: on the weight where the pressure on the ground is checked; the worst of them counts.
    """

    of: str
    load: Figure
    weight: Figure
    service: Figure
    strength: Figure
    pressing: tuple[Figure, ...]

    @property
    def balance(self) -> Named:
        """The two factors of the balance."""
        return ((f"factor on the {self.of}", self.load), ("factor on weight that helps", self.weight))

    @property
    def allowable(self) -> Named:
        """The factor beside allowable stresses."""
        return ((f"factor on the {self.of}", self.service),)


_WHOLE = printed("1.0", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.4, all of the weight beside 0.6 of the wind")
_ASD = printed("0.6", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.4, allowable-stress combinations")
COMBINATIONS = {  # of the wind
    Family.US: Combination(of="wind", load=_ASD, weight=_ASD, service=_ASD, strength=_ASD, pressing=(_WHOLE, _ASD)),
    Family.EU: Combination(
        of="wind",
        load=printed("1.5", RATIO, Standing.MEMORY, "EN-1990", "set A, balance"),
        weight=printed("0.9", RATIO, Standing.MEMORY, "EN-1990", "set A, balance"),
        service=printed("1.0", RATIO, Standing.MEMORY, "EN-1990", "characteristic wind beside allowable pressures"),
        strength=printed("1.5", RATIO, Standing.MEMORY, "EN-1990", "set B, strength"),
        pressing=(
            printed("1.0", RATIO, Standing.MEMORY, "EN-1990", "characteristic weight beside allowable pressures"),
        ),
    ),
}

_ALL = printed("1.0", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.4, all of the live load")
_HELPS = practice("0.6", RATIO, "weight that helps, as ASCE 7 has it beside the wind")
PUSHES = {
    Family.US: Combination(of="push", load=_ALL, weight=_HELPS, service=_ALL, strength=_ALL, pressing=(_WHOLE, _HELPS)),
    Family.EU: replace(COMBINATIONS[Family.EU], of="push"),
}
"""Shares of a push and of weight, nobody pushing in a storm; the European family takes those of the wind."""
_QUAKE = printed("0.7", RATIO, Standing.READ, "REINFORCED-MASONRY-BOOK", "strength level to allowable stress")
EARTHQUAKE = Combination(of="earthquake", load=_QUAKE, weight=_ASD, service=_QUAKE, strength=_QUAKE, pressing=(_WHOLE,))
"""Shares of an earthquake and of weight in the American family, before the heaving of the ground."""
QUAKE_FENCE = (
    ("importance", printed("1.0", RATIO, Standing.READ, "ASCE7-05", "13.1.3, usual things")),
    ("amplification", printed("2.5", RATIO, Standing.READ, "ASCE7-05", "table 13.5-1, unbraced cantilevers")),
    ("response", printed("2.5", RATIO, Standing.READ, "ASCE7-05", "table 13.5-1, unbraced cantilevers")),
    ("height_share", printed("1.0", RATIO, Standing.READ, "REINFORCED-MASONRY-BOOK", "fence walls, above eq. 6.28")),
)
"""How a fence wall counts in an earthquake, in the American family."""
_AS_IT_IS = printed("1.0", RATIO, Standing.MEMORY, "EN-1990", "6.4.3.4, earthquake beside the weight as it is")
EARTHQUAKE_EN = Combination(
    of="earthquake", load=_AS_IT_IS, weight=_AS_IT_IS, service=_AS_IT_IS, strength=_AS_IT_IS, pressing=(_AS_IT_IS,)
)
QUAKE_FENCE_EN = (
    ("importance", printed("1.0", RATIO, Standing.MEMORY, "EN-1998-1", "4.3.5.3, usual things")),
    ("behavior", printed("1.0", RATIO, Standing.MEMORY, "EN-1998-1", "table 4.4, parapets that stand out")),
    ("height_share", printed("0", RATIO, Standing.MEMORY, "EN-1998-1", "4.3.5.2, a foot on the ground")),
    ("period_share", practice("1", RATIO, "the most the clause asks: a wall's own period is not reckoned")),
)
"""Likewise in the European family."""

MATERIAL_FACTOR = printed("3.0", RATIO, Standing.MEMORY, "EN-1996-1-1", "2.4.3, lowest class of work")
SOLID_MESH = 0.7
"""From this solidity on a mesh counts as a wall, as in ASCE 7 where openings fall under 30 %."""
EN_LATTICE = printed(
    "1.6", RATIO, Standing.READ, "ASCE7-16", "table 29.4-2, flat members; 1.8 below solidity 0.3, 2.0 below 0.1"
)  # fmt: skip
"""On the solid area of leaves, boards and angles; no less than the 1.2 on the gross area of EN's table 7.9 at 0.8."""
LOWEST_EN_SOLIDITY = 0.8
"""Least solidity of the walls of EN 1991-1-4 table 7.9; a mesh from 0.7 on counts as of this."""

COAT_DENSITY = practice("1600 kg/m3", KG_PER_CUBIC_METER, "dry plaster, low end")
GROUT_DENSITY = practice("2100 kg/m3", KG_PER_CUBIC_METER, "rodded by hand, low end")
CORE_WIDTH = printed("7.5 in", METER, Standing.MEMORY, "TM-5-809-3", "table 5-1")
TAMPED_STONE = practice("0.35", RATIO, "IBC table 1806.2 of concrete on gravel")
FILL = "loose-fill"
"""Kind of soils.toml that dug soil put back counts as."""

STRONG_MORTAR = printed("1800 psi", PASCAL, Standing.MEMORY, "ASTM-C270", "type S")
USUAL_MORTAR = printed("750 psi", PASCAL, Standing.MEMORY, "ASTM-C270", "type N")

STEEL_MODULUS = printed("29000 ksi", PASCAL, Standing.MEMORY, "TM-5-809-3", "section 5-4")
STEEL_STRESS = printed("24 ksi", PASCAL, Standing.READ, "MASONRY-LAP-ARTICLE", "usual bars")
MASONRY_STIFFNESS = printed("1000", RATIO, Standing.MEMORY, "TM-5-809-3", "section 5-4, times the strength")
MASONRY_STRESS = printed("0.33", RATIO, Standing.MEMORY, "TM-5-809-3", "of the strength, bending")
WIDEST_BY_THICKNESS = printed(
    "6", RATIO, Standing.MEMORY, "TM-5-809-3", "times the wall, masonry that works with one bar"
)
WIDEST = printed("48 in", METER, Standing.MEMORY, "TM-5-809-3", "masonry that works with one bar")
COURSE_STEEL = printed(
    "0.025 in2/ft", SQUARE_METER_PER_METER, Standing.READ, "NCMA-TEK-10-2B", "table 1, steel along the courses"
)

FOOTING_STRENGTH = practice("2500 psi", PASCAL, "concrete of footings, as ordered or mixed")
FOOTING_COVER = printed("3 in", METER, Standing.MEMORY, "ACI-318", "cover of bars in concrete cast against the ground")
HOOK_COVER = printed("0.7", RATIO, Standing.MEMORY, "ACI-318", "25.4.3.2 of 2014, hook well inside the concrete")
YIELD_STRESS = printed("60 ksi", PASCAL, Standing.MEMORY, "ACI-318", "usual bars, grade 60")
YIELD_STRESS_EN = printed("500 MPa", PASCAL, Standing.MEMORY, "EN-10080", "usual bars, B500")

SWING_ROOM = practice("10 mm", METER, "room under a swinging leaf")
HINGE_INSET = practice("15 cm", METER, "hinge from the edge of the leaf")
PIN_DEPTH = practice("30 cm", METER, "pins that hold an apron down")
UNMEASURED_POST = practice("5 cm", METER, "driven post of unknown width")

BUILDING_SHARE = printed(
    "0.58", RATIO, Standing.MEMORY, "ASCE-37", "0.75 for work of under six weeks, and √0.6 from strength level down"
)  # fmt: skip
"""Share of the American family's speed to reckon with while a wall is green."""
BUILDING_PERIOD = printed("5", RATIO, Standing.MEMORY, "EN-1991-1-6", "table 3.1, years for work of up to three months")
GREEN_SAFETY = practice("1.5", RATIO, "as of walls that hold earth")
BRACED_AT = practice("0.6", RATIO, "height of the braces over that of the wall")
DAY_HEIGHT = printed("1.5 m", METER, Standing.MEMORY, "PRACTICE", "fresh mortar bears no more in a day")
BRACED_BY_THICKNESS = printed(
    "10", RATIO, Standing.READ, "GREEN-WALL-ALERT", "times the thickness; lower in wind over 30 km/h"
)
