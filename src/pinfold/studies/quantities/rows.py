"""Laying a wall of units row by row: how long each row is, and how many whole and cut units it takes.

Rows lie on one course line over the whole stretch, whatever its steps. Rows of a wall with two free ends start with a
whole and a half unit by turns. In a corner the walls run through by turns: a row that runs through is longer than the
center line by half the other wall's thickness, the next one shorter by as much; a wall with one corner starts with the
longer row, so an odd number of rows is never short. A row that misses whole or half units by no more than its joints
can give takes no cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from pinfold.geometry.profiles import Profile
from pinfold.studies.layout.records import EndKind
from pinfold.studies.layout.walls import course_of
from pinfold.studies.quantities.lines import habit
from pinfold.studies.quantities.reach import Reach
from pinfold.units import Meter

_SAME: Meter = 1e-6


@dataclass(frozen=True, kw_only=True)
class Bond:
    """Sizes of the unit along the wall.

    Attributes:
        module: length of a unit with its joint.
        joint: width of a head joint.
        give: how much one joint may open or close.
    """

    module: Meter
    joint: Meter
    give: Meter


@dataclass(frozen=True, kw_only=True)
class Laid:
    """What some rows take.

    Attributes:
        rows: how many.
        whole: whole units laid.
        large: cut pieces longer than half a unit; each takes a unit.
        small: halves and shorter pieces; two come out of a unit.
    """

    rows: int
    whole: int
    large: int
    small: int

    @property
    def units(self) -> int:
        """Units to have for them."""
        return self.whole + self.large + math.ceil(self.small / 2)

    def __add__(self, other: Laid) -> Laid:
        return Laid(
            rows=self.rows + other.rows, whole=self.whole + other.whole, large=self.large + other.large,
            small=self.small + other.small,
        )  # fmt: skip


NOTHING = Laid(rows=0, whole=0, large=0, small=0)


def bond_of(reach: Reach) -> Bond:
    """The bond of a wall of units.

    Raises:
        NotFoundError: its units have no length.
    """
    kind = reach.wall.kind
    joint = kind.value("joint") if kind.has("joint") else 0.0
    return Bond(module=kind.value("unit_length") + joint, joint=joint, give=joint * habit("units", "joint_give"))


def laid(reach: Reach) -> Laid:
    """All rows of a stretch.

    Raises:
        NotFoundError: the units have no length.
    """
    bond = bond_of(reach)
    course = course_of(reach.wall)
    steps, tops = reach.stretch.steps, reach.stretch.tops
    lowest = min(step.bed for step in steps)
    highest = max(z for top in tops for _, z in top)
    total = NOTHING
    for level in range(math.ceil((highest - lowest) / course - _SAME)):
        height = lowest + level * course
        reached = [
            part
            for step, top in zip(steps, tops, strict=True) if step.bed <= height + _SAME
            for part in _above(top, height)
        ]  # fmt: skip
        for row in _joined(reached):
            total += _row(reach, row, bond, level=level)
    return total


def _above(top: Profile, height: Meter) -> list[tuple[Meter, Meter]]:
    """Where a top is above a height."""
    parts = []
    for (start, low), (end, high) in pairwise(top):
        first, last = low - height > _SAME, high - height > _SAME
        if first or last:
            crossing = start + (end - start) * (height - low) / (high - low) if first != last else start
            parts.append((start if first else crossing, end if last else crossing))
    return parts


def _joined(parts: list[tuple[Meter, Meter]]) -> list[tuple[Meter, Meter]]:
    rows: list[tuple[Meter, Meter]] = []
    for start, end in parts:
        if rows and start <= rows[-1][1] + _SAME:
            rows[-1] = (rows[-1][0], end)
        else:
            rows.append((start, end))
    return rows


def _row(reach: Reach, row: tuple[Meter, Meter], bond: Bond, *, level: int) -> Laid:
    start, end = row
    stretch = reach.stretch
    kinds = (
        stretch.start_kind if start < _SAME else EndKind.OPEN,
        stretch.end_kind if end > stretch.length - _SAME else EndKind.OPEN,
    )
    free = sum(kind in (EndKind.OPEN, EndKind.GATE) for kind in kinds)
    length = end - start + bond.joint / 2 * (free - kinds.count(EndKind.NEIGHBOR))
    corners = kinds.count(EndKind.CORNER)
    if corners == 1:
        other = reach.before if kinds[0] is EndKind.CORNER else reach.after
        half = (other.wall if other else reach.wall).thickness / 2
        length += half if level % 2 == 0 else -half
    return row_of(length, bond, starts_half=corners == 0 and level % 2 == 1)


def row_of(length: Meter, bond: Bond, *, starts_half: bool) -> Laid:
    """One row: its length with one joint for each unit."""
    half = bond.module / 2
    small = 0
    if starts_half:
        small, length = 1, length - half
    if length <= bond.give + _SAME:
        return Laid(rows=1, whole=0, large=0, small=small or 1)
    halves = math.ceil(length / half - 0.5 - _SAME)
    if halves and abs(length - halves * half) <= bond.give * math.ceil(halves / 2) + _SAME:
        return Laid(rows=1, whole=halves // 2, large=0, small=small + halves % 2)
    whole = math.floor(length / bond.module + _SAME)
    short = length - whole * bond.module <= half + _SAME
    return Laid(rows=1, whole=whole, large=int(not short), small=small + int(short))
