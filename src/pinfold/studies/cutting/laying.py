"""Fills laid out on real pieces: which piece each is cut from, and which of the parts alike it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from pinfold.studies.cutting.asking import Asked
from pinfold.studies.cutting.packing import Laid, opened
from pinfold.studies.cutting.placing import Piece, placed
from pinfold.studies.cutting.records import CutOrder, Pattern

_Counts = tuple[int, ...]
_Used = tuple[tuple[int, _Counts], ...]
"""The clear lengths of a piece that are used, with how many of each kind."""


class _Slot(NamedTuple):
    """A clear length of one piece.

    Attributes:
        stock: index of its stock.
        copy: which of the pieces alike.
        clear: index of the clear length.
    """

    stock: int
    copy: int
    clear: int


def patterns(order: CutOrder, question: Asked, laid: Laid) -> tuple[tuple[Pattern, ...], frozenset[str]]:
    """How all pieces are cut, in the order of the stock, those cut alike together.

    Beside it the marks of stock in which parts do not come out so. The plan must cut no part too many. What lies in
    pieces that are lacking is left out.
    """
    left = [Counter({part.mark: part.count for part in parts}) for parts in question.kinds]
    by_mark = {part.mark: part for parts in question.kinds for part in parts}
    found, failed = [], set()
    for (stock, used), times in sorted(_pieces(order, question, laid).items()):
        piece = Piece(order=order, stock=order.stock[stock], allowed=question.reading.allowed(order.stock[stock]))
        for marks, alike in _marked(used, times, left):
            pattern = placed(
                piece, {clear: [by_mark[mark] for mark in each] for clear, each in marks.items()}, times=alike
            )
            if pattern is None:
                failed.add(order.stock[stock].mark)
            else:
                found.append(pattern)
    return tuple(found), frozenset(failed)


def _pieces(order: CutOrder, question: Asked, laid: Laid) -> Counter[tuple[int, _Used]]:
    """What is cut out of each piece; a piece that is begun is used further before another."""
    many = opened(question.packing, laid)
    used: dict[tuple[int, int], dict[int, _Counts]] = {}
    for index, bay in enumerate(question.packing.bays):
        fills = [fill.counts for fill, times in laid.items() if fill.bay == index for _ in range(times)]
        most = many[bay.room] if question.packing.rooms[bay.room].price else len(fills)
        slots = list(_slots(order, question, index, most))
        slots.sort(key=lambda slot: ((slot.stock, slot.copy) not in used, slot))
        for slot, counts in zip(slots, fills, strict=False):
            used.setdefault((slot.stock, slot.copy), {})[slot.clear] = counts
    return Counter((stock, tuple(sorted(cleared.items()))) for (stock, _), cleared in used.items())


def _slots(order: CutOrder, question: Asked, bay: int, most: int) -> Iterator[_Slot]:
    for spot in question.spots[bay]:
        count = order.stock[spot.stock].count
        for copy in range(most if count is None else min(most, count)):
            yield _Slot(spot.stock, copy, spot.clear)


def _marked(used: _Used, times: int, left: list[Counter[str]]) -> Iterator[tuple[dict[int, list[str]], int]]:
    """Marks for what is cut out of pieces alike, and how many pieces are cut for the same marks."""
    while times:
        taken: Counter[str] = Counter()
        marks = {clear: [mark for kind, many in enumerate(counts) for mark in _next(left[kind], taken, many)]
                 for clear, counts in used}  # fmt: skip
        have = sum(left, Counter[str]())
        alike = min(times, *(have[mark] // many for mark, many in taken.items()))
        for some in left:
            some.subtract({mark: many * alike for mark, many in taken.items() if mark in some})
        times -= alike
        yield marks, alike


def _next(left: Counter[str], taken: Counter[str], many: int) -> Iterator[str]:
    """So many marks of a kind, of what is left most first."""
    for _ in range(many):
        mark = max(left, key=lambda each: left[each] - taken[each])
        taken[mark] += 1
        yield mark
