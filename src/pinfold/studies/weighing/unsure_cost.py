"""Cash now on arrays of factors: the buying list bought again at other prices, yields and waste, in whole packs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from pinfold.plan.place import Haul
from pinfold.plan.stock import Prices
from pinfold.sources import Standing
from pinfold.studies.gathering.packs import SLACK
from pinfold.studies.gathering.records import Category, Gathered, Line
from pinfold.studies.lessons.records import Lesson, Topic
from pinfold.studies.weighing.sensitivity import Array
from pinfold.studies.weighing.unsure import Factors, Unsure, by_table

_MIXED = (Category.BAGS, Category.LOOSE)
_FEWEST = 2
"""Payments from which on their own scatter counts."""


def unsure_of_cost(gathered: Gathered, lessons: Sequence[Lesson]) -> tuple[Unsure, ...]:
    """What cash now hangs on: the price of everything that is bought, trips, yields, waste."""
    bought = dict.fromkeys(line.kind.name for line in gathered.lines if line.lots and line.cost)
    paid = {lesson.subject: lesson for lesson in lessons if lesson.topic is Topic.PRICE}
    prices = tuple(_price(name, paid.get(name)) for name in bought)
    trips = (by_table("trip"),) if gathered.haulage.cost or gathered.water.cost else ()
    mixed = (by_table("yield"),) if any(line.category in _MIXED for line in gathered.lines) else ()
    waste = (by_table("waste"),) if any(line.waste > 0 for line in gathered.lines) else ()
    return (*prices, *trips, *mixed, *waste)


def _price(name: str, lesson: Lesson | None) -> Unsure:
    """Spread of a price by what was paid, else as usual."""
    key, says = f"price of {name}", f"price of {name}"
    if lesson is not None and lesson.count >= _FEWEST and lesson.spread and lesson.value > 0:
        return Unsure(key, says, lesson.spread / lesson.value, Standing.LEARNED, f"{lesson.count} payments in the log")
    return by_table("price", key=key, says=says)


def cash(gathered: Gathered, prices: Prices, haul: Haul, factors: Factors) -> Array:
    """Cash now in the smallest coin, not rounded, (n,).

    Pieces cut to length are bought as listed, and what is all on hand stays so. The trips grow with mass and room as
    the least number of full loads does.

    Args:
        gathered: the buying list as planned
        prices: for the cost of trips
        haul: vehicle and tank
        factors: on prices, trips, yields, waste
    """
    found = bought(gathered, factors)
    trips = fewest_trips(gathered, haul, found) * (prices.trip or 0)
    return np.asarray(found.goods + (trips + _wet(gathered, prices, haul, factors)) * factors.get("trip", 1.0))


class Bought(NamedTuple):
    """The buying list bought at some factors: what the goods cost, what they weigh and what room they take, (n,)."""

    goods: Array
    mass: Array
    bulk: Array


WASTES = np.array((0.0, 1.0, 2.0))
"""Factors on waste: none of it, as planned, twice of it."""


def bought(gathered: Gathered, factors: Factors) -> Bought:
    """The buying list in whole packs.

    Args:
        gathered: as planned
        factors: on prices, yields, waste
    """
    goods, mass, bulk = np.zeros(1), np.zeros(1), np.zeros(1)
    for line in gathered.lines:
        for lot, count in _packs(line, factors):
            goods = goods + (lot.price or 0) * count * factors.get(f"price of {line.kind.name}", 1.0)
            share = lot.size / line.bought
            mass = mass + (line.mass or 0.0) * share * count
            bulk = bulk + (line.bulk or 0.0) * share * count
    return Bought(goods, mass, bulk)


def _packs(line: Line, factors: Factors) -> Iterator:  # type: ignore[type-arg]
    """Lots of a line with how many are bought, (n,)."""
    if len(line.lots) != 1 or line.lots[0].says == "length":
        yield from ((lot, np.full(1, float(lot.packs))) for lot in line.lots)
        return
    lot = line.lots[0]
    needed = line.net + line.waste * factors.get("waste", 1.0)
    if line.category in _MIXED:
        needed = needed / factors.get("yield", 1.0)
    yield lot, np.maximum(np.ceil((needed - line.on_hand) / lot.size - SLACK), 0.0)


def fewest_trips(gathered: Gathered, haul: Haul, found: Bought) -> Array:
    """Trips to the shop: the fewest full loads, and as many more as the plan takes beyond that; none where not known.

    Args:
        gathered: as planned
        haul: vehicle
        found: what is hauled
    """
    trips = gathered.haulage.trips
    if trips is None or haul.payload is None:
        return np.zeros_like(found.mass)
    bed = haul.bed if haul.bed is not None else math.inf
    least = np.maximum(np.ceil(found.mass / haul.payload - SLACK), np.ceil(found.bulk / bed - SLACK))
    planned = gathered.haulage
    extra = trips - max(math.ceil(planned.mass / haul.payload - SLACK), math.ceil(planned.bulk / bed - SLACK))
    return np.asarray(least + extra)


def _wet(gathered: Gathered, prices: Prices, haul: Haul, factors: Factors) -> Array:
    """Cost of the trips for water; what keeps coats wet hangs on no yield."""
    water = gathered.water
    if water.trips is None or prices.water_trip is None or haul.tank is None:
        return np.zeros(1)
    needed = (water.mixing + water.washing) / factors.get("yield", np.ones(1)) + (water.curing or 0.0)
    return np.asarray(np.ceil(needed / haul.tank - SLACK) * prices.water_trip)
