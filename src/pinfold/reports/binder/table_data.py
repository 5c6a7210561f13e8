"""Tables as data, with the widths of their columns."""

from __future__ import annotations

from pinfold.reports.binder.wording import IN_CELL, worded
from pinfold.reports.pages import Table

ROOM = 92
"""Letters in a line of table text across a page, about."""
_GAP = 3
_LEAST = 10.0
"""The least share of a long column."""


def table_data(table: Table, *, boxes: int = -1) -> dict[str, object]:
    """A table; the first so many rows get a box to tick, none and no column for it when below 0."""
    return {
        "kind": "table",
        "title": worded(table.title),
        "note": worded(table.note),
        "heads": _cells(table.heads),
        "rows": [_cells(row) for row in table.rows],
        "right": list(table.right),
        "widths": widths_of(table, boxed=boxes >= 0),
        "boxes": boxes,
    }


def _cells(cells: tuple[str, ...]) -> list[str]:
    return [worded(cell, longest=IN_CELL) for cell in cells]


def widths_of(table: Table, *, boxed: bool = False) -> list[float]:
    """Shares of the spare width by column; 0 for a column as wide as its text.

    A narrow table is as wide as its texts, unless its rows are ticked off; in others the wide column takes what the
    rest leave, and where they leave it too little the short columns keep their width and the long ones share.
    """
    natural = [max(map(len, column)) for column in zip(table.heads, *table.rows, strict=True)]
    if not boxed and sum(natural) + _GAP * len(natural) < ROOM * 0.6:
        return [0.0] * len(natural)
    rest = sum(natural) - natural[table.wide] + _GAP * len(natural)
    if rest + min(natural[table.wide], ROOM // 3) <= ROOM:
        return [1.0 if place == table.wide else 0.0 for place in range(len(natural))]
    narrow = [
        letters < IN_CELL and (letters <= ROOM / len(natural) or place in table.right)
        for place, letters in enumerate(natural)
    ]
    if sum(letters for letters, small in zip(natural, narrow, strict=True) if small) > ROOM * 0.6:
        narrow = [False] * len(natural)
    return [
        0.0 if small else round(max(letters**0.6, _LEAST), 2) for letters, small in zip(natural, narrow, strict=True)
    ]
