"""What a structure on blocks is leveled with: supports and doors, shims on hand, jack and crib."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Newton

Point = tuple[Meter, Meter]


@dataclass(frozen=True, kw_only=True)
class Support:
    """A place where a structure stands on blocks and its height is read.

    Attributes:
        mark: as it is written on the beam and in the log.
        at: its place in plan.
        shims: thickness of each shim in its stack now; so far it can come down, and no farther.
    """

    mark: str
    at: Point
    shims: tuple[Meter, ...] = ()


@dataclass(frozen=True, kw_only=True, order=True)
class Shim:
    """Shims, plates or boards of one thickness.

    Attributes:
        thickness: of one, as it lies under load.
        count: how many are on hand.
    """

    thickness: Meter
    count: int


@dataclass(frozen=True, kw_only=True)
class DoorOpening:
    """A door or window that binds when the structure racks.

    Attributes:
        name: the builder's word for it.
        start: place of one jamb in plan.
        end: of the other.
        height: of the opening.
        gap: between leaf and frame.
    """

    name: str
    start: Point
    end: Point
    height: Meter
    gap: Meter


@dataclass(frozen=True, kw_only=True)
class Jack:
    """The jacks on hand, all alike.

    Attributes:
        capacity: rated load of one, as marked on it.
        base_length: of the pad that one stands on.
        base_width: of it.
        count: how many there are.
    """

    capacity: Newton
    base_length: Meter | None
    base_width: Meter | None
    count: int


@dataclass(frozen=True, kw_only=True)
class Leveling:
    """How a structure on blocks is leveled. What is None was not given.

    Attributes:
        supports: in the order of the file; none where it was never said where they are.
        doors: that its racking could bind.
        shims: on hand, thickest first.
        tolerance: most that two supports may differ in the end.
        step: most that a jack lifts before it goes to the next support.
        fixed: mark that does not move, such as a peg or a rock away from the structure; empty without one.
        built: day it was set on its blocks, such as 2026-05-03; empty when not known.
        jack: on hand.
        crib: kind of shelf `cribs` beside the jack.
        crib_length: of its pieces.
        crib_height: as high as it is to be built.
    """

    supports: tuple[Support, ...] = ()
    doors: tuple[DoorOpening, ...] = ()
    shims: tuple[Shim, ...] = ()
    tolerance: Meter | None = None
    step: Meter | None = None
    fixed: str = ""
    built: str = ""
    jack: Jack | None = None
    crib: Kind | None = None
    crib_length: Meter | None = None
    crib_height: Meter | None = None


UNTOLD = Leveling()
"""What is leveled with nothing that was told."""
