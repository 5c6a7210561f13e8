"""Boards of the forms that walls and caps are cast in: one set that serves stretch after stretch, lift after lift."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from pinfold.studies.parts.pieces import Piece
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.standing import longest_stock
from pinfold.tables.shelf import kind
from pinfold.units import Meter, System

_BOARD = {System.US: "board-1x6", System.METRIC: "board-25x150"}
_CAST = ("poured", "lifts")


def form_boards(reaches: Iterable[Reach], system: System) -> Iterator[Piece]:
    """Boards for the longest stretch of each sort of form, both sides; they go on to the next when they are struck."""
    board = kind("boards", _BOARD[system])
    for what, (high, longest) in _needed(reaches).items():
        rows = 2 * max(math.ceil(high / board.value("width") - 1e-6), 1)
        for length, count in joined_equal(longest, longest_stock(board)):
            yield Piece(letter="F", says="form board", kind=board, length=length, place=what, many=count * rows)


def _needed(reaches: Iterable[Reach]) -> dict[str, tuple[Meter, Meter]]:
    """What is cast: (height of its form, longest stretch of it)."""
    found: dict[str, tuple[Meter, Meter]] = {}
    for reach in reaches:
        for what, high in _cast(reach):
            before = found.get(what, (0.0, 0.0))
            found[what] = (max(before[0], high), max(before[1], reach.course_length))
    return found


def _cast(reach: Reach) -> Iterator[tuple[str, Meter]]:
    if not reach.stretch.steps:
        return
    own = reach.wall.kind
    if own.word("make") in _CAST and own.has("lift"):
        yield f"forms of {own.name}", own.value("lift")
    coping = reach.stretch.buildup.coping
    if coping is not None and coping.kind.word("make") == "cast":
        yield "forms of the cap", coping.thickness


def joined_equal(length: Meter, longest: Meter) -> Iterator[tuple[Meter, int]]:
    """(length, how many) of equal pieces, end to end, that make up a length, none longer than the longest there is."""
    count = max(math.ceil(length / longest - 1e-6), 1)
    yield length / count, count
