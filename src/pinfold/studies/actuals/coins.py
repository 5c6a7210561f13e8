"""Money against the plan: goods of each layer in each run at what went in and what was paid, in whole coins."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from pinfold.logbook.entries import Entry
from pinfold.plan.place import Mixing
from pinfold.plan.stock import Prices
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.ladder import Rung, coin_reasons
from pinfold.studies.actuals.records import BoughtAgainst, CoinsAgainst, MixAgainst
from pinfold.studies.costing import shares_of
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.lessons.paid import item_named, paid_for_pack, rate_of, whole_coins
from pinfold.units import Ratio

DEARER, CHEAPER = "paid above the price list", "paid below the price list"
Group = tuple[str, str]


def bought_against(
    entries: Iterable[Entry], gathered: Gathered, prices: Prices, mixing: Mixing
) -> tuple[tuple[BoughtAgainst, ...], tuple[str, ...]]:
    """What was paid for each thing beside the price list, and what could not be told.

    Args:
        entries: of the log, those that stand
        gathered: the buying list as planned
        prices: the price list
        mixing: with the bags of the site
    """
    aside: Counter[str] = Counter()
    packs: dict[str, Fraction] = defaultdict(Fraction)
    paid: dict[str, int] = defaultdict(int)
    for entry in entries:
        name = item_named(entry.text("item")) if entry.kind == "purchase" else ""
        each = paid_for_pack(entry, name, prices, mixing, aside) if name else None
        cost = Fraction(int(entry.number("cost") or 0)) * (rate_of(entry, prices.currency, prices.digits) or 0)
        if each is not None:
            paid[name] += whole_coins(cost)
            packs[name] += cost / each.coins if each.coins else Fraction(repr(entry.number("packs") or 0.0))
        elif entry.kind == "purchase" and not name:
            aside[f"purchase: nothing called {entry.text('item')!r} is known"] += 1
    planned = {line.kind.name: float(line.packs) for line in gathered.lines}
    found = tuple(_bought(name, packs[name], paid[name], planned, prices) for name in paid)
    return found, tuple(reason if count == 1 else f"{reason} ({count} entries)" for reason, count in aside.items())


def _bought(name: str, packs: Fraction, paid: int, planned: Mapping[str, float], prices: Prices) -> BoughtAgainst:
    price = prices.by_item.get(name)
    listed = None if price is None else whole_coins(packs * price.cost)
    return BoughtAgainst(item=name, packs=float(packs), planned=planned.get(name, 0.0), listed=listed, paid=paid)


def coins_against(
    done: Done, gathered: Gathered, mixes: Sequence[MixAgainst], bought: Sequence[BoughtAgainst]
) -> tuple[CoinsAgainst, ...]:
    """Goods of each layer in each run: due for what is done, and what went in at the prices paid.

    Args:
        done: the job by the plan's own figures and how far it is
        gathered: the buying list as planned
        mixes: batches beside the plan
        bought: what was paid beside the price list
    """
    over = {each.item: each.paid / each.listed for each in bought if each.listed}
    planned: dict[Group, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for line in gathered.lines:
        for use, coins in shares_of((line,)):
            planned[use.layer, done.run(use.place)][line.kind.name] += coins
    by_group: dict[Group, list[MixAgainst]] = defaultdict(list)
    for each in mixes:
        by_group[each.layer, each.run].append(each)
    return tuple(_row(done, group, items, by_group[group], over) for group, items in planned.items())


def _row(
    done: Done, group: Group, items: Mapping[str, int], mixes: Sequence[MixAgainst], over: Mapping[str, Ratio]
) -> CoinsAgainst:
    whole = sum(items.values())
    share = _share(done, group, mixes)
    due = round(whole * share)
    told = [each for each in mixes if each.mixed is not None and each.due > 0]
    rungs = _amounts(due, told)
    level = rungs[-1].level if rungs else float(due)
    price = math.fsum(coins * over.get(item, 1.0) for item, coins in items.items()) / whole if whole else 1.0
    took, why = coin_reasons(due, [*rungs, Rung(DEARER if price > 1 else CHEAPER, level * price)])
    return CoinsAgainst(layer=group[0], run=group[1], planned=whole, done=share, due=due, took=took, reasons=why,
                        as_planned=not told and due > 0)  # fmt: skip


def _share(done: Done, group: Group, mixes: Sequence[MixAgainst]) -> Ratio:
    whole = math.fsum(each.planned for each in mixes)
    return math.fsum(each.due for each in mixes) / whole if whole > 0 else done.of_layer(*group)


def _amounts(due: int, told: Sequence[MixAgainst]) -> list[Rung]:
    """Rungs of the batches as coins: one batch of a layer counts like another."""
    whole = math.fsum(each.due for each in told)
    sums: dict[str, float] = {}
    for each in told:
        for reason in each.reasons:
            sums[reason.says] = sums.get(reason.says, 0.0) + reason.by
    level, rungs = float(due), list[Rung]()
    for says, by in sums.items():
        level += due * by / whole
        rungs.append(Rung(says, level))
    return rungs
