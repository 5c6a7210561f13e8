"""What is taken for structures on blocks, each with where it comes from."""

from __future__ import annotations

from pinfold.figures import practice, printed
from pinfold.plan.grounds import Stack
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.units import METER, NEWTON, RATIO, SQUARE_METER

SMALLEST_PAD = printed("144 in2", SQUARE_METER, Standing.READ, "IL-870", "table B, least pad")
HIGHEST = {
    Stack.SINGLE: printed("36 in", METER, Standing.READ, "MAINE-890", "single stacks are lower than this"),
    Stack.DOUBLE: printed("67 in", METER, Standing.READ, "MAINE-890", "double stacks; an engineer above"),
}
"""Highest stack of blocks."""
STRONGEST = {
    Stack.SINGLE: printed("8000 lbf", NEWTON, Standing.READ, "CFR-3285", "3285.310, single stack of blocks"),
    Stack.DOUBLE: printed("16000 lbf", NEWTON, Standing.MEMORY, "CFR-3285", "twice a single stack"),
}
"""Most load on a pier."""
WIDEST = printed("120 in", METER, Standing.READ, "CFR-3285", "3285.310, piers under a beam, center to center")
FRICTION = practice("0.4", RATIO, "wood or steel beams on dry block")
TIE_LEAN = practice("0.7", RATIO, "share of a tie at 45 degrees, level and upright alike")
SIDE = {
    Family.US: printed("1.3", RATIO, Standing.MEMORY, "ASCE7-16", "figure 29.4-1, square, wind on its face"),
    Family.EU: printed("1.3", RATIO, Standing.MEMORY, "EN1991-1-4", "table 7.1, 0.8 in front and 0.5 behind"),
}
"""Wind on both sides of a box together."""
ROOF = practice("1.0", RATIO, "pull on a flat or low roof, closed below")
