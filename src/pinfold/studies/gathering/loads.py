"""Trips to the shop: what each carries, by mass and by the room in the bed."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.plan.place import Haul
from pinfold.studies.gathering.amounts import bed_room
from pinfold.studies.gathering.records import Category, Haulage, Line, Load, LoadItem
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram, Unit

MOST_LOADS = 2000
_SLACK = 1e-9


class Goods(NamedTuple):
    """So many alike of something that stays whole, or a heap that can be split.

    Attributes:
        kind: of it.
        unit: it is bought in.
        amount: of one of them, in that unit.
        mass: of one.
        bulk: room in the bed that one takes.
        many: of them.
        loose: whether it is a heap.
    """

    kind: Kind
    unit: Unit
    amount: float
    mass: Kilogram
    bulk: CubicMeter
    many: int
    loose: bool


@dataclass
class _Truck:
    """A load being put together."""

    payload: Kilogram
    bed: CubicMeter
    items: list[LoadItem]
    mass: Kilogram
    bulk: CubicMeter

    def room_for(self, goods: Goods) -> float:
        """How many more of them fit, not rounded."""
        by_mass = (self.payload - self.mass) / goods.mass if goods.mass > 0 else math.inf
        by_room = (self.bed - self.bulk) / goods.bulk if goods.bulk > 0 else math.inf
        return max(min(by_mass, by_room), 0.0)

    def put(self, goods: Goods, count: float) -> None:
        """Load so many of them."""
        self.items.append(
            LoadItem(kind=goods.kind, amount=goods.amount * count, unit=goods.unit, mass=goods.mass * count)
        )
        self.mass += goods.mass * count
        self.bulk += goods.bulk * count


def _empty(payload: Kilogram, bed: CubicMeter) -> _Truck:
    return _Truck(payload, bed, [], 0.0, 0.0)


def haulage(lines: Iterable[Line], haul: Haul, trip_cost: int | None) -> Haulage:
    """Trips for all that is bought: full loads of loose stuff first, then the heaviest first, each where it first fits.

    Args:
        lines: the buying list
        haul: vehicle and distance
        trip_cost: of one trip, in the smallest coin; None when not known
    """
    goods = [part for line in lines for part in _goods_of(line)]
    mass, bulk = _sizes(goods)
    loads, trips = loaded(goods, haul)
    by_mass = mass / haul.payload if haul.payload else 0.0
    by_room = bulk / haul.bed if haul.bed else 0.0
    distance = None if trips is None or haul.shop_distance is None else 2 * haul.shop_distance * trips
    return Haulage(
        loads=loads,
        trips=trips,
        mass=mass,
        bulk=bulk,
        distance=distance,
        cost=None if trips is None or trip_cost is None else trips * trip_cost,
        governs="" if trips is None else "room" if by_room > by_mass else "mass",
    )


def loaded(goods: Sequence[Goods], haul: Haul) -> tuple[tuple[Load, ...], int | None]:
    """The loads, and how many trips; both are not told without a payload, the loads not where they are too many."""
    if haul.payload is None:
        return (), None
    bed = haul.bed if haul.bed is not None else math.inf
    mass, bulk = _sizes(goods)
    least = max(math.ceil(mass / haul.payload - _SLACK), math.ceil(bulk / bed - _SLACK))
    if least > MOST_LOADS:
        return (), least
    loads = _loaded([part for part in goods if part.mass <= haul.payload or part.loose], haul.payload, bed)
    alone = sum(part.many for part in goods if part.mass > haul.payload and not part.loose)
    return loads, max(least, len(loads) + alone)


def _sizes(goods: Sequence[Goods]) -> tuple[Kilogram, CubicMeter]:
    """Mass of all of them, and the room that they take."""
    return math.fsum(part.mass * part.many for part in goods), math.fsum(part.bulk * part.many for part in goods)


def too_heavy(lines: Iterable[Line], haul: Haul) -> tuple[str, ...]:
    """Things of which one alone is more than the vehicle carries."""
    if haul.payload is None:
        return ()
    heavy = (
        part.kind.name for line in lines for part in _goods_of(line) if not part.loose and part.mass > haul.payload
    )
    return tuple(dict.fromkeys(heavy))


def _goods_of(line: Line) -> list[Goods]:
    loose = line.category is Category.LOOSE
    found = []
    for lot in line.lots:
        mass = None if line.mass is None else line.mass * lot.size / line.bought
        if mass is not None:
            bulk = bed_room(line.kind, lot.size, line.unit) or 0.0
            found.append(
                Goods(
                    kind=line.kind, unit=line.unit, amount=lot.size, mass=mass, bulk=bulk, many=lot.packs, loose=loose
                )
            )  # fmt: skip
    return found


def _loaded(goods: list[Goods], payload: Kilogram, bed: CubicMeter) -> tuple[Load, ...]:
    trucks: list[_Truck] = []
    rests = [_heap(part, trucks, payload, bed) for part in goods if part.loose]
    whole = [part for part in goods if not part.loose]
    in_turn = sorted((*whole, *rests), key=lambda part: part.mass, reverse=True)
    roomy = trucks.copy()
    for part in in_turn:
        roomy = [truck for truck in roomy if truck.payload - truck.mass + _SLACK >= in_turn[-1].mass]
        added = _place(part, roomy, payload, bed)
        roomy += added
        trucks += added
    return tuple(
        Load(number=number, items=tuple(truck.items), mass=truck.mass, bulk=truck.bulk)
        for number, truck in enumerate(trucks, start=1)
    )


def _heap(part: Goods, trucks: list[_Truck], payload: Kilogram, bed: CubicMeter) -> Goods:
    """Fill whole trucks from a heap; what is left of it is one thing more to place."""
    left = float(part.many)
    full = _empty(payload, bed).room_for(part)
    while left > full + _SLACK:
        truck = _empty(payload, bed)
        truck.put(part, full)
        trucks.append(truck)
        left -= full
    return Goods(
        kind=part.kind, unit=part.unit, amount=part.amount * left, mass=part.mass * left, bulk=part.bulk * left,
        many=1, loose=True,
    )  # fmt: skip


def _place(part: Goods, trucks: list[_Truck], payload: Kilogram, bed: CubicMeter) -> list[_Truck]:
    """Load the goods where they first fit, and give the trucks that had to be added for them."""
    left, added = part.many, []
    for truck in trucks:
        if left == 0:
            break
        if part.mass > payload - truck.mass + payload * _SLACK:
            continue
        fit = min(left, _whole(truck.room_for(part)))
        if fit:
            truck.put(part, fit)
            left -= fit
    while left > 0:
        truck = _empty(payload, bed)
        fit = max(min(left, _whole(truck.room_for(part))), 1)
        truck.put(part, fit)
        added.append(truck)
        left -= fit
    return added


def _whole(room: float) -> int:
    return 10**9 if math.isinf(room) else math.floor(room + _SLACK)
