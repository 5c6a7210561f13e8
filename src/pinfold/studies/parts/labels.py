"""A label for every part and every offcut worth keeping: what is written on its face before the saw runs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.flat_cut import FlatCut, Patch, RollCut, SheetCut
from pinfold.studies.parts.sawn import PieceCut, SectionCut
from pinfold.studies.quantities.records import Part
from pinfold.units import Meter

BUNDLE = 12
"""More parts alike than this share one label, tied to their bundle, unless each one is asked for."""


class Label(NamedTuple):
    """What stands on one label.

    Attributes:
        code: mark of the part, or code of the offcut.
        number: which of several alike, from 1; 0 for a bundle.
        many: how many alike.
        says: what it is.
        length: to cut.
        width: likewise, of sheets and rolls; None for lengths.
        ends: how its ends are cut.
        where: where it goes.
        up: which way up.
        source: code of the piece that it falls off.
        kept: whether it is an offcut.
    """

    code: str
    number: int
    many: int
    says: str
    length: Meter
    width: Meter | None
    ends: str
    where: str
    up: str
    source: str
    kept: bool


def labels_of(
    sections: Iterable[SectionCut], parts: Mapping[str, Part], *, each: bool, cut: Mapping[str, int] | None = None
) -> tuple[Label, ...]:  # fmt: skip
    """Labels in the order in which things fall off the pieces.

    Args:
        sections: as cut
        parts: by mark
        each: whether parts of large bundles get a label of their own too
        cut: how many of each are cut already and have their labels; none unless told
    """
    seen = Counter(cut or {})
    return tuple(
        label for section in sections for piece in section.pieces for label in _of_piece(piece, parts, seen, each=each)
    )


def _of_piece(piece: PieceCut, parts: Mapping[str, Part], seen: Counter[str], *, each: bool) -> Iterator[Label]:
    for number in range(1, piece.times + 1):
        source = piece.code if piece.times == 1 else f"{piece.code}.{number}"
        for step in piece.steps:
            if step.falls is Falls.PART:
                yield from part_label(parts[step.code], seen, source, each=each)
            elif step.falls is Falls.KEPT:
                yield _offcut(step.code, piece, (number, step.measure), source)


def part_label(part: Part, seen: Counter[str], source: str, *, each: bool) -> Iterator[Label]:
    """The label of the next of a part; nothing where its bundle has one already."""
    number, bundled = seen[part.mark] + 1, part.count > BUNDLE and not each
    if number > part.count:
        return
    seen[part.mark] = part.count if bundled else number
    own = len(part.places) == part.count and not bundled
    where = part.places[number - 1] if own else ", ".join(part.places)
    yield Label(
        code=part.mark, number=0 if bundled else number, many=part.count - number + 1 if bundled else part.count,
        says=part.says, length=part.length, width=part.width, ends=part.ends, where=where, up=part.up,
        source="" if bundled else source, kept=False,
    )  # fmt: skip


def _offcut(code: str, piece: PieceCut, fallen: tuple[int, Meter], source: str) -> Label:
    number, length = fallen
    return Label(
        code=code, number=number, many=piece.times, says=f"offcut of {piece.item}", length=length, width=None,
        ends="", where="back on the pile", up="", source=source, kept=True,
    )  # fmt: skip


def flat_labels_of(
    found: Sequence[FlatCut], parts: Mapping[str, Part], *, each: bool, cut: Mapping[str, int] | None = None
) -> tuple[Label, ...]:  # fmt: skip
    """Labels of what is cut from sheets and off rolls, and of their rests, likewise."""
    seen = Counter(cut or {})
    alike = Counter(piece.code for flat in found for roll in flat.rolls for piece in roll.pieces)
    so_far: Counter[str] = Counter()
    labels: list[Label] = []
    for flat in found:
        for sheet in flat.sheets:
            labels += _of_sheet(sheet, parts, seen, each=each)
        for roll in flat.rolls:
            labels += _of_roll(roll, parts, (so_far, alike))
    return tuple(labels)


def _of_sheet(sheet: SheetCut, parts: Mapping[str, Part], seen: Counter[str], *, each: bool) -> Iterator[Label]:
    for number in range(1, sheet.times + 1):
        source = sheet.code if sheet.times == 1 else f"{sheet.code}.{number}"
        for patch in sheet.parts:
            yield from part_label(parts[patch.code], seen, source, each=each)
        for rest in sheet.rests:
            if rest.code:
                yield _rest(rest, sheet, number, source)


def _rest(rest: Patch, sheet: SheetCut, number: int, source: str) -> Label:
    return Label(
        code=rest.code, number=number, many=sheet.times, says=f"offcut of {sheet.item}", length=rest.high,
        width=rest.wide, ends="", where="back on the pile", up="", source=source, kept=True,
    )  # fmt: skip


def _of_roll(
    roll: RollCut, parts: Mapping[str, Part], counts: tuple[Counter[str], Counter[str]]
) -> Iterator[Label]:  # fmt: skip
    so_far, alike = counts
    for piece in roll.pieces:
        part = parts[piece.mark]
        so_far[piece.code] += 1
        yield Label(
            code=piece.code, number=so_far[piece.code], many=alike[piece.code], says=part.says,
            length=piece.length, width=part.width, ends="",
            where=piece.place, up=part.up, source=roll.code, kept=False,
        )  # fmt: skip
    if roll.rest_code:
        yield Label(
            code=roll.rest_code, number=1, many=1, says=f"rest of {roll.item}", length=roll.rest, width=None, ends="",
            where="back on the pile", up="", source=roll.code, kept=True,
        )  # fmt: skip
