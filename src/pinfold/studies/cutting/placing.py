"""Parts in their places on one piece, with every cut and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product

from pinfold.studies.cutting.clearing import Clear, clears, usable
from pinfold.studies.cutting.records import CutOrder, Offcut, PartWanted, Pattern, Placed, Saw, Steps, Stock

_TRIED = 4
"""Up to so many clear lengths of a piece are tried with their parts at either end."""


def placed(order: CutOrder, stock: Stock, parts: Mapping[int, Sequence[PartWanted]], *, times: int) -> Pattern:
    """Parts in the clear lengths of a piece, at those ends of them that leave the best offcuts."""
    zones = clears(stock, order.kerf)
    ends = product((False, True), repeat=len(parts)) if len(parts) <= _TRIED else [(False,) * len(parts)]
    tried = []
    for at_right in ends:
        lying = [
            place
            for right, (clear, each) in zip(at_right, parts.items(), strict=True)
            for place in _side_by_side(zones[clear], each, order.kerf, at_right=right)
        ]
        cuts, offcuts = tuple(_cuts(stock, lying, order.kerf)), tuple(_offcuts(order, stock, lying))
        tried.append(Pattern(stock=stock.mark, times=times, parts=tuple(lying), cuts=cuts, offcuts=offcuts))
    return max(tried, key=_worth)


def _worth(pattern: Pattern) -> tuple[int, int, int]:
    """What is kept in all, the longest of it, and how few cuts it takes."""
    kept = [offcut.length for offcut in pattern.offcuts if offcut.kept]
    return sum(kept), max(kept, default=0), -len(pattern.cuts)


def _side_by_side(clear: Clear, parts: Sequence[PartWanted], kerf: Steps, *, at_right: bool) -> Iterator[Placed]:
    start = clear.start
    if at_right:
        start += clear.room - sum(part.length + kerf for part in parts)
    for part in sorted(parts, key=lambda part: -part.length):
        yield Placed(part.mark, start, start + part.length)
        start += part.length + kerf


def _cuts(stock: Stock, lying: Sequence[Placed], kerf: Steps) -> Iterator[Saw]:
    """One cut between parts side by side, else one at each end that is no end of the piece."""
    if lying[0].start:
        yield Saw(max(lying[0].start - kerf, 0), lying[0].start)
    for one, other in pairwise(lying):
        yield Saw(one.end, one.end + kerf)
        if other.start > one.end + kerf:
            yield Saw(max(other.start - kerf, one.end + kerf), other.start)
    if lying[-1].end < stock.length:
        yield Saw(lying[-1].end, min(lying[-1].end + kerf, stock.length))


def _offcuts(order: CutOrder, stock: Stock, lying: Sequence[Placed]) -> Iterator[Offcut]:
    starts = [0, *(part.end + order.kerf for part in lying)]
    ends = [*(part.start - order.kerf for part in lying), stock.length]
    for start, end in zip(starts, ends, strict=True):
        if end > start:
            yield Offcut(start, end, usable(stock, start, end, order.kerf) >= order.keep)
