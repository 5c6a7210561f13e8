"""Batch cards as pages: what goes into each batch, in which order, how often."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.plan.place import Mixing
from pinfold.reports.amounts import volume, weight
from pinfold.reports.mix_card import CardTold, card_blocks
from pinfold.reports.pages import Block, Page, Paragraph
from pinfold.studies.batching.records import BatchCard
from pinfold.units import CELSIUS, CUBIC_METER, System, show


def mix_page(name: str, told: Sequence[tuple[BatchCard, CardTold]], mixing: Mixing, system: System) -> Page:
    """All cards, then what they share."""
    blocks: list[Block] = [Paragraph(text=measures(mixing, system))]
    for card, beside in told:
        blocks += card_blocks(card, system, beside)
    return Page(title=f"{name}: what to mix", blocks=tuple(blocks))


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
