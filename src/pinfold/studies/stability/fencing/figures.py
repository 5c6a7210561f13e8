"""Shares, limits and strengths that the checks of fences take, each with where it comes from."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.units import CELSIUS, METER, PASCAL, RATIO, Unit, read


def _figure(text: str, unit: Unit, standing: Standing, source: str, where: str) -> Figure:
    return Figure(
        value=read(text, like=unit), unit=unit, standing=standing, source=source, where=where, printed=text
    )  # fmt: skip


BEARING_SHARE = _figure("0.33", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.5, bearing on masonry, of its strength")
BREAKOUT = _figure("1.25", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3, of the root of the strength in psi")
BOND = _figure("60 psi", PASCAL, Standing.PRACTICE, "PRACTICE", "smooth steel or wood in grout, as for plain bars")
ANCHOR_YIELD = _figure("36 ksi", PASCAL, Standing.MEMORY, "AISC-360", "bolts and bent bars of mild steel")
SHEAR_SHARE = _figure("0.36", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3.2, of the yield stress")
PULL_SHARE = _figure("0.6", RATIO, Standing.MEMORY, "TMS-402-13", "8.1.3.3.1, of the yield stress")

WIND_DURATION = _figure("1.6", RATIO, Standing.READ, "AWC-EXAMPLES", "E1.6, load duration of wind")
STEADY_DURATION = _figure("0.9", RATIO, Standing.READ, "AWC-EXAMPLES", "E1.6, load duration of what pulls for good")
WET_SHEAR = _figure("0.97", RATIO, Standing.READ, "NDS-COURSE", "wet service, shear along the grain")

LEAN = _figure("1/60", RATIO, Standing.PRACTICE, "PRACTICE", "of its height, a post that moves with the wind")
GIVE = _figure("0.5 in", METER, Standing.MEMORY, "IBC-1806", "1806.3.4, movement at the ground that does no harm")
RAIL_SAG = _figure("1/60", RATIO, Standing.PRACTICE, "PRACTICE", "of its span, a rail under mesh and wind")

EXPANSION = _figure("0.000012", RATIO, Standing.MEMORY, "AISC-360", "steel, for every degree C")
STRUNG = _figure("15 °C", CELSIUS, Standing.PRACTICE, "PRACTICE", "a mild day on which wires are strained")
COLDER = _figure("-30 °C", CELSIUS, Standing.PRACTICE, "PRACTICE", "a winter night against the day of straining")
WARMER = _figure("30 °C", CELSIUS, Standing.PRACTICE, "PRACTICE", "wire in the sun against the day of straining")
WIRE_SHARE = _figure("0.6", RATIO, Standing.MEMORY, "NESC", "of the breaking strength, wires in wind and cold")
BLOWN_SAG = _figure(
    "1/20", RATIO, Standing.PRACTICE, "PRACTICE", "of the span, a wire blown out and stretched for good"
)
WIRE_SAG = _figure("1/30", RATIO, Standing.PRACTICE, "PRACTICE", "of the span, a wire slack with warmth")

BUCKLING = _figure("3", RATIO, Standing.PRACTICE, "PRACTICE", "against buckling of a rail or strut, bent a little")
MOST_FRICTION = _figure("500 psf", PASCAL, Standing.MEMORY, "IBC-1810", "1810.3.3.1.4, friction on the sides")
COLLAR_DENSITY = 2200.0
"""Of a collar of concrete mixed by hand, kg/m3, low end (common practice)."""
