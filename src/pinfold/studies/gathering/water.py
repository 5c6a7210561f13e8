"""Water for the whole work: mixing, washing out, keeping coats wet; and trips for it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.figures import practice
from pinfold.plan.place import Haul
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.gathering.records import Curing, Water
from pinfold.units import METER, RATIO, CubicMeter

WASHING = practice("25 %", RATIO, "20 to 30 % of the mixing water")
WETTING = practice("4 mm", METER, "3 to 5 L on a square meter a day")
"""Depth of water put on a coat in a day: 4 L on a square meter."""


def mixing_water(cards: Iterable[BatchCard]) -> CubicMeter:
    """Water poured into all batches, foam and all."""
    return math.fsum(card.water_to_add + _foam_water(card) for card in cards)


def _foam_water(card: BatchCard) -> CubicMeter:
    if card.charge is None or card.charge.foam is None:
        return 0.0
    return card.charge.foam.water * card.gross / card.charge.makes


def water_for(
    cards: Iterable[BatchCard], curing: Iterable[Curing] | None, haul: Haul, trip_cost: int | None
) -> Water:  # fmt: skip
    """All the water.

    Args:
        cards: batch cards of all mixes
        curing: faces kept wet; None when they are not known
        haul: tank and distance to the water
        trip_cost: of one trip for water, in the smallest coin; None when not known
    """
    mixing = mixing_water(cards)
    washing = WASHING.value * mixing
    wetting = None if curing is None else math.fsum(WETTING.value * face.area * face.days for face in curing)
    total = mixing + washing + (wetting or 0.0)
    trips = None if haul.tank is None else math.ceil(total / haul.tank - 1e-9)
    known = trips is not None and haul.water_distance is not None
    return Water(
        mixing=mixing,
        washing=washing,
        curing=wetting,
        total=total,
        trips=trips,
        distance=2 * haul.water_distance * trips if known and haul.water_distance is not None and trips else None,
        cost=None if trips is None or trip_cost is None else trips * trip_cost,
        figures=(("washing out, share of mixing water", WASHING), ("water on a coat in a day", WETTING)),
    )
