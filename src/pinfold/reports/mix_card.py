"""One batch card: what goes into a batch and into the last one, why it is as large as it is, what lies at the mixer."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pinfold.plan.place import Mixing
from pinfold.reports.amounts import bags, buckets, by_jug, count, halves, measured, volume, water, weight
from pinfold.reports.counting_words import STANDINGS, counted_note
from pinfold.reports.mix_ladder import ladder_blocks
from pinfold.reports.pages import Block, Boxes, Caution, Code, Heading, Paragraph, Table, table
from pinfold.reports.sizing_words import hours, sized
from pinfold.studies.batching.counting import NEAR_ENOUGH, counted
from pinfold.studies.batching.records import BatchCard, Charge, Heap, Ingredient, Supply
from pinfold.studies.mixing.at_mixer import DAY
from pinfold.units import KG_PER_CUBIC_METER, CubicMeter, System, show

MUCH_MORE = 1.6
"""Past this share of what the work holds, the waste is explained."""
MOST_BOXES = 60
"""Boxes on a card; where there are more batches each stands for several."""


@dataclass(frozen=True, kw_only=True)
class CardTold:
    """What is told of a card beside what it is.

    Attributes:
        mixing: what it is measured and mixed with.
        mixed: batches of it in the log; None where that is not known.
        supplies: what must lie at the mixer for a day and for all of it; None where there is no charge.
        address: that opens a batch of it in the log; empty for none.
        scan_says: what a phone needs for that.
        here: the same on this machine.
        drawn: whether a terminal draws the code.
        placed: whether the card is of some places alone, so that its heading names them.
        on_paper: whether it is to fit half a sheet.
    """

    mixing: Mixing
    mixed: int | None = None
    supplies: tuple[Supply, Supply] | None = None
    address: str = ""
    scan_says: str = ""
    here: str = ""
    drawn: bool = False
    placed: bool = False
    on_paper: bool = False


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
    blocks: list[Block] = [Heading(text=card_title(card, placed=placed))]
    if proportions:
        blocks.append(Paragraph(text=f"{proportions[:1].upper()}{proportions[1:]}."))
    blocks.append(Paragraph(text=_how_much(card, system)))
    if card.charge is None:
        return [*blocks, Paragraph(text=f"NOT SHOWN: {card.missing}.")]
    blocks += _done(card, told)
    on_paper, title = told is not None and told.on_paper, card_title(card, placed=placed)
    blocks += [_side_by_side(card, card.charge, system)] if on_paper else _tables(card, card.charge, system, title)
    blocks += _count_notes(card.charge, system)
    blocks.append(Paragraph(text=_yields(card.charge, system)))
    blocks.append(Paragraph(text=sized(card.charge, system)))
    blocks += [Paragraph(text=f"{number}. {line}") for number, line in enumerate(card.charge.order, start=1)]
    blocks += ladder_blocks(card.charge, system, title)
    blocks += [Caution(text=text) for text in card.charge.cautions]
    blocks += [Paragraph(text=text) for text in card.charge.notes]
    return [*blocks, *_at_mixer(told, system), *_ticks(card, told)]


def _how_much(card: BatchCard, system: System) -> str:
    places = ", ".join(card.places)
    made = f"{volume(card.gross, system)} to mix"
    if card.gross != card.net:
        made = f"{volume(card.net, system, beside=card.gross)} in the work, {made} with waste"
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


def _tables(card: BatchCard, charge: Charge, system: System, of: str) -> list[Block]:
    """What goes into each batch, and into the last where it is no whole one."""
    each = _rows(charge.ingredients, charge.water_to_add, charge.foam.make if charge.foam else None, system)
    found: list[Block] = [_each(card, each, system)]
    if card.part_batch is not None:
        part = card.part_batch
        rows = _rows(part.ingredients, part.water_to_add, part.foam_to_make, system)
        title = f"The last batch, {part.share:.0%} of one, {of}"
        found.append(table(("into the last batch", *_HEADS), rows, right=(1, 2, 3, 4), title=title))
    return found


_HEADS = ("bags", "buckets", "lifts", "by scale")


def _rows(
    parts: Iterable[Ingredient], poured: CubicMeter, foam: CubicMeter | None, system: System
) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = [
        (i.kind.says, _bags_of(i), _measured(i, system), _lifts(i, system), weight(i.as_it_lies, system)) for i in parts
    ]
    rows.append(("water to add", "", "", "", by_jug(poured, system)))
    if foam is not None:
        rows.append(("foam to make", "", "", "", by_jug(foam, system)))
    return rows


def _each(card: BatchCard, rows: list[tuple[str, ...]], system: System) -> Table:
    if card.batches == 1 and card.part_batch is None:
        return table(("into the batch", *_HEADS), rows, right=(1, 2, 3, 4))
    sums = [weight(total.as_it_lies, system) for total in card.totals]
    sums += [water(card.water_to_add, system), ""]
    whole = [(*row, total) for row, total in zip(rows, sums, strict=False)]
    return table(("into each batch", *_HEADS, "for all"), whole, right=(1, 2, 3, 4, 5))


def _side_by_side(card: BatchCard, charge: Charge, system: System) -> Table:
    rows = _rows(charge.ingredients, charge.water_to_add, charge.foam.make if charge.foam else None, system)
    rows = [(row[0].partition(",")[0], *row[1:]) for row in rows]
    if card.part_batch is None:
        return table(("into each batch", *_HEADS), rows, right=(1, 2, 3, 4))
    part = card.part_batch
    last = _rows(part.ingredients, part.water_to_add, part.foam_to_make, system)
    whole = [(*one, two[1], two[2], two[4]) for one, two in zip(rows, last, strict=True)]
    return table(("into each batch", *_HEADS, "last: bags", "buckets", "scale"), whole, right=range(1, 8))


def _bags_of(ingredient: Ingredient) -> str:
    """Bags, and shares of one that can be told by eye; nothing of less, which is weighed: nobody finds 0.053 bags."""
    text = "" if ingredient.bags is None else bags(ingredient.bags)
    return "" if text.startswith("0.") else text


def _measured(part: Ingredient, system: System) -> str:
    """Buckets of it, or how many of the measure it is counted in: `21 shovels`; buckets where that is too coarse."""
    if part.counted_in is None:
        return measured(part, system)
    found = counted(part.loose, part.counted_in)
    if abs(found.misses) > NEAR_ENOUGH:
        marked = buckets(part.buckets)
        return f"{marked} buckets" if marked else by_jug(part.loose, system)
    return f"{halves(found.number)} {found.measure.name}{'' if found.number <= 1 else 's'}"


def _count_notes(charge: Charge, system: System) -> list[Block]:
    found = [counted(part.loose, part.counted_in) for part in charge.ingredients if part.counted_in is not None]
    return [Paragraph(text=counted_note(each, system)) for each in found]


def _lifts(part: Ingredient, system: System) -> str:
    """Buckets to lift, and what each weighs: `3 of 14.2 kg`; nothing of what is not counted in buckets."""
    if part.counted_in is not None:
        return ""
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
    heaps = told.supplies[0].heaps
    heads = ["at the mixer", *(_short(heap) for heap in heaps), "water, with washing out", "lifted"]
    rows = [
        (f"{word}, {count(each.batches)} batches", *(_heap(heap, system) for heap in each.heaps),
         _water(each, told.mixing.bucket, system), weight(each.lifted, system))
        for word, each in _spans(told.supplies)
    ]  # fmt: skip
    note = "" if told.on_paper else barrows_and_days(told.mixing, system)
    return [table(heads, rows, right=range(1, len(heads)), note=note, wide=len(heads) - 2)]


def _spans(supplies: tuple[Supply, Supply]) -> tuple[tuple[str, Supply], ...]:
    """A day and all of it; once where a day does all of it."""
    day, whole = supplies
    return (("all", whole),) if day.batches >= whole.batches else (("a day", day), ("all", whole))


def barrows_and_days(mixing: Mixing, system: System) -> str:
    """What a barrow holds, by whom that is known, and what a day is."""
    barrow = mixing.measure("barrow")
    return (
        f"A barrow holds {volume(barrow.holds, system)} ({STANDINGS[barrow.standing]}); a day is {hours(DAY.value)} of "
        "mixing and using it alone."
    )


def _short(heap: Heap) -> str:
    return heap.part.kind.says.partition(",")[0]


def _heap(heap: Heap, system: System) -> str:
    return f"{heap.barrows} barrow{'' if heap.barrows == 1 else 's'}, {weight(heap.part.as_it_lies, system)}"


def _water(each: Supply, bucket: CubicMeter, system: System) -> str:
    trips = "" if each.trips is None else f", {each.trips} trip{'' if each.trips == 1 else 's'}"
    marked = buckets(each.water / bucket)
    return f"{water(each.water, system)}{f', {marked} buckets' if marked else ''}{trips}"


def _ticks(card: BatchCard, told: CardTold | None) -> list[Block]:
    if told is None:
        return []
    each = -(-card.batches // MOST_BOXES)
    says = "batches mixed" if each == 1 else f"batches mixed, {each} to a box"
    boxes = Boxes(says=says, count=-(-card.batches // each), done=(told.mixed or 0) // each)
    if not told.address:
        return [boxes]
    says = "Scan it: this batch, in the log." if told.on_paper else told.scan_says
    return [boxes, Code(address=told.address, says=says, here=told.here, drawn=told.drawn)]
