"""What a search knows of every build-up that stands: what it takes, found once, and what that costs at some prices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from pinfold.plan.stock import Prices
from pinfold.studies.gathering.lines import Shop
from pinfold.studies.weighing.checked import Checked
from pinfold.studies.weighing.front import Column, Yes
from pinfold.studies.weighing.goods import Needed, goods_tables
from pinfold.studies.weighing.priced import priced
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.tables import Codes, Table, Told


@dataclass(frozen=True, kw_only=True, eq=False)
class Takes:
    """What the build-ups that stand take, whatever it costs.

    Attributes:
        goods: what they need, group by group of layers.
        states: which of it each of them needs, (tables, n).
        priceless: columns that no price changes, by criterion, (n,).
    """

    goods: tuple[Table[Needed], ...]
    states: Codes
    priceless: Mapping[str, Column]


def takes_of(scene: Scene, found: Checked, stands: Yes, told: Told = None) -> Takes:
    """What those that stand take.

    Args:
        scene: what is varied
        found: every check
        stands: which stand
        told: of the progress
    """
    goods = goods_tables(scene, stands, told)
    at = tuple(np.argwhere(stands).T)
    states = np.array([np.broadcast_to(table.codes, scene.shape)[at] for table in goods])
    return Takes(goods=goods, states=states, priceless={"margin": 1 - found.use[at]})


def columns_of(scene: Scene, takes: Takes, prices: Prices) -> Mapping[str, Column]:
    """Every column, by criterion; none where nothing stands.

    Args:
        scene: what is varied
        takes: what they take
        prices: what things cost here
    """
    if not takes.states.shape[1]:
        return {}
    built = scene.built(scene.first)
    shop = Shop(
        prices=prices.by_item, pile=tuple(built.lessons.pile), mixing=built.lessons.mixing, system=scene.plan.units
    )  # fmt: skip
    bought = priced(takes.goods, takes.states, shop, prices=prices, haul=scene.plan.haul)
    trips = bought.trips()
    cash = bought.total(trips).astype(float)
    return {
        "cash_now": cash, "cost_per_length": cash / built.layout.length, "water": bought.water,
        "cement": bought.cement, "hauled": bought.mass, "trips": (trips + bought.water_trips).astype(float),
        **takes.priceless,
    }  # fmt: skip
