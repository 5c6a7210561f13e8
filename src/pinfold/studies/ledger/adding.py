"""The ledger: what the log tells, with the prices of the site, shared out over the layers and runs of the plan."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, timedelta
from typing import NamedTuple

from pinfold.plan.stock import Prices
from pinfold.studies.costing import SHARED, shared_out
from pinfold.studies.ledger.records import Abroad, Ledger, LedgerLine, LedgerShare, LineSort, Point, PointSort
from pinfold.studies.ledger.running import Books, Heading, Sum
from pinfold.studies.ledger.sharing import Cell, Uses, weights_of
from pinfold.units import Meter

_HOUR = 3600
_BACK = (LineSort.LEFTOVER, LineSort.PILED)


class _Took(NamedTuple):
    """What one layer of one run took: coins and seconds."""

    spent: int = 0
    seconds: int = 0


def ledger_of(books: Books, prices: Prices, uses: Uses, today: date) -> Ledger:
    """What the work took so far.

    Args:
        books: what the log tells
        prices: of the site, for trips to the shop and own hours
        uses: what the money and hours are shared out over
        today: where the site is; what the log has under a later day is told
    """
    trip, sums = prices.trip or 0, books.sums
    cells = _cells(sums, uses, trip)
    seconds = sum(took.seconds for took in cells.values())
    own = dict(zip(cells, shared_out(worth_of(seconds, prices.hour), _weights(cells)), strict=True))
    bought = [found for heading, found in sums.items() if heading.sort is LineSort.PURCHASE]
    trips = sum(found.trips for found in bought)
    spent = sum(took.spent for took in cells.values())
    return Ledger(
        currency=prices.currency, digits=prices.digits, lines=books.lines, goods=sum(each.coins for each in bought),
        tax=sum(each.tax for each in bought), haul=sum(each.haul for each in bought) + trips * trip,
        uncosted=trips if prices.trip is None else 0,
        back=-sum(found.coins for heading, found in sums.items() if heading.sort in _BACK),
        reclaimed=sum(found.coins for heading, found in sums.items() if heading.sort is LineSort.RECLAIMED),
        spent=spent, seconds=seconds, hour=prices.hour, own=sum(own.values()), total=spent + sum(own.values()),
        length=uses.length,
        by_layer=_shares(cells, own, lambda cell: cell.layer, lambda _: uses.length),
        by_run=_shares(cells, own, lambda cell: cell.run, lambda run: uses.lengths.get(run)),
        abroad=_abroad(books.odd), points=(*books.points, *_points(books, today)),
    )  # fmt: skip


def worth_of(seconds: int, hour: int) -> int:
    """Whole coins for hours of own work, halves up.

    Args:
        seconds: of work
        hour: coins for an hour
    """
    return (2 * seconds * hour + _HOUR) // (2 * _HOUR)


def _weights(cells: Mapping[Cell, _Took]) -> list[float]:
    return [float(took.seconds) for took in cells.values()]


def _cells(sums: Mapping[Heading, Sum], uses: Uses, trip: int) -> dict[Cell, _Took]:
    """What each layer of each run took, in the order of the plan's layers."""
    groups: dict[tuple[str, str, str], _Took] = defaultdict(_Took)
    for heading, found in sums.items():
        worked = heading.sort is LineSort.HOURS
        key = ("" if worked else heading.what, heading.layer, heading.place)
        before = groups[key]
        coins = found.coins + found.haul + found.trips * trip
        groups[key] = _Took(before.spent + coins, before.seconds + (found.parts if worked else 0))
    cells: dict[Cell, _Took] = {Cell(layer, run): _Took() for layer, runs in uses.by_layer.items() for run in runs}
    for what, layer, place in sorted(groups):
        took = groups[what, layer, place]
        weights = weights_of(uses, what=what, layer=layer, place=place)
        parts = (shared_out(number, list(weights.values())) for number in took)
        for cell, spent, seconds in zip(weights, *parts, strict=True):
            before = cells.get(cell, _Took())
            cells[cell] = _Took(before.spent + spent, before.seconds + seconds)
    return cells


def _shares(
    cells: Mapping[Cell, _Took], own: Mapping[Cell, int], name_of: Callable[[Cell], str],
    length_of: Callable[[str], Meter | None],
) -> tuple[LedgerShare, ...]:  # fmt: skip
    """By a heading of the cells; what took nothing is left out, what belongs to no one comes last."""
    sums: dict[str, tuple[int, int, int]] = {}
    for cell, took in cells.items():
        name = name_of(cell)
        spent, seconds, worth = sums.get(name, (0, 0, 0))
        sums[name] = (spent + took.spent, seconds + took.seconds, worth + own[cell])
    return tuple(
        LedgerShare(name, *sums[name], None if name == SHARED else length_of(name))
        for name in sorted(sums, key=lambda name: name == SHARED)
        if any(sums[name])
    )


def _abroad(odd: Iterable[LedgerLine]) -> tuple[Abroad, ...]:
    found: dict[str, tuple[int, int]] = {}
    for line in odd:
        if not line.counted:
            name = line.currency.upper()
            coins, number = found.get(name, (0, 0))
            found[name] = (coins + line.paid, number + 1)
    return tuple(Abroad(name, *found[name]) for name in sorted(found))


def _points(books: Books, today: date) -> Iterator[Point]:
    for name in sorted({line.currency.upper() for line in books.odd if not line.counted}):
        lines = [line for line in books.odd if not line.counted and line.currency.upper() == name]
        says = f"paid in {name} without a rate: kept apart, not in the total"
        yield Point(PointSort.CURRENCY, says, _seqs(lines), sum(line.paid for line in lines), name)
    early = books.lines[bisect_left(books.lines, (today + timedelta(days=1),)) :]
    if early:
        says = f"on days still to come, from {early[0].day} on: counted all the same"
        yield Point(PointSort.AHEAD, says, _seqs(early))
    below = [line for line in books.odd if line.amount < 0]
    if below:
        yield Point(PointSort.BELOW, "amounts below zero: not counted as packs or hours", _seqs(below))
    yield from _over(books)


def _over(books: Books) -> Iterator[Point]:
    """Things of which more packs came back than the log has bought, packs as they were written.

    Of what the log never bought only where that brought money: it may have been bought before the log began.
    """
    packs: dict[tuple[str, str], dict[LineSort, int]] = defaultdict(lambda: defaultdict(int))
    worth: dict[str, int] = defaultdict(int)
    for heading, found in books.sums.items():
        packs[heading.what, heading.pack][heading.sort] += found.parts
        worth[heading.what] += -found.coins if heading.sort is LineSort.LEFTOVER else 0
    known = {heading.what for heading in books.sums if heading.sort is LineSort.PURCHASE}
    for (what, pack), parts in sorted(packs.items()):
        bought, back = parts[LineSort.PURCHASE], parts[LineSort.LEFTOVER]
        if back > bought and (bought or (what not in known and worth[what])):
            lines = [
                line
                for line in books.lines
                if line.sort is LineSort.LEFTOVER and (line.what, line.pack) == (what, pack)
            ]
            says = f"{what}: {back / 10**6:g} packs left over, {f'{bought / 10**6:g}' if bought else 'none'} bought"
            yield Point(PointSort.OVER, says, _seqs(lines))


def _seqs(lines: Iterable[LedgerLine]) -> tuple[int, ...]:
    return tuple(sorted(line.seq for line in lines))
