"""Boards of the forms that walls and caps are cast in: one set that serves stretch after stretch, lift after lift."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from pinfold.studies.quantities.lines import Count, line, plural
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.stocked import longest_stock
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, Meter, System, tape

_BOARD = {System.US: "board-1x6", System.METRIC: "board-25x150"}
_CAST = ("poured", "lifts")


class FormSet(NamedTuple):
    """Boards of one sort of form, for both sides of the longest stretch of it.

    Attributes:
        says: what is cast in it.
        layer: of the build-up that is.
        place: name of that stretch.
        high: of the form.
        board: kind of its boards.
        boards: (length, how many).
    """

    says: str
    layer: str
    place: str
    high: Meter
    board: Kind
    boards: tuple[tuple[Meter, int], ...]


def form_sets(reaches: Iterable[Reach], system: System) -> Iterator[FormSet]:
    """A set for each sort of form; it goes on to the next lift and the next stretch when it is struck."""
    board = kind("boards", _BOARD[system])
    for says, (layer, high, longest) in _needed(reaches).items():
        rows = 2 * max(math.ceil(high / board.value("width") - 1e-6), 1)
        alike = joined_equal(longest.course_length, longest_stock(board))
        boards = tuple((length, count * rows) for length, count in alike)
        yield FormSet(says, layer, longest.stretch.name, high, board, boards)


def forms(reaches: Iterable[Reach], system: System) -> tuple[Quantity, ...]:
    """Boards to have on hand, each set counted once, in the place where it is longest."""
    return tuple(_line(each, system) for each in form_sets(reaches, system))


def _line(found: FormSet, system: System) -> Quantity:
    told = ", ".join(f"{plural(many, 'board')} of {tape(length, system)}" for length, many in found.boards)
    note = f"{told}: {found.says}, one set that goes on from stretch to stretch"
    net = math.fsum(length * many for length, many in found.boards)
    return line(
        kind=found.board, layer=found.layer, place=found.place, unit=METER, count=lambda: Count(net=net, note=note)
    )


def _needed(reaches: Iterable[Reach]) -> dict[str, tuple[str, Meter, Reach]]:
    """What is cast: (its layer, height of its form, the longest stretch of it)."""
    found: dict[str, tuple[str, Meter, Reach]] = {}
    for reach in reaches:
        for says, layer, high in _cast(reach):
            _, before, longest = found.get(says, (layer, 0.0, reach))
            longer = reach if reach.course_length > longest.course_length else longest
            found[says] = (layer, max(before, high), longer)
    return found


def _cast(reach: Reach) -> Iterator[tuple[str, str, Meter]]:
    if not reach.stretch.steps:
        return
    own = reach.wall.kind
    if own.word("make") in _CAST and own.has("lift"):
        yield f"forms of {own.name}", "wall", own.value("lift")
    coping = reach.stretch.buildup.coping
    if coping is not None and coping.kind.word("make") == "cast":
        yield "forms of the cap", "coping", coping.thickness


def joined_equal(length: Meter, longest: Meter) -> Iterator[tuple[Meter, int]]:
    """(length, how many) of equal pieces, end to end, that make up a length, none longer than the longest there is."""
    count = max(math.ceil(length / longest - 1e-6), 1)
    yield length / count, count
