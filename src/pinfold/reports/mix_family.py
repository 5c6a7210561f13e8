"""A mix of a family as a page: the batch, what lies outside published ranges, other methods, and the working."""

from __future__ import annotations

from pinfold.reports.mix_card import card_blocks
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, Working, table
from pinfold.sources import publication
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.proportioning.records import Departure, Family, Proportioned, Rival
from pinfold.units import METER, SQUARE_METER, System, show


def family_page(family: Family, found: Proportioned, card: BatchCard, system: System) -> Page:
    """A mix for a wish.

    Args:
        family: of the mix
        found: the mix and how it was found
        card: of the volume asked for, or of one batch
        system: US or metric
    """
    blocks: list[Block] = [Paragraph(text=f"By {found.method}.")]
    blocks += [Caution(text=departure_line(one)) for one in found.departures]
    blocks += card_blocks(card, system)
    blocks += _covers(found, card, system)
    blocks += [Paragraph(text=note) for note in found.notes]
    for rival in found.rivals:
        blocks += [Heading(text=f"Beside it: {rival.method}"), rival_table(rival, system), Paragraph(text=rival.says)]
    steps = (*found.working, *(card.charge.working if card.charge else ()))
    figures = card.charge.figures if card.charge else ()
    blocks.append(Working(steps=steps, figures=figures))
    return Page(title=f"{family.name.replace('-', ' ')}: {family.says}", blocks=tuple(blocks))


_FILM = 1.5e-3
"""Thinner than this a tape shows nothing."""


def departure_line(departure: Departure) -> str:
    """What lies outside a published range, in a line."""
    wanted = f"{publication(departure.source).title} has {departure.wanted}"
    says = f" {departure.says}" if departure.says else ""
    return f"Outside the published range: {departure.what}, {departure.found}; {wanted}.{says}"


def _covers(found: Proportioned, card: BatchCard, system: System) -> list[Block]:
    if found.thickness is None or card.charge is None:
        return []
    area = show(card.charge.makes / found.thickness, SQUARE_METER, system)
    thick = show(found.thickness, METER, system, in_unit="mm" if found.thickness < _FILM else "")
    return [Paragraph(text=f"A batch covers {area} at {thick} where nothing is lost.")]


def rival_table(rival: Rival, system: System) -> Table:
    """Both methods side by side."""
    rows = [
        (what, show(ours, unit, system), show(theirs, unit, system)) for what, ours, theirs, unit in rival.rows
    ]  # fmt: skip
    return table(("", "here", rival.method), rows, right=(1, 2))
