"""One batch card: what goes into a batch and into the last one, why it is as large as it is, what lies at the mixer."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.reports.amounts import bags, buckets, volume, water, weight
from pinfold.reports.pages import Block, Boxes, Caution, Code, Heading, Paragraph, Table, table
from pinfold.reports.sizing_words import sized
from pinfold.studies.batching.records import BatchCard, Charge, Ingredient, PartBatch, Supply
from pinfold.studies.mixing.at_mixer import BARROW
from pinfold.units import KG_PER_CUBIC_METER, CubicMeter, System, show

MUCH_MORE = 1.6
"""Past this share of what the work holds, the waste is explained."""
MOST_BOXES = 60
"""Boxes on a card; where there are more batches each stands for several."""


@dataclass(frozen=True, kw_only=True)
class CardTold:
    """What is told of a card beside what it is.

    Attributes:
        bucket: volume of a level one.
        mixed: batches of it in the log; None where that is not known.
        supplies: what must lie at the mixer for a day and for all of it; None where there is no charge.
        address: that opens a batch of it in the log; empty for none.
        scan_says: what a phone needs for that.
        here: the same on this machine.
        drawn: whether a terminal draws the code.
        placed: whether the card is of some places alone, so that its heading names them.
    """

    bucket: CubicMeter
    mixed: int | None = None
    supplies: tuple[Supply, Supply] | None = None
    address: str = ""
    scan_says: str = ""
    here: str = ""
    drawn: bool = False
    placed: bool = False


def card_title(card: BatchCard, *, placed: bool = False) -> str:
    """Layer, where it is asked for the place too, and mix."""
    name = card.mix.says.partition(", ")[0]
    where = f" on {', '.join(card.places)}" if placed else ""
    return f"{card.layer}{where}: {name}"


def card_name(card: BatchCard, *, placed: bool = False) -> str:
    """What it is asked for alone by."""
    return " ".join([*(card.places if placed else ()), card.layer, card.mix.name])


def card_blocks(card: BatchCard, system: System, told: CardTold | None = None) -> list[Block]:
    """One card."""
    proportions = card.mix.says.partition(", ")[2]
    placed = told is not None and told.placed
    blocks: list[Block] = [Heading(text=card_title(card, placed=placed), name=card_name(card, placed=placed))]
    if proportions:
        blocks.append(Paragraph(text=f"{proportions[:1].upper()}{proportions[1:]}."))
    blocks.append(Paragraph(text=_how_much(card, system)))
    if card.charge is None:
        return [*blocks, Paragraph(text=f"NOT SHOWN: {card.missing}.")]
    blocks += _done(card, told)
    blocks += tables(card, card.charge, system)
    blocks.append(Paragraph(text=_yields(card.charge, system)))
    blocks.append(Paragraph(text=sized(card.charge, system)))
    blocks += [Paragraph(text=f"{number}. {line}") for number, line in enumerate(card.charge.order, start=1)]
    blocks += [Caution(text=text) for text in card.charge.cautions]
    blocks += [Paragraph(text=text) for text in card.charge.notes]
    return [*blocks, *_at_mixer(told, system), *_ticks(card, told)]


def _how_much(card: BatchCard, system: System) -> str:
    places = ", ".join(card.places)
    made = f"{volume(card.net, system, beside=card.gross)} in the work, {volume(card.gross, system)} to mix with waste"
    if card.gross > MUCH_MORE * card.net:
        made += " (the joints hold the first; published site figures use up the second)"
    if card.charge is None:
        return f"{made}. For: {places}."
    last = f", the last one {card.last:.0%} of a batch" if card.part_batch else ""
    return f"{made}: {card.batches} batch{'es' if card.batches != 1 else ''}{last}. For: {places}."


def _done(card: BatchCard, told: CardTold | None) -> list[Block]:
    if told is None or told.mixed is None:
        return []
    left = card.batches - told.mixed
    rest = f"{left} to go" if left > 0 else "all of them" if left == 0 else f"{-left} more than it takes"
    return [Paragraph(text=f"By the log {told.mixed} of {card.batches} mixed, {rest}.")]


def tables(card: BatchCard, charge: Charge, system: System) -> list[Block]:
    """What goes into each batch, and into the last where it is no whole one."""
    found: list[Block] = [_each(card, charge, system)]
    if card.part_batch is not None:
        found.append(_last(card.part_batch, system))
    return found


def _each(card: BatchCard, charge: Charge, system: System) -> Table:
    rows = [
        (i.kind.says, _bags_of(i), buckets(i.buckets), _lifts(i, system), weight(i.as_it_lies, system),
         weight(total.as_it_lies, system))
        for i, total in zip(charge.ingredients, card.totals, strict=True)
    ]  # fmt: skip
    rows.append(("water to add", "", "", "", water(charge.water_to_add, system), water(card.water_to_add, system)))
    if charge.foam is not None:
        rows.append(("foam to make", "", "", "", water(charge.foam.make, system), ""))
    return table(
        ("into each batch", "bags", "buckets", "lifts", "by scale", "for all"), rows, right=(1, 2, 3, 4, 5)
    )  # fmt: skip


def _last(part: PartBatch, system: System) -> Table:
    rows = [
        (i.kind.says, _bags_of(i), buckets(i.buckets), _lifts(i, system), weight(i.as_it_lies, system))
        for i in part.ingredients
    ]  # fmt: skip
    rows.append(("water to add", "", "", "", water(part.water_to_add, system)))
    if part.foam_to_make is not None:
        rows.append(("foam to make", "", "", "", water(part.foam_to_make, system)))
    return table(("into the last batch", "bags", "buckets", "lifts", "by scale"), rows, right=(1, 2, 3, 4))


def _bags_of(ingredient: Ingredient) -> str:
    return "" if ingredient.bags is None else bags(ingredient.bags)


def _lifts(part: Ingredient, system: System) -> str:
    """Buckets to lift, and what each weighs: `3 of 14.2 kg`."""
    count = max(part.lifts, 1)
    return f"{count} of {weight(part.as_it_lies / count, system)}"


def _yields(charge: Charge, system: System) -> str:
    text = f"A batch makes {volume(charge.makes, system)}, {show(charge.density, KG_PER_CUBIC_METER, system)} fresh."
    if charge.water_in_sand > 0:
        text += f" The damp sand brings {water(charge.water_in_sand, system)} of its water; the scale has that in it."
    if charge.foam is not None:
        cast, dry = (show(value, KG_PER_CUBIC_METER, system) for value in (charge.foam.cast, charge.foam.dry))
        text += f" Weigh a bucket: {cast} is aimed for; about {dry} once dry."
    return f"{text} Weakest figure: from {charge.standing.value}."


def _at_mixer(told: CardTold | None, system: System) -> list[Block]:
    if told is None or told.supplies is None:
        return []
    day, whole = told.supplies
    barrow = f"barrows of {volume(BARROW.value, system)}"
    rows = [
        (f"{a.part.kind.says.partition(',')[0]}, {barrow}", str(a.barrows), str(b.barrows))
        for a, b in zip(day.heaps, whole.heaps, strict=True)
    ]
    rows += [
        (f"{a.part.kind.says.partition(',')[0]}, by weight", weight(a.part.as_it_lies, system),
         weight(b.part.as_it_lies, system))
        for a, b in zip(day.heaps, whole.heaps, strict=True)
    ]  # fmt: skip
    rows.append(("water, to mix and to wash out", water(day.water, system), water(whole.water, system)))
    rows.append(("the same in buckets", buckets(day.water / told.bucket), buckets(whole.water / told.bucket)))
    if day.trips is not None and whole.trips is not None:
        rows.append(("trips for water", str(day.trips), str(whole.trips)))
    rows.append(("lifted in all, one person", weight(day.lifted, system), weight(whole.lifted, system)))
    heads = ("at the mixer", f"a day, {day.batches:.3g} batches", f"all {whole.batches:.3g}")
    return [table(heads, rows, right=(1, 2))]


def _ticks(card: BatchCard, told: CardTold | None) -> list[Block]:
    if told is None:
        return []
    each = -(-card.batches // MOST_BOXES)
    says = "batches mixed" if each == 1 else f"batches mixed, {each} to a box"
    boxes = Boxes(says=says, count=-(-card.batches // each), done=(told.mixed or 0) // each)
    if not told.address:
        return [boxes]
    return [boxes, Code(address=told.address, says=told.scan_says, here=told.here, drawn=told.drawn)]
