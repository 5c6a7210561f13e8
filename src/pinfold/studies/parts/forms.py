"""Boards of forms as parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pinfold.studies.parts.pieces import Piece
from pinfold.studies.quantities.forms import form_sets
from pinfold.studies.quantities.reach import Reach
from pinfold.units import System


def form_boards(reaches: Iterable[Reach], system: System) -> Iterator[Piece]:
    """Boards for the longest stretch of each sort of form, both sides."""
    for each in form_sets(reaches, system):
        for length, many in each.boards:
            yield Piece(letter="F", says="form board", kind=each.board, length=length, place=each.says, many=many)
