"""How much colder and warmer than when strained wires get: by the plan's own extremes, else by common practice."""

from __future__ import annotations

from pinfold.figures import given
from pinfold.plan.place import Place
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.figures import COLDER, STRUNG, WARMER
from pinfold.units import CELSIUS, Celsius

Change = tuple[Celsius, Named]
"""Change of temperature since straining, and the figures behind it."""


def colder(place: Place) -> Change:
    """Down to the coldest night."""
    if place.coldest is None:
        return COLDER.value, (("colder", COLDER),)
    return min(place.coldest - STRUNG.value, 0.0), (
        ("coldest", given(place.coldest, CELSIUS)), ("strained at", STRUNG),
    )  # fmt: skip


def warmer(place: Place) -> Change:
    """Up to the hottest sun."""
    if place.hottest is None:
        return WARMER.value, (("warmer", WARMER),)
    return max(place.hottest - STRUNG.value, 0.0), (
        ("hottest", given(place.hottest, CELSIUS)), ("strained at", STRUNG),
    )  # fmt: skip
