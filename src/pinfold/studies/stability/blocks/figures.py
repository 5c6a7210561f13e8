"""What is taken for structures on blocks, each with where it comes from."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.plan.grounds import Stack
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.units import METER, NEWTON, RATIO, SQUARE_METER, Unit, read


def _figure(text: str, unit: Unit, standing: Standing, source: str, where: str) -> Figure:
    return Figure(
        value=read(text, like=unit), unit=unit, standing=standing, source=source, where=where, printed=text
    )  # fmt: skip


SMALLEST_PAD = _figure("144 in2", SQUARE_METER, Standing.READ, "IL-870", "table B, least pad")
HIGHEST = {
    Stack.SINGLE: _figure("36 in", METER, Standing.READ, "MAINE-890", "single stacks are lower than this"),
    Stack.DOUBLE: _figure("67 in", METER, Standing.READ, "MAINE-890", "double stacks; an engineer above"),
}
"""Highest stack of blocks."""
STRONGEST = {
    Stack.SINGLE: _figure("8000 lbf", NEWTON, Standing.READ, "CFR-3285", "3285.310, single stack of blocks"),
    Stack.DOUBLE: _figure("16000 lbf", NEWTON, Standing.MEMORY, "CFR-3285", "twice a single stack"),
}
"""Most load on a pier."""
WIDEST = _figure("120 in", METER, Standing.READ, "CFR-3285", "3285.310, piers under a beam, center to center")
FRICTION = _figure("0.4", RATIO, Standing.PRACTICE, "PRACTICE", "wood or steel beams on dry block")
TIE_LEAN = _figure("0.7", RATIO, Standing.PRACTICE, "PRACTICE", "share of a tie at 45 degrees, level and upright alike")
SIDE = {
    Family.US: _figure("1.3", RATIO, Standing.MEMORY, "ASCE7-16", "figure 29.4-1, square, wind on its face"),
    Family.EU: _figure("1.3", RATIO, Standing.MEMORY, "EN1991-1-4", "table 7.1, 0.8 in front and 0.5 behind"),
}
"""Wind on both sides of a box together."""
ROOF = _figure("1.0", RATIO, Standing.PRACTICE, "PRACTICE", "pull on a flat or low roof, closed below")
