"""Call-outs: what parts are, in a column beside the drawing, each tied to its part by a leader."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pinfold.drawings.lettering import em_of
from pinfold.drawings.naming import COLUMN, column_text
from pinfold.drawings.scenes import Label, PaperMm, Point
from pinfold.units import Meter

SIZE: PaperMm = 1.8
EXPECTED: PaperMm = 115.0
"""About how high a drawing with call-outs stands on paper."""


@dataclass(frozen=True, kw_only=True)
class Note:
    """A call-out: what a part is, tied to a point of it; one without text is left out."""

    at: Point
    text: str


@dataclass(frozen=True, kw_only=True)
class Column:
    """Where call-outs stand.

    Attributes:
        x: left edge.
        low: lowest place.
        high: highest place.
        off: further distance from the edge on paper, where dimension lines stand between.
        width: of the texts on paper.
    """

    x: Meter
    low: Meter
    high: Meter
    off: PaperMm = 0.0
    width: PaperMm = COLUMN


def call_outs(notes: Iterable[Note], *, column: Column) -> Iterator[Label]:
    """Labels in the order of their parts' heights, as near to them as there is room."""
    ranked = sorted((note for note in notes if note.text), key=lambda note: -note.at[1])
    texts = [column_text(note.text, SIZE, column.width) for note in ranked]
    line = 1.35 * em_of(SIZE) * (column.high - column.low) / EXPECTED
    sizes = [line * (text.count("\n") + 1.6) for text in texts]
    heights = spread([note.at[1] for note in ranked], sizes, (column.low, column.high))
    for note, text, height in zip(ranked, texts, heights, strict=True):
        stand = (column.x, height)
        yield Label(at=note.at, text=text, stand=stand, anchor="right", size=SIZE, priority=8, reach=column.off)


def spread(wanted: list[Meter], sizes: list[Meter], room: tuple[Meter, Meter]) -> list[Meter]:
    """Middles of texts as near as may be to the wanted heights, from high to low, none over the next.

    Args:
        wanted: heights from high to low
        sizes: height of each text; made less alike when together they need more than the room
        room: lowest and highest place
    """
    low, high = room
    total = sum(sizes)
    share = min(1.0, (high - low) / total) if total else 1.0
    halves = [size * share / 2 for size in sizes]
    heights: list[Meter] = []
    ceiling = high
    for height, half in zip(wanted, halves, strict=True):
        heights.append(min(height, ceiling - half))
        ceiling = heights[-1] - half
    floor = low
    for number in range(len(heights) - 1, -1, -1):
        heights[number] = max(heights[number], floor + halves[number])
        floor = heights[number] + halves[number]
    return heights
