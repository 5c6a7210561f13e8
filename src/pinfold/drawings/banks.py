"""Earth that stands higher on one face of a wall, in plan, elevation and section."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from pinfold.drawings.callouts import Note
from pinfold.drawings.naming import side_of, told
from pinfold.drawings.scenes import Area, Label, PaperMm, Point, Polyline, Shape
from pinfold.drawings.section_frame import Cut, Parts
from pinfold.drawings.sides import SideView, stretches_on
from pinfold.plan.buildups import Faces
from pinfold.plan.grounds import Bank
from pinfold.studies.layout.records import Layout
from pinfold.units import PASCAL, Meter, System, show, tape

STRIP: PaperMm = 4.0
"""Width on paper of the strip that shows a bank in plan; how far back one goes is not planned."""
DRAIN: Meter = 0.15
"""Width of the gravel drawn behind a wall whose bank is drained."""
ARROW: Meter = 0.12
"""Length of the arrows of what stands on a bank."""
ARROWS = 4


class Lying(NamedTuple):
    """Part of a bank against one stretch: places along the side, and how far the wall's face is from its line."""

    bank: Bank
    start: Meter
    end: Meter
    face: Meter

    def strip(self, view: SideView, wide: Meter) -> tuple[Point, ...]:
        """The ring in plan of a strip so wide beside the wall, beginning with its foot."""
        out = 1 if self.bank.face is Faces.OUTER else -1
        corners = ((self.start, 0.0), (self.end, 0.0), (self.end, wide), (self.start, wide))
        return tuple(view.at(along, out * (self.face + aside)) for along, aside in corners)

    def seen(self, view: SideView) -> tuple[Point, ...]:
        """The ring that it covers seen from outside."""
        ground = tuple((self.start + place, z) for place, z in view.lie.ground(self.start, self.end)[0])
        ring = (*ground, *((along, z + self.bank.height) for along, z in reversed(ground)))
        return tuple((view.across(along), z) for along, z in ring)


def banks_against(layout: Layout, view: SideView) -> Iterator[Lying]:
    """Every part of a bank that lies against a wall of a side."""
    for bank in layout.plan.banks:
        for stretch in stretches_on(layout, view):
            start, end = max(bank.start, stretch.start), min(bank.end, stretch.end)
            if bank.side == view.side.name and stretch.buildup.wall is not None and end > start:
                face = stretch.buildup.wall.thickness / 2
                yield Lying(bank=bank, start=start, end=end, face=face)


def reach_of_banks(layout: Layout, view: SideView, face: Faces, millimeter: Meter) -> Meter:
    """How far from a side's line the strips on one face reach in plan; 0 without a bank there."""
    own = [lying for lying in banks_against(layout, view) if lying.bank.face is face]
    return max((lying.face + STRIP * millimeter for lying in own), default=0.0)


def banks_in_plan(layout: Layout, view: SideView, millimeter: Meter) -> Iterator[Shape]:
    """A strip of earth beside the wall, under what is built, for each bank against a side, with its name and height.

    Args:
        layout: the plan laid out
        view: the side
        millimeter: about how much ground one millimeter of paper will hold
    """
    for bank in layout.plan.banks:
        lengths = [lying for lying in banks_against(layout, view) if lying.bank is bank]
        for lying in lengths:
            yield from _strip(view, lying, STRIP * millimeter)
        if lengths:
            longest = max(lengths, key=lambda lying: lying.end - lying.start)
            out, (x, y) = 1 if bank.face is Faces.OUTER else -1, view.inward
            yield Label(
                at=view.at((longest.start + longest.end) / 2, out * (longest.face + STRIP * millimeter)),
                text=f"{bank.name}\n{tape(bank.height, layout.plan.units)} higher", layer="bank", size=1.8,
                anchor=side_of((-out * x, -out * y)), priority=4, slide=(longest.end - longest.start) / 2,
            )  # fmt: skip


def _strip(view: SideView, lying: Lying, wide: Meter) -> Iterator[Shape]:
    start, end, *back = ring = lying.strip(view, wide)
    yield Area(layer="ground", points=ring, hatch="earth", edged=False)
    yield Polyline(layer="ground", points=(back[1], start, end, back[0]))


def banks_seen(layout: Layout, view: SideView) -> Iterator[Shape]:
    """Each bank against a side as seen from outside: earth before the wall, or dashed where the wall hides it."""
    for lying in banks_against(layout, view):
        bank, start, end, _ = lying
        if bank.face is Faces.OUTER:
            yield Area(layer="bank", points=lying.seen(view), hatch="earth")
        else:
            yield Polyline(layer="bank", points=lying.seen(view), closed=True, dashed=True)
        middle = (start + end) / 2
        at = (view.across(middle), view.lie.ground_at(middle) + bank.height)
        behind = "" if bank.face is Faces.OUTER else " behind"
        text = f"{bank.name}{behind}\n{tape(bank.height, layout.plan.units)}"
        yield Label(at=at, text=text, layer="bank", anchor="above", size=1.8, priority=5, slide=(end - start) / 2)


def surface_at(cut: Cut, face: Faces, x: Meter) -> Meter:
    """Height of the earth's surface on a face, so far from the wall's center line."""
    bank = cut.bank
    if bank is None or bank.face is not face:
        return 0.0
    return bank.height + (abs(x) - cut.earth_at(face, bank.height)) * math.tan(bank.slope)


def bank_parts(cut: Cut, parts: Parts) -> None:
    """The earth on its face of the wall, its drain, what stands on it, and its figures."""
    bank = cut.bank
    if bank is None:
        return
    out = -1 if bank.face is Faces.OUTER else 1  # outside lies to the left
    foot, head = cut.earth_at(bank.face, 0.0), cut.earth_at(bank.face, bank.height)
    edge = cut.right if out > 0 else -cut.left
    top = ((out * head, bank.height), (out * edge, surface_at(cut, bank.face, edge)))
    ring = ((out * foot, 0.0), *top, (out * edge, 0.0))
    parts.shapes.append(Area(layer="bank", points=ring, hatch="earth", edged=False))
    if bank.drained:
        deep = out * (foot + DRAIN)
        gravel = ((out * foot, 0.0), top[0], (deep, bank.height), (deep, 0.0))
        parts.shapes.append(Area(layer="bank", points=gravel, hatch="gravel"))
        parts.notes.append(Note(at=(out * (foot + DRAIN / 2), bank.height * 0.4), text=_DRAIN))
    parts.shapes.append(Polyline(layer="bank", points=top))
    parts.notes.append(Note(at=(out * (foot + edge) / 2, bank.height * 0.6), text=_says(bank, cut.system)))
    if bank.surcharge > 0:
        _load(cut, parts, bank, top)


_DRAIN = "drain of gravel behind the wall, with a way out for the water"


def _load(cut: Cut, parts: Parts, bank: Bank, top: tuple[Point, Point]) -> None:
    """A row of arrows onto the surface."""
    (x, z), (end, high) = top
    tails = []
    for number in range(ARROWS):
        share = (number + 0.5) / ARROWS
        foot = (x + (end - x) * share, z + (high - z) * share)
        tails.append((foot[0], foot[1] + ARROW))
        barb = ARROW / 4
        tip = ((foot[0] - barb / 2, foot[1] + barb), foot, (foot[0] + barb / 2, foot[1] + barb))
        parts.shapes += [Polyline(layer="mark", points=(tails[-1], foot)), Polyline(layer="mark", points=tip)]
    parts.shapes.append(Polyline(layer="mark", points=(tails[0], tails[-1])))
    text = told("what stands or drives on it", show(bank.surcharge, PASCAL, cut.system))
    parts.notes.append(Note(at=tails[1], text=text))


def _says(bank: Bank, system: System) -> str:
    level = bank.slope < math.radians(0.5)
    figures = [
        f"{tape(bank.height, system)} higher than the ground on the other face",
        "its surface level" if level else f"its surface rises {math.degrees(bank.slope):.3g}° from the wall",
        bank.soil.says if bank.soil else "what it is made of is not given",
        "drained" if bank.drained else "not drained: counts as soaked to the top",
    ]
    if bank.passive:
        figures.append("the earth on the other face holds it: never dig it away")
    return told(f"bank {bank.name}", *figures)
