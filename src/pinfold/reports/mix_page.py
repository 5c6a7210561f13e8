"""Batch cards as pages: what goes into each batch, in which order, how often."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.plan.place import Mixing
from pinfold.reports.amounts import volume, weight
from pinfold.reports.mix_card import CardTold, card_blocks, card_title
from pinfold.reports.pages import Block, Page, Paragraph, Table, table
from pinfold.studies.batching.records import BatchCard
from pinfold.units import CELSIUS, CUBIC_METER, System, show

Told = Sequence[tuple[BatchCard, CardTold]]
"""Cards, with what is told beside each."""


def mix_page(name: str, told: Told, mixing: Mixing, *, system: System, addresses: Sequence[str] = ()) -> Page:
    """What cards share, a list of them where there are several, then each of them.

    Args:
        name: of the plan
        told: the cards
        mixing: what they are for
        system: units of the plan
        addresses: of the page that each card has for itself
    """
    blocks: list[Block] = [Paragraph(text=measures(mixing, system))]
    blocks += [_listed(told, system, addresses)] if len(told) > 1 else []
    for card, beside in told:
        blocks += card_blocks(card, system, beside)
    return Page(title=f"{name}: what to mix", blocks=tuple(blocks))


def _listed(told: Told, system: System, addresses: Sequence[str]) -> Table:
    """The cards with their batches; how many are mixed where the log knows of any card."""
    heads = ("card", "batches", "each makes", "mixed")
    rows = [
        (
            card_title(card, placed=beside.placed),
            *_counts(card, system),
            "" if beside.mixed is None else f"{beside.mixed}",
        )
        for card, beside in told
    ]
    known = len(heads) if any(row[-1] for row in rows) else len(heads) - 1
    return table(heads[:known], [row[:known] for row in rows], right=range(1, known), links=addresses)


def _counts(card: BatchCard, system: System) -> tuple[str, str]:
    return ("NOT SHOWN", "") if card.charge is None else (str(card.batches), volume(card.charge.makes, system))


def measures(mixing: Mixing, system: System) -> str:
    """What it is measured by, mixed in, lifted by, and how warm it is taken to be."""
    bulking = "not measured" if mixing.sand_bulking is None else f"{mixing.sand_bulking:.0%}"
    drum = "" if mixing.drum is None else f", its drum holds {volume(mixing.drum, system)}"
    warm = "" if mixing.temperature is None else f" Air at {show(mixing.temperature, CELSIUS, system)}."
    return (
        f"Measured by a level bucket of {show(mixing.bucket, CUBIC_METER, system, in_unit=_small(system))} and cement "
        f"bags of {weight(mixing.bag, system)}; the mixer turns {volume(mixing.batch, system)}{drum}. "
        f"Swelling of the damp sand: {bulking}.{warm}"
    )


def _small(system: System) -> str:
    return "gal" if system is System.US else "L"
