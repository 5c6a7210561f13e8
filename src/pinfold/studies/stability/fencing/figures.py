"""Shares, limits and strengths that the checks of fences take, each with where it comes from."""

from __future__ import annotations

from pinfold.figures import practice, printed
from pinfold.sources import Standing
from pinfold.units import CELSIUS, METER, PASCAL, RATIO

BEARING_SHARE = printed("0.33", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.5, bearing on masonry, of its strength")
BREAKOUT = printed("1.25", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3, of the root of the strength in psi")
BOND = practice("60 psi", PASCAL, "smooth steel or wood in grout, as for plain bars")
ANCHOR_YIELD = printed("36 ksi", PASCAL, Standing.MEMORY, "AISC-360", "bolts and bent bars of mild steel")
SHEAR_SHARE = printed("0.36", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3.2, of the yield stress")
PULL_SHARE = printed("0.6", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3.1, of the yield stress")

WIND_DURATION = printed("1.6", RATIO, Standing.READ, "AWC-EXAMPLES", "E1.6, load duration of wind")
PUSH_DURATION = printed("1.25", RATIO, Standing.MEMORY, "NDS", "2.3.2, seven days: beasts lean for long")
STEADY_DURATION = printed("0.9", RATIO, Standing.READ, "AWC-EXAMPLES", "E1.6, load duration of what pulls for good")
WET_SHEAR = printed("0.97", RATIO, Standing.READ, "NDS-COURSE", "wet service, shear along the grain")

LEAN = practice("1/60", RATIO, "of its height, a post that moves with the wind")
GIVE = printed("0.5 in", METER, Standing.MEMORY, "IBC-1806", "1806.3.4, movement at the ground that does no harm")
RAIL_SAG = practice("1/60", RATIO, "of its span, a rail under mesh and wind")

EXPANSION = printed("0.000012", RATIO, Standing.MEMORY, "AISC-360", "steel, for every degree C")
STRUNG = practice("15 °C", CELSIUS, "a mild day on which wires are strained")
COLDER = practice("-30 °C", CELSIUS, "a winter night against the day of straining")
WARMER = practice("30 °C", CELSIUS, "wire in the sun against the day of straining")
WIRE_SHARE = printed("0.6", RATIO, Standing.MEMORY, "NESC", "of the breaking strength, wires in wind and cold")
BLOWN_SAG = practice("1/20", RATIO, "of the span, a wire blown out and stretched for good")
WIRE_SAG = practice("1/30", RATIO, "of the span, a wire slack with warmth")

BUCKLING = practice("3", RATIO, "against buckling of a rail or strut, bent a little")
MOST_FRICTION = printed("500 psf", PASCAL, Standing.MEMORY, "IBC-1810", "1810.3.3.1.4, friction on the sides")
COLLAR_DENSITY = 2200.0
"""Of a collar of concrete mixed by hand, kg/m3, low end (common practice)."""
