"""What is on hand: amounts, counts, and lengths that pieces can be cut from."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.plan.stock import PilePiece
from pinfold.studies.gathering.amounts import per
from pinfold.studies.gathering.packs import cut_from_pile
from pinfold.tables.shelf import Kind
from pinfold.units import METER, RATIO, Meter, Unit


def amount_on_hand(kind: Kind, pile: Iterable[PilePiece], *, unit: Unit, pack: float) -> float:
    """How much of a thing lies on the pile, in the unit asked; what cannot be turned into it is not counted.

    Args:
        kind: the thing
        pile: all that is on hand
        unit: of the buying list
        pack: what one whole pack holds, for rows that only count packs
    """
    return sum(_one(kind, piece, unit, pack) * piece.count for piece in pile if piece.item == kind.name)


def _one(kind: Kind, piece: PilePiece, unit: Unit, pack: float) -> float:
    if piece.amount is not None and piece.unit is not None:
        return piece.amount * (per(kind, piece.unit, unit) or 0.0)
    if piece.length is not None:
        return piece.length * (per(kind, METER, unit) or 0.0)
    return 1.0 if unit.kind == RATIO.kind else pack


def pieces_on_hand(
    kind: Kind, pile: Iterable[PilePiece], pieces: Iterable[Meter]
) -> tuple[tuple[Meter, ...], tuple[Meter, ...]]:
    """Pieces that can be cut out of lengths on hand, and those that cannot; rows without a length are not counted."""
    pieces = tuple(pieces)
    lengths = [
        piece.length
        for piece in pile
        if piece.item == kind.name and piece.length is not None
        for _ in range(min(piece.count, len(pieces)))  # more than one for each piece is never cut
    ]
    return cut_from_pile(pieces, lengths)
