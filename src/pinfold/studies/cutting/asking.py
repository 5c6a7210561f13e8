"""A cut order as the bare question, and which parts and pieces its kinds and bays stand for."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.studies.cutting.arranging import kerf_with
from pinfold.studies.cutting.clearing import Clear, clears
from pinfold.studies.cutting.packing import Packing, Room
from pinfold.studies.cutting.records import CutOrder, PartWanted, Steps, Stock


@dataclass(frozen=True, kw_only=True)
class Reading:
    """How an order is read where parts lean or may have some defects in them.

    Attributes:
        nested: whether ends that lean are taken to lie side by side and to share their cuts.
        spare: taken off each clear length for those that do not.
        kinds: defects that some part may have; clear lengths go on over them.
        careful: marks of stock in which they are avoided all the same.
    """

    nested: bool = True
    spare: Steps = 0
    kinds: frozenset[str] = frozenset()
    careful: frozenset[str] = frozenset()

    def allowed(self, stock: Stock) -> frozenset[str]:
        """Kinds of defects that the clear lengths of some stock go on over."""
        return frozenset() if stock.mark in self.careful else self.kinds

    def need(self, part: PartWanted, kerf: Steps) -> Steps:
        """Twice the length that a part takes with its cut."""
        if self.nested:
            wide = kerf if not self.spare else kerf_with(part, kerf)
            return 2 * (part.length + wide) - abs(part.left.run) - abs(part.right.run)
        return 2 * (part.length + kerf_with(part, kerf))

    def clears(self, stock: Stock, kerf: Steps) -> tuple[Clear, ...]:
        """The clear lengths of some stock."""
        return clears(stock, kerf, allowed=self.allowed(stock))


class Spot(NamedTuple):
    """A clear length of some stock.

    Attributes:
        stock: index of the stock.
        clear: index of its clear length.
    """

    stock: int
    clear: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Asked:
    """The question and what it stands for.

    Attributes:
        packing: the question.
        reading: how the order is read.
        kinds: parts alike, for each kind.
        spots: what each bay may be, room by room; nothing for pieces that are lacking.
        coin: what a coin of the question is worth.
        lacking: price of a piece that is lacking: more than all that are there.
    """

    packing: Packing
    reading: Reading
    kinds: tuple[tuple[PartWanted, ...], ...]
    spots: tuple[tuple[Spot, ...], ...]
    coin: int
    lacking: int


class _Site(NamedTuple):
    """A room and the spots of its bays."""

    room: Room
    spots: tuple[tuple[Spot, ...], ...]


def weight(order: CutOrder, stock: Stock) -> int:
    """What is made least: its price, or the length bought where nothing has a price."""
    if any(each.price for each in order.stock):
        return stock.price
    return 0 if stock.old else stock.length


def longest(order: CutOrder, part: PartWanted) -> Steps:
    """The longest that any stock gives of a part like this."""
    rooms = (
        clear.room - order.kerf for stock in order.stock for clear in clears(stock, order.kerf, allowed=part.allows)
    )
    return max(rooms, default=0)


def asked(order: CutOrder, reading: Reading) -> Asked | None:
    """The question for all parts that are not too long; None where there are none."""
    alike: dict[int, list[PartWanted]] = {}
    for part in order.parts:
        if part.length <= longest(order, part):
            alike.setdefault(reading.need(part, order.kerf), []).append(part)
    if not alike:
        return None
    needs = sorted(alike, reverse=True)
    counts = [sum(part.count for part in alike[need]) for need in needs]
    grain, coin = math.gcd(*needs), math.gcd(*(weight(order, stock) for stock in order.stock)) or 1
    sites = list(_sites(order, reading, shortest=needs[-1], grain=grain))
    lacking = 1 + sum(counts) * max((site.room.price // coin for site in sites), default=0)
    if needs[0] > max((size for site in sites if site.room.endless for size in site.room.sizes), default=0) * grain:
        most = max([needs[0] // grain, *(size for site in sites for size in site.room.sizes)])
        sites.append(_Site(Room((most,), lacking * coin, sum(counts), endless=True), ((),)))
    return Asked(
        packing=Packing(
            needs=np.array(needs) // grain,
            counts=np.array(counts),
            rooms=tuple(site.room._replace(price=site.room.price // coin) for site in sites),
        ),
        reading=reading,
        kinds=tuple(tuple(alike[need]) for need in needs),
        spots=tuple(spots for site in sites for spots in site.spots),
        coin=coin,
        lacking=lacking,
    )


def _sites(order: CutOrder, reading: Reading, *, shortest: int, grain: int) -> Iterator[_Site]:
    """All pieces as rooms: clear lengths that cost nothing each by itself, others piece by piece."""
    free: dict[tuple[int, bool, int], list[Spot]] = {}
    total = sum(part.count for part in order.parts)
    for index, stock in enumerate(order.stock):
        spots: dict[int, list[Spot]] = {}
        for at, clear in enumerate(reading.clears(stock, order.kerf)):
            size = 2 * (clear.room - reading.spare)
            if size >= shortest:
                spots.setdefault(size // grain, []).append(Spot(index, at))
        new, endless = 0 if stock.old else stock.length, stock.count is None
        price, most = weight(order, stock), total if stock.count is None else min(stock.count, total)
        if price and spots:
            sizes = tuple(size for size, each in spots.items() for _ in each)
            yield _Site(Room(sizes, price, most, endless, new), tuple(tuple(each) for each in spots.values()))
        elif spots:
            for size, each in spots.items():
                free.setdefault((size, endless, new), []).extend(each)
    for (size, endless, new), each in free.items():
        most = total if endless else sum(order.stock[spot.stock].count or 0 for spot in each)
        yield _Site(Room((size,), 0, min(most, total), endless, new), (tuple(each),))
