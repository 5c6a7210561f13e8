"""What is missing to tell the cost of the build-ups of a search, by the rule that the cost of one plan goes by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from pinfold.studies.gathering.amounts import bed_room
from pinfold.studies.gathering.records import Category
from pinfold.studies.weighing.asking import Cannot
from pinfold.studies.weighing.front import Yes
from pinfold.studies.weighing.goods import Needed
from pinfold.studies.weighing.priced import Bought, Priced
from pinfold.studies.weighing.tables import Codes, Table

Lacks = Mapping[str, Yes]
"""What is missing, in plain words, and of which build-ups, (n,) each."""
_Lack = tuple[str, Yes]


def lacks_of(bought: Priced, goods: Sequence[Table[Needed]], states: Codes) -> Lacks:
    """What is missing to tell what build-ups cost; of a build-up that nothing is missing of the cost is known.

    Args:
        bought: what they take, at some prices
        goods: what they need
        states: which of it each of them needs, (tables, n)
    """
    found: dict[str, Yes] = {}
    none = np.zeros(states.shape[1], dtype=bool)
    lacks = (*_uncounted(goods, states), *_of_goods(bought), *_of_trips(bought))
    for why, yes in lacks:
        found[why] = found.get(why, none) | yes
    return {why: yes for why, yes in found.items() if yes.any()}


def _uncounted(goods: Sequence[Table[Needed]], states: Codes) -> Iterator[_Lack]:
    """What of the take-off could not be counted."""
    for table, at in zip(goods, states, strict=True):
        told = [(each.why,) if isinstance(each, Cannot) else (*each.missing, *each.uncharged) for each in table.values]
        for why in dict.fromkeys(why for many in told for why in many):
            yield why, np.array([why in many for many in told])[at]


def _of_goods(bought: Priced) -> Iterator[_Lack]:
    """Prices and weights that are not known of what is bought."""
    for each in bought.bought:
        name, taken = each.line.kind.says, _taken(each)
        unpriced = [packs > 0 for size, packs in each.packs.items() if each.price[size] is None]
        yield f"no price for {name}", _any(unpriced, taken)
        if each.line.category is not Category.HARDWARE:
            yield f"no mass is known for {name}: the loads leave it out", taken & np.isnan(each.mass)
        if bought.haul.payload is not None and each.line.category is not Category.LOOSE:
            heavy = [(packs > 0) & _over(each, size, bought.haul.payload) for size, packs in each.packs.items()]
            yield f"one {name} alone weighs more than the vehicle carries", _any(heavy, taken)


def _of_trips(bought: Priced) -> Iterator[_Lack]:
    """What trips hang on."""
    every, haul, prices = np.ones(len(bought.goods), dtype=bool), bought.haul, bought.prices
    if haul.payload is None or prices.trip is None:
        yield "no cost of the trips to the shop", every
    if haul.tank is None or prices.water_trip is None:
        yield "no cost of the trips for water", every
    if haul.payload is not None and haul.bed is None:
        bulky = [_taken(each) & ~np.isnan(each.mass) for each in bought.bought if _is_bulky(each)]
        yield "trips count mass only: the plan gives no bed volume", _any(bulky, every)


def _taken(each: Bought) -> Yes:
    """Which build-ups buy any of a good."""
    return np.asarray(sum(each.packs.values()) > 0)


def _any(many: Sequence[Yes], like: Yes) -> Yes:
    return np.logical_or.reduce(many) if many else np.zeros_like(like)


def _over(each: Bought, size: float, payload: float) -> Yes:
    """Whether one pack weighs more than the vehicle carries."""
    total = sum(packs * long for long, packs in each.packs.items())
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.asarray(each.mass / total * size > payload)


def _is_bulky(each: Bought) -> bool:
    return any(bed_room(each.line.kind, size, each.line.unit) for size in each.packs)
