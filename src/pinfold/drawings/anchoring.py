"""Where the text of a label may stand about its point (millimeters on paper, y upward)."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

from pinfold.drawings.boxes import Slab
from pinfold.drawings.lettering import PlacedText, block_size, em_of, lines_of, upright
from pinfold.drawings.linework import scaled
from pinfold.drawings.scenes import Anchor, Label, PaperMm, Point

GAP: PaperMm = 1.0
"""Between a point and a text beside it."""
SLIDES = 5
"""Places looked at to either side of a name that is written along something."""
LEADER_FROM: PaperMm = 2.6
"""A text farther than this from its point is tied to it by a line."""
SIDES: dict[Anchor, tuple[int, int]] = {
    "right": (1, 0), "above": (0, 1), "left": (-1, 0), "below": (0, -1), "above right": (1, 1), "above left": (-1, 1),
    "below right": (1, -1), "below left": (-1, -1), "over": (0, 0),
}  # fmt: skip


def label_candidates(label: Label, mm_per_meter: float, ring: int) -> tuple[PlacedText, ...]:
    """The places of one ring, best first: ring 0 the wished-for one, ring 1 the other sides, then ever farther."""
    turn = upright(label.turn)
    across, up = SIDES[label.anchor]
    if abs(math.remainder(turn - label.turn, math.tau)) > 1.0:  # turned round to be read: its sides turn with it
        across, up = -across, -up
    if ring == 0:
        return (_text(label, mm_per_meter, _beside(label, (across, up), 0.0), tied=not label.slide),)
    if label.slide > 0.0:
        if ring <= SLIDES:
            return _along_its_line(label, mm_per_meter, (across, up), ring)
        return _off_its_line(label, mm_per_meter, turn + math.atan2(up, across), ring - SLIDES)
    if label.reach > LEADER_FROM or label.stand is not None:
        return _along_the_column(label, mm_per_meter, (across, up), ring)
    if ring == 1:
        others = [side for side in SIDES.values() if side not in {(across, up), (0, 0)}]
        return tuple(_text(label, mm_per_meter, _beside(label, side, 0.0)) for side in others)
    return _round_about(label, mm_per_meter, ring - 1)


def _beside(label: Label, side: tuple[int, int], farther: PaperMm) -> Point:
    """The middle of the text from its point, along and across the writing."""
    width, height = block_size(lines_of(label.text), label.size, bold=label.bold)
    gap = (0.75 * GAP if all(side) else GAP) + label.reach + farther
    return (side[0] * (width / 2 + gap), side[1] * (height / 2 + gap))


def _along_its_line(label: Label, mm_per_meter: float, side: tuple[int, int], ring: int) -> tuple[PlacedText, ...]:
    """On the same side of what it names, farther along it to both ends, or some lines off."""
    width, _ = block_size(lines_of(label.text), label.size, bold=label.bold)
    shift = max(label.slide * mm_per_meter - width / 2, 0.0) * ring / SLIDES
    spots = []
    for rows in range(5):
        x, y = _beside(label, side, rows * 1.2 * em_of(label.size))
        spots += [_text(label, mm_per_meter, (x + sign * shift, y), tied=False) for sign in (1, -1)]
    return tuple(spots)


def _off_its_line(label: Label, mm_per_meter: float, way: float, step: int) -> tuple[PlacedText, ...]:
    """Written level on the same side of what it names, and tied to it."""
    level = replace(label, turn=0.0)
    width, height = block_size(lines_of(label.text), label.size, bold=label.bold)
    far = GAP + label.reach + step * em_of(label.size)
    spots = []
    for aside in (0.0, 0.5, -0.5, 1.0, -1.0):
        cos, sin = math.cos(way + aside), math.sin(way + aside)
        spots.append(_text(level, mm_per_meter, (cos * (width / 2 + far), sin * (height / 2 + far))))
    return tuple(spots)


def _round_about(label: Label, mm_per_meter: float, step: int) -> tuple[PlacedText, ...]:
    width, height = block_size(lines_of(label.text), label.size, bold=label.bold)
    far = GAP + label.reach + step * (1 + step / 8) * em_of(label.size) * 0.9
    spots = []
    for part in range(16):
        cos, sin = math.cos(part * math.pi / 8), math.sin(part * math.pi / 8)
        spots.append(_text(label, mm_per_meter, (cos * (width / 2 + far), sin * (height / 2 + far))))
    return tuple(spots)


def _along_the_column(
    label: Label, mm_per_meter: float, side: tuple[int, int], ring: int
) -> tuple[PlacedText, ...]:  # fmt: skip
    """Call-outs keep their distance and move along it, so that those of one side stay flush."""
    width, height = block_size(lines_of(label.text), label.size, bold=label.bold)
    x, y = _beside(label, side, 0.0)
    step = ring * (1 + ring / 16)
    shift = (0.0, step * em_of(label.size) * 0.6) if side[0] else (step * max(width, height) * 0.3, 0.0)
    return tuple(
        _text(label, mm_per_meter, (x + sign * shift[0], y + sign * shift[1])) for sign in (-1, 1)
    )  # fmt: skip


def _text(label: Label, mm_per_meter: float, middle: Point, *, tied: bool = True) -> PlacedText:
    lines = lines_of(label.text)
    width, height = block_size(lines, label.size, bold=label.bold)
    (at, stand) = scaled((label.at, label.stand or label.at), mm_per_meter)
    turn = upright(label.turn)
    center = Slab(center=stand, width=0.0, height=0.0, turn=turn).outward(middle)
    slab = Slab(center=center, width=width, height=height, turn=turn)
    align: Literal["start", "middle", "end"] = "middle"
    if abs(middle[0]) > width * 0.45:
        align = "start" if middle[0] > 0 else "end"
    leader = (at, _near_side(slab, at)) if tied and slab.gap(at) > LEADER_FROM else ()
    return PlacedText(
        layer=label.layer, lines=lines, size=label.size, slab=slab, align=align, leader=leader, bold=label.bold
    )  # fmt: skip


def _near_side(slab: Slab, point: Point) -> Point:
    """The middle of that side of a text which a leader reaches best, half a millimeter off."""
    wide, high = slab.width / 2 + 0.5, slab.height / 2 + 0.2
    x, y = slab.inward(point)
    if abs(x) > slab.width / 2:
        return slab.outward((math.copysign(wide, x), 0.0))
    return slab.outward((0.0, math.copysign(high, y)))
