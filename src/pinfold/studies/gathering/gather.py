"""What to buy and gather for the whole work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import PilePiece, Prices
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.gathering.lines import Shop, lines_of
from pinfold.studies.gathering.loads import haulage, too_heavy
from pinfold.studies.gathering.needs import needs_of, unknown_amounts
from pinfold.studies.gathering.records import Category, Gathered, Haulage, Line, Water
from pinfold.studies.gathering.sizes import curing_of, pieces_by_kind, sized
from pinfold.studies.gathering.water import water_for
from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.records import Part, Quantity

_HEADINGS = tuple(Category)


def gather(
    quantities: Sequence[Quantity],
    cards: Sequence[BatchCard],
    *,
    layout: Layout,
    prices: Prices,
    pile: Sequence[PilePiece] = (),
    parts: Sequence[Part] = (),
) -> Gathered:
    """Buying list, loads and water.

    Args:
        quantities: the take-off
        cards: batch cards of its mixes
        layout: for units, bags, vehicle and distances, and the sizes things are wanted in
        prices: what things cost here
        pile: what is on hand
        parts: pieces cut to length; without them posts go by the layout, rails and bars by their length
    """
    plan = layout.plan
    needs = needs_of(as_bought(quantities, layout), cards, pieces_by_kind(parts, layout))
    shop = Shop(prices=prices.by_item, pile=tuple(pile), mixing=plan.mixing, system=plan.units)
    lines = _in_order(lines_of(needs, shop))
    hauled = haulage(lines, plan.haul, prices.trip)
    water = water_for(cards, curing_of(layout), plan.haul, prices.water_trip)
    return Gathered(
        lines=lines,
        haulage=hauled,
        water=water,
        unpriced=tuple(dict.fromkeys(line.kind.name for line in lines if line.cost is None)),
        missing=(*unknown_amounts(quantities), *_missing(lines, cards), *_missing_haul(plan, lines, hauled, water)),
    )


def as_bought(quantities: Iterable[Quantity], layout: Layout) -> Iterator[Quantity]:
    """The take-off with things by the size they are bought in."""
    for quantity in quantities:
        kind = sized(quantity, layout)
        yield quantity if kind is quantity.kind else replace(quantity, kind=kind)


def _in_order(lines: Iterable[Line]) -> tuple[Line, ...]:
    return tuple(sorted(lines, key=lambda line: _HEADINGS.index(line.category)))


def _missing(lines: Sequence[Line], cards: Sequence[BatchCard]) -> list[str]:
    weightless = [line.kind.name for line in lines if line.mass is None and line.category is not Category.HARDWARE]
    told = list(uncharged(cards))
    if weightless:
        told.append(f"no mass is known for {', '.join(weightless)}: the loads leave them out")
    return told


def uncharged(cards: Iterable[BatchCard]) -> tuple[str, ...]:
    """Mixes that cannot be charged, each with what is missing: they are bought nothing for."""
    return tuple(f"{card.mix.name} for {card.layer}: {card.missing}" for card in cards if card.charge is None)


def _missing_haul(plan: Enclosure, lines: Sequence[Line], hauled: Haulage, water: Water) -> list[str]:
    told = [
        f"one {name} alone weighs more than the vehicle carries: have it brought"
        for name in too_heavy(lines, plan.haul)
    ]
    if hauled.trips is None:
        told.append("trips are not shown: the plan gives no payload")
    elif plan.haul.bed is None and hauled.bulk:
        told.append("trips count mass only: the plan gives no bed volume")
    if water.trips is None:
        told.append("trips for water are not shown: the plan gives no tank")
    if water.curing is None:
        told.append("water to keep coats wet is not counted: their faces are not known")
    return told
