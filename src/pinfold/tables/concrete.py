"""Tables for choosing a concrete, read between their lines."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from pinfold.errors import OutOfRangeError
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind, kind
from pinfold.units import UNIT_BY_SYMBOL, read, unit_of

_SLACK = 0.01  # a place this share outside the table counts as its edge: 9.5 mm is sold as 3/8 in


@dataclass(frozen=True, kw_only=True)
class Grid:
    """A published table with numbers along its head and, where it has several rows, down its side.

    Attributes:
        says: what the cells are.
        across: places of the columns, in SI, rising.
        down: places of the rows, in SI, rising; empty for a table of one row.
        rows: cells in SI.
        source: publication key.
        standing: how the cells were come by.
        where: table number.
    """

    says: str
    across: tuple[float, ...]
    down: tuple[float, ...]
    rows: tuple[tuple[float, ...], ...]
    source: str
    standing: Standing
    where: str

    def at(self, across: float, down: float | None = None) -> float:
        """The cell at a place, on straight lines between the printed ones.

        Raises:
            OutOfRangeError: the place lies more than 1 % outside the table.
        """
        column, right = self._place(across, self.across)
        along = [row[column] + right * (row[column + 1] - row[column]) for row in self.rows]
        if down is None or not self.down:
            return along[0]
        line, below = self._place(down, self.down)
        return along[line] + below * (along[line + 1] - along[line])

    def _place(self, value: float, places: Sequence[float]) -> tuple[int, float]:
        first, last = places[0], places[-1]
        if not first * (1 - _SLACK) <= value <= last * (1 + _SLACK):
            raise OutOfRangeError(
                f"{self.says}: {value:.6g} lies outside {self.where}, {first:.6g} to {last:.6g} in SI"
            )
        value = min(max(value, first), last)
        left = min(bisect_right(places, value), len(places) - 1) - 1
        return left, (value - places[left]) / (places[left + 1] - places[left])


@cache
def grid(name: str, of: str = "concrete") -> Grid:
    """A table by its name, such as `water-plain`.

    Args:
        name: of the table
        of: data file it stands in

    Raises:
        NotFoundError: no such table.
    """
    found = kind(of, name)
    factor = UNIT_BY_SYMBOL[found.word("unit")].factor
    return Grid(
        says=found.says,
        across=_places(found, "across"),
        down=_places(found, "down"),
        rows=tuple(tuple(cell * factor for cell in row) for row in _rows(found)),
        source=found.word("source"),
        standing=Standing(found.word("standing")),
        where=found.word("where"),
    )


def _places(found: Kind, key: str) -> tuple[float, ...]:
    texts = found.words.get(key, [])
    assert isinstance(texts, list)
    return tuple(read(text, like=unit_of(text)) for text in texts)


def _rows(found: Kind) -> list[list[float]]:
    rows = found.words["rows"]
    assert isinstance(rows, list)
    return rows
