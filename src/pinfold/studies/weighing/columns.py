"""What a search knows of every build-up that stands: what it takes, found once, and what that costs at some prices."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.logbook.works import Work
from pinfold.plan.stock import Prices
from pinfold.studies.gathering.amounts import is_bought
from pinfold.studies.gathering.lines import Shop
from pinfold.studies.gathering.records import Category
from pinfold.studies.weighing.asking import Asks, Cannot, one_by_one
from pinfold.studies.weighing.checked import Checked
from pinfold.studies.weighing.front import Column, Yes
from pinfold.studies.weighing.goods import Needed, goods_tables
from pinfold.studies.weighing.guards import Guard, guards_of
from pinfold.studies.weighing.lacking import Lacks, lacks_of
from pinfold.studies.weighing.priced import Bought, Coins, Priced, priced
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.stuff_scores import carbon_row, is_cement
from pinfold.studies.weighing.tables import Codes, Table
from pinfold.units import Ratio

COLUMNS = (
    "cash_now", "cost_per_length", "hours", "water", "cement", "hauled", "trips", "carbon", "margin",
)  # fmt: skip
"""Criteria that a search knows of every build-up that stands; whom it keeps out comes by the animals asked about."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Takes:
    """What the build-ups that stand take, whatever it costs.

    Attributes:
        goods: what they need, group by group of layers.
        states: which of it each of them needs, (tables, n).
        priceless: columns that no price changes, by criterion, (n,).
        guards: whom they keep out.
    """

    goods: tuple[Table[Needed], ...]
    states: Codes
    priceless: Mapping[str, Column]
    guards: tuple[Guard, ...]


def takes_of(scene: Scene, found: Checked, stands: Yes, asks: Asks = one_by_one) -> Takes:
    """What those that stand take.

    Args:
        scene: what is varied
        found: every check
        stands: which stand
        asks: who counts it
    """
    goods = goods_tables(scene, stands, asks)
    at = tuple(np.argwhere(stands).T)
    states = np.array([np.broadcast_to(table.codes, scene.shape)[at] for table in goods])
    priceless = {"margin": 1 - found.use[at], "hours": _hours(scene, goods, states)}
    return Takes(goods=goods, states=states, priceless=priceless, guards=guards_of(scene))


def _hours(scene: Scene, goods: Sequence[Table[Needed]], states: Codes) -> Column:
    """Work of all hands at their own pace; not shown where something could not be counted."""
    found: Column = np.zeros(states.shape[1])
    for table, at in zip(goods, states, strict=True):
        found += np.array([_labor(each, scene.over_norms) for each in table.values])[at]
    return found


def _labor(needed: Needed | Cannot, over: Mapping[Work, Ratio]) -> float:
    if isinstance(needed, Cannot) or needed.missing:
        return math.nan
    return math.fsum(labor * over[work] for work, labor in needed.labor.items())


class Known(NamedTuple):
    """What is known of build-ups at some prices.

    Attributes:
        columns: by criterion, not a number where it is not shown, (n,).
        lacks: what is missing to tell their cost, and of which of them, (n,) each.
    """

    columns: Mapping[str, Column]
    lacks: Lacks


def columns_of(scene: Scene, takes: Takes, prices: Prices) -> Known:
    """Every column, and what is missing to tell what they cost; empty ones where nothing stands.

    Args:
        scene: what is varied
        takes: what they take
        prices: what things cost here
    """
    if not takes.states.shape[1]:
        return Known({key: np.zeros(0) for key in COLUMNS}, {})
    built = scene.built(scene.first)
    shop = Shop(
        prices=prices.by_item, pile=tuple(built.lessons.pile), mixing=built.lessons.mixing, system=scene.plan.units
    )  # fmt: skip
    bought = priced(takes.goods, takes.states, shop, prices=prices, haul=scene.plan.haul)
    trips, lacks = bought.trips(), lacks_of(bought, takes.goods, takes.states)
    cash = bought.total(trips).astype(float)
    for unknown in lacks.values():
        cash[unknown] = math.nan
    return Known({
        "cash_now": cash, "cost_per_length": cash / built.layout.length, "water": bought.water,
        "cement": _cement(bought), "hauled": _hauled(bought), "trips": _trips(bought, trips),
        "carbon": _carbon(bought, takes), **takes.priceless,
    }, lacks)  # fmt: skip


def _hauled(bought: Priced) -> Column:
    """Weight from the shop; not shown where the weight of anything but hardware is not known."""
    return sum((_weight(each) for each in bought.bought), np.zeros(len(bought.goods)))


def _weight(each: Bought) -> Column:
    """Of one good, as far as any is bought; hardware, hinges, ties and pins, is not weighed."""
    known = np.nan_to_num(each.mass) if each.line.category is Category.HARDWARE else each.mass
    return np.where(sum(each.packs.values()) > 0, known, 0.0)


def _cement(bought: Priced) -> Column:
    """In every mix, on hand or bought."""
    lots = (each.needed for each in bought.bought if is_cement(each.line))
    return sum(lots, np.zeros(len(bought.goods)))


def _trips(bought: Priced, to_shop: Coins) -> Column:
    """To the shop and for water; not shown where nobody knows how much one carries."""
    if bought.haul.payload is None or bought.haul.tank is None:
        return np.full(len(to_shop), np.nan)
    return np.asarray(to_shop + bought.water_trips, dtype=float)


def _carbon(bought: Priced, takes: Takes) -> Column:
    """Set free by making what is bought; not shown where something has no figure."""
    found: Column = np.zeros(takes.states.shape[1])
    for table, at in zip(takes.goods, takes.states, strict=True):
        found += np.array([_gathered_carbon(each) for each in table.values])[at]
    for each in bought.bought:
        row = carbon_row(each.line.kind)
        found += np.where(each.needed > 0, _weight(each) * (math.nan if row is None else row.value("carbon")), 0.0)
    return found


def _gathered_carbon(needed: Needed | Cannot) -> float:
    """Nothing of what is dug, found or made on site, as long as it has a figure."""
    if isinstance(needed, Cannot):
        return math.nan
    gathered = (need.kind for need in needed.needs.values() if not is_bought(need.kind))
    return math.nan if any(carbon_row(kind) is None for kind in gathered) else 0.0
