"""Single shapes as SVG elements, in millimeters from the paper's upper left corner."""

from __future__ import annotations

import math
from collections.abc import Iterable
from xml.sax.saxutils import escape

from pinfold.drawings.captions import BAR_HEIGHT, SMALL, Bar, bar_of
from pinfold.drawings.dimensioning import PlacedDimension
from pinfold.drawings.hatching import texture
from pinfold.drawings.lettering import PlacedText, baselines, em_of
from pinfold.drawings.linework import arrow, letter_of_north, scaled, tick_ends
from pinfold.drawings.scenes import (
    Arc,
    Area,
    Circle,
    NorthArrow,
    PaperMm,
    Point,
    Polyline,
    ScaleBar,
    Shape,
    Tick,
    arc_span,
)
from pinfold.drawings.sheets import Sheet
from pinfold.drawings.styles import DASHES, STYLES, TEXTURE_WEIGHT, TINTS

HEAVY: PaperMm = 0.35
"""Of the slanting strokes that end a dimension line."""
THIN: PaperMm = 0.15
"""Of a leader."""
DOT: PaperMm = 0.45
"""Radius of the dot where a leader begins."""


def number(value: float) -> str:
    """A number to a hundredth of a millimeter, without idle zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def spaced(values: Iterable[float]) -> str:
    """Numbers with a space between."""
    return " ".join(number(value) for value in values)


def path(points: Iterable[Point], *, closed: bool = False) -> str:
    """Points as the drawing order of one line."""
    text = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{text}{'Z' if closed else ''}" if text else ""


def lines(sheet: Sheet, shape: Shape) -> list[str]:
    """The elements of one shape that are not text."""
    match shape:
        case Polyline():
            return [_line(path(sheet.from_scene(shape.points), closed=shape.closed), dashed=shape.dashed)]
        case Area():
            return _area(sheet, shape)
        case Circle():
            return [_circle(sheet, shape.center, shape.radius, ink=STYLES[shape.layer].color if shape.filled else "")]
        case Arc():
            return [_arc(sheet, shape)]
        case Tick():
            return [_line(path(map(sheet.on_paper, tick_ends(_at(sheet, shape.at), shape.turn, shape.length))))]
        case NorthArrow(at=(_, _) as at):
            return [_line("".join(path(map(sheet.on_paper, part)) for part in arrow(_at(sheet, at), shape.turn)))]
        case ScaleBar(at=(_, _) as at):
            bar = bar_of(sheet.placed.scale, shape.system)
            return bar_lines(bar, sheet.from_scene((at,))[0], ink=STYLES[shape.layer].color)
        case _:
            return []


def words(sheet: Sheet, shape: Shape) -> list[str]:
    """The text elements of a shape that is no label or dimension."""
    match shape:
        case NorthArrow(at=(_, _) as at):
            return [word("N", sheet.on_paper(letter_of_north(_at(sheet, at), shape.turn)), SMALL, middle=True)]
        case ScaleBar(at=(_, _) as at):
            return bar_words(bar_of(sheet.placed.scale, shape.system), sheet.from_scene((at,))[0])
        case _:
            return []


def _at(sheet: Sheet, point: Point) -> Point:
    return scaled((point,), sheet.placed.scale.mm_per_meter)[0]


def _line(drawn: str, *, dashed: bool = False) -> str:
    dashes = f' stroke-dasharray="{spaced(DASHES)}"' if dashed else ""
    return f'<path{dashes} d="{drawn}"/>'


def _area(sheet: Sheet, shape: Area) -> list[str]:
    rings = (shape.points, *shape.holes)
    outline = "".join(path(sheet.from_scene(ring), closed=True) for ring in rings)
    parts = []
    if shape.hatch != "none":
        strokes = texture(tuple(scaled(ring, sheet.placed.scale.mm_per_meter) for ring in rings), shape.hatch)
        parts.append(
            f'<path class="tint-{shape.hatch}" fill="{TINTS[shape.hatch]}" fill-rule="evenodd" stroke="none" '
            f'd="{outline}"/>'
        )
        parts.append(
            f'<path stroke-width="{number(TEXTURE_WEIGHT)}" stroke-dasharray="none" stroke-opacity="0.8" '
            f'd="{"".join(path(map(sheet.on_paper, stroke)) for stroke in strokes)}"/>'
        )
    return [*parts, _line(outline)] if shape.edged else parts


def _circle(sheet: Sheet, center: Point, radius: float, *, ink: str = "") -> str:
    ((x, y),) = sheet.from_scene((center,))
    fill = f' class="inked" fill="{ink}"' if ink else ""
    return f'<circle{fill} cx="{number(x)}" cy="{number(y)}" r="{number(radius * sheet.placed.scale.mm_per_meter)}"/>'


def _arc(sheet: Sheet, shape: Arc) -> str:
    span, (x, y), radius = arc_span(shape), shape.center, shape.radius
    if span >= math.tau - 1e-9:
        return _circle(sheet, shape.center, radius)
    turns = (shape.start, shape.start + span)
    start, end = sheet.from_scene(tuple((x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns))
    size = radius * sheet.placed.scale.mm_per_meter
    return _line(
        f"M{spaced(start)}A{spaced((size, size))} 0 {int(span > math.pi)} 0 {spaced(end)}", dashed=shape.dashed
    )


def dimension_lines(sheet: Sheet, placed: PlacedDimension) -> list[str]:
    """The lines of a dimension."""
    drawn = placed.drawn
    light = "".join(path(map(sheet.on_paper, part)) for part in (drawn.line, *drawn.extensions))
    heavy = "".join(path(map(sheet.on_paper, part)) for part in drawn.slants)
    return [_line(light), f'<path stroke-width="{number(HEAVY)}" d="{heavy}"/>']


def leader(sheet: Sheet, text: PlacedText) -> list[str]:
    """The line from a point to its text, with a dot at the point."""
    if not text.leader:
        return []
    points = tuple(map(sheet.on_paper, text.leader))
    (x, y), ink = points[0], STYLES[text.layer].color
    dot = f'<circle class="inked" fill="{ink}" stroke="none" cx="{number(x)}" cy="{number(y)}" r="{number(DOT)}"/>'
    return [f'<path stroke-width="{number(THIN)}" stroke-dasharray="none" d="{path(points)}"/>', dot]


def text_lines(sheet: Sheet, text: PlacedText) -> list[str]:
    """A placed text, an element for each of its lines."""
    anchor = "" if text.align == "start" else f' text-anchor="{text.align}"'
    bold = ' font-weight="bold"' if text.bold else ""
    parts = []
    for point, line in baselines(text):
        x, y = map(number, sheet.on_paper(point))
        turn = number(-math.degrees(text.slab.turn))
        turned = "" if turn == "0" else f' transform="rotate({turn} {x} {y})"'
        parts.append(
            f'<text x="{x}" y="{y}" font-size="{number(em_of(text.size))}"{anchor}{bold}{turned}>{escape(line)}</text>'
        )
    return parts


def word(text: str, at: Point, size: PaperMm, *, middle: bool = False, bold: bool = False) -> str:
    """A level text on the paper, from a point on its baseline or centered on a point."""
    x, y = at[0], at[1] + (size / 2 if middle else 0.0)
    look = (' text-anchor="middle"' if middle else "") + (' font-weight="bold"' if bold else "")
    return f'<text x="{number(x)}" y="{number(y)}" font-size="{number(em_of(size))}"{look}>{escape(text)}</text>'


def bar_lines(bar: Bar, foot: Point, *, ink: str) -> list[str]:
    """A scale bar standing on a point of the paper: parts in turn full and empty."""
    step, (x, y) = bar.length / bar.parts, foot
    full = "".join(
        path(_rectangle(x + part * step, y, step), closed=True) for part in range(0, bar.parts, 2)
    )  # fmt: skip
    whole = path(_rectangle(x, y, bar.length), closed=True)
    return [f'<path class="inked" fill="{ink}" stroke="none" d="{full}"/>', f'<path stroke-width="0.18" d="{whole}"/>']


def _rectangle(x: float, y: float, width: float) -> tuple[Point, ...]:
    return ((x, y), (x + width, y), (x + width, y - BAR_HEIGHT), (x, y - BAR_HEIGHT))


def bar_words(bar: Bar, foot: Point) -> list[str]:
    """The 0 and the length over the ends of a scale bar."""
    high = foot[1] - BAR_HEIGHT - 0.8 - SMALL / 2
    return [
        word("0", (foot[0], high), SMALL, middle=True),
        word(bar.text, (foot[0] + bar.length, high), SMALL, middle=True),
    ]
