"""What goes into one batch as an entry of the log takes it."""

from __future__ import annotations

from pinfold.reports.amounts import buckets_measured, twelfths
from pinfold.studies.batching.records import Charge, Ingredient
from pinfold.units import UNIT_BY_SYMBOL, System


def amounts_of(charge: Charge, system: System) -> tuple[tuple[str, str], ...]:
    """Item and text for one batch."""
    found = [(part.kind.name, _measured(part)) for part in charge.ingredients]
    if charge.water_to_add > 0:
        found.append(("water", _water(charge.water_to_add, system)))
    if charge.foam is not None:
        found.append(("foam", _water(charge.foam.make, system)))
    return tuple(found)


def names_of(charge: Charge) -> tuple[str, ...]:
    """Words for the items, in the same order."""
    names = [part.kind.says.partition(",")[0] for part in charge.ingredients]
    return (*names, *(["water"] if charge.water_to_add > 0 else []), *(["foam"] if charge.foam is not None else []))


def _measured(part: Ingredient) -> str:
    """By the bag where it is a whole one or a half, third or quarter of one, else by the bucket as the card has it."""
    if part.bags is not None and part.bags > 0 and abs(part.bags * 12 - round(part.bags * 12)) < 0.01:
        return f"{twelfths(part.bags)} bag"
    return f"{buckets_measured(part.buckets):g} bucket"


def _water(value: float, system: System) -> str:
    symbol = "gal" if system is System.US else "L"
    return f"{max(round(value / UNIT_BY_SYMBOL[symbol].factor, 1), 0.1):g} {symbol}"
