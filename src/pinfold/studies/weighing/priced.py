"""What the goods of many build-ups cost and weigh: whole packs on arrays, by the rules of the buying list."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from pinfold.plan.place import Haul
from pinfold.plan.stock import Prices
from pinfold.studies.gathering.amounts import bed_room, carried_mass, is_bought
from pinfold.studies.gathering.lines import Shop, line_of, price_of
from pinfold.studies.gathering.loads import Goods, loaded
from pinfold.studies.gathering.needs import Need
from pinfold.studies.gathering.packs import Pack, lengths_for_each, pack_of, whole_packs_each
from pinfold.studies.gathering.pile import amount_on_hand
from pinfold.studies.gathering.records import Category, Line
from pinfold.studies.gathering.water import WASHING, WETTING
from pinfold.studies.weighing.asking import Cannot
from pinfold.studies.weighing.goods import Good, Needed
from pinfold.studies.weighing.tables import Codes, Table

Numbers = npt.NDArray[np.float64]
Coins = npt.NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, eq=False)
class Bought:
    """One good in many build-ups.

    Attributes:
        line: of the buying list, for one of them.
        needed: of it.
        packs: whole packs by size, (build-ups,) each.
        price: of a pack by size, in the smallest coin; None where it has none.
        mass: of what is bought; not a number where it is not known.
    """

    line: Line
    needed: Numbers
    packs: Mapping[float, Coins]
    price: Mapping[float, int | None]
    mass: Numbers

    @property
    def cost(self) -> Coins:
        """In the smallest coin; nothing for what has no price."""
        return sum((packs * (self.price[size] or 0) for size, packs in self.packs.items()), np.zeros(1, np.int64))

    def lots(self, at: Codes) -> Iterator[list[Goods | None]]:
        """For each size what some of the build-ups haul of it; None where that is nothing, or nobody knows its mass."""
        kind, unit, loose = self.line.kind, self.line.unit, self.line.category is Category.LOOSE
        total = sum(packs[at] * size for size, packs in self.packs.items())
        with np.errstate(invalid="ignore"):
            share = self.mass[at] / total
        for size, packs in self.packs.items():
            bulk = bed_room(kind, size, unit) or 0.0
            yield [
                Goods(kind, unit, size, mass, bulk, count, loose) if count and not math.isnan(mass) else None
                for mass, count in zip((share * size).tolist(), packs[at].tolist(), strict=True)
            ]


@dataclass(frozen=True, kw_only=True, eq=False)
class Priced:
    """What many build-ups cost, weigh and take, one number each.

    Attributes:
        bought: every good.
        goods: cost of all that has a price, in the smallest coin.
        mass: of all that is hauled.
        water: all of it.
        water_trips: for it; none where no tank is known.
        haul: vehicle and distances.
        prices: for the cost of trips.
    """

    bought: tuple[Bought, ...]
    goods: Coins
    mass: Numbers
    water: Numbers
    water_trips: Coins
    haul: Haul
    prices: Prices

    def trips(self) -> Coins:
        """To the shop, load by load, each set of goods once."""
        rows = np.stack([packs for each in self.bought for packs in each.packs.values()], axis=1)
        _, first, inverse = np.unique(rows, axis=0, return_index=True, return_inverse=True)
        lots = zip(*(column for each in self.bought for column in each.lots(first)), strict=True)
        found = [loaded([part for part in parts if part is not None], self.haul)[1] for parts in lots]
        return np.array([trips or 0 for trips in found], dtype=np.int64)[inverse.reshape(-1)]

    def total(self, trips: Coins) -> Coins:
        """Goods and trips, in the smallest coin."""
        return self.goods + trips * (self.prices.trip or 0) + self.water_trips * (self.prices.water_trip or 0)


def priced(tables: Sequence[Table[Needed]], states: Codes, shop: Shop, *, prices: Prices, haul: Haul) -> Priced:
    """What some build-ups take.

    Args:
        tables: what they need
        states: number of the state in each table, (tables, build-ups)
        shop: prices, pile and bags
        prices: for the cost of trips
        haul: vehicle, tank and distances
    """
    bought = tuple(_all_bought(tables, states, shop))
    mixing, damp = (sum(_column(table, name)[at] for table, at in zip(tables, states, strict=True))
                    for name in ("water", "curing"))  # fmt: skip
    water = mixing * (1 + WASHING.value) + WETTING.value * damp
    tank = haul.tank
    return Priced(
        bought=bought, goods=sum((each.cost for each in bought), np.zeros(states.shape[1], np.int64)),
        mass=np.nansum([each.mass for each in bought], axis=0), water=water,
        water_trips=np.ceil(water / tank - 1e-9).astype(np.int64) if tank else np.zeros_like(states[0]),
        haul=haul, prices=prices,
    )  # fmt: skip


def _column(table: Table[Needed], name: str) -> Numbers:
    return np.array([0.0 if isinstance(each, Cannot) else getattr(each, name) for each in table.values])


def _all_bought(tables: Sequence[Table[Needed]], states: Codes, shop: Shop) -> Iterator[Bought]:
    """Every good; what one takes from the pile is no longer there for the next of its name."""
    alike: dict[tuple[str, str], list[_Wanted]] = {}
    for good, (need, by_table) in _goods(tables).items():
        if not is_bought(need.kind):
            continue
        if any(each is not None and each.pieces for column in by_table for each in column):
            yield from _cut(by_table, states, shop)
            continue
        needed = sum(
            np.array([0.0 if each is None else each.needed for each in column])[at]
            for column, at in zip(by_table, states, strict=True)
        )  # fmt: skip
        alike.setdefault((good[1], good[2]), []).append(_Wanted(need, needed, _turns(tables, states, good)))
    for wanted in alike.values():
        yield from _loose(wanted, shop)


class _Wanted(NamedTuple):
    """A good sold by amount: one need of it, how much each build-up needs, and when it comes in its take-off."""

    need: Need
    needed: Numbers
    turn: Codes


def _turns(tables: Sequence[Table[Needed]], states: Codes, good: Good) -> Codes:
    last = 1 << 40
    columns = (
        np.array([last if isinstance(each, Cannot) else each.turns.get(good, last) for each in table.values])[at]
        for table, at in zip(tables, states, strict=True)
    )  # fmt: skip
    return np.asarray(np.stack(list(columns)).min(axis=0), dtype=np.int64)


_ByTable = list[list[Need | None]]


def _goods(tables: Sequence[Table[Needed]]) -> dict[Good, tuple[Need, _ByTable]]:
    """Every good with its need in each state of each table."""
    first: dict[Good, Need] = {}
    for table in tables:
        for value in table.values:
            if not isinstance(value, Cannot):
                for good, need in value.needs.items():
                    first.setdefault(good, need)
    return {
        good: (need, [[None if isinstance(each, Cannot) else each.needs.get(good) for each in table.values]
                      for table in tables])
        for good, need in first.items()
    }  # fmt: skip


def _loose(alike: Sequence[_Wanted], shop: Shop) -> Iterator[Bought]:
    """Goods of one name: what the pile gives to each in its turn, and whole packs for the rest."""
    packs = [_pack(each.need, shop) for each in alike]
    there = np.array([
        [amount_on_hand(each.need.kind, shop.pile, unit=each.need.unit, pack=pack.sizes[0])]
        for each, pack in zip(alike, packs, strict=True)
    ])  # fmt: skip
    needed = np.stack([each.needed for each in alike])
    order = np.argsort(np.stack([each.turn for each in alike]), axis=0, kind="stable")
    on_hand, taken = np.zeros_like(needed), np.zeros(needed.shape[1])
    for place in order:
        at = (place, np.arange(len(place)))
        on_hand[at] = np.minimum(np.maximum(there[place, 0] - taken, 0.0), needed[at])
        taken += on_hand[at]
    for each, pack, rest in zip(alike, packs, needed - on_hand, strict=True):
        yield _in_packs(each, pack, rest, shop)


def _pack(need: Need, shop: Shop) -> Pack:
    price = shop.prices.get(need.kind.name)
    return pack_of(need.kind, unit=need.unit, system=shop.system, mixing=shop.mixing, price=price)


def _in_packs(each: _Wanted, pack: Pack, rest: Numbers, shop: Shop) -> Bought:
    need, price = each.need, shop.prices.get(each.need.kind.name)
    if pack.says == "length":
        packs = lengths_for_each(rest, pack.sizes)
    else:
        packs = {pack.sizes[0]: whole_packs_each(rest, pack.sizes[0])}
    amount = np.zeros_like(rest)
    for size, many in packs.items():
        amount = amount + many * size
    mass = carried_mass(need.kind, 1.0, need.unit, shop.mixing.sand_bulking)
    return Bought(
        line=line_of(need, shop), needed=each.needed, packs=packs, mass=_times(amount, mass),
        price={size: price_of(need, size, price) for size in packs},
    )  # fmt: skip


def _times(amount: Numbers, share: float | None) -> Numbers:
    return np.asarray(amount * (np.nan if share is None else share), dtype=np.float64)


def _cut(by_table: _ByTable, states: Codes, shop: Shop) -> Iterator[Bought]:
    """A good cut to length: by the pieces of each state."""
    for column, at in zip(by_table, states, strict=True):
        lines = [None if need is None else line_of(need, shop) for need in column]
        one = next((line for line in lines if line is not None), None)
        if one is None:
            continue
        sizes = sorted({lot.size for line in lines if line is not None for lot in line.lots})
        price = {lot.size: lot.price for line in lines if line is not None for lot in line.lots}
        packs = {size: np.array([_of_size(line, size) for line in lines], dtype=np.int64)[at] for size in sizes}
        mass = np.array([0.0 if line is None else np.nan if line.mass is None else line.mass for line in lines])[at]
        needed = np.array([0.0 if line is None else line.needed for line in lines])[at]
        yield Bought(line=one, needed=needed, packs=packs, price=price, mass=mass)


def _of_size(line: Line | None, size: float) -> int:
    return 0 if line is None else sum(lot.packs for lot in line.lots if lot.size == size)
