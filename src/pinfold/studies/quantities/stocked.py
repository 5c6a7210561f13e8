"""Lengths that a shelf says are in stock."""

from __future__ import annotations

import math
from functools import cache

from pinfold.tables.shelf import Kind
from pinfold.units import METER, Meter, read


@cache
def stocked_lengths(texts: tuple[str, ...]) -> tuple[Meter, ...]:
    """Lengths as a shelf writes them, shortest first."""
    return tuple(sorted(read(text, like=METER) for text in texts))


def stock_lengths(kind: Kind) -> tuple[Meter, ...]:
    """Lengths in stock as the shelf tells them, shortest first; none where it tells none."""
    stocked = kind.words.get("lengths")
    return stocked_lengths(tuple(map(str, stocked))) if isinstance(stocked, list) else ()


def stock_length(kind: Kind, length: Meter) -> Meter | None:
    """The shortest length in stock that holds it; None where none does."""
    return next((stock for stock in stock_lengths(kind) if stock >= length - 1e-9), None)


def longest_stock(kind: Kind) -> Meter:
    """The longest length in stock; endless where the shelf tells none."""
    return max(stock_lengths(kind), default=math.inf)
