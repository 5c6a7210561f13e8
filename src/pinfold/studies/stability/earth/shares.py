"""Which share of earth, wind and weight goes into which check of a wall that holds earth."""

from __future__ import annotations

from pinfold.figures import practice, printed
from pinfold.plan.place import Family
from pinfold.sources import Standing
from pinfold.studies.stability.factors import Combination
from pinfold.units import RATIO

_SAFETY = printed("1.5", RATIO, Standing.READ, "IBC-1807-2", "safety of retaining walls against tipping and sliding")
_ONE = printed("1.0", RATIO, Standing.READ, "IBC-1807-2", "1.0 times nominal loads")
_BED_WEIGHT = printed("0.6", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.4, weight that helps")
_STRENGTH = printed("1.6", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.3, earth pressure")
_EU_LOAD = printed("1.5", RATIO, Standing.MEMORY, "EN-1990", "as on wind and goods; above the 1.35 on earth by itself")
_EU_WEIGHT = printed("0.9", RATIO, Standing.MEMORY, "EN-1990", "set A, balance")
_EU_ONE = printed("1.0", RATIO, Standing.MEMORY, "EN-1990", "characteristic loads beside allowable pressures")
WIND_BESIDE = {
    Family.US: printed("0.6", RATIO, Standing.MEMORY, "ASCE7-16", "section 2.4, wind beside earth"),
    Family.EU: _EU_ONE,
}
"""Share of the wind that goes with the earth."""
PASSIVE_SHARE = practice("0.5", RATIO, "of what earth in front could hold, since it must move first")

_EUROPEAN = Combination(
    of="earth", load=_EU_LOAD, weight=_EU_WEIGHT, service=_EU_ONE, strength=_EU_LOAD, pressing=(_EU_ONE,)
)
STANDING = {
    Family.US: Combination(
        of="earth", load=_SAFETY, weight=_ONE, service=_ONE, strength=_STRENGTH, pressing=(_ONE,)
    ),
    Family.EU: _EUROPEAN,
}  # fmt: skip
"""Shares for the wall as a whole."""
BED = {
    Family.US: Combination(
        of="earth", load=_ONE, weight=_BED_WEIGHT, service=_ONE, strength=_STRENGTH, pressing=(_ONE,)
    ),
    Family.EU: _EUROPEAN,
}  # fmt: skip
"""Shares for stresses in the lowest bed."""
