"""What a section is cut through: one build-up at a typical place, heights from the ground there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from pinfold.drawings.callouts import Note
from pinfold.drawings.scenes import Shape
from pinfold.drawings.sides import width_of_post
from pinfold.geometry.intervals import subtract
from pinfold.geometry.stepping import Step
from pinfold.plan.buildups import Buildup, Faces
from pinfold.plan.grounds import Bank
from pinfold.studies.layout.posting import stands_behind
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.units import Meter, System

MARGIN: Meter = 0.3
"""Ground drawn on each side of all that is built."""
BANK: Meter = 0.5
"""Least width of a bank drawn behind its wall."""
BARE: Meter = 0.5
"""Least length of a step that no bank lies against, for the wall to be cut there without one."""


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A build-up cut through: x from its center line, outside to the left, heights from the ground.

    Attributes:
        system: whose units are written.
        bed: top of the footing, or underside of the wall; 0 without wall.
        bottom: underside of the footing; the bed without one.
        wall_top: of the wall without coping; 0 without wall.
        frost: depth the ground freezes to; None where not given.
        courses: whole courses of the wall.
        place: name of the stretch it is taken from.
        bank: earth that stands higher on one face there; None where the ground is alike on both.
    """

    buildup: Buildup
    system: System
    bed: Meter
    bottom: Meter
    wall_top: Meter
    frost: Meter | None
    courses: int
    place: str
    bank: Bank | None = None

    @property
    def fence_foot(self) -> Meter:
        """Where the mesh starts: top of the coping, of the wall, or the ground."""
        return self.wall_top + (self.buildup.coping.thickness if self.buildup.coping else 0.0)

    @property
    def half(self) -> Meter:
        """Half the wall's thickness at its foot; 0 without wall."""
        return self.buildup.wall.thickness / 2 if self.buildup.wall else 0.0

    @property
    def post_at(self) -> Meter:
        """Where the posts stand."""
        return stands_behind(self.buildup)

    @property
    def post_half(self) -> Meter:
        """Half the drawn width of a post."""
        posts = self.buildup.posts
        return max(width_of_post(posts.kind), 0.012) / 2 if posts else 0.0

    @property
    def left(self) -> Meter:
        """How far the drawing goes on the outside."""
        apron = self.buildup.mesh.apron if self.buildup.mesh and not self.buildup.mesh.apron_buried else 0.0
        footing = self.buildup.footing.width / 2 if self.buildup.footing else 0.0
        return -max(self.half + apron, footing, self._collar, self._piers[0], self._earth(Faces.OUTER)) - MARGIN

    @property
    def right(self) -> Meter:
        """How far it goes on the inside."""
        footing = self.buildup.footing.width / 2 if self.buildup.footing else 0.0
        inner = max(self.half, footing, self.post_at + self._collar, self._piers[1], self._earth(Faces.INNER))
        return inner + MARGIN

    @property
    def _piers(self) -> tuple[Meter, Meter]:
        """How far piers and their pads go to the outside and to the inside."""
        piers = self.buildup.piers
        return (0.0, 0.0) if piers is None else piers.pad_reach(2 * self.half)

    @property
    def _collar(self) -> Meter:
        posts = self.buildup.posts
        return (posts.collar or 0.0) / 2 if posts else 0.0

    def _earth(self, face: Faces) -> Meter:
        """How far a bank on a face is drawn at least."""
        if self.bank is None or self.bank.face is not face:
            return 0.0
        return self.half + max(BANK, self.bank.height)

    def earth_at(self, face: Faces, z: Meter) -> Meter:
        """How far from the center line earth against a face begins at a height: past its coats."""
        return self.half_at(z) + self.buildup.coats_thickness(face)

    def half_at(self, z: Meter) -> Meter:
        """Half the wall's thickness at a height: less toward the top where its faces lean in."""
        wall = self.buildup.wall
        if wall is None or not wall.kind.has("top_thickness") or self.wall_top <= self.bed:
            return self.half
        top = min(wall.kind.value("top_thickness"), wall.thickness) / 2
        share = min(max((z - self.bed) / (self.wall_top - self.bed), 0.0), 1.0)
        return self.half + (top - self.half) * share


@dataclass(kw_only=True)
class Parts:
    """Shapes and call-outs of a section while it is being put together."""

    shapes: list[Shape] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)


def cuts(layout: Layout) -> tuple[Cut, ...]:
    """Each build-up that is used, cut where it is typical, and once more at each bank that lies against it.

    Typical is the middle of its longest level length; where banks lie all along it, it is cut at them only.
    """
    return tuple(
        cut
        for name, buildup in layout.plan.buildups.items()
        if (own := [stretch for stretch in layout.stretches if stretch.buildup.name == name])
        for cut in _cuts(layout, buildup, own)
    )


class _Place(NamedTuple):
    """Where a wall may be cut, and how long it is alike there."""

    length: Meter
    stretch: Stretch
    number: int


def _cuts(layout: Layout, buildup: Buildup, own: list[Stretch]) -> Iterator[Cut]:
    steps = [(stretch, number, step) for stretch in own for number, step in enumerate(stretch.steps)]
    if not steps:
        longest = max(own, key=lambda stretch: stretch.length)
        yield Cut(
            buildup=buildup, system=layout.plan.units, bed=0.0, bottom=0.0, wall_top=0.0,
            frost=layout.plan.place.frost_depth, courses=0, place=longest.name,
        )  # fmt: skip
        return
    for bank in (None, *layout.plan.banks):
        places = [_Place(_alike(layout, stretch, step, bank), stretch, number) for stretch, number, step in steps]
        place = max(places, key=lambda one: one.length)
        if place.length > (BARE if bank is None and layout.plan.banks else 0.0):
            yield _cut(layout, buildup, place, bank)


def _alike(layout: Layout, stretch: Stretch, step: Step, bank: Bank | None) -> Meter:
    """How much of a step lies at a bank, or without one free of all."""
    start, end = stretch.start + step.start, stretch.start + step.end
    if bank is not None:
        return min(bank.end, end) - max(bank.start, start) if bank.side == stretch.side else 0.0
    against = [(one.start, one.end) for one in layout.plan.banks if one.side == stretch.side]
    return max((high - low for low, high in subtract((start, end), against)), default=0.0)


def _cut(layout: Layout, buildup: Buildup, place: _Place, bank: Bank | None) -> Cut:
    stretch, step, top = place.stretch, place.stretch.steps[place.number], place.stretch.tops[place.number]
    ground = (step.highest_ground + step.lowest_ground) / 2
    return Cut(
        buildup=buildup, system=layout.plan.units, bed=step.bed - ground, bottom=step.footing_bottom - ground,
        wall_top=sum(z for _, z in top) / len(top) - ground, frost=layout.plan.place.frost_depth, courses=step.courses,
        place=stretch.name, bank=bank,
    )  # fmt: skip
