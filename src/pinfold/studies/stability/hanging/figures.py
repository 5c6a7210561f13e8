"""Shares and limits that the checks of leaves take, each with where it comes from."""

from __future__ import annotations

from pinfold.figures import practice, printed
from pinfold.sources import Standing
from pinfold.units import METER, RATIO

WET_SCREWS = printed("0.7", RATIO, Standing.MEMORY, "NDS", "table 11.3.3, screws in wood that is wet in service")
WET_WASHERS = printed("0.67", RATIO, Standing.MEMORY, "NDS", "wood that is wet in service, across the grain")
SHEET_SAFETY = printed("3.0", RATIO, Standing.READ, "STEEL-SCREW-TABLE", "on screws in steel")
HOLE_SAFETY = printed("2.5", RATIO, Standing.MEMORY, "AISI-S100", "on bolts bearing in thin steel")
NO_WASHERS = printed("0.75", RATIO, Standing.READ, "BOLT-LETTER", "the plate under the head is no washer")
SKIN_SPACING = practice("12 in", METER, "screws along every edge of a sheet")
SKIN_SCREW = "sheet-10"
LATCH_PLAY = practice("1/2 in", METER, "up and down of a latch that still catches")
LATCH_THROW = practice("1 1/4 in", METER, "how far a gate latch reaches over its gap into the strike")
CATCH = practice("1/4 in", METER, "of it that must stay caught")
RUB = practice("1/8 in", METER, "gap that must be left so that nothing rubs")
"""Between leaf and post, and between two leaves."""
