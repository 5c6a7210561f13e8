"""Placing texts: every label and dimension text finds a place where it covers no other text and few lines.

Paper millimeters, y upward, from the scene's origin. Labels that may not move stand first; then texts take the cheapest
of their places in turn, dimensions before labels, higher priority first; in a few further rounds each looks again, now
that the others stand. Places come in rings, ever farther from the point; far ones get a leader. A text looks on until
it has a place free of other texts, so that texts which may move never overlap. The same scene gives the same places.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import combinations, islice, pairwise

from pinfold.drawings.anchoring import label_candidates
from pinfold.drawings.boxes import Grid, Ink, collide, frames_meet, length_inside, lines_cross
from pinfold.drawings.dimensioning import PlacedDimension, dimension_lines, text_candidates
from pinfold.drawings.lettering import PlacedText
from pinfold.drawings.linework import chains
from pinfold.drawings.scales import Scale
from pinfold.drawings.scenes import Dimension, Label, Point, Scene, frame_of
from pinfold.drawings.styles import STYLES

ROUNDS = (3, 1)
"""How often each text looks again, up to MANY texts and above."""
MANY = 100
RINGS = 30
"""Rings looked at before a text is put in the least bad place."""
RING_COST = 1.6
"""What each ring farther out costs, in the same coin as the rest."""
LATER_COST = 0.12
"""What each later place of a ring costs."""
LINE_COST = 3.0
"""Per millimeter of line under a text and of its weight, on top of LEAST_WEIGHT."""
LEAST_WEIGHT = 0.15
MEASURING = 2.5
"""Lines that measure weigh so much more: a stroke through a figure changes it."""
INK_MOST = 10.0
"""All lines under a text together cost no more."""
LEADER_COST = 4.0
"""For a leader through a text, or across another leader."""
TANGLES_MOST = 2
"""More of these are no worse."""
COVERED = 1000.0
"""For covering a text: never worth it."""

Candidates = Callable[[int], tuple[PlacedText, ...]]


@dataclass(frozen=True, kw_only=True)
class Placed:
    """A scene at one scale with all its texts in place.

    Attributes:
        labels: the placed texts of the scene's labels, in their order.
        dimensions: the placed dimensions, in their order.
    """

    scene: Scene
    scale: Scale
    labels: tuple[PlacedText, ...]
    dimensions: tuple[PlacedDimension, ...]

    @property
    def texts(self) -> tuple[PlacedText, ...]:
        """All texts, dimensions first."""
        return (*(one.text for one in self.dimensions), *self.labels)


@dataclass(frozen=True, kw_only=True)
class _Desk:
    """What lies on the paper while texts are being placed."""

    ink: Ink
    texts: dict[int, PlacedText] = field(default_factory=dict)
    text_grid: Grid = field(default_factory=Grid)
    leader_grid: Grid = field(default_factory=Grid)

    def put(self, key: int, text: PlacedText) -> None:
        self.texts[key] = text
        self.text_grid.put(key, text.slab.frame)
        if text.leader:
            self.leader_grid.put(key, frame_of(text.leader))

    def take(self, key: int) -> None:
        text = self.texts.pop(key)
        self.text_grid.take(key, text.slab.frame)
        if text.leader:
            self.leader_grid.take(key, frame_of(text.leader))


def place(scene: Scene, scale: Scale) -> Placed:
    """A scene's texts in their places at a scale."""
    drawn = dimension_lines(tuple(one for one in scene.shapes if isinstance(one, Dimension)), scale.mm_per_meter)
    labels = tuple(one for one in scene.shapes if isinstance(one, Label))
    lines = [*chains(scene, scale.mm_per_meter)]
    lines += [(one.dimension.layer, part) for one in drawn for part in (one.line, *one.extensions)]
    desk = _desk(lines)
    finders: list[Candidates] = [cache(_bound(text_candidates, one)) for one in drawn]
    finders += [cache(_bound(label_candidates, one, scale.mm_per_meter)) for one in labels]
    fixed = [len(drawn) + index for index, label in enumerate(labels) if not label.movable]
    ranked = sorted(range(len(labels)), key=lambda index: -labels[index].priority)
    roomy = sorted(range(len(drawn)), key=lambda index: round(finders[index](0)[0].slab.width - drawn[index].length, 6))
    free = [*roomy, *(len(drawn) + index for index in ranked if labels[index].movable)]
    for key in fixed:
        desk.put(key, finders[key](0)[0])
    _settle(desk, finders, free)
    texts = [desk.texts[key] for key in range(len(finders))]
    dimensions = tuple(PlacedDimension(drawn=one, text=text) for one, text in zip(drawn, texts, strict=False))
    return Placed(scene=scene, scale=scale, labels=tuple(texts[len(drawn) :]), dimensions=dimensions)


def overlaps(placed: Placed) -> tuple[tuple[PlacedText, PlacedText], ...]:
    """Every pair of texts of which one covers the other."""
    return tuple((one, other) for one, other in combinations(placed.texts, 2) if collide(one.slab, other.slab))


def _bound(finder: Callable[..., tuple[PlacedText, ...]], *given: object) -> Candidates:
    return lambda ring: finder(*given, ring)


def _desk(lines: list[tuple[str, tuple[Point, ...]]]) -> _Desk:
    ink = Ink()
    for layer, points in lines:
        cost = LINE_COST * (LEAST_WEIGHT + STYLES[layer].weight) * (MEASURING if layer == "dimension" else 1.0)
        for start, end in pairwise(points):
            ink.draw(start, end, cost)
    return _Desk(ink=ink)


def _settle(desk: _Desk, finders: list[Candidates], free: list[int]) -> None:
    for key in free:
        desk.put(key, _best(desk, finders[key]))
    for _ in range(ROUNDS[len(free) > MANY]):
        moved = False
        for key in free:
            before = desk.texts[key]
            desk.take(key)
            after = _best(desk, finders[key])
            desk.put(key, after)
            moved = moved or after != before
        if not moved:
            return


def _best(desk: _Desk, finder: Candidates) -> PlacedText:
    best, least = finder(0)[0], math.inf
    for ring in range(RINGS):
        if ring * RING_COST >= least:
            break
        for number, spot in enumerate(finder(ring)):
            base = ring * RING_COST + number * LATER_COST
            if base < least:
                cost = base + _cost(desk, spot, least - base)
                best, least = (spot, cost) if cost < least else (best, least)
    return best


def _cost(desk: _Desk, spot: PlacedText, most: float) -> float:
    """What a place costs; once above `most` the rest is not looked at."""
    cost = 0.0
    for key in desk.text_grid.near(spot.slab.frame):
        if collide(spot.slab, desk.texts[key].slab):
            cost += COVERED
            if cost >= most:
                return cost
    cost += min(desk.ink.under(spot.slab), INK_MOST)
    return cost + LEADER_COST * _tangles(desk, spot) if cost < most else cost


def _tangles(desk: _Desk, spot: PlacedText) -> int:
    """How many leaders and texts get in each other's way here, as far as it matters."""
    return sum(1 for _ in islice(_tangled(desk, spot), TANGLES_MOST))


def _tangled(desk: _Desk, spot: PlacedText) -> Iterator[int]:
    for key in desk.leader_grid.near(spot.slab.frame):
        if length_inside(spot.slab, *desk.texts[key].leader[:2]) > 0.0:
            yield key
    if not spot.leader:
        return
    start, end = spot.leader[:2]
    frame = frame_of(spot.leader)
    for key in desk.text_grid.near(frame):
        slab = desk.texts[key].slab
        if frames_meet(frame, slab.frame) and length_inside(slab, start, end) > 0.0:
            yield key
    for key in desk.leader_grid.near(frame):
        if lines_cross(start, end, *desk.texts[key].leader[:2]):
            yield key
