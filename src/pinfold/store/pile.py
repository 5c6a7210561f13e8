"""The list of what is on hand, `pile.csv`: a row for each sort of piece or heap; only its item must be told."""

from __future__ import annotations

import csv
import io
import math
from enum import StrEnum
from pathlib import Path
from typing import TypeVar

from pinfold.errors import InputError, InvalidPlan, QuantityError
from pinfold.plan.flaws import Flaw, flaws_of
from pinfold.plan.stock import Condition, PilePiece, RawEnds
from pinfold.store.items import unknown_item
from pinfold.store.writing import read_text
from pinfold.units import METER, Unit, read, unit_of

NAME = "pile.csv"
HEADS = ("item", "count", "length", "width", "flaws", "raw_ends", "condition", "amount", "note")
MOST_ROWS = 20_000


def read_pile(path: Path) -> tuple[PilePiece, ...]:
    """What is on hand; nothing where the file is not there.

    Raises:
        StoreError: it cannot be read.
        InvalidPlan: with every complaint, each with its line.
    """
    return pile_of(read_text(path), name=path.name) if path.exists() else ()


def pile_of(text: str, *, name: str = NAME) -> tuple[PilePiece, ...]:
    """The same from text.

    Raises:
        InvalidPlan: with every complaint.
    """
    try:
        reader = csv.DictReader(io.StringIO(text.removeprefix("\ufeff")), strict=True)
        rows = list(reader)
    except csv.Error as fault:
        raise InvalidPlan(name, [InputError(f"not readable as CSV: {fault}")]) from None
    complaints: list[InputError] = []
    heads = {head for row in rows for head in row} | set(reader.fieldnames or HEADS)
    if missing := {"item"} - heads:
        complaints.append(
            InputError(f"the first line lacks {', '.join(missing)}; it is {','.join(HEADS)}", place="line 1")
        )
    if unknown := {str(head) for head in heads if head not in HEADS}:
        complaints.append(
            InputError(f"no such column: {', '.join(sorted(unknown))}; there are {','.join(HEADS)}", place="line 1")
        )
    if len(rows) > MOST_ROWS:
        complaints.append(InputError(f"{len(rows)} rows; at most {MOST_ROWS} are read"))
    if complaints:
        raise InvalidPlan(name, complaints)
    pieces = [_piece(row, f"line {number}", complaints) for number, row in enumerate(rows, start=2)]
    if complaints:
        raise InvalidPlan(name, complaints)
    return tuple(pieces)


def _piece(row: dict[str, str | None], place: str, complaints: list[InputError]) -> PilePiece:
    cells = {head: (row.get(head) or "").strip() for head in HEADS}
    if not cells["item"]:
        complaints.append(InputError("no item named", place=place))
    elif complaint := unknown_item(cells["item"]):
        complaints.append(InputError(complaint, place=place))
    count, counted = 1, cells["count"] or "1"
    if counted.isdecimal() and 0 < int(counted[:9]) <= 1_000_000:
        count = int(counted)
    else:
        complaints.append(InputError(f"count {counted!r}; a whole number from 1 is wanted", place=place))
    length = _measure(cells["length"], METER, place, complaints) if cells["length"] else None
    width = _measure(cells["width"], METER, place, complaints) if cells["width"] else None
    unit = _unit(cells["amount"], place, complaints) if cells["amount"] else None
    amount = _measure(cells["amount"], unit, place, complaints) if unit is not None else None
    return PilePiece(
        item=cells["item"], count=count, length=length, amount=amount, unit=unit, note=cells["note"], width=width,
        flaws=_flaws(cells["flaws"], length, place, complaints),
        raw_ends=_word(RawEnds, "raw_ends", cells, place=place, complaints=complaints),
        condition=_word(Condition, "condition", cells, place=place, complaints=complaints),
    )  # fmt: skip


def _flaws(text: str, length: float | None, place: str, complaints: list[InputError]) -> tuple[Flaw, ...]:
    if text and length is None:
        complaints.append(InputError("flaws without a length; write the length of the piece too", place=place))
        return ()
    try:
        return flaws_of(text, length=length if length is None or math.isfinite(length) else None)
    except InputError as mistake:
        complaints.append(InputError(mistake.message, place=place))
        return ()


_Word = TypeVar("_Word", bound=StrEnum)


def _word(
    words: type[_Word], head: str, cells: dict[str, str], *, place: str, complaints: list[InputError]
) -> _Word:  # fmt: skip
    """One of a few words; the first of them where nothing stands."""
    found = cells[head] or next(iter(words)).value
    if found in tuple(words):
        return words(found)
    complaints.append(InputError(f"{head} {found!r}; one of {', '.join(words)} is wanted", place=place))
    return next(iter(words))


def _unit(text: str, place: str, complaints: list[InputError]) -> Unit | None:
    try:
        return unit_of(text)
    except QuantityError as mistake:
        complaints.append(InputError(mistake.message, place=place))
        return None


def _measure(text: str, like: Unit, place: str, complaints: list[InputError]) -> float:
    try:
        value = read(text, like=like)
    except QuantityError as mistake:
        complaints.append(InputError(mistake.message, place=place))
        return math.nan
    if not 0 < value < 1e9:
        complaints.append(InputError(f"{text!r}; something above nothing is wanted", place=place))
    return value
