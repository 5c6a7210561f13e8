"""What if: prices, wind, ways, people and pile supposed otherwise, put over a plan and what the log teaches of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.place import Family
from pinfold.plan.stock import PilePiece, Price, Prices
from pinfold.studies.gathering.amounts import bed_room, carried_mass
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.quantities.records import Part
from pinfold.tables.shelf import Kind

ROUGHEST_FIRST = {Family.US: ("B", "C", "D"), Family.EU: ("IV", "III", "II", "I", "0")}
"""Exposures of either family from the most sheltered to the most open."""
WATER = "water"


class Times(NamedTuple):
    """Something so many times as much."""

    what: str
    factor: Fraction


@dataclass(frozen=True, kw_only=True)
class Supposed:
    """What is supposed.

    Attributes:
        says: in the builder's words.
        prices: of items, so many times as dear; `trip` and `water` for their trips.
        ways: to the shop (`trip`), to the water, or to where one item comes from, so many times as long.
        classes: of wind exposure, up or down.
        wind: speed, so many times as fast.
        people: more or fewer.
        crew: how many people instead; 0 for as the plan says.
        from_pile: share of what is needed of items that lies on the pile.
    """

    says: str
    prices: tuple[Times, ...] = ()
    ways: tuple[Times, ...] = ()
    classes: int = 0
    wind: float = 1.0
    people: int = 0
    crew: int = 0
    from_pile: tuple[Times, ...] = ()


def together(each: Sequence[Supposed]) -> Supposed:
    """All of them at once."""
    return Supposed(
        says="all together", prices=tuple(one for of in each for one in of.prices),
        ways=tuple(one for of in each for one in of.ways), classes=sum(of.classes for of in each),
        wind=math.prod(of.wind for of in each), people=sum(of.people for of in each),
        crew=next((of.crew for of in reversed(each) if of.crew), 0),
        from_pile=tuple(one for of in each for one in of.from_pile),
    )  # fmt: skip


def plan_with(plan: Enclosure, supposed: Supposed) -> Enclosure:
    """The plan in another wind, with other people, farther from shop or water."""
    place, haul, people = plan.place, plan.haul, plan.people
    exposures = ROUGHEST_FIRST[plan.family]
    if place.exposure in exposures:
        at = exposures.index(place.exposure) + supposed.classes
        place = replace(place, exposure=exposures[min(max(at, 0), len(exposures) - 1)])
    if place.wind_speed is not None:
        place = replace(place, wind_speed=place.wind_speed * supposed.wind)
    haul = replace(
        haul, shop_distance=_longer(haul.shop_distance, supposed, "trip"),
        water_distance=_longer(haul.water_distance, supposed, WATER),
    )  # fmt: skip
    count = max((supposed.crew or people.count) + supposed.people, 0)
    return replace(plan, place=place, haul=haul, people=replace(people, count=count))


def _longer(way: float | None, supposed: Supposed, what: str) -> float | None:
    return None if way is None else way * float(_factor(supposed.ways, what))


def _factor(times: Iterable[Times], what: str) -> Fraction:
    return math.prod((each.factor for each in times if each.what == what), start=Fraction(1))


def prices_with(prices: Prices, plan: Enclosure, kinds: Iterable[Kind], supposed: Supposed) -> Prices:
    """The price list with prices and ways as supposed; what one item is hauled for farther goes onto its price.

    Args:
        prices: as listed and last paid
        plan: for the vehicle
        kinds: items that are bought
        supposed: what is supposed
    """
    by_item = {name: _dearer(price, _factor(supposed.prices, name)) for name, price in prices.by_item.items()}
    for kind in kinds:
        farther, price = _factor(supposed.ways, kind.name) - 1, by_item.get(kind.name)
        if price is not None and farther and prices.trip is not None:
            by_item[kind.name] = replace(
                price, cost=_coins(price.cost + farther * prices.trip * _load(price, kind, plan))
            )
    trips = [_factor((*supposed.prices, *supposed.ways), what) for what in ("trip", WATER)]
    return replace(
        prices, by_item=by_item, trip=_times(prices.trip, trips[0]), water_trip=_times(prices.water_trip, trips[1])
    )


def _load(price: Price, kind: Kind, plan: Enclosure) -> Fraction:
    """Share of a load that one pack is, by weight or by room."""
    mass = carried_mass(kind, price.pack, price.unit, plan.mixing.sand_bulking) or 0.0
    room = bed_room(kind, price.pack, price.unit) or 0.0
    by_mass = mass / plan.haul.payload if plan.haul.payload else 0.0
    return Fraction(max(by_mass, room / plan.haul.bed if plan.haul.bed else 0.0))


def _dearer(price: Price, factor: Fraction) -> Price:
    return replace(price, cost=_coins(price.cost * factor))


def _times(coins: int | None, factor: Fraction) -> int | None:
    return None if coins is None else _coins(coins * factor)


def _coins(exact: Fraction) -> int:
    """To the nearest coin, halves up."""
    return math.floor(exact + Fraction(1, 2))


def pile_with(
    pile: Sequence[PilePiece], gathered: Gathered, parts: Sequence[Part], supposed: Supposed
) -> tuple[PilePiece, ...]:  # fmt: skip
    """The pile with so much of what is needed lying on it.

    Args:
        pile: as it is
        gathered: what is needed
        parts: pieces cut to length; of them whole ones lie there, the longest first
        supposed: what is supposed
    """
    return (*pile, *(piece for times in supposed.from_pile for piece in _found(times, gathered, parts)))


def _found(times: Times, gathered: Gathered, parts: Sequence[Part]) -> Iterator[PilePiece]:
    lengths = sorted((part.length for part in parts if part.kind.name == times.what and part.width is None
                      for _ in range(part.count)), reverse=True)  # fmt: skip
    for length in lengths[: math.ceil(len(lengths) * times.factor)]:
        yield _piece(times.what, length=length)
    for line in gathered.lines if not lengths else ():
        if line.kind.name == times.what:
            amount = max(line.needed - line.on_hand, 0.0) * float(times.factor)
            yield replace(_piece(times.what), amount=amount, unit=line.unit)


def _piece(item: str, *, length: float | None = None) -> PilePiece:
    return PilePiece(item=item, count=1, length=length, amount=None, unit=None, note="supposed")
