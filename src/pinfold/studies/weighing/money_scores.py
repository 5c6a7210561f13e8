"""Cash now, cash later, cost for a length."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from pinfold.findings import Step, work
from pinfold.formulas import ownership
from pinfold.sources import Standing
from pinfold.studies.costing import shared_out
from pinfold.studies.weighing.elements import row_for, rows_for
from pinfold.studies.weighing.records import Score, not_shown
from pinfold.studies.weighing.subject import Asked, Subject, standing_of
from pinfold.studies.weighing.unsure_cost import WASTES, bought, fewest_trips
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Ratio

_GOES_WITH = {
    "footing": "wall", "mortar": "wall", "grout": "wall", "bars": "wall", "membrane": "wall", "wall": "wall",
    "collars": "posts", "anchors": "posts", "braces": "posts", "posts": "posts", "ties": "mesh", "apron": "mesh",
}  # fmt: skip
"""What is renewed together with what."""


def cash_now(subject: Subject, asked: Asked) -> Score:
    """All goods and trips; from nothing wasted to twice the waste, in whole packs and whole trips."""
    del asked
    costs = subject.costs
    if costs.missing:
        return not_shown("; ".join(costs.missing))
    less, usual, more = _by_waste(subject)
    return Score(
        value=costs.total, low=costs.total + less - usual, high=costs.total + more - usual, standing=Standing.GIVEN,
        because="goods and trips by your price list, from nothing wasted to twice the waste",
    )  # fmt: skip


def _by_waste(subject: Subject) -> tuple[int, ...]:
    """Goods and trips to the shop without any waste, as planned, and with twice of it, in whole coins."""
    found, shop = bought(subject.gathered, {"waste": WASTES}), subject.gathered.haulage
    trips = fewest_trips(subject.gathered, subject.layout.plan.haul, found)
    each = (shop.cost or 0) / shop.trips if shop.trips else 0.0
    return tuple(round(coins) for coins in np.broadcast_to(found.goods + trips * each, WASTES.shape).tolist())


def cost_per_length(subject: Subject, asked: Asked) -> Score:
    """Cash now for a meter."""
    now, length = cash_now(subject, asked), subject.layout.length
    if now.value is None or now.low is None or now.high is None or length <= 0:
        return not_shown(now.because or "the enclosure has no length")
    return Score(
        value=now.value / length, low=now.low / length, high=now.high / length, standing=now.standing,
        because=now.because,
    )  # fmt: skip


class Later(NamedTuple):
    """What goods of one life cost later.

    Attributes:
        row: of the table of lives.
        layer: word of the layer.
        first: what they cost now, bought new, in the smallest coin; what has no price aside.
        unpriced: what comes off the pile and has no price.
    """

    row: Kind
    layer: str
    first: int
    unpriced: tuple[str, ...] = ()


def cash_later(subject: Subject, asked: Asked) -> Score:
    """Upkeep and replacing over the years, at today's prices; what it is worth now stands in the working."""
    if subject.costs.missing:
        return not_shown("; ".join(subject.costs.missing))
    layers = tuple(_layers(subject))
    unknown = tuple(_unpriced(layers, asked.years))
    if unknown:
        return not_shown(f"no price to renew by for what comes off the pile: {', '.join(dict.fromkeys(unknown))}")
    figures = tuple(
        (f"{name} of {each.row.says}", each.row.figure(name)) for each in layers for name in ("life", "goods")
    )
    value = _spent(layers, asked.years, "life")
    return Score(
        value=value, low=_spent(layers, asked.years, "life_high"), high=_spent(layers, asked.years, "life_low"),
        standing=standing_of(figures), because=_told(layers, asked.years), working=_worth(layers, asked.years, value),
        figures=(*figures, ("interest beyond rising prices", RATE.figure("rate"))),
    )  # fmt: skip


RATE = kind("ownership", "interest")


def _layers(subject: Subject) -> Iterator[Later]:
    """Goods by layer and life: what has a life of its own by that, all else by the part of its layer worn out first."""
    rows: dict[str, Kind] = {}
    for element in subject.elements:
        if not element.ref.startswith(("setting/", "bars/", "footings/")):
            row = row_for("lasting", element.ref)
            rows[element.layer] = min(rows.get(element.layer, row), row, key=lambda each: each.value("life"))
    sums: dict[tuple[str, str], Later] = {}
    for line in subject.gathered.lines:
        own = rows_for("lasting", f"{line.kind.shelf}/{line.kind.name}")[:1]
        without = (line.kind.says,) if line.anew is None else ()
        coins_by_use = shared_out(line.anew or 0, [use.amount for use in line.uses])
        for use, coins in zip(line.uses, coins_by_use, strict=True):
            layer = _GOES_WITH.get(use.layer, use.layer)
            for row in own or ((rows[layer],) if layer in rows else ()):
                before = sums.get((row.name, layer), Later(row, layer, 0))
                sums[row.name, layer] = Later(row, layer, before.first + coins, (*before.unpriced, *without))
    yield from sums.values()


def _unpriced(layers: Iterable[Later], years: int) -> Iterator[str]:
    """What is renewed or kept up within the years, came off the pile, and has no price."""
    for each in layers:
        if each.row.value("goods") or renewals(years, each.row.value("life_low")):
            yield from each.unpriced


def renewals(years: Ratio, life: Ratio) -> int:
    """How often something is built anew within some years; not in the last of them."""
    return max(math.ceil(years / life - 1e-9) - 1, 0)


def _spent(layers: Iterable[Later], years: int, life: str) -> int:
    return sum(
        each.first * renewals(years, each.row.value(life)) + round(each.first * each.row.value("goods") * years)
        for each in layers
    )


def _told(layers: Iterable[Later], years: int) -> str:
    anew = [f"{each.row.says} {times} times" if times > 1 else f"{each.row.says} once" for each in layers
            if each.first > 0 and (times := renewals(years, each.row.value("life")))]  # fmt: skip
    return (
        f"in {years} years " + (f"built anew: {', '.join(anew)}" if anew else "nothing is built anew") + "; goods only"
    )


def _worth(layers: Iterable[Later], years: int, plain: int) -> tuple[Step, ...]:
    """What the same is worth now, and the yearly sum that pays it."""
    rate = RATE.value("rate")
    steps = []
    for each in layers:
        life, first = each.row.value("life"), float(each.first)
        steps += [
            work(ownership.present_worth, why=f"{each.row.says} built anew, worth now",
                 amount=first, rate=rate, years=life * time)
            for time in range(1, renewals(years, life) + 1)
        ]  # fmt: skip
        if each.row.value("goods") * first > 0:
            steps.append(work(ownership.present_worth_of_yearly, why=f"upkeep of {each.row.says}, worth now",
                              amount=first * each.row.value("goods"), rate=rate, years=float(years)))  # fmt: skip
    if plain > 0 and steps:
        steps.append(work(ownership.yearly_equivalent, why="all of it as one sum a year, in the smallest coin",
                          amount=math.fsum(step.number for step in steps), rate=rate, years=float(years)))  # fmt: skip
    return tuple(steps)
