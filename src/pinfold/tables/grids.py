"""Printed tables of numbers and how they are read between their lines: straight, and at the edge beyond it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from pinfold.sources import Standing


@dataclass(frozen=True, kw_only=True)
class Line:
    """One row of a printed table: values at rising places.

    Attributes:
        at: places, rising.
        values: the printed value at each.
    """

    at: tuple[float, ...]
    values: tuple[float, ...]

    def read(self, place: float) -> float:
        """The value at a place: straight between neighbors, the edge value beyond the edge."""
        low, high, share = between(self.at, place)
        return self.values[low] + share * (self.values[high] - self.values[low])


@dataclass(frozen=True, kw_only=True)
class Grid:
    """A printed table with two heads.

    Attributes:
        across: head of the columns, rising.
        down: head of the rows, rising.
        values: one tuple per row.
        source: key of the publication.
        where: table or figure.
        standing: how it was come by.
    """

    across: tuple[float, ...]
    down: tuple[float, ...]
    values: tuple[tuple[float, ...], ...]
    source: str
    where: str
    standing: Standing

    def read(self, across: float, down: float) -> float:
        """The value at a place: straight both ways, the edge value beyond an edge."""
        upper, lower, share = between(self.down, down)
        first = Line(at=self.across, values=self.values[upper]).read(across)
        if upper == lower:
            return first
        second = Line(at=self.across, values=self.values[lower]).read(across)
        return first + share * (second - first)


def between(places: tuple[float, ...], place: float) -> tuple[int, int, float]:
    """The neighbors of a place and its share of the way from the first to the second.

    On a printed place, and beyond an end, both neighbors are that place and the share is 0.
    """
    if place <= places[0]:
        return 0, 0, 0.0
    if place >= places[-1]:
        return len(places) - 1, len(places) - 1, 0.0
    high = bisect_right(places, place)
    low = high - 1
    if place == places[low]:
        return low, low, 0.0
    return low, high, (place - places[low]) / (places[high] - places[low])
