"""The ledger as CSV, out and in: one row a line, plain columns, safe to open in a spreadsheet and to bring back."""

from __future__ import annotations

import csv
import hashlib
import io
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from pinfold.errors import InputError, InvalidPlan
from pinfold.logbook.entries import Entry, entry_of
from pinfold.store.log_csv import MOST_CELL, CsvRow, between_cells, csv_lines, kept_from_running, let_run
from pinfold.store.sheet_cells import plain_day, plain_number

HEADS = (
    "day", "kind", "what", "packs", "pack", "paid", "tax", "delivery", "trips", "shop", "bill", "bill total",
    "currency", "rate", "worth", "hours", "people", "layer", "place", "who", "entry",
)  # fmt: skip
_BOUGHT = {
    "what": "item", "packs": "packs", "pack": "pack", "paid": "cost", "tax": "tax", "delivery": "haul",
    "trips": "trips", "shop": "shop", "bill": "bill", "bill total": "bill_total", "currency": "currency",
    "rate": "rate", "layer": "layer", "place": "place",
}  # fmt: skip
_LEFT = {"what": "item", "packs": "packs", "pack": "pack", "worth": "worth", "layer": "layer", "place": "place"}
_WORKED = {"hours": "time", "people": "people", "layer": "layer", "place": "place"}
_MOVED = {"what": "item", "packs": "count", "pack": "length", "worth": "worth", "place": "place"}
_COLUMNS: Mapping[str, tuple[str, Mapping[str, str], Mapping[str, str]]] = {
    "purchase": ("purchase", _BOUGHT, {}), "leftover": ("leftover", _LEFT, {}), "hours": ("hours", _WORKED, {}),
    "onto the pile": ("pile", _MOVED, {"way": "in"}), "off the pile": ("pile", _MOVED, {"way": "out"}),
}  # fmt: skip
"""What a row may be of: kind of its entry, field by column, and what else the entry says."""
_NUMBERS = {
    "packs", "pack", "paid", "tax", "delivery", "trips", "bill total", "rate", "worth", "hours", "people",
}  # fmt: skip
KINDS = ("purchase", "leftover", "pile", "hours")
"""Kinds of entries that the ledger reads."""


def is_ledger(text: str) -> bool:
    """Whether a text begins as the ledger's CSV does, by a column that the log's own does not have."""
    first = next((line for line in text.removeprefix("\ufeff").splitlines() if line.strip()), "")
    heads = {cell.strip().strip('"').casefold() for cell in first.split(between_cells(text))}
    return {"day", "kind"} <= heads


def ledger_csv(entries: Sequence[Entry]) -> str:
    """Entries of the ledger's kinds as CSV, in the order given."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADS)
    for entry in entries:
        row = _row_of(entry)
        writer.writerow([kept_from_running(row.get(head, "")) for head in HEADS])
    return out.getvalue()


def _row_of(entry: Entry) -> dict[str, str]:
    name = {"in": "onto the pile", "out": "off the pile"}.get(entry.text("way"), entry.kind)
    _, columns, _ = _COLUMNS[name]
    cells = {head: str(entry.typed[key]) for head, key in columns.items() if key in entry.typed}
    return {**cells, "day": entry.when.date().isoformat(), "kind": name, "who": entry.who, "entry": entry.id}


@dataclass(frozen=True, kw_only=True)
class LedgerSheet:
    """What rows are read with.

    Attributes:
        name: of the file, for complaints.
        who: for rows that do not say.
        device: likewise.
        digits: decimals of the site's currency.
        at_of: when on a day a thing is taken to have happened, with the offset of the place.
        there: the entry of an id in the log; None where there is none.
    """

    name: str
    who: str
    device: str
    digits: int
    at_of: Callable[[date], str]
    there: Callable[[str], Entry | None]
    seen: Counter[str] = field(default_factory=Counter)  # how often rows without an id said the same


def ledger_rows(text: str, sheet: LedgerSheet) -> tuple[CsvRow, ...]:
    """The rows of such a text as entries; blank lines are passed over.

    A row whose entry is in the log and says the same gives that entry, so that bringing one file in twice changes
    nothing; one that says otherwise is complained of. A row without an entry gets one made of what it says.

    Args:
        text: of the file
        sheet: what it is read with

    Raises:
        InvalidPlan: the heads are wrong or it is no CSV at all.
    """
    lines = csv_lines(text, sheet.name)
    heads = [head.strip().casefold() for head in lines[0][1]] if lines else []
    if wrong := _wrong_heads(heads):
        place = f"line {lines[0][0] if lines else 1}"
        raise InvalidPlan(sheet.name, [InputError(each, place=place) for each in wrong])
    comma = between_cells(text) != ","
    return tuple(_row(sheet, (line, cells), heads, comma=comma) for line, cells in lines[1:])


def _wrong_heads(heads: Sequence[str]) -> list[str]:
    wrong = [f"the first line lacks {head}; it may have {', '.join(HEADS)}" for head in HEADS[:2] if head not in heads]
    wrong += [f"the ledger has no column {head[:40]!r}" for head in heads if head and head not in HEADS]
    return wrong + [f"{head[:40]!r} stands there twice" for head, times in Counter(heads).items() if head and times > 1]


def _row(sheet: LedgerSheet, row: tuple[int, Sequence[str]], heads: Sequence[str], *, comma: bool) -> CsvRow:
    line, cells = row
    complaints: list[InputError] = []
    if any(cell.strip() for cell in cells[len(heads) :]):
        complaints.append(InputError(f"{len(cells)} cells under {len(heads)} columns"))
    complaints += [
        InputError(f"more than {MOST_CELL} letters", place=head)
        for head, cell in zip(heads, cells, strict=False)
        if len(cell) > MOST_CELL
    ]
    given = {head: let_run(cell.strip()) for head, cell in zip(heads, cells, strict=False) if head and cell.strip()}
    entry = None if complaints else _entry(sheet, given, complaints, comma=comma)
    places = [f"line {line}, {wrong.place}" if wrong.place else f"line {line}" for wrong in complaints]
    told = [InputError(wrong.message, place=place) for wrong, place in zip(complaints, places, strict=True)]
    return CsvRow(line, None if told else entry, tuple(told))


def _entry(
    sheet: LedgerSheet, given: Mapping[str, str], complaints: list[InputError], *, comma: bool
) -> Entry | None:  # fmt: skip
    """The entry of a row; None with its complaints, all of them."""
    name = given.get("kind", "").casefold()
    if name not in _COLUMNS:
        complaints.append(InputError(f"{name[:40]!r} found; one of {', '.join(_COLUMNS)} is wanted", place="kind"))
        return None
    kind, columns, also = _COLUMNS[name]
    cells = {head: _plain(head, cell, complaints, comma=comma) for head, cell in given.items()}
    complaints += [
        InputError(f"does not go with {name}; take it out", place=head)
        for head in cells
        if head not in columns and head not in ("day", "kind", "who", "entry")
    ]
    day = _day(given.get("day", ""), complaints)
    fields = {**also, **{key: cells[head] for head, key in columns.items() if head in cells}}
    raw = {
        "id": given.get("entry") or _made_id(sheet, kind, day, fields), "kind": kind, "at": sheet.at_of(day),
        "who": given.get("who", sheet.who), "device": sheet.device, "fields": fields,
    }  # fmt: skip
    try:
        entry = entry_of(raw, digits=sheet.digits)
    except InvalidPlan as wrong:
        told = {each.place for each in complaints}
        complaints += [each for each in _in_columns(wrong.problems, columns) if each.place not in told]
        return None
    return _as_there(sheet, entry, columns, complaints)


def _plain(head: str, cell: str, complaints: list[InputError], *, comma: bool) -> str:
    try:
        plain = plain_number(cell, comma=comma) if head in _NUMBERS else cell
    except InputError as wrong:
        complaints.append(InputError(wrong.message, place=head))
        return ""
    return f"{plain} h" if head == "hours" and plain.replace(".", "", 1).isdigit() else plain


def _day(cell: str, complaints: list[InputError]) -> date:
    try:
        return plain_day(cell)
    except InputError as wrong:
        complaints.append(InputError(wrong.message, place="day"))
        return date(2000, 1, 1)  # for what else is to be told of the row


def _made_id(sheet: LedgerSheet, kind: str, day: date, fields: Mapping[str, str]) -> str:
    said = repr((kind, day.isoformat(), sorted(fields.items())))
    sheet.seen[said] += 1
    return "ledger-" + hashlib.sha256(f"{sheet.seen[said]} {said}".encode()).hexdigest()[:28]


def _in_columns(problems: Iterable[InputError], columns: Mapping[str, str]) -> list[InputError]:
    by_key = {key: head for head, key in columns.items()} | {"id": "entry", "at": "day"}
    return [InputError(wrong.message, place=by_key.get(wrong.place, wrong.place)) for wrong in problems]


def _as_there(
    sheet: LedgerSheet, entry: Entry, columns: Mapping[str, str], complaints: list[InputError]
) -> Entry:  # fmt: skip
    """The entry of the log where a row says what that one says; complaints where it says otherwise."""
    there = sheet.there(entry.id)
    if there is None:
        return entry
    mend = f"entry {there.seq} of the log says otherwise; 'pinfold log correct {there.seq}' mends that one, or take "
    mend += "the cell under entry out to write another"
    if there.kind != entry.kind or there.text("way") != entry.text("way"):
        complaints.append(InputError(mend, place="kind"))
        return entry
    if there.when.date() != entry.when.date():
        complaints.append(InputError(mend, place="day"))
    complaints += [
        InputError(mend, place=head) for head, key in columns.items() if there.values.get(key) != entry.values.get(key)
    ]
    return there
