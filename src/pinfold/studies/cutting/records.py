"""What is asked of a saw and what it answers: parts wanted, stock, and a cut plan of patterns with its proof.

All lengths are whole numbers of one smallest step (1/64 inch or 0.1 mm), measured along the lower edge of a piece that
lies before the saw, from its left end. Money is in the smallest coin.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import NamedTuple

from pinfold.units import Meter, System, tape

Steps = int
"""A length in whole steps."""

STEP: Mapping[System, Meter] = {System.US: 0.0254 / 64, System.METRIC: 0.0001}
"""The smallest length told apart, by the units of the plan: 1/64 inch or 0.1 mm."""


class EndCut(NamedTuple):
    """How an end is cut across the face that lies up.

    Attributes:
        run: how much further right the upper edge ends than the lower one; 0 where it is cut square, negative where the
            upper edge ends further left. Two ends that face each other with one run share one cut.
        over: width of the face that the cut runs across; 0 where it is cut square.
    """

    run: Steps = 0
    over: Steps = 0


SQUARE = EndCut()


@dataclass(frozen=True, kw_only=True)
class PartWanted:
    """A part that is cut to length, and how many alike.

    Attributes:
        mark: its own, such as `R3`.
        length: from the furthest point of one end to the furthest of the other.
        count: how many alike.
        left: how its left end is cut.
        right: how its right end is cut.
        turns: whether it may be turned upside down, so that its cuts lean the other way.
        tolerance: how far off it may be and still fits.
        allows: kinds of defects it may have in it.
        splice: whether it may be joined out of two where no stock is long enough.
        says: what it is, in words.
        places: where it goes.
        up: which way up it goes, in words; empty where that is all one.
    """

    mark: str
    length: Steps
    count: int = 1
    left: EndCut = SQUARE
    right: EndCut = SQUARE
    turns: bool = True
    tolerance: Steps = 0
    allows: frozenset[str] = frozenset()
    splice: bool = False
    says: str = ""
    places: tuple[str, ...] = ()
    up: str = ""


class Defect(NamedTuple):
    """A zone of a piece that no cut may touch and no part may hold, save one that allows its kind.

    Attributes:
        start: where it starts.
        end: where it ends.
        kind: such as `notch`, `nails`, `knot`; a part may allow it.
    """

    start: Steps
    end: Steps
    kind: str = ""


class Trim(NamedTuple):
    """What comes off the raw ends of a piece before it is used, the saw cut included; 0 where an end is good.

    Attributes:
        left: off the left end.
        right: off the right end.
    """

    left: Steps = 0
    right: Steps = 0


NO_TRIM = Trim()


@dataclass(frozen=True, kw_only=True)
class Stock:
    """Pieces alike that parts can be cut from.

    Attributes:
        mark: its own, such as `P4` of the pile or the length it is sold in.
        length: of each, raw ends included.
        count: how many there are; None where the shop has as many as are wanted.
        price: of each, in the smallest coin; 0 for what is on hand.
        old: whether it lies on the pile already.
        defects: zones to avoid.
        trim: off its raw ends.
        says: what it is, in words.
    """

    mark: str
    length: Steps
    count: int | None = 1
    price: int = 0
    old: bool = True
    defects: tuple[Defect, ...] = ()
    trim: Trim = NO_TRIM
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class CutOrder:
    """Parts of one section and the stock of that section.

    Attributes:
        parts: wanted.
        stock: on hand and for sale.
        kerf: what a square saw cut takes.
        keep: shortest offcut worth keeping.
        system: units of the plan, which say how long a step is.
    """

    parts: tuple[PartWanted, ...]
    stock: tuple[Stock, ...]
    kerf: Steps
    keep: Steps
    system: System = System.METRIC

    def tape(self, length: Steps) -> str:
        """A length as the tape shows it."""
        return tape(length * STEP[self.system], self.system)


class Placed(NamedTuple):
    """A part in its place on a piece.

    Attributes:
        mark: of the part.
        start: where its lower edge starts.
        end: where its lower edge ends.
        left: how its left end is cut as it lies.
        right: how its right end is cut as it lies.
    """

    mark: str
    start: Steps
    end: Steps
    left: EndCut = SQUARE
    right: EndCut = SQUARE


class Saw(NamedTuple):
    """One cut across a piece.

    Attributes:
        start: where the blade takes away from, on the lower edge.
        end: up to where it does; at the end of the piece it takes less than a whole kerf.
        run: how much further right it stands on the upper edge.
    """

    start: Steps
    end: Steps
    run: Steps = 0


class Offcut(NamedTuple):
    """A piece left over between cuts.

    Attributes:
        start: where it starts.
        end: where it ends.
        kept: whether it is worth keeping.
    """

    start: Steps
    end: Steps
    kept: bool

    @property
    def length(self) -> Steps:
        """From end to end."""
        return self.end - self.start


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """How pieces alike are cut alike.

    Attributes:
        stock: mark of the piece.
        times: how many pieces are cut so.
        parts: from left to right.
        cuts: from left to right.
        offcuts: from left to right.
    """

    stock: str
    times: int
    parts: tuple[Placed, ...]
    cuts: tuple[Saw, ...]
    offcuts: tuple[Offcut, ...]


class Uncut(NamedTuple):
    """Parts that the stock does not give.

    Attributes:
        mark: of the part.
        many: how many are missing.
        because: why.
        mend: what would mend it.
    """

    mark: str
    many: int
    because: str
    mend: str


class Proof(StrEnum):
    """How sure it is that no plan costs less."""

    OPTIMUM = "optimum"  # proven: none does
    GAP = "gap"  # not proven: one may, down to the bound


@dataclass(frozen=True, kw_only=True)
class CutPlan:
    """What is cut from which piece.

    Attributes:
        order: what was asked.
        patterns: of all pieces that are cut.
        uncut: parts that the stock does not give.
        bound: no plan that cuts as much costs less; where nothing has a price, none buys less length.
        proof: whether it is proven to be the least.
    """

    order: CutOrder
    patterns: tuple[Pattern, ...]
    uncut: tuple[Uncut, ...]
    bound: int
    proof: Proof

    @cached_property
    def used(self) -> Counter[str]:
        """Pieces cut, by the mark of their stock."""
        found: Counter[str] = Counter()
        for pattern in self.patterns:
            found[pattern.stock] += pattern.times
        return found

    @property
    def money(self) -> int:
        """What all pieces cut cost."""
        return sum(stock.price * self.used[stock.mark] for stock in self.order.stock)

    @property
    def spent(self) -> int:
        """What is made least: the money, or the length bought where nothing has a price."""
        return self.money if any(stock.price for stock in self.order.stock) else self.bought

    @property
    def gap(self) -> int:
        """How much a better plan could save at most; 0 where this is proven to be the least."""
        return self.spent - self.bound

    @property
    def bought(self) -> Steps:
        """Length of all pieces bought new."""
        return sum(stock.length * self.used[stock.mark] for stock in self.order.stock if not stock.old)

    @property
    def sawn(self) -> int:
        """How many cuts there are."""
        return sum(pattern.times * len(pattern.cuts) for pattern in self.patterns)

    @property
    def kept(self) -> Steps:
        """Length of all offcuts worth keeping."""
        return sum(
            pattern.times * offcut.length for pattern in self.patterns for offcut in pattern.offcuts if offcut.kept
        )
