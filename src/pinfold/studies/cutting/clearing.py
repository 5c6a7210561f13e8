"""Clear lengths of a piece: what lies between its defects and raw ends, with the cuts beside them paid for."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from pinfold.studies.cutting.records import Defect, Steps, Stock, Trim


class Clear(NamedTuple):
    """A clear length.

    Attributes:
        start: where the first part may start.
        room: length for parts with one kerf each.
    """

    start: Steps
    room: Steps


def clears(stock: Stock, kerf: Steps, *, allowed: frozenset[str] = frozenset()) -> tuple[Clear, ...]:
    """The clear lengths of a piece, from left to right.

    A cut beside a defect keeps the whole blade out of it; a raw end is cut off with the blade in what comes off. At a
    good end no cut is needed where a part ends there.
    """
    start, right = trimmed(stock, kerf)
    found, end = [], stock.length - right + kerf
    for defect in _apart(defect for defect in stock.defects if defect.kind not in allowed):
        found.append(Clear(start, min(defect.start, end) - start))
        start = max(start, defect.end + kerf)
    found.append(Clear(start, end - start))
    return tuple(clear for clear in found if clear.room > kerf)


def trimmed(stock: Stock, kerf: Steps) -> Trim:
    """What comes off its raw ends: never less than a cut takes."""
    return Trim(*(max(trim, kerf) if trim else 0 for trim in stock.trim))


def _apart(defects: Iterable[Defect]) -> list[Defect]:
    """Zones from left to right, those that touch made one."""
    found: list[Defect] = []
    for defect in sorted(defects):
        if found and defect.start <= found[-1].end:
            found[-1] = found[-1]._replace(end=max(found[-1].end, defect.end))
        else:
            found.append(defect)
    return found


def usable(stock: Stock, start: Steps, end: Steps, kerf: Steps) -> Steps:
    """The longest part that could still be cut out of a piece of a piece, which is sawn clean at its new ends."""
    inside = tuple(
        Defect(max(defect.start, start) - start, min(defect.end, end) - start, defect.kind)
        for defect in stock.defects
        if defect.start < end and defect.end > start
    )
    trim = Trim(stock.trim.left if start == 0 else 0, stock.trim.right if end == stock.length else 0)
    rest = Stock(mark=stock.mark, length=end - start, defects=inside, trim=trim)
    return max((clear.room - kerf for clear in clears(rest, kerf)), default=0)
