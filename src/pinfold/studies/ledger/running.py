"""Sums of the ledger kept in step with the entries that stand: an entry more costs the same however long the log is."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from collections.abc import Hashable, Mapping
from datetime import date
from typing import NamedTuple

from pinfold.logbook.entries import Entry
from pinfold.studies.ledger.bills import bill_point
from pinfold.studies.ledger.lines import line_of
from pinfold.studies.ledger.records import LedgerLine, LineSort, Point, PointSort

_PARTS = 10**6
"""Parts of a pack, so that packs are added up in whole numbers and exactly."""


class Heading(NamedTuple):
    """What lines are added up under.

    Attributes:
        sort: of the lines.
        what: the thing, or what was worked at.
        layer: as told.
        place: as told.
        pack: as written.
    """

    sort: LineSort
    what: str
    layer: str
    place: str
    pack: str


class Sum(NamedTuple):
    """What the lines under one heading come to.

    Attributes:
        number: of lines.
        coins: goods or worth.
        tax: of them.
        haul: deliveries told.
        trips: of lines that tell no delivery.
        parts: millionths of packs; of hours whole seconds.
    """

    number: int = 0
    coins: int = 0
    tax: int = 0
    haul: int = 0
    trips: int = 0
    parts: int = 0

    def plus(self, other: Sum, sign: int = 1) -> Sum:
        """Both together, or this one less the other."""
        return Sum(
            self.number + sign * other.number, self.coins + sign * other.coins, self.tax + sign * other.tax,
            self.haul + sign * other.haul, self.trips + sign * other.trips, self.parts + sign * other.parts,
        )  # fmt: skip


class Books(NamedTuple):
    """The ledger as far as the log alone tells it.

    Attributes:
        lines: by day, and as they stand in the log.
        sums: of all that is counted, by heading.
        odd: those that are not counted, or are below zero.
        points: bills that do not add up, and what was logged twice.
    """

    lines: tuple[LedgerLine, ...]
    sums: Mapping[Heading, Sum]
    odd: tuple[LedgerLine, ...]
    points: tuple[Point, ...]


class _Groups:
    """Lines that belong together by a key, and what is to be said of each group; a group is judged when it changed."""

    def __init__(self) -> None:
        self._held: dict[Hashable, dict[str, LedgerLine]] = defaultdict(dict)
        self._changed: set[Hashable] = set()
        self.points: dict[Hashable, Point] = {}

    def put(self, key: Hashable, line: LedgerLine) -> None:
        self._held[key][line.entry] = line
        self._changed.add(key)

    def drop(self, key: Hashable, line: LedgerLine) -> None:
        self._held[key].pop(line.entry, None)
        self._changed.add(key)

    def changed(self) -> list[tuple[Hashable, tuple[LedgerLine, ...]]]:
        """The groups that changed since this was asked last."""
        changed, self._changed = self._changed, set()
        return [(key, tuple(self._held[key].values())) for key in changed]


class RunningLedger:
    """Lines and sums of a log, entry by entry; used by one thread at a time."""

    def __init__(self, currency: str, digits: int) -> None:
        self._currency, self._digits = currency, digits
        self._lines: dict[str, LedgerLine] = {}
        self._ordered: list[LedgerLine] = []
        self._sums: dict[Heading, Sum] = {}
        self._odd: dict[str, LedgerLine] = {}
        self._bills, self._alike = _Groups(), _Groups()

    def put(self, entry: Entry) -> None:
        """An entry stands from now on."""
        line = line_of(entry, self._currency, self._digits)
        if line is None:
            return
        self._lines[line.entry] = line
        insort(self._ordered, line)
        self._add(line, 1)
        if not line.counted or line.amount < 0:
            self._odd[line.entry] = line
        if line.sort is LineSort.PURCHASE:
            self._bills.put(_bill(line), line)
            self._alike.put(_likeness(line), line)

    def drop(self, name: str) -> None:
        """The entry of an id stands no more, if it did."""
        line = self._lines.pop(name, None)
        if line is None:
            return
        del self._ordered[bisect_left(self._ordered, line)]
        self._add(line, -1)
        self._odd.pop(name, None)
        if line.sort is LineSort.PURCHASE:
            self._bills.drop(_bill(line), line)
            self._alike.drop(_likeness(line), line)

    def found(self) -> Books:
        """What all that stands comes to."""
        for groups, judge in ((self._bills, bill_point), (self._alike, _twice)):
            for key, lines in groups.changed():
                point = judge(lines) if lines else None
                if point is None:
                    groups.points.pop(key, None)
                else:
                    groups.points[key] = point
        points = (*self._bills.points.values(), *self._alike.points.values())
        said = tuple(sorted(points, key=lambda point: point.lines))
        return Books(tuple(self._ordered), dict(self._sums), tuple(sorted(self._odd.values())), said)

    def _add(self, line: LedgerLine, sign: int) -> None:
        heading = heading_of(line)
        total = self._sums.get(heading, Sum()).plus(sum_of(line), sign)
        if total.number:
            self._sums[heading] = total
        else:
            del self._sums[heading]


def heading_of(line: LedgerLine) -> Heading:
    """What a line is added up under."""
    return Heading(line.sort, line.what, line.layer, line.place, line.pack)


def sum_of(line: LedgerLine) -> Sum:
    """What a line adds; amounts below zero, which only an old log has, add nothing."""
    parts = max(round(line.amount * (1 if line.sort is LineSort.HOURS else _PARTS)), 0)
    return Sum(1, line.coins, line.tax, line.haul or 0, line.trips if line.haul is None else 0, parts)


def _bill(line: LedgerLine) -> tuple[str, str | date]:
    """Lines of one shop with one number are of one bill; without a number those of one day."""
    return line.shop.casefold(), line.bill.casefold() or line.day


def _likeness(line: LedgerLine) -> tuple[object, ...]:
    shop, bill = line.shop.casefold(), line.bill.casefold()
    return shop, line.day, line.paid, bill, line.what, line.amount, line.currency.casefold()


def _twice(lines: tuple[LedgerLine, ...]) -> Point | None:
    if len(lines) < 2:
        return None
    seqs = tuple(sorted(line.seq for line in lines))
    of = f" of {lines[0].shop}" if lines[0].shop else ""
    alike = "day, amount and bill" if lines[0].bill else "day and amount"
    says = f"{lines[0].what}{of} on {lines[0].day}, alike in {alike}: written down {_times(len(seqs))}, as it looks"
    return Point(PointSort.TWICE, says, seqs, lines[0].paid, lines[0].currency)


def _times(number: int) -> str:
    return "twice" if number == 2 else f"{number} times"
