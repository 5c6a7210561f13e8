"""What things last cost here. Money is counted in whole coins and in fractions, never in floats."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from fractions import Fraction
from functools import lru_cache, partial
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.logbook.carried import Carried, CarriedPrice
from pinfold.logbook.entries import Entry
from pinfold.plan.place import Mixing
from pinfold.plan.stock import Price, Prices
from pinfold.sources import Standing
from pinfold.studies.lessons.habits import PRICE_SLIP, PRICE_WINDOW_DAYS
from pinfold.studies.lessons.records import Lesson, Prior, Taught, Topic
from pinfold.studies.lessons.telling import entries
from pinfold.studies.lessons.things import thing
from pinfold.units import KILOGRAM, RATIO, decimals_of, money, read, unit_of

_SHELVES = (
    "materials", "walls", "copings", "footings", "posts", "rails", "meshes", "bars", "fasteners", "gates", "mixes",
)  # fmt: skip


class Paid(NamedTuple):
    """One payment as the price of one pack.

    Attributes:
        when: it was paid.
        seq: place in the log, for payments at one time.
        pack: as bought.
        coins: for one of the price list's packs where it has one, else for one pack as bought; exact.
    """

    when: datetime
    seq: int
    pack: Price
    coins: Fraction


def payments(
    bought: Sequence[Entry], prices: Prices, mixing: Mixing, carried: Carried, now: datetime
) -> tuple[Taught, Prices]:  # fmt: skip
    """Prices as last paid, over the price list.

    The last payment within a year before the last entry of the log counts; an older one only where the list has no
    price. Where three prices are known and the last is three times off their middle, it is a slip and the one before
    counts.

    Args:
        bought: entries of purchases
        prices: the price list of the site
        mixing: with the bags of the site
        carried: lessons of other places; what was paid there counts where there is neither a price nor a payment here
        now: when the last entry of the log happened
    """
    aside: Counter[str] = Counter()
    groups: dict[str, list[Paid]] = defaultdict(list)
    for entry in bought:
        name = item_named(entry.text("item"))
        paid = paid_for_pack(entry, name, prices, mixing, aside) if name else None
        if not name:
            aside[f"purchase: nothing called {entry.text('item')!r} is known"] += 1
        elif paid is not None:
            groups[name].append(paid)
    lessons, new = [], {}
    for name, each in groups.items():
        lesson, price = _lesson(name, sorted(each, key=lambda one: (one.when, one.seq)), prices, now)
        lessons.append(lesson)
        if lesson.used:
            new[name] = price
    for lesson, price in _brought(carried, {*prices.by_item, *groups}, prices):
        lessons.append(lesson)
        new[price.item] = price
    by_item = {**prices.by_item, **new}
    return Taught(lessons=tuple(lessons), set_aside=aside), replace(prices, by_item=by_item) if new else prices


def _brought(carried: Carried, known: set[str], prices: Prices) -> Iterator[tuple[Lesson, Price]]:
    """Prices paid elsewhere in the same money, the last one of each thing that has none here."""
    found: dict[str, tuple[CarriedPrice, str]] = {}
    for site in carried.sites if carried.alike > 0 else ():
        if (site.currency, site.digits) == (prices.currency, prices.digits):
            for each in site.prices:
                before = found.get(each.price.item)
                if each.price.item not in known and (before is None or before[0].last < each.last):
                    found[each.price.item] = each, site.name
    for name, (each, where) in found.items():
        cost = money(each.price.cost, prices.currency, prices.digits)
        told = f"{name}: {cost} for {_of(each.price)} was last paid at {where} on {each.last}; no price is known here."
        yield Lesson(
            topic=Topic.PRICE, subject=name, prior=_prior(None), value=float(each.price.cost), spread=None, count=0,
            weight=0.0, per=_of(each.price), told=told, used="cost of goods", since=each.last, last=each.last,
            standing=Standing.LEARNED,
        ), each.price  # fmt: skip


@lru_cache(maxsize=4096)
def item_named(name: str) -> str:
    """The thing that an entry means, by the name the price list and the pile have for it; empty for none."""
    found = (thing(shelf, name) for shelf in _SHELVES)
    return next((kind.name for kind in found if kind is not None), "")


def paid_for_pack(
    entry: Entry, name: str, prices: Prices, mixing: Mixing, aside: Counter[str]
) -> Paid | None:  # fmt: skip
    """What a purchase says of the price of one pack; None, and why in `aside`, where it says nothing."""
    packs, cost = entry.number("packs"), entry.number("cost")
    listed, rate = prices.by_item.get(name), rate_of(entry, prices.currency, prices.digits)
    if not packs or cost is None:
        return None
    if rate is None:
        aside[f"purchase of {name}: paid in {entry.text('currency')} and no rate is told"] += 1
        return None
    try:
        pack = pack_of(entry.text("pack"), name, listed, mixing)
    except InputError:
        aside[f"purchase of {name}: a pack of {entry.text('pack')!r} cannot be read"] += 1
        return None
    coins = Fraction(int(cost)) * rate / _exact(packs)
    if listed is not None and listed.unit.kind != pack.unit.kind:
        aside[f"purchase of {name}: {pack.printed!r} cannot be told against the list's pack of {listed.printed!r}"] += 1
        return None
    if listed is not None:
        coins *= _exact(listed.pack) / _exact(pack.pack)
    return Paid(entry.when, entry.seq, pack, coins)


def rate_of(entry: Entry, currency: str, digits: int) -> Fraction | None:
    """What one coin of a purchase is worth in the site's; None for another currency without a rate.

    Args:
        entry: a purchase; its money is in coins of its own currency
        currency: of the site
        digits: decimals of that
    """
    other, rate = entry.text("currency"), entry.number("rate")
    coin = Fraction(10) ** (digits - decimals_of(other, digits))
    if not other or other.casefold() == currency.casefold():
        return coin
    return _exact(rate) * coin if rate else None


def _exact(number: float) -> Fraction:
    """The decimal number that was written, not the float nearest to it."""
    return Fraction(repr(number))


def pack_of(text: str, name: str, listed: Price | None, mixing: Mixing) -> Price:
    """A pack as written; where nothing is written the price list's, a bag of the site, or one piece.

    Raises:
        InputError: it cannot be read.
    """
    bags = {"portland-cement": mixing.bag, "hydrated-lime": mixing.lime_bag, "hydraulic-lime": mixing.lime_bag}
    if not text and listed is not None:
        return listed
    if not text and name in bags:
        return Price(item=name, pack=bags[name], unit=KILOGRAM, cost=0, printed="bag")
    unit, size = (unit_of(text), read(text, like=unit_of(text))) if text else (RATIO, 1.0)
    if not 0 < size < math.inf:
        raise InputError("more than 0 is wanted")
    return Price(item=name, pack=size, unit=unit, cost=0, printed=text or "each")


def whole_coins(coins: Fraction) -> int:
    """To the nearest coin, halves up."""
    return math.floor(coins + Fraction(1, 2))


def _lesson(name: str, paid: Sequence[Paid], prices: Prices, now: datetime) -> tuple[Lesson, Price]:
    listed = prices.by_item.get(name)
    last, slip = _last(paid, listed)
    old = now - last.when > timedelta(days=PRICE_WINDOW_DAYS)
    pack = listed or last.pack
    price = replace(pack, cost=whole_coins(last.coins))
    cost = partial(money, currency=prices.currency, digits=prices.digits)
    others = [each.coins for each in paid if each is not slip and now - each.when <= timedelta(days=PRICE_WINDOW_DAYS)]
    told = f"{name}: last paid {cost(price.cost)} for {_of(price)} on {last.when.date()}"
    told += f"; the price list says {cost(listed.cost)}" if listed is not None else "; the list has no price"
    told += ", and that is used, for the payment is over a year old" if old and listed is not None else ""
    told += f"; {cost(whole_coins(slip.coins))} on {slip.when.date()} is taken for a slip" if slip else ""
    used = "" if old and listed is not None else "cost of goods"
    return Lesson(
        topic=Topic.PRICE, subject=name, prior=_prior(listed), value=float(price.cost), spread=_spread(others),
        count=len(paid), weight=1.0, per=_of(price), told=f"{told}, by {entries(len(paid))}.", used=used,
        since=paid[0].when.date().isoformat(), last=paid[-1].when.date().isoformat(), standing=Standing.LEARNED,
    ), price  # fmt: skip


def _last(paid: Sequence[Paid], listed: Price | None) -> tuple[Paid, Paid | None]:
    """The payment that counts, and the slip before it was found; at most one is passed over."""
    voices = sorted([each.coins for each in _alike(paid)] + ([Fraction(listed.cost)] if listed is not None else []))
    if len(paid) < 2 or len(voices) < 3:
        return paid[-1], None
    middle = voices[len(voices) // 2]
    wild = not middle / PRICE_SLIP <= paid[-1].coins <= middle * PRICE_SLIP
    return (paid[-2], paid[-1]) if wild else (paid[-1], None)


def _alike(paid: Sequence[Paid]) -> list[Paid]:
    """Those for a pack like that of the last one."""
    last = paid[-1].pack
    return [each for each in paid if (each.pack.unit.kind, each.pack.pack) == (last.unit.kind, last.pack)]


def _spread(coins: Sequence[Fraction]) -> float | None:
    """Standard deviation of what was paid for one pack, to the whole coin; None for a single payment."""
    if len(coins) < 2:
        return None
    mean = sum(coins, Fraction(0)) / len(coins)
    variance = sum(((each - mean) ** 2 for each in coins), Fraction(0)) / (len(coins) - 1)
    return float(math.isqrt(math.floor(variance)))


def _prior(listed: Price | None) -> Prior:
    return Prior(
        value=None if listed is None else float(listed.cost), spread=None, within=0.0, unit=RATIO, figure=None,
        says="no price was listed" if listed is None else "the price list",
    )  # fmt: skip


def _of(price: Price) -> str:
    return "one" if price.printed == "each" else price.printed
