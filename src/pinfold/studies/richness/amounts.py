"""What so much of a mix takes: masses, what is hauled, cost by the plan's prices, carbon set free."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from pinfold.plan.stock import Prices
from pinfold.studies.batching.loose import parts_of
from pinfold.studies.gathering.packs import pack_priced
from pinfold.studies.richness.records import Amounts, Band
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import KILOGRAM, CubicMeter, Kilogram


@dataclass(frozen=True, kw_only=True)
class PerVolume:
    """What goes into a cubic meter of a mix.

    Attributes:
        mix: of shelf `mixes`.
        masses: of its dry parts.
        water: all of it.
        sand_water: free water that the damp sand brings.
        damp: all water in the damp sand.
    """

    mix: Kind
    masses: Mapping[str, Kilogram]
    water: Kilogram
    sand_water: Kilogram
    damp: Kilogram

    def for_volume(self, volume: CubicMeter, prices: Prices) -> Amounts:
        """What so many cubic meters take."""
        masses = {part: mass * volume for part, mass in self.masses.items()}
        materials = dict(parts_of(self.mix))
        to_add = max(self.water - self.sand_water, 0.0) * volume
        return Amounts(
            cement=masses["cement"], lime=masses.get("lime", 0.0), sand=masses.get("sand", 0.0),
            gravel=masses.get("gravel", 0.0), water=self.water * volume,
            hauled=math.fsum(masses.values()) + self.damp * volume + to_add,
            cost=_cost(masses, materials, prices), carbon=_carbon(masses, materials),
        )  # fmt: skip


def _cost(masses: Mapping[str, Kilogram], materials: Mapping[str, Kind], prices: Prices) -> float | None:
    """In proportion to the packs of the price list; None where one is missing."""
    costs = [mass * rate if (rate := _rate(materials[part], prices)) is not None else None
             for part, mass in masses.items() if mass > 0]  # fmt: skip
    return None if any(cost is None for cost in costs) else math.fsum(cost for cost in costs if cost is not None)


def _rate(material: Kind, prices: Prices) -> float | None:
    """Coins for a kilogram."""
    price = prices.by_item.get(material.name)
    pack = pack_priced(material, KILOGRAM, price)
    return price.cost / pack if price is not None and pack else None


def unpriced(mix: Kind, prices: Prices) -> tuple[str, ...]:
    """What of a mix has no price."""
    return tuple(material.says for _, material in parts_of(mix) if _rate(material, prices) is None)


def _carbon(masses: Mapping[str, Kilogram], materials: Mapping[str, Kind]) -> Band:
    """Middle and spread, the parts' spreads taken as independent."""
    middle, below, above = 0.0, 0.0, 0.0
    for part, mass in masses.items():
        kind = shelf("carbon").get(materials[part].name)
        if kind is None:
            return Band(math.nan, math.nan, math.nan, KILOGRAM)
        middle += mass * kind.value("carbon")
        below = math.hypot(below, mass * (kind.value("carbon") - kind.value("low")))
        above = math.hypot(above, mass * (kind.value("high") - kind.value("carbon")))
    return Band(middle, middle - below, middle + above, KILOGRAM)
