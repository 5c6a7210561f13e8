"""What gathering gives: the buying list, the loads and the water."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram, Meter, Ratio, SquareMeter, Unit


class Category(StrEnum):
    """Headings of the buying list."""

    BAGS = "bags"
    LOOSE = "loose"
    UNITS = "units"
    STEEL = "steel"
    WOOD = "wood"
    MESH = "mesh"
    HARDWARE = "hardware"
    GATHERED = "gathered"  # dug, found or made on site: nothing is bought


class Use(NamedTuple):
    """What of a line goes where.

    Attributes:
        layer: word of the layer.
        place: stretch, gate or post group.
        amount: with waste, in the line's unit.
    """

    layer: str
    place: str
    amount: float


@dataclass(frozen=True, kw_only=True)
class Lot:
    """So many packs of one size.

    Attributes:
        packs: whole packs.
        size: what one holds, in the line's unit.
        price: of one, in the smallest coin; None when no price is known.
        says: what a pack is: bag, length, roll, load, each.
    """

    packs: int
    size: float
    price: int | None
    says: str


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of the buying list.

    Attributes:
        kind: what it is.
        category: heading it stands under.
        unit: of its amounts.
        net: what stays in the work.
        waste: what is added for cutting, spill and breakage.
        needed: net and waste.
        on_hand: taken from the pile.
        lots: what is bought; empty for what is gathered or all on hand.
        anew: what all of it would cost with nothing on hand, in the smallest coin; None when a price is missing.
        mass: of what is bought, sand as damp as it comes; None when not known.
        bulk: room it takes in the bed, for loose and bagged stuff; None for all else.
        uses: where it goes.
        notes: what was assumed or is odd.
    """

    kind: Kind
    category: Category
    unit: Unit
    net: float
    waste: float
    needed: float
    on_hand: float
    lots: tuple[Lot, ...]
    anew: int | None
    mass: Kilogram | None
    bulk: CubicMeter | None
    uses: tuple[Use, ...]
    notes: tuple[str, ...]

    @property
    def bought(self) -> float:
        """In all packs together."""
        return sum(lot.packs * lot.size for lot in self.lots)

    @property
    def packs(self) -> int:
        """How many packs."""
        return sum(lot.packs for lot in self.lots)

    @property
    def left_over(self) -> float:
        """Bought and on hand, less what is needed; nothing for what is gathered."""
        return 0.0 if self.category is Category.GATHERED else self.bought + self.on_hand - self.needed

    @property
    def cost(self) -> int | None:
        """In the smallest coin; None when a price is missing, 0 when nothing is bought."""
        return cost_of(self.lots)


def cost_of(lots: Iterable[Lot]) -> int | None:
    """What packs cost together, in the smallest coin; None when a price is missing, 0 for none."""
    total = 0
    for lot in lots:
        if lot.price is None:
            return None
        total += lot.packs * lot.price
    return total


class LoadItem(NamedTuple):
    """One thing on a load, its amount in the unit of its line."""

    kind: Kind
    amount: float
    unit: Unit
    mass: Kilogram


class Load(NamedTuple):
    """What one trip carries.

    Attributes:
        number: from 1.
        items: what is on it.
        mass: together.
        bulk: room taken by loose and bagged stuff.
    """

    number: int
    items: tuple[LoadItem, ...]
    mass: Kilogram
    bulk: CubicMeter


@dataclass(frozen=True, kw_only=True)
class Haulage:
    """The trips to the shop.

    Attributes:
        loads: trip by trip; empty when the payload is not known or there are too many to list.
        trips: how many; None when the payload is not known.
        mass: of all that is hauled, as far as known.
        bulk: of all loose and bagged stuff.
        distance: there and back, all trips; None when not known.
        cost: of all trips, in the smallest coin; None when not known.
        governs: what makes them so many: `mass`, `room`, or empty where trips are not known.
    """

    loads: tuple[Load, ...]
    trips: int | None
    mass: Kilogram
    bulk: CubicMeter
    distance: Meter | None
    cost: int | None
    governs: str


@dataclass(frozen=True, kw_only=True)
class Curing:
    """A coated or poured face that is kept wet.

    Attributes:
        says: what it is.
        area: to wet.
        days: how long.
    """

    says: str
    area: SquareMeter
    days: Ratio


@dataclass(frozen=True, kw_only=True)
class Water:
    """The water of the whole work.

    Attributes:
        mixing: to pour into the mixer, foam and all.
        washing: to wash the mixer and tools out.
        curing: to keep coats wet; None when the faces are not known.
        total: of what is known.
        trips: with the tank; None when its size is not known.
        distance: there and back, all trips; None when not known.
        cost: of all trips, in the smallest coin; None when not known.
        figures: the shares that were taken.
    """

    mixing: CubicMeter
    washing: CubicMeter
    curing: CubicMeter | None
    total: CubicMeter
    trips: int | None
    distance: Meter | None
    cost: int | None
    figures: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, kw_only=True)
class Gathered:
    """The whole of it.

    Attributes:
        lines: buying list by heading, then as the work goes.
        haulage: trips to the shop.
        water: and trips for it.
        unpriced: kinds that are bought and have no price.
        missing: what could not be found out, in plain words.
    """

    lines: tuple[Line, ...]
    haulage: Haulage
    water: Water
    unpriced: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def goods(self) -> int:
        """Cost of all lines that have a price, in the smallest coin; at least this where `unpriced` names any."""
        return sum(line.cost or 0 for line in self.lines)
