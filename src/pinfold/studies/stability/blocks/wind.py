"""The wind on a structure that only stands on its blocks: whether it tips, and whether it shifts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, partial

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import blocks as formulas
from pinfold.geometry.outlines import area
from pinfold.plan.grounds import Blocks
from pinfold.plan.outline import Neighbor, Point
from pinfold.plan.place import Family, Place
from pinfold.studies.stability.air import air_at, figures_of, site_of
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.blocks.figures import FRICTION, ROOF, SIDE, TIE_LEAN
from pinfold.studies.stability.blocks.piers import LEFT_OUT, load_of
from pinfold.studies.stability.factors import COMBINATIONS, Combination, Named
from pinfold.tables import wind as tables
from pinfold.units import KILOGRAM, NEWTON, NEWTON_METER, Meter, Newton, Pascal


@dataclass(frozen=True, kw_only=True)
class Box:
    """A neighbor on blocks in the wind on its long side.

    Attributes:
        neighbor: as planned.
        blocks: what it stands on.
        family: which standards.
        place: its wind.
    """

    neighbor: Neighbor
    blocks: Blocks
    family: Family
    place: Place

    @property
    def factors(self) -> Combination:
        """Shares of wind and weight."""
        return COMBINATIONS[self.family]

    @cached_property
    def size(self) -> tuple[Meter, Meter]:
        """Its length and its narrowest width."""
        return extents(self.neighbor.footprint)

    @cached_property
    def blown(self) -> tuple[Pascal, tuple[Step, ...]]:
        """Pressure of the wind before the shape is counted.

        Raises:
            NotFoundError: the wind is not known.
        """
        air = air_at(site_of(self.family, self.place), self.neighbor.height)
        if self.family is Family.EU:
            return air.pressure, air.working
        kept = [tables.factor("solid-wall", name).value for name in ("directionality", "gust_factor")]
        return air.pressure * math.prod(kept), air.working

    @cached_property
    def force(self) -> Step:
        """On its long side."""
        return work(
            formulas.wind_on_box, why="wind on the long side", pressure=SIDE[self.family].value * self.blown[0],
            length=self.size[0], height=self.neighbor.height,
        )  # fmt: skip

    @cached_property
    def lift(self) -> Step:
        """On its roof."""
        return work(
            formulas.lift_on_roof, why="wind on the roof", pressure=ROOF.value * self.blown[0],
            area=abs(area(self.neighbor.footprint)),
        )  # fmt: skip

    @cached_property
    def ties(self) -> Newton:
        """Level or upright part of all ties on the windward side.

        Raises:
            NotFoundError: what one holds is not given.
        """
        if not self.blocks.ties:
            return 0.0
        if self.blocks.tie_capacity is None:
            raise NotFoundError("what a tie holds is not known; write tie_capacity under its blocks")
        return self.blocks.ties * self.blocks.tie_capacity * TIE_LEAN.value

    @property
    def figures(self) -> Named:
        """What went in."""
        tied: Named = ()
        if self.blocks.ties and self.blocks.tie_capacity is not None:
            tied = (("tie capacity", given(self.blocks.tie_capacity, NEWTON)), ("share of a leaning tie", TIE_LEAN))
        return (
            *figures_of(site_of(self.family, self.place)), ("wind on a box", SIDE[self.family]),
            ("wind on its roof", ROOF), ("mass", given(self.blocks.mass or 0.0, KILOGRAM)), *tied,
            *self.factors.balance,
        )  # fmt: skip


def in_wind(box: Box) -> tuple[Finding, ...]:
    """Overturning and sliding of a neighbor on its blocks."""
    subject = f"neighbor {box.neighbor.name}"
    return tuple(
        answered(Question(check=check, subject=subject, left_out=LEFT_OUT), partial(find, box))
        for check, find in (("overturning", _tips), ("sliding", _shifts))
    )


def _tips(box: Box) -> Finding:
    factors, width = box.factors, box.size[1]
    weight = load_of(box.blocks)
    turned = work(
        formulas.tipping_moment, why="about the leeward row, as wide apart as the structure is", force=box.force.number,
        height=box.neighbor.height, raised=box.blocks.stack_height, lift=box.lift.number, width=width,
    )  # fmt: skip
    held = work(
        formulas.holding_moment, why="weight with its factor, and the ties", weight=factors.weight.value * weight,
        ties=box.ties, width=width,
    )  # fmt: skip
    demand = factors.load.value * turned.number
    return Finding(
        check="", subject="", demand=demand, capacity=held.number, unit=NEWTON_METER, figures=box.figures,
        working=(*box.blown[1], box.force, box.lift, turned, held), because=_tied(box),
        mend="" if keeps_to(demand, held.number) else "ties to the ground on both long sides, or more weight in it",
    )  # fmt: skip


def _shifts(box: Box) -> Finding:
    factors = box.factors
    held = work(
        formulas.grip_on_blocks, why="friction of what still stands on the blocks, and the ties",
        weight=factors.weight.value * load_of(box.blocks), lift=factors.load.value * box.lift.number,
        friction=FRICTION.value, ties=box.ties,
    )  # fmt: skip
    demand = factors.load.value * box.force.number
    return Finding(
        check="", subject="", demand=demand, capacity=held.number, unit=NEWTON,
        figures=(*box.figures, ("friction on blocks", FRICTION)),
        working=(*box.blown[1], box.force, box.lift, held), because=_tied(box),
        mend="" if keeps_to(demand, held.number) else "ties to the ground on both long sides, beams bolted down",
    )  # fmt: skip


def _tied(box: Box) -> str:
    if not box.blocks.ties:
        return told("nothing ties it down", "what may be in it does not count: it may be empty when the storm comes")
    return "its ties count on the windward side alone, at 45 degrees"


def extents(footprint: tuple[Point, ...]) -> tuple[Meter, Meter]:
    """Length and width of the narrowest box around an outline, along one of its own edges."""
    boxes = []
    for (x, y), (far_x, far_y) in zip(footprint, (*footprint[1:], footprint[0]), strict=True):
        edge = math.dist((x, y), (far_x, far_y))
        if edge > 0:
            ux, uy = (far_x - x) / edge, (far_y - y) / edge
            along = [ux * px + uy * py for px, py in footprint]
            across = [ux * py - uy * px for px, py in footprint]
            boxes.append((max(along) - min(along), max(across) - min(across)))
    sides = min(boxes, key=min)
    return max(sides), min(sides)
