"""What the ledger is made of: its lines, its sums, what is pointed out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from pinfold.units import Meter


class LineSort(StrEnum):
    """What a line of the ledger tells of."""

    PURCHASE = "purchase"  # money out
    LEFTOVER = "leftover"  # bought and not used: onto the pile, back to the shop, or worth nothing
    RECLAIMED = "reclaimed"  # off the pile and into the work
    PILED = "piled"  # onto the pile from elsewhere
    HOURS = "hours"  # of own work


class LedgerLine(NamedTuple):
    """One entry of the log as the ledger reads it. Money in the smallest coin.

    Attributes:
        day: it happened.
        seq: place in the log.
        entry: its id.
        sort: what it tells of.
        what: the thing bought or left over by the name the price list has for it; of hours what was worked at.
        layer: it is for; empty where not told.
        place: stretch, run or gate it is for; empty where not told.
        amount: packs; of hours whole seconds of work, all people together.
        pack: what one holds, as written; empty where not told.
        coins: what it adds to the goods, tax in it, trip and delivery not: below zero for what came back with a worth;
            0 for hours and for money of another currency without a rate.
        tax: of the coins, where told.
        haul: delivery, besides; None where not told.
        trips: to the shop that were driven for it.
        currency: of what was paid where that is not the site's; empty where it is.
        paid: goods and delivery as they stand on the bill, in the smallest coin of that currency.
        paid_haul: of it, the delivery.
        paid_tax: of it, the tax, where told.
        counted: whether it is in the total; money of another currency without a rate is not.
        shop: where it was bought; empty where not told.
        bill: number of the shop's bill or receipt; empty where not told.
        bill_total: what the bill says in all, in the currency of what was paid; None where not told.
    """

    day: date
    seq: int
    entry: str
    sort: LineSort
    what: str
    layer: str
    place: str
    amount: float
    pack: str
    coins: int
    tax: int
    haul: int | None
    trips: int
    currency: str
    paid: int
    paid_haul: int
    paid_tax: int
    counted: bool
    shop: str
    bill: str
    bill_total: int | None


class PointSort(StrEnum):
    """Why something is pointed out."""

    BILL = "bill"  # its lines do not add up to it
    TWICE = "twice"  # logged twice, as it looks
    CURRENCY = "currency"  # another one, and no rate
    AHEAD = "ahead"  # on a day that is not yet
    BELOW = "below"  # below zero
    OVER = "over"  # more came back than was bought


class Point(NamedTuple):
    """Something that is pointed out; nothing is dropped or changed because of it.

    Attributes:
        sort: why.
        says: what was found, and how to mend it.
        lines: places in the log of the entries it is about.
        coins: by how much it is off, or what is paid; None where that says nothing.
        currency: of the coins where that is not the site's; empty where it is.
        likely: what it may come of, most likely first.
    """

    sort: PointSort
    says: str
    lines: tuple[int, ...]
    coins: int | None = None
    currency: str = ""
    likely: tuple[str, ...] = ()


class Abroad(NamedTuple):
    """Money of another currency that no rate is known of, kept apart from the total.

    Attributes:
        currency: as written.
        coins: in its smallest coin.
        number: of lines.
    """

    currency: str
    coins: int
    number: int


class LedgerShare(NamedTuple):
    """What one layer or run took.

    Attributes:
        name: of the layer or run, or `shared` for what belongs to no one.
        spent: money, in the smallest coin.
        seconds: of own work.
        own: worth of that work, in the smallest coin.
        length: of the run; of the enclosure for a layer; None for what belongs to no one run.
    """

    name: str
    spent: int
    seconds: int
    own: int
    length: Meter | None

    @property
    def total(self) -> int:
        """Money and own work."""
        return self.spent + self.own

    @property
    def per_meter(self) -> float | None:
        """Total for a meter, not rounded; None without a length."""
        return self.total / self.length if self.length else None


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """What the work took so far. Money in the smallest coin; the shares add up to the whole exactly.

    Attributes:
        currency: of the site.
        digits: decimals of it.
        lines: by day, and as they stand in the log.
        goods: all purchases that are counted, tax in them.
        tax: of the goods, where told.
        haul: deliveries, and trips to the shop at the price list's cost of one where no delivery was told.
        uncosted: trips to the shop that the price list has no cost for.
        back: worth of what was left over or went onto the pile.
        reclaimed: worth of what came off the pile.
        spent: goods, haul and what was reclaimed, less what went back.
        seconds: of own work.
        hour: what an hour of it counts for; 0 where nothing is told.
        own: worth of own work.
        total: spent and own work.
        length: of the enclosure.
        by_layer: of the total, by layer.
        by_run: by run.
        abroad: money of other currencies, not in the total.
        points: what is pointed out.
    """

    currency: str
    digits: int
    lines: tuple[LedgerLine, ...]
    goods: int
    tax: int
    haul: int
    uncosted: int
    back: int
    reclaimed: int
    spent: int
    seconds: int
    hour: int
    own: int
    total: int
    length: Meter
    by_layer: tuple[LedgerShare, ...]
    by_run: tuple[LedgerShare, ...]
    abroad: tuple[Abroad, ...]
    points: tuple[Point, ...]

    @property
    def per_meter(self) -> float | None:
        """Total for a meter of enclosure, not rounded; None without length."""
        return self.total / self.length if self.length > 0 else None
