"""Writes a placed scene as DXF R2010 in meters: a DXF layer for each layer, real dimensions, the same bytes always.

Model space is the scene itself at full size; texts and ticks are as high as they are on paper at the chosen scale.
"""

from __future__ import annotations

import io
import math
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from pinfold.drawings.dimensioning import OVERRUN, SLANT, TEXT_GAP, PlacedDimension
from pinfold.drawings.lettering import PlacedText, baselines, clean
from pinfold.drawings.linework import arrow, letter_of_north, scaled, tick_ends
from pinfold.drawings.placing import Placed, place
from pinfold.drawings.scales import Scale
from pinfold.drawings.scenes import LAYERS, Arc, Area, Circle, NorthArrow, Point, Polyline, Scene, Shape, Tick, arc_span
from pinfold.drawings.styles import DASHES, STYLES, TEXTURES, Strokes

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

DASHED = "DASHED"
_LETTERS = "LETTERS"
_BY_LAYER = 256
_ALIGN = {"start": 0, "middle": 1, "end": 2}
_ONE_AT_A_TIME = threading.Lock()


def write_dxf(scene: Scene, *, scale: Scale) -> bytes:
    """A scene as a DXF file.

    Args:
        scene: what is drawn
        scale: how large texts, ticks and textures are against what is drawn: theirs when printed at this scale
    """
    return placed_dxf(place(scene, scale))


def placed_dxf(placed: Placed) -> bytes:
    """A placed scene as a DXF file; captions, and arrows and bars without a point, are left to the sheet."""
    from ezdxf import units  # heavy: only who writes one waits for it
    from ezdxf.filemanagement import new

    with _fixed_dates(), io.StringIO() as stream:
        document = new("R2010", units=units.M)
        _prepare(document, placed)
        space = document.modelspace()
        for layer in LAYERS:
            for shape in placed.scene.shapes:
                if shape.layer == layer:
                    _add_shape(space, placed, shape)
        for one in placed.dimensions:
            _add_dimension(space, placed, one)
        for text in placed.labels:
            _add_text(space, placed, text)
        document.write(stream)
        return stream.getvalue().encode("utf-8")


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """Keeps clock and random marks out of the file; the library's own setting comes back afterwards."""
    from ezdxf._options import options

    with _ONE_AT_A_TIME:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before


def _prepare(document: Drawing, placed: Placed) -> None:
    m = placed.scale.ratio / 1000  # meters of ground for a millimeter of paper
    document.styles.add(_LETTERS, font="AtkinsonHyperlegibleNext-Regular.ttf")
    document.linetypes.add(DASHED, _pattern(DASHES, m))
    for layer in LAYERS:
        style = STYLES[layer]
        kind = layer.upper() if style.dashes else "CONTINUOUS"
        if style.dashes:
            document.linetypes.add(kind, _pattern(style.dashes, m))
        entry = document.layers.add(layer, linetype=kind, lineweight=round(style.weight * 100))
        entry.rgb = (int(style.color[1:3], 16), int(style.color[3:5], 16), int(style.color[5:7], 16))
    dimension = document.dimstyles.new(_LETTERS)
    dimension.dxf.update({
        "dimtsz": SLANT * m * 0.5, "dimasz": SLANT * m, "dimexe": OVERRUN * m,
        "dimgap": TEXT_GAP * m, "dimscale": 1.0, "dimtad": 1, "dimtih": 0, "dimtoh": 0, "dimtxsty": _LETTERS,
        "dimblk": "", "dimlfac": 1.0, "dimclrd": _BY_LAYER, "dimclre": _BY_LAYER, "dimclrt": _BY_LAYER,
    })  # fmt: skip


def _pattern(dashes: tuple[float, ...], m: float) -> list[float]:
    signed = [dash * m * (1 if index % 2 == 0 else -1) for index, dash in enumerate(dashes)]
    return [sum(dashes) * m, *signed]


def _add_shape(space: Modelspace, placed: Placed, shape: Shape) -> None:
    look = {"layer": shape.layer}
    match shape:
        case Polyline(points=points) if len(points) > 1:
            dashes = {"linetype": DASHED} if shape.dashed else {}
            space.add_lwpolyline(points, close=shape.closed, dxfattribs=look | dashes)
        case Area():
            _add_area(space, placed, shape)
        case Circle():
            _add_circle(space, shape)
        case Arc():
            _add_arc(space, shape)
        case Tick() | NorthArrow(at=(_, _)):
            _add_mark(space, placed, shape)


def _add_circle(space: Modelspace, shape: Circle) -> None:
    space.add_circle(shape.center, shape.radius, dxfattribs={"layer": shape.layer})
    if shape.filled:
        (x, y), radius = shape.center, shape.radius
        disk = space.add_hatch(color=_BY_LAYER, dxfattribs={"layer": shape.layer})
        disk.paths.add_polyline_path([(x - radius, y, 1.0), (x + radius, y, 1.0)], is_closed=True, flags=1)


def _add_area(space: Modelspace, placed: Placed, shape: Area) -> None:
    rings = (shape.points, *shape.holes)
    if shape.hatch != "none":
        m = placed.scale.ratio / 1000
        hatch = space.add_hatch(dxfattribs={"layer": shape.layer})
        definition = [_definition(family, m) for family in TEXTURES[shape.hatch]]
        hatch.set_pattern_fill(shape.hatch.upper(), color=_BY_LAYER, scale=1.0, definition=definition)
        for index, ring in enumerate(rings):
            hatch.paths.add_polyline_path(ring, is_closed=True, flags=16 if index else 1)
    for ring in rings if shape.edged else ():
        space.add_lwpolyline(ring, close=True, dxfattribs={"layer": shape.layer})


def _definition(family: Strokes, m: float) -> list[object]:
    """A texture family as the format has it: angle, a point on a line, the step to the next, strokes and gaps."""
    cos, sin = math.cos(family.turn), math.sin(family.turn)

    def spot(along: float, across: float) -> Point:
        return ((along * cos - across * sin) * m, (along * sin + across * cos) * m)

    dashes = [dash * m * (1 if index % 2 == 0 else -1) for index, dash in enumerate(family.dashes)]
    base, step = spot(family.start[1], family.start[0]), spot(family.shift, family.spacing)
    return [math.degrees(family.turn), base, step, dashes]


def _add_arc(space: Modelspace, shape: Arc) -> None:
    look = {"layer": shape.layer} | ({"linetype": DASHED} if shape.dashed else {})
    if arc_span(shape) >= math.tau - 1e-9:
        space.add_circle(shape.center, shape.radius, dxfattribs=look)
        return
    start, end = math.degrees(shape.start), math.degrees(shape.end)
    space.add_arc(shape.center, shape.radius, start, end, dxfattribs=look)


def _add_mark(space: Modelspace, placed: Placed, shape: Tick | NorthArrow) -> None:
    if shape.at is None:
        return
    (at,), look = scaled((shape.at,), placed.scale.mm_per_meter), {"layer": shape.layer}
    parts = arrow(at, shape.turn) if isinstance(shape, NorthArrow) else (tick_ends(at, shape.turn, shape.length),)
    for part in parts:
        space.add_lwpolyline(_meters(placed, part), dxfattribs=look)
    if isinstance(shape, NorthArrow):
        (middle,) = _meters(placed, (letter_of_north(at, shape.turn),))
        text = space.add_text("N", height=placed.scale.ratio * 0.0019, dxfattribs=look | {"style": _LETTERS})
        text.dxf.update({"halign": 1, "valign": 2, "align_point": middle, "insert": middle})


def _meters(placed: Placed, points: tuple[Point, ...]) -> tuple[Point, ...]:
    return scaled(points, placed.scale.ratio / 1000)


def _add_text(space: Modelspace, placed: Placed, text: PlacedText) -> None:
    look = {"layer": text.layer, "style": _LETTERS, "rotation": math.degrees(text.slab.turn)}
    for point, line in baselines(text):
        (spot,) = _meters(placed, (point,))
        entity = space.add_text(_plain(line), height=text.size * placed.scale.ratio / 1000, dxfattribs=look)
        entity.dxf.update({"halign": _ALIGN[text.align], "insert": spot, "align_point": spot})
    if text.leader:
        space.add_lwpolyline(_meters(placed, text.leader), dxfattribs={"layer": text.layer, "linetype": "CONTINUOUS"})


def _plain(text: str) -> str:
    """A text in which the format finds none of its own signs."""
    return clean(text).replace("%%", "% %").replace("^", "^ ").replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")


def _measured(text: str) -> str:
    """The same for the text of a dimension, which knows more signs; nothing written is written as one space."""
    for sign, instead in (("\\", "\\\\"), ("{", "\\{"), ("}", "\\}"), ("<>", "< >")):
        text = text.replace(sign, instead)
    return text.replace("%%", "% %").replace("^", "^ ") or " "


def _add_dimension(space: Modelspace, placed: Placed, one: PlacedDimension) -> None:
    drawn, look = one.drawn, {"layer": one.drawn.dimension.layer}
    start, end = drawn.dimension.start, drawn.dimension.end
    if math.dist(start, end) < 1e-9:
        _add_text(space, placed, one.text)  # the format has no dimension without a direction
        return
    offset, m = drawn.offset, placed.scale.ratio / 1000
    if (end[0], end[1]) < (start[0], start[1]):  # left to right, else the text stands on its head
        start, end, offset = end, start, -offset
    text = "\\P".join(_measured(line) for line in one.text.lines)
    entity = space.add_aligned_dim(
        p1=start, p2=end, distance=offset * m, text=text, dimstyle=_LETTERS,
        override={"dimtxt": one.text.size * m, "dimexo": drawn.dimension.clear * m}, dxfattribs=look,
    )  # fmt: skip
    entity.set_location(_meters(placed, (one.text.slab.center,))[0])
    entity.render()
    if one.text.leader:
        space.add_lwpolyline(_meters(placed, one.text.leader), dxfattribs=look)
