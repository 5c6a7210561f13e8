"""How well instruments of the plot are read, where the builder does not say."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.figures import Figure, practice
from pinfold.units import METER

SPREADS: Mapping[str, Figure] = {
    "optical level": practice("1 mm", METER, "rod read over one plot"),
    "water level": practice("1.5 mm", METER, "clear hose, no bubbles, both ends at rest"),
    "laser": practice("2 mm", METER, "spot of a builder's laser over ten meters or so"),
    "string": practice("3 mm", METER, "mason's line with a line level, or pulled tight between two heights"),
    "": practice("2 mm", METER, "nobody says what it was read with"),
}
"""Standard deviation of one reading by instrument."""
EXPANSION = 2.1e-4
"""Share that water grows by for each °C, near 20 °C (from memory)."""
WATER_NOTE = (
    "A water level with one leg in the sun and one in shade is off: 10 °C (18 °F) over 1 m (3 ft) of hose bring 2 mm. "
    "Both legs in shade, no bubbles, and wait until it is still."
)
