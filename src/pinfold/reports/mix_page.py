"""Batch cards as pages: what goes into each batch, in which order, how often."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.plan.place import Mixing
from pinfold.reports.amounts import bags, buckets, volume, water, weight
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.studies.batching.records import BatchCard, Charge, Ingredient, Measure
from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, System, show

MUCH_MORE = 1.6
"""Past this share of what the work holds, the waste is explained."""


def mix_page(name: str, cards: Sequence[BatchCard], mixing: Mixing, system: System) -> Page:
    """All cards, then what they share."""
    blocks: list[Block] = [Paragraph(text=_measures(mixing, system))]
    for card in cards:
        blocks += card_blocks(card, system)
    return Page(title=f"{name}: what to mix", blocks=tuple(blocks))


def _measures(mixing: Mixing, system: System) -> str:
    bulking = "not measured" if mixing.sand_bulking is None else f"{mixing.sand_bulking:.0%}"
    return (
        f"Measured by a level bucket of {show(mixing.bucket, CUBIC_METER, system, in_unit=_small(system))} and cement "
        f"bags of {weight(mixing.bag, system)}; the mixer turns {volume(mixing.batch, system)}. "
        f"Swelling of the damp sand: {bulking}."
    )


def _small(system: System) -> str:
    return "gal" if system is System.US else "L"


def card_blocks(card: BatchCard, system: System) -> list[Block]:
    """One card."""
    name, _, proportions = card.mix.says.partition(", ")
    blocks: list[Block] = [Heading(text=f"{card.layer}: {name}")]
    if proportions:
        blocks.append(Paragraph(text=f"{proportions[:1].upper()}{proportions[1:]}."))
    blocks.append(Paragraph(text=_how_much(card, system)))
    if card.charge is None:
        return [*blocks, Paragraph(text=f"NOT SHOWN: {card.missing}.")]
    blocks.append(ingredients_table(card, card.charge, system))
    blocks.append(Paragraph(text=_yields(card.charge, system)))
    blocks += [Paragraph(text=f"{number}. {line}") for number, line in enumerate(card.charge.order, start=1)]
    blocks += [Caution(text=text) for text in card.charge.cautions]
    blocks += [Paragraph(text=text) for text in card.charge.notes]
    return blocks


def _how_much(card: BatchCard, system: System) -> str:
    places = ", ".join(card.places)
    made = f"{volume(card.net, system, beside=card.gross)} in the work, {volume(card.gross, system)} to mix with waste"
    if card.gross > MUCH_MORE * card.net:
        made += " (the joints hold the first; published site figures use up the second)"
    if card.charge is None:
        return f"{made}. For: {places}."
    last = "" if card.last > 0.995 else f", the last one {card.last:.0%} of a batch"
    return f"{made}: {card.batches} batch{'es' if card.batches != 1 else ''}{last}. For: {places}."


def ingredients_table(card: BatchCard, charge: Charge, system: System) -> Table:
    """Per batch and for the whole card."""
    rows = [
        (i.kind.says, _bags_of(i), buckets(i.buckets), weight(i.mass, system), weight(total.mass, system))
        for i, total in zip(charge.ingredients, card.totals, strict=True)
    ]
    rows.append(("water to add", "", "", water(charge.water_to_add, system), water(card.water_to_add, system)))
    if charge.foam is not None:
        rows.append(("foam to make", "", "", water(charge.foam.make, system), ""))
    return table(("into each batch", "bags", "buckets", "by scale", "for all"), rows, right=(1, 2, 3, 4))


_MEASURED = {
    Measure.WHOLE_BAGS: "by whole bags",
    Measure.HALF_BAG: "by half a bag",
    Measure.WHOLE_BUCKETS: "by whole buckets",
    Measure.WEIGHED: "its first part weighed out",
}


def _bags_of(ingredient: Ingredient) -> str:
    return "" if ingredient.bags is None else bags(ingredient.bags)


def _yields(charge: Charge, system: System) -> str:
    text = (
        f"A batch makes {volume(charge.makes, system)}, {_MEASURED[charge.measure]}, "
        f"{show(charge.density, KG_PER_CUBIC_METER, system)} fresh."
    )
    if charge.water_in_sand > 0:
        text += f" The damp sand brings {water(charge.water_in_sand, system)} of its water."
    if charge.foam is not None:
        cast, dry = (show(value, KG_PER_CUBIC_METER, system) for value in (charge.foam.cast, charge.foam.dry))
        text += f" Weigh a bucket: {cast} is aimed for; about {dry} once dry."
    return f"{text} Weakest figure: from {charge.standing.value}."
