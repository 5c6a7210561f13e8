"""The log as CSV, out and in: one row an entry, one column a field, safe to open in a spreadsheet and to bring back."""

from __future__ import annotations

import csv
import hashlib
import io
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan, NotFoundError, StoreError
from pinfold.logbook.cells import cell_of, field_of
from pinfold.logbook.entries import Entry, entry_of
from pinfold.logbook.kinds import entry_kinds
from pinfold.store.log_file import in_plain_words

HEADS = ("id", "kind", "at", "who", "device", "corrects")
MOST_BYTES = 100_000_000
MOST_CELL = 10_000
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
"""What a spreadsheet could take for a formula, and what an earlier export has made of such."""


class CsvRow(NamedTuple):
    """One row as read.

    Attributes:
        line: of the file, where it starts.
        entry: what it says; None where it cannot be read.
        complaints: what is wrong with it.
    """

    line: int
    entry: Entry | None
    complaints: tuple[InputError, ...]


def csv_of(entries: Sequence[Entry]) -> str:
    """Entries as CSV with the columns that they need."""
    used = {key for entry in entries for key in entry.typed}
    keys = [key for key in field_keys() if key in used] + sorted(used - set(field_keys()))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([*HEADS, *keys])
    for entry in entries:
        head = (entry.id, entry.kind, entry.at, entry.who, entry.device, entry.corrects)
        fields = [cell_of(entry.typed.get(key, "")) for key in keys]
        writer.writerow([kept_from_running(cell) for cell in (*head, *fields)])
    return out.getvalue()


def field_keys() -> tuple[str, ...]:
    """Keys of the fields of all kinds, each once, in the order of the file of kinds."""
    return tuple(dict.fromkeys(field.key for kind in entry_kinds().values() for field in kind.fields))


def read_csv(path: Path) -> str:
    """The text of such a file.

    Raises:
        NotFoundError: there is none.
        StoreError: it cannot be read, is too large, or is no UTF-8 text.
    """
    if not path.exists():
        raise NotFoundError(f"there is no file {path}")
    with in_plain_words(path):
        if path.stat().st_size > MOST_BYTES:
            raise StoreError(f"{path} is larger than {MOST_BYTES // 1_000_000} MB; split it")
        raw = path.read_bytes()
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise StoreError(f"{path} is not text in UTF-8 (byte {fault.start}); save it as CSV UTF-8") from None


def rows_of(text: str, *, name: str, who: str, device: str, digits: int = 2) -> tuple[CsvRow, ...]:
    """The rows of such a text; blank lines are passed over, and commas, semicolons or tabs may stand between cells.

    A row without an id gets one made of what it says, so that bringing one file in twice changes nothing.

    Args:
        text: the file's
        name: of the file, for complaints
        who: for rows that do not say
        device: likewise
        digits: decimals of the site's currency

    Raises:
        InvalidPlan: the heads are wrong or it is no CSV at all.
    """
    lines = csv_lines(text, name)
    heads = [head.strip() for head in lines[0][1]] if lines else []
    if wrong := _wrong_heads(heads):
        raise InvalidPlan(name, [InputError(each, place=f"line {lines[0][0] if lines else 1}") for each in wrong])
    sheet = _Sheet(heads, {"who": who, "device": device}, digits, Counter())
    return tuple(_row(sheet, line, cells) for line, cells in lines[1:])


def csv_lines(text: str, name: str) -> list[tuple[int, list[str]]]:
    """Rows with something in them, each with the line it starts on; commas, semicolons or tabs stand between cells.

    Raises:
        InvalidPlan: it is no CSV at all.
    """
    text = text.removeprefix("\ufeff")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=between_cells(text), strict=True)
    found, before = [], 0
    try:
        for cells in reader:
            line, before = before + 1, reader.line_num
            if any(cell.strip() for cell in cells):
                found.append((line, cells))
    except csv.Error as fault:
        raise InvalidPlan(name, [InputError(f"not readable as CSV: {fault}", place=f"line {before + 1}")]) from None
    return found


def between_cells(text: str) -> str:
    """What stands between cells, by the first line with something in it."""
    first = next((line for line in text.splitlines() if line.strip(" ,;\t")), "")
    return max(",;\t", key=first.count)


class _Sheet(NamedTuple):
    heads: Sequence[str]
    otherwise: Mapping[str, str]
    digits: int
    seen: Counter[str]  # how often rows without an id said the same


def _wrong_heads(heads: Sequence[str]) -> list[str]:
    known = {*HEADS, *field_keys()}
    wrong = [
        f"the first line lacks {head}; it starts {','.join(HEADS)}, that of a ledger has day and kind"
        for head in ("kind", "at")
        if head not in heads
    ]
    wrong += [f"no kind of entry has {head[:40]!r}" for head in heads if head and head not in known]
    return wrong + [f"{head[:40]!r} stands there twice" for head, times in Counter(heads).items() if head and times > 1]


def _row(sheet: _Sheet, line: int, cells: Sequence[str]) -> CsvRow:
    heads = sheet.heads
    complaints: list[InputError] = []
    if any(cell.strip() for cell in cells[len(heads) :]):
        complaints.append(InputError(f"{len(cells)} cells under {len(heads)} heads", place=f"line {line}"))
    if any(len(cell) > MOST_CELL for cell in cells):
        complaints.append(InputError(f"a cell of more than {MOST_CELL} letters", place=f"line {line}"))
    if complaints:
        return CsvRow(line, None, tuple(complaints))
    given = {head: let_run(cell.strip()) for head, cell in zip(heads, cells, strict=False) if head and cell.strip()}
    try:
        return CsvRow(line, entry_of(_raw(given, sheet), digits=sheet.digits), ())
    except InvalidPlan as wrong:
        problems = wrong.problems
    except InputError as wrong:
        problems = (wrong,)
    places = [f"line {line}, {problem.place}" if problem.place else f"line {line}" for problem in problems]
    told = [InputError(problem.message, place=place) for problem, place in zip(problems, places, strict=True)]
    return CsvRow(line, None, tuple(told))


def _raw(given: Mapping[str, str], sheet: _Sheet) -> dict[str, object]:
    head: dict[str, object] = {key: given[key] for key in HEADS if key in given}
    if "id" not in given:
        said = repr(sorted(given.items()))
        sheet.seen[said] += 1
        head["id"] = "csv-" + hashlib.sha256(f"{sheet.seen[said]} {said}".encode()).hexdigest()[:28]
    kind = entry_kinds().get(given.get("kind", ""))
    fields: dict[str, object] = {}
    for key, cell in given.items():
        if key not in HEADS:
            try:
                fields[key] = field_of(kind, key, cell) if kind else cell
            except InputError as wrong:
                raise InputError(wrong.message, place=key) from None
    return {**sheet.otherwise, **head, "fields": fields}


def kept_from_running(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if _FORMULA.match(cell) else cell


def let_run(cell: str) -> str:
    """The same as it was written."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell
