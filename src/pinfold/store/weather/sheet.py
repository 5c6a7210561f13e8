"""A table in text: heads with their units, rows with their lines; commas, semicolons or tabs between cells."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.store.weather.spelled import symbol_of
from pinfold.store.weather.wrong import Wrong, number, runs_of
from pinfold.units import UNIT_BY_SYMBOL

MOST_ROWS = 120_000
_HEAD = re.compile(r"\s*([^(\[]*?)\s*(?:[(\[]\s*([^)\]]*?)\s*[)\]])?\s*")
_CELL = re.compile(r"([-+]?[\d.]+(?:[eE][-+]?\d+)?)\s*([^\d\s].*)")
_RANGE = re.compile(r"\d+(?:\.\d+)?\s*(?:to|-|–)\s*(\d+(?:\.\d+)?)(\s*[a-zA-Z/]+)?")
_COMMA = re.compile(r"[-+]?\d+,\d+")
NOTHING = frozenset({"", "-", "--", "na", "n/a", "nan", "null", "none", "nil", "m", "missing", "x", "?", "..."})
"""Texts that stand for no value."""
_MARKERS = frozenset({-9999.0, -999.0, -99999.0, -9900.0, -99.9, 9999.0, 99999.0, 999999.0})
"""Numbers that stand for no value in the files of stations."""


class Head(NamedTuple):
    """A head of a column.

    Attributes:
        name: small letters, single spaces.
        unit: as spelled; empty for none.
    """

    name: str
    unit: str


class Sheet(NamedTuple):
    """A table.

    Attributes:
        heads: of its columns.
        rows: cells of each row, as many as there are heads.
        lines: where each row stands.
        notes: what was met.
    """

    heads: tuple[Head, ...]
    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...]
    notes: tuple[str, ...]

    def column(self, place: int) -> tuple[str, ...]:
        """Cells of one column."""
        return tuple(row[place] for row in self.rows)


def sheet_of(text: str, *, name: str, above: int = 0) -> Sheet:
    """A table out of text; lines that begin with # and blank ones are passed over.

    Args:
        text: of the file
        name: of the file, for complaints
        above: lines over the heads

    Raises:
        InvalidPlan: with every complaint.
    """
    lines = [(at, line) for at, line in enumerate(text.split("\n"), start=1)
             if at > above and line.strip(" ,;\t") and not line.lstrip().startswith("#")]  # fmt: skip
    if not 0 < len(lines) <= MOST_ROWS:
        raise InvalidPlan(name, [InputError(f"{len(lines)} lines with something in them; 1 to {MOST_ROWS} are read")])
    between = max(",;\t", key=lines[0][1].count)
    table = [(at, _cells(line, between, name, at)) for at, line in lines]
    heads = tuple(head_of(cell) for cell in table[0][1])
    if twice := [head for head, times in Counter(head.name for head in heads).items() if head and times > 1]:
        raise InvalidPlan(name, [InputError(f"{head[:40]!r} stands there twice", place=f"line {table[0][0]}")
                                 for head in twice])  # fmt: skip
    return _even(heads, table[1:], name)


def _cells(line: str, between: str, name: str, at: int) -> list[str]:
    try:
        return next(csv.reader(io.StringIO(line), delimiter=between, skipinitialspace=True), [])
    except csv.Error as fault:
        raise InvalidPlan(name, [InputError(f"not readable as CSV: {fault}", place=f"line {at}")]) from None


def _even(heads: tuple[Head, ...], table: Sequence[tuple[int, list[str]]], name: str) -> Sheet:
    """Rows as long as the heads; a last one that is shorter was cut."""
    notes: tuple[str, ...] = ()
    if len(table) > 1 and len(table[-1][1]) < len(heads) and len(table[-2][1]) >= len(heads):
        notes = (f"The file ends in the middle of line {table[-1][0]}; what stands before is used.",)
        table = table[:-1]
    odd = [at for at, cells in table if len(cells) < len(heads) or any(cell.strip() for cell in cells[len(heads) :])]
    if odd:
        told = f"other than {len(heads)} cells, as there are heads; write decimals with a point, not a comma"
        raise InvalidPlan(name, [InputError(told, place=runs_of(odd))])
    rows = tuple(tuple(cell.strip() for cell in cells[: len(heads)]) for _, cells in table)
    return Sheet(heads, rows, tuple(at for at, _ in table), notes)


def head_of(cell: str) -> Head:
    """A head like `air temperature (F)` in its parts."""
    match = _HEAD.fullmatch(cell.strip().strip('"'))
    if match is None:
        return Head(" ".join(cell.lower().replace("_", " ").split()), "")
    return Head(" ".join(match[1].lower().replace("_", " ").replace("-", " ").split()), match[2] or "")


class Given(NamedTuple):
    """A cell read.

    Attributes:
        value: not a number for none.
        unit: symbol of its unit.
        wrong: what is wrong with it; empty for nothing.
    """

    value: float
    unit: str
    wrong: str = ""


def given(text: str, unit: str) -> Given:
    """A cell in the column's unit, or in one of its own; a range at its higher end.

    Args:
        text: the cell
        unit: symbol of the column's unit; empty where the head names none
    """
    if text.lower() in NOTHING:
        return Given(float("nan"), unit)
    value = number(text)
    if value is not None:
        return Given(float("nan") if value in _MARKERS else value, unit)
    if match := _RANGE.fullmatch(text):
        return given(f"{match[1]}{match[2] or ''}", unit)
    if match := _CELL.fullmatch(text):
        own, value = symbol_of(match[2]), number(match[1])
        if own is not None and value is not None:
            return Given(value, own)
    if _COMMA.fullmatch(text):
        return Given(float("nan"), unit, "has a comma; write the decimal with a point")
    return Given(float("nan"), unit, "is no number; leave a missing value empty")


def wrongs_in(
    column: str, cells: Sequence[Given], lines: Sequence[int], texts: Sequence[str], *, kind: str
) -> list[Wrong]:
    """Complaints about the cells of a column.

    Args:
        column: its name
        cells: as read
        lines: where each stands
        texts: as it stands there
        kind: of its unit; empty where any will do
    """
    found = []
    for cell, line, text in zip(cells, lines, texts, strict=True):
        if cell.wrong:
            found.append(Wrong(line, f"{column}: {cell.wrong}", text))
        elif kind and cell.unit and UNIT_BY_SYMBOL[cell.unit].kind != kind:
            found.append(Wrong(line, f"{column} is not measured so: a {kind} is wanted", text))
    return found
