"""What several verbs reckon from a site: take-off, batch cards, parts, buying list, cost, each found once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from pinfold.actions.sites import Site
from pinfold.logbook.entries import Entry
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.costing import Costs, planned_cost
from pinfold.studies.gathering.gather import gather
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.layout.records import Layout
from pinfold.studies.lessons.applying import as_taught
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.mixing.pacing import paced
from pinfold.studies.parts.done import progress, ready
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.records import Part, Quantity
from pinfold.studies.quantities.take_off import take_off


@dataclass(frozen=True, kw_only=True)
class Reckoning:
    """Everything counted.

    Attributes:
        quantities: the take-off.
        cards: batch cards.
        parts: pieces to cut.
        gathered: buying list, loads, water.
        costs: of the buying list, with what lies on the pile now and what is cut already.
        planned: of the whole plan: what was bought and is left over, what came off the pile and what is cut leave it as
            it is.
    """

    quantities: tuple[Quantity, ...]
    cards: tuple[BatchCard, ...]
    parts: tuple[Part, ...]
    gathered: Gathered
    costs: Costs
    planned: Costs


@lru_cache(maxsize=4)  # several pages of one site ask
def reckon_all(site: Site) -> Reckoning:
    """Count everything of a site with what its log teaches."""
    return count_all(site.layout, site.lessons, site.entries)


def count_all(layout: Layout, taught: Lessons, entries: Iterable[Entry]) -> Reckoning:
    """Count everything with some lessons, in the order that one needs the other.

    Args:
        layout: the plan laid out with them
        taught: the lessons
        entries: of the log, for what is cut already
    """
    quantities = as_taught(take_off(layout), taught)
    cards = batch_cards(paced(quantities, layout, taught), taught.mixing)
    pieces = parts(layout)
    pile = (*taught.pile, *ready(pieces, progress(pieces, tuple(entries)).cut))
    gathered = gather(quantities, cards, layout=layout, prices=taught.prices, pile=pile, parts=pieces)
    costs = planned = planned_cost(gathered, layout, taught.prices)
    if pile != taught.pile_whole:
        whole = gather(quantities, cards, layout=layout, prices=taught.prices, pile=taught.pile_whole, parts=pieces)
        planned = planned_cost(whole, layout, taught.prices)
    return Reckoning(
        quantities=quantities, cards=cards, parts=pieces, gathered=gathered, costs=costs, planned=planned
    )  # fmt: skip
