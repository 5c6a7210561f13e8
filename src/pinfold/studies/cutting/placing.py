"""Parts in their places on one piece, with every cut and what is left over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from pinfold.studies.cutting.arranging import Ground, arranged, kerf_of
from pinfold.studies.cutting.clearing import clears, trimmed, usable
from pinfold.studies.cutting.records import CutOrder, Offcut, PartWanted, Pattern, Placed, Saw, Steps, Stock

_TRIED = 4
"""Up to so many clear lengths of a piece are tried with their parts at either end."""


@dataclass(frozen=True, kw_only=True)
class Piece:
    """A piece before the saw.

    Attributes:
        order: what is asked.
        stock: what it is.
        allowed: kinds of defects that its clear lengths go on over, as some of the parts may have them.
    """

    order: CutOrder
    stock: Stock
    allowed: frozenset[str]


def placed(piece: Piece, parts: Mapping[int, Sequence[PartWanted]], *, times: int) -> Pattern | None:
    """Parts in clear lengths of pieces alike, at those ends that leave the best offcuts; None where they do not fit."""
    laid = [_laid_in(piece, clear, each) for clear, each in parts.items()]
    ends = product((0, 1), repeat=len(laid)) if len(laid) <= _TRIED else [(0,) * len(laid)]
    tried = []
    for at_right in ends:
        lying: list[Placed] = []
        for side, found in zip(at_right, laid, strict=True):
            if found is None:
                return None
            places, spare = found
            lying += [
                place._replace(start=place.start + side * spare, end=place.end + side * spare) for place in places
            ]
        cuts, offcuts = tuple(_cuts(piece, lying)), tuple(_offcuts(piece, lying))
        tried.append(Pattern(stock=piece.stock.mark, times=times, parts=tuple(lying), cuts=cuts, offcuts=offcuts))
    return max(tried, key=_worth)


def _worth(pattern: Pattern) -> tuple[int, int, int]:
    """What is kept in all, the longest of it, and how few cuts it takes."""
    kept = [offcut.length for offcut in pattern.offcuts if offcut.kept]
    return sum(kept), max(kept, default=0), -len(pattern.cuts)


def _laid_in(piece: Piece, clear: int, parts: Sequence[PartWanted]) -> tuple[Sequence[Placed], Steps] | None:
    """Parts as far left as they go in a clear length, and how far they may be moved right; None if they do not fit."""
    kerf = piece.order.kerf
    room = clears(piece.stock, kerf, allowed=piece.allowed)[clear]
    zones = tuple(zone for zone in piece.stock.defects if zone.kind in piece.allowed)
    end = room.start + room.room
    at_end = end == piece.stock.length + kerf - trimmed(piece.stock, kerf).right
    ground = Ground(room.start, end - kerf, None if at_end else end, zones, kerf)
    leaning = any(part.left.run or part.right.run for part in parts)
    places = arranged(ground, parts) if zones or leaning else list(_side_by_side(ground, parts))
    if places is None:
        return None
    last = places[-1]
    wider = 0 if at_end else kerf_of(last.right, kerf) - kerf
    return places, 0 if zones else ground.end - wider - last.end - max(last.right.run, 0)


def _side_by_side(ground: Ground, parts: Sequence[PartWanted]) -> Iterator[Placed]:
    start = ground.start
    for part in sorted(parts, key=lambda part: -part.length):
        yield Placed(part.mark, start, start + part.length)
        start += part.length + ground.kerf


def _cuts(piece: Piece, lying: Sequence[Placed]) -> Iterator[Saw]:
    """One cut between parts that face each other alike, else one at each end that is no end of the piece."""
    kerf, length = piece.order.kerf, piece.stock.length
    first, last = lying[0], lying[-1]
    if first.start or first.left.run:
        yield Saw(first.start - min(kerf_of(first.left, kerf), first.start), first.start, first.left.run)
    for one, other in pairwise(lying):
        wide = kerf_of(one.right, kerf)
        yield Saw(one.end, one.end + wide, one.right.run)
        if one.right.run != other.left.run or other.start > one.end + wide:
            square = not one.right.run and not other.left.run
            start = other.start - kerf_of(other.left, kerf)
            yield Saw(max(start, one.end + wide) if square else start, other.start, other.left.run)
    if last.end < length or last.right.run:
        yield Saw(last.end, min(last.end + kerf_of(last.right, kerf), length), last.right.run)


def _offcuts(piece: Piece, lying: Sequence[Placed]) -> Iterator[Offcut]:
    """What is left between parts, as far as it is not pointed."""
    kerf, keep = piece.order.kerf, piece.order.keep
    starts = [0, *(part.end + max(part.right.run, 0) + kerf_of(part.right, kerf) for part in lying)]
    ends = [*(part.start + min(part.left.run, 0) - kerf_of(part.left, kerf) for part in lying), piece.stock.length]
    for start, end in zip(starts, ends, strict=True):
        if end > start:
            yield Offcut(start, end, usable(piece.stock, start, end, kerf) >= keep)
