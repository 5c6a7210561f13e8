"""A piece to cut before it has its mark, and pieces alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.studies.quantities.standing import cut_length
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Radian, System


class Piece(NamedTuple):
    """One piece or several alike before they are marked.

    Attributes:
        letter: what its mark begins with.
        says: what it is.
        kind: what it is cut from.
        length: from the furthest point of one end to the furthest of the other.
        place: where it goes.
        many: how many alike.
        ends: how they are cut, in words.
        width: across its length, for sheets and rolls.
        left: how far its left cut leans off square, its upper edge further right.
        right: likewise its right cut.
        deep: width of the face that slanting cuts run across.
        splice: whether it may be joined out of several where no stock is long enough.
        tie: what of its length is tied off at either end, and again wherever it is joined.
    """

    letter: str
    says: str
    kind: Kind
    length: Meter
    place: str
    many: int = 1
    ends: str = "square"
    width: Meter | None = None
    left: Radian = 0.0
    right: Radian = 0.0
    deep: Meter = 0.0
    splice: bool = False
    tie: Meter = 0.0


Likeness = tuple[object, ...]


def alike(pieces: Iterable[Piece]) -> Mapping[Likeness, list[Piece]]:
    """Pieces that share a mark, in the order the first of them comes."""
    groups: dict[Likeness, list[Piece]] = {}
    for piece in pieces:
        kind = (piece.kind.shelf, piece.kind.name)
        key = (piece.letter, piece.says, *kind, piece.length, piece.width, piece.ends, piece.left, piece.right)
        groups.setdefault(key, []).append(piece)
    return groups


def known(pieces: Iterable[Piece], system: System) -> tuple[Piece, ...]:
    """Pieces at the size they are cut to; none where a figure is missing."""
    try:
        return tuple(_on_tape(piece, system) for piece in pieces if piece.length > 1e-6)
    except (NotFoundError, OutOfRangeError):
        return ()


def _on_tape(piece: Piece, system: System) -> Piece:
    width = None if piece.width is None else cut_length(piece.width, system)
    return piece._replace(length=cut_length(piece.length, system), width=width)


def each_known(makers: Iterable[Callable[[], Iterator[Piece]]], system: System) -> Iterator[Piece]:
    """The pieces of each maker; what lacks a figure stops no other."""
    for maker in makers:
        yield from known(maker(), system)
