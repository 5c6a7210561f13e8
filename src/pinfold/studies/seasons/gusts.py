"""From the wind that standards speak of to the mean of an hour that forecasts give."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.figures import Figure, printed
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.units import RATIO

MEAN_SHARE: Mapping[Family, Figure] = {
    Family.US: printed("0.66", RATIO, Standing.MEMORY, "ASCE7-16", "figure C26.5-1, mean of an hour over the 3 s gust"),
    Family.EU: printed("0.95", RATIO, Standing.MEMORY, "EN1991-1-4", "mean of an hour over that of ten minutes"),
}
"""Mean of an hour over the wind of the family's standard."""
