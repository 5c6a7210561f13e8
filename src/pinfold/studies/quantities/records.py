"""One line of the take-off, a total of such lines, and the part cut to length."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Radian, Unit


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """How much of one thing one place needs.

    Attributes:
        kind: what it is: a unit, mix, post, mesh, bar …; its shelf says which; digging is of shelf `works`.
        layer: which layer of the build-up, a word of docs/words.md: trench, footing, membrane, wall, mortar, grout,
            bars, coat, coping, posts, collars, anchors, braces, rails, mesh, apron, ties, gate.
        place: where it goes: name of a stretch, a run (posts, collars, anchors, braces) or a gate.
        unit: SI unit of the amounts: plain number, meter, square meter, cubic meter or kilogram.
        net: what stays in the work; not a number where a figure is missing, and the note says which.
        waste: share to add for cutting, spill and breakage; 0 where it is not bought.
        waste_figure: where that share comes from; None where it is 0.
        note: how it was counted, such as `12 courses of 14 1/2 units, 12 halves cut`.
        working: lines of working, where formulas were used.
    """

    kind: Kind
    layer: str
    place: str
    unit: Unit
    net: float
    waste: float
    waste_figure: Figure | None
    note: str
    working: tuple[Step, ...] = ()

    @property
    def gross(self) -> float:
        """Net and waste together, before packs."""
        return self.net * (1 + self.waste)

    @property
    def is_known(self) -> bool:
        """Whether it could be counted; where not, the note names the figure that is missing."""
        return math.isfinite(self.net)


@dataclass(frozen=True, kw_only=True)
class Total:
    """All of one kind in the whole plot.

    Attributes:
        kind: what it is.
        unit: SI unit of the amounts.
        net: what stays in the work, in all places where it could be counted.
        gross: net and waste together, before packs.
        places: where it goes, in order around the plot, each once.
        missing: what could not be counted: place and note; empty where all could.
    """

    kind: Kind
    unit: Unit
    net: float
    gross: float
    places: tuple[str, ...]
    missing: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Part:
    """A piece cut to length out of something bought in lengths or rolls.

    Attributes:
        mark: pinfold's own mark for it, written on the piece: kind letter and number, such as `T3`.
        says: what it is, such as `line post` or `gate stile`.
        kind: what it is cut from.
        length: to cut.
        count: how many alike.
        places: where they go: post names, gate, stretch.
        ends: how the ends are cut, `square` unless told.
        width: across its length, for sheets and rolls; None for lengths.
        left: how far its left cut leans off square, its upper edge further right.
        right: likewise its right cut.
        deep: width of the face that slanting cuts run across.
        tolerance: how far off its length it may be and still fits.
        allows: flaws that it may have in it.
        up: which way up or out it goes; empty where that is all one.
        splice: whether it may be joined out of several where no stock is long enough.
    """

    mark: str
    says: str
    kind: Kind
    length: Meter
    count: int
    places: tuple[str, ...]
    ends: str = "square"
    width: Meter | None = None
    left: Radian = 0.0
    right: Radian = 0.0
    deep: Meter = 0.0
    tolerance: Meter = 0.0
    allows: frozenset[str] = frozenset()
    up: str = ""
    splice: bool = False
