"""The account out of what is known of a site. Every word in it is pinfold's own, but those that were chosen."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime

from pinfold.logbook.entries import Entry
from pinfold.studies.account.records import (
    Account,
    Ahead,
    CostOfLength,
    Part,
    SharedCost,
    SharedCrack,
    SharedWords,
    SharedWork,
    When,
    Wish,
)
from pinfold.studies.account.taught import learned_of
from pinfold.studies.costing import Costs
from pinfold.studies.forecasting.records import Forecast, Spread
from pinfold.studies.layout.records import Layout
from pinfold.studies.ledger.records import Ledger, LineSort
from pinfold.studies.lessons.records import Lessons
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Second

DONE = 0.995
"""Share of the work from which all of it counts as done."""
OTHER = "all else"
_SLIGHT: Second = 60.0
"""Time that rounding leaves is no task of its own."""


@dataclass(frozen=True, kw_only=True)
class Known:
    """What is known of a site.

    Attributes:
        layout: the plan laid out.
        layers: that the plan itself knows.
        costs: as planned.
        ledger: what was spent and worked; None where the log cannot be read.
        forecast: to complete.
        lessons: what the log taught.
        cracks: with their days counted from the first day of the account.
        people: who wrote the log.
    """

    layout: Layout
    layers: frozenset[str]
    costs: Costs
    ledger: Ledger | None
    forecast: Forecast
    lessons: Lessons
    cracks: tuple[SharedCrack, ...]
    people: tuple[str, ...]


def account_of(known: Known, wish: Wish, photos: Iterable[Entry], notes: Iterable[Entry]) -> Account:
    """What is shared of a site.

    Args:
        known: of it
        wish: what was chosen
        photos: entries whose photos were chosen
        notes: entries whose words were chosen
    """
    plan, layout, found = known.layout.plan, known.layout, known.forecast
    days = worked_days(known.ledger)
    hours, money = Part.HOURS in wish.parts, Part.MONEY in wish.parts
    costs, spent = _costs(known, money=money)
    cracks = known.cracks if Part.CRACKS in wish.parts else ()
    told = frozenset(wish.notes)
    return Account(
        name=plan.name if Part.NAME in wish.parts else "",
        place=plan.place.says if Part.PLACE in wish.parts else "",
        coordinates=_coordinates(known) if Part.COORDINATES in wish.parts else None,
        people=known.people if Part.PEOPLE in wish.parts else (),
        when=_span(days, wish.when), length=layout.length, built=_built(layout),
        posts=sum(not post.gate for post in layout.posts), gates=len(layout.gates), done=found.done, days=len(days),
        lasted=(days[-1] - days[0]).days + 1 if days else 0,
        took=float(known.ledger.seconds) if hours and known.ledger is not None else None,
        works=_works(known) if hours else (), spent=spent, currency=known.costs.currency if money else "",
        digits=known.costs.digits if money else 0, costs=costs, cost_of_length=_cost_of_length(known, money=money),
        cracks=cracks, learned=learned_of(known.lessons, found, wish.parts), ahead=_ahead(found, hours=hours),
        photos=tuple(_words(each, wish.when, told=each.seq in told) for each in photos),
        notes=tuple(_words(each, wish.when, told=True) for each in notes), missing=tuple(_missing(known, wish)),
    )  # fmt: skip


def worked_days(ledger: Ledger | None) -> list[date]:
    """The days with work in the log, the first first."""
    lines = ledger.lines if ledger is not None else ()
    return sorted({line.day for line in lines if line.sort is LineSort.HOURS})


def day_told(day: date, when: When) -> str:
    """`April 2026`, `2026-04-06`, or nothing."""
    return {When.NEVER: "", When.MONTHS: f"{day:%B %Y}", When.DAYS: day.isoformat()}[when]


def _span(days: list[date], when: When) -> str:
    if not days or when is When.NEVER:
        return ""
    first, last = day_told(days[0], when), day_told(days[-1], when)
    return first if first == last else f"{first} to {last}"


def _words(entry: Entry, when: When, *, told: bool) -> SharedWords:
    says = entry.text("text") if told else ""
    return SharedWords(when=day_told(datetime.fromisoformat(entry.at).date(), when), says=says)


def _coordinates(known: Known) -> tuple[float, float] | None:
    place = known.layout.plan.place
    if place.latitude is None or place.longitude is None:
        return None
    return round(math.degrees(place.latitude), 5), round(math.degrees(place.longitude), 5)


def _built(layout: Layout) -> tuple[str, ...]:
    """What the built runs are made of, from the trench up, each kind once, by the words of its shelf."""
    found: dict[str, None] = {}
    for stretch in layout.stretches:
        of = stretch.buildup
        layers = (of.footing, of.wall, of.coping, *of.coats, of.posts, *of.rails, of.mesh)
        found |= dict.fromkeys(_says(layer.kind) for layer in layers if layer is not None)
    found |= dict.fromkeys(_says(gate.gate.kind) for gate in layout.gates.values())
    return tuple(words for words in found if words)


def _says(kind: Kind) -> str:
    """What its shelf says of a kind, whatever the plan says; nothing for a kind that is on none."""
    shipped = shelf(kind.shelf).get(kind.name)
    return shipped.says if shipped is not None else ""


def _works(known: Known) -> tuple[SharedWork, ...]:
    """Time by task, the most first; what belongs to no task last."""
    whole = float(known.ledger.seconds) if known.ledger is not None else 0.0
    if whole <= 0:
        return ()
    took = [(each.work, each.took) for each in known.forecast.works if each.took > 0]
    rest = whole - math.fsum(time for _, time in took)
    ranked = sorted(took, key=lambda each: -each[1]) + ([(OTHER, rest)] if rest > _SLIGHT else [])
    return tuple(SharedWork(work, time, time / whole) for work, time in ranked)


def _costs(known: Known, *, money: bool) -> tuple[tuple[SharedCost, ...], bool]:
    """By layer, the most first: what was spent where something was, else what is planned.

    With money a layer that more came back of than went into stands below zero, so that all of it adds up.
    """
    ledger = known.ledger
    spent = ledger is not None and ledger.spent > 0
    rows = [(each.name, each.spent) for each in ledger.by_layer] if ledger is not None and spent else [
        (each.name, each.cost) for each in known.costs.by_layer]  # fmt: skip
    sums: dict[str, int] = {}
    for name, coins in rows:
        layer = name if name in known.layers else OTHER
        sums[layer] = sums.get(layer, 0) + coins
    whole = sum(coins for coins in sums.values() if coins > 0)
    ranked = sorted(sums.items(), key=lambda each: (each[0] == OTHER, -each[1]))
    found = tuple(
        SharedCost(layer, max(coins, 0) / whole, coins if money else None) for layer, coins in ranked
        if coins > 0 or (coins < 0 < whole and money)
    )  # fmt: skip
    return found, spent


def _cost_of_length(known: Known, *, money: bool) -> CostOfLength | None:
    earned, goods, length = known.forecast.money, known.forecast.goods, known.layout.length
    if earned is None or goods is None or earned.budget <= 0 or length <= 0:
        return None
    shares = Spread(*(coins / earned.budget for coins in goods))
    return CostOfLength(foreseen=shares, planned=earned.budget / length if money else None)


def _ahead(found: Forecast, *, hours: bool) -> Ahead | None:
    if found.done >= DONE:
        return None
    today = date.fromisoformat(found.today)
    ends = [each.date() for each in (found.early, found.likely, found.late) if each is not None]
    days = Spread(*(float((end - today).days) for end in ends)) if len(ends) == len(Spread._fields) else None
    return Ahead(time=found.to_come if hours else None, days=days)


def _missing(known: Known, wish: Wish) -> Iterator[str]:
    """What could not be told; no word of the plan or the log stands in it."""
    yield from _missing_of_log(known.ledger, planned=known.costs.goods > 0)
    unpriced = len(known.costs.unpriced)
    if unpriced:
        yield f"{unpriced} {'thing has' if unpriced == 1 else 'things have'} no price: costs are without them"
    if Part.CRACKS in wish.parts and not known.cracks:
        yield "no crack was measured"
    if Part.COORDINATES in wish.parts and _coordinates(known) is None:
        yield "the plan has no coordinates"
    if not wish.photos:
        yield "no photo was chosen"


def _missing_of_log(ledger: Ledger | None, *, planned: bool) -> Iterator[str]:
    if ledger is None:
        yield "the log cannot be read: nothing of the work done is in it"
        return
    if ledger.seconds == 0:
        yield "the log has no hours"
    if ledger.spent <= 0:
        yield "the log has nothing bought" + (": costs are planned ones" if planned else "")
    if ledger.abroad:
        yield "what was paid in another currency without a rate is not in the costs"
