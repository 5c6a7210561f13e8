"""What is asked of sheets and what is answered: parts, sheets, and guillotine patterns with their proof.

A sheet lies before one with its grain, or its ribs, upright: `wide` runs to the right, `high` along the grain. A
guillotine cut goes through from edge to edge. All sizes are whole steps, money is in the smallest coin.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from pinfold.studies.cutting.records import Proof, Steps, Uncut


@dataclass(frozen=True, kw_only=True)
class SheetPart:
    """A rectangle wanted, and how many alike.

    Attributes:
        mark: its own, such as `S2`.
        wide: across the grain.
        high: along it.
        count: how many alike.
        turns: whether it may lie across the grain.
        says: what it is, in words.
        places: where it goes.
        up: which way up it goes.
    """

    mark: str
    wide: Steps
    high: Steps
    count: int = 1
    turns: bool = False
    says: str = ""
    places: tuple[str, ...] = ()
    up: str = ""


@dataclass(frozen=True, kw_only=True)
class SheetStock:
    """Sheets or offcuts alike.

    Attributes:
        mark: its own, such as `K4`.
        wide: across the grain.
        high: along it.
        count: how many; None where the shop has as many as are wanted.
        price: of each; 0 for what is on hand.
        old: whether it lies on the pile already.
        says: what it is, in words.
    """

    mark: str
    wide: Steps
    high: Steps
    count: int | None = 1
    price: int = 0
    old: bool = True
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class SheetOrder:
    """Parts and the sheets they are cut from.

    Attributes:
        parts: wanted.
        stock: on hand and for sale.
        kerf: what a cut takes; 0 for shears.
        keep: shortest side of an offcut worth keeping.
    """

    parts: tuple[SheetPart, ...]
    stock: tuple[SheetStock, ...]
    kerf: Steps
    keep: Steps


class Area(NamedTuple):
    """A rectangle on a sheet.

    Attributes:
        x: of its left edge.
        y: of its lower edge.
        wide: to the right.
        high: upward.
    """

    x: Steps
    y: Steps
    wide: Steps
    high: Steps


class Laid(NamedTuple):
    """A part on a sheet.

    Attributes:
        mark: of the part.
        area: that it takes.
        turned: whether it lies across the grain.
    """

    mark: str
    area: Area
    turned: bool


class Through(NamedTuple):
    """A cut through a rectangle from edge to edge.

    Attributes:
        area: that is cut.
        upright: whether the cut runs upward; else it runs to the right.
        at: from the left, or lower, edge of the rectangle to the cut.
    """

    area: Area
    upright: bool
    at: Steps


class Rest(NamedTuple):
    """A rectangle left over.

    Attributes:
        area: that it takes.
        kept: whether it is worth keeping.
    """

    area: Area
    kept: bool


@dataclass(frozen=True, kw_only=True)
class SheetPattern:
    """How sheets alike are cut alike.

    Attributes:
        stock: mark of the sheet.
        times: how many are cut so.
        parts: on it.
        cuts: in their order.
        rests: left over.
    """

    stock: str
    times: int
    parts: tuple[Laid, ...]
    cuts: tuple[Through, ...]
    rests: tuple[Rest, ...]


@dataclass(frozen=True, kw_only=True)
class SheetPlan:
    """What is cut from which sheet.

    Attributes:
        order: what was asked.
        patterns: of all sheets that are cut.
        uncut: parts that the sheets do not give.
        bound: no plan costs less.
        proof: whether the money is proven to be the least.
    """

    order: SheetOrder
    patterns: tuple[SheetPattern, ...]
    uncut: tuple[Uncut, ...]
    bound: int
    proof: Proof

    @cached_property
    def used(self) -> Counter[str]:
        """Sheets cut, by the mark of their stock."""
        found: Counter[str] = Counter()
        for pattern in self.patterns:
            found[pattern.stock] += pattern.times
        return found

    @property
    def money(self) -> int:
        """What all sheets cut cost."""
        return sum(stock.price * self.used[stock.mark] for stock in self.order.stock)

    @property
    def gap(self) -> int:
        """How much a better plan could save at most."""
        return self.money - self.bound
