"""What things cost here, and what is on hand already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pinfold.plan.flaws import Flaw
from pinfold.units import Meter, Unit


@dataclass(frozen=True, kw_only=True)
class Price:
    """What one pack of an item costs here.

    Attributes:
        item: name of the kind, as the buying list has it.
        pack: how much one pack holds, in SI of `unit`; 1 for things sold singly.
        unit: of the pack: plain number, length, area, mass or volume.
        cost: of one pack, in the smallest coin.
        printed: the pack as written.
    """

    item: str
    pack: float
    unit: Unit
    cost: int
    printed: str


@dataclass(frozen=True, kw_only=True)
class Prices:
    """The price list of a site.

    Attributes:
        currency: three letters, or the builder's sign for it.
        digits: decimals of the currency: 2 for cents.
        trip: cost of one trip to the shop and back, in the smallest coin; None when not given.
        water_trip: cost of one trip for water; None when not given.
        by_item: price by item.
        hour: what an hour of one's own work counts for, in the smallest coin; nothing unless told.
    """

    currency: str
    digits: int
    trip: int | None
    water_trip: int | None
    by_item: Mapping[str, Price]
    hour: int = 0


NO_PRICES = Prices(currency="", digits=2, trip=None, water_trip=None, by_item={})


class RawEnds(StrEnum):
    """Which ends of a piece are raw, seen as it lies before one."""

    NONE = "none"
    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class Condition(StrEnum):
    """How a piece is, all in all."""

    SOUND = "sound"
    WORN = "worn"
    POOR = "poor"


@dataclass(frozen=True, kw_only=True)
class PilePiece:
    """Something on hand.

    Attributes:
        item: name of the kind.
        count: how many alike.
        length: of each, for things cut to length; None for others.
        amount: how much, in SI of `unit`, for loose stuff; None for things counted.
        unit: of the amount; None for things counted.
        note: what else is to be known, or where it lies.
        width: across its length, for sheets and rolls; None where not told.
        flaws: zones that are not as they should be, from left to right.
        raw_ends: which of its ends come off before it is used.
        condition: of the whole piece; a poor one is good for few parts.
    """

    item: str
    count: int
    length: Meter | None
    amount: float | None
    unit: Unit | None
    note: str
    width: Meter | None = None
    flaws: tuple[Flaw, ...] = ()
    raw_ends: RawEnds = RawEnds.NONE
    condition: Condition = Condition.SOUND
