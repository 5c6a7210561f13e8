"""The ground under a leaf as it opens: the least clearance on its whole way, where it is, and what would mend it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from pinfold.geometry.ground import height_at, profile
from pinfold.plan.enclosure import Enclosure, Gate, Hand, Swing
from pinfold.studies.gates.records import SwingWay
from pinfold.studies.layout.gating import hinges_of
from pinfold.studies.layout.lie import Lie
from pinfold.studies.layout.walls import outside_is_right
from pinfold.units import Meter, Radian

STEPS = 90
"""Angles looked at from shut to a right angle; between them the worst is narrowed down."""
NARROW = 40
"""Halvings of the interval that the worst lies in."""
_OPEN = math.pi / 2
_LEAST_OPEN = math.radians(5)
"""A rising hinge has lifted next to nothing before this."""


@dataclass(frozen=True)
class _Arc:
    """A leaf's way over the ground.

    Attributes:
        lie: of its side.
        hinge: along the side.
        way: whether it reaches on (1) or back (-1) along the side when shut.
        aside: whether it opens to the left (1) or right (-1) of the side.
        reach: width of the leaf.
        foot: height of its underside.
        sill: top of what lies under it when shut; None where that is the ground.
    """

    lie: Lie
    hinge: Meter
    way: int
    aside: int
    reach: Meter
    foot: Meter
    sill: Meter | None

    @property
    def shut(self) -> Meter:
        """Height of what it hangs over when shut."""
        ground = self.highest(0.0)[0]
        return ground if self.sill is None else max(ground, self.sill)

    def ground(self, angle: Radian) -> tuple[tuple[Meter, Meter], ...]:
        """(radius, height) wherever the slope of the ground under the leaf changes."""
        if self.lie.surface is None:
            return (0.0, 0.0), (self.reach, 0.0)
        along, aside = self.way * math.cos(angle), self.aside * math.sin(angle)
        end = self.lie.at(self.hinge + self.reach * along, self.reach * aside)
        return profile(self.lie.surface, self.lie.at(self.hinge), end).points

    def highest(self, angle: Radian) -> tuple[Meter, Meter]:
        """(height, radius) of the highest ground under it."""
        return max((z, radius) for radius, z in self.ground(angle))

    def surveyed(self, angle: Radian) -> bool:
        """Whether the ground at its latch end was surveyed."""
        if self.lie.surface is None:
            return True
        along, aside = self.way * math.cos(angle), self.aside * math.sin(angle)
        return height_at(self.lie.surface, self.lie.at(self.hinge + self.reach * along, self.reach * aside)).inside


def swing_ways(plan: Enclosure, gate: Gate, lie: Lie) -> tuple[SwingWay, ...]:
    """Every way a gate may open, the planned one first: in or out, and a single leaf from the other post too."""
    hands = (Hand.BOTH,) if gate.leaves == 2 else (gate.hinges, _other(gate.hinges))
    swings = (gate.swing, Swing.IN if gate.swing is Swing.OUT else Swing.OUT)
    return tuple(_way(plan, gate, lie, swing, hand) for hand in hands for swing in swings)


def _other(hand: Hand) -> Hand:
    return Hand.RIGHT if hand is Hand.LEFT else Hand.LEFT


def _way(plan: Enclosure, gate: Gate, lie: Lie, swing: Swing, hand: Hand) -> SwingWay:
    turned = replace(gate, swing=swing, hinges=hand)
    above = gate.sill.above if gate.sill else 0.0
    sill = max(z for _, z in lie.ground(gate.start, gate.end)[0]) + above
    left = (swing is Swing.OUT) != outside_is_right(plan)
    arcs = [
        _Arc(lie, hinge, way, 1 if left else -1, gate.leaf_width, sill + gate.under, sill if gate.sill else None)
        for hinge, way in hinges_of(plan, turned)
    ]
    clearance, angle, radius = min(_least(arc) for arc in arcs)
    return SwingWay(
        swing=swing, hinges=hand, planned=swing is gate.swing and hand is gate.hinges, clearance=clearance,
        angle=angle, radius=radius, lift=max(_lift(arc) for arc in arcs), cut=max(_cut(arc) for arc in arcs),
        unsurveyed=not all(arc.surveyed(_OPEN * part / 6) for arc in arcs for part in range(7)),
    )  # fmt: skip


@lru_cache(maxsize=256)
def _least(arc: _Arc) -> tuple[Meter, Radian, Meter]:
    """(clearance, angle, radius) where it is least."""
    angles = [_OPEN * number / STEPS for number in range(STEPS + 1)]
    worst = max(range(STEPS + 1), key=lambda number: arc.highest(angles[number])[0])
    low, high = angles[max(worst - 1, 0)], angles[min(worst + 1, STEPS)]
    for _ in range(NARROW):
        first, second = low + (high - low) / 3, high - (high - low) / 3
        if arc.highest(first)[0] < arc.highest(second)[0]:
            low = first
        else:
            high = second
    angle = max((low, (low + high) / 2, high, angles[worst]), key=lambda one: arc.highest(one)[0])
    height, radius = arc.highest(angle)
    if arc.sill is not None and arc.sill > height:
        return arc.foot - arc.sill, 0.0, arc.reach
    return arc.foot - height, angle, radius


def _lift(arc: _Arc) -> Meter:
    """Rise over a right angle of hinges that lift the leaf evenly, so that it never comes nearer than when shut."""
    shut, found = arc.shut, 0.0
    for number in range(1, STEPS + 1):
        angle = _OPEN * number / STEPS
        rise = arc.highest(angle)[0] - shut
        if rise > 1e-4:
            found = max(found, rise * _OPEN / max(angle, _LEAST_OPEN))
    return found


def _cut(arc: _Arc) -> Meter:
    """What comes off the foot at the latch end, on a slant from the hinge, so that it clears as when shut."""
    shut, found = arc.shut, 0.0
    for number in range(1, STEPS + 1):
        for radius, z in arc.ground(_OPEN * number / STEPS):
            if z - shut > 1e-4 and radius > arc.reach / 10:
                found = max(found, (z - shut) * arc.reach / radius)
    return found
