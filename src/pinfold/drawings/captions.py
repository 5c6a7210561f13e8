"""What stands under a drawing: title, scale, bar, north and notes (millimeters on paper)."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.drawings.lettering import em_of, width_of, wrapped
from pinfold.drawings.linework import ARROW
from pinfold.drawings.scales import Scale, bar_length
from pinfold.drawings.scenes import NorthArrow, PaperMm, ScaleBar, Scene
from pinfold.units import System

TITLE: PaperMm = 2.8
SMALL: PaperMm = 1.9
BAR_HEIGHT: PaperMm = 1.2
LEAST_WIDTH: PaperMm = 70.0
NOTES_WIDTH: PaperMm = 160.0
"""Notes under a narrower drawing run on so far."""
ABOVE: PaperMm = 3.0
"""Between the drawing and its caption."""


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of a caption; `drop` is from the caption's top to the baseline."""

    text: str
    drop: PaperMm
    size: PaperMm
    bold: bool = False


@dataclass(frozen=True, kw_only=True)
class Bar:
    """A scale bar on paper: how long, in how many parts, what its end says."""

    length: PaperMm
    parts: int
    text: str


@dataclass(frozen=True, kw_only=True)
class Caption:
    """What stands under a drawing.

    Attributes:
        bar: the scale bar, its foot `bar_drop` under the caption's top; absent when the scene has none without a point.
        north: where north is, counterclockwise from up; absent likewise.
    """

    rows: tuple[Row, ...]
    width: PaperMm
    height: PaperMm
    bar: Bar | None = None
    bar_drop: PaperMm = 0.0
    north: float | None = None


def bar_of(scale: Scale, system: System) -> Bar:
    """The scale bar a scene gets at a scale."""
    meters, text = bar_length(scale, system)
    return Bar(length=meters * scale.mm_per_meter, parts=4 if "2" in text else 5, text=text)


def caption_of(scene: Scene, scale: Scale, *, width: PaperMm, most: PaperMm) -> Caption:
    """The caption of a scene.

    Args:
        scene: whose title, notes, bar and north
        scale: what it is drawn at
        width: of the drawing above
        most: of the paper between its margins; only a single long word goes beyond
    """
    bars = [shape for shape in scene.shapes if isinstance(shape, ScaleBar) and shape.at is None]
    norths = [shape.turn for shape in scene.shapes if isinstance(shape, NorthArrow) and shape.at is None]
    inner = min(max(width, LEAST_WIDTH), most)
    beside = inner - (ARROW + 4.0 if norths else 0.0)
    heads = [(line, TITLE, True) for line in wrapped(scene.title, TITLE, beside, bold=True)]
    rows, drop = _rows([*heads, (f"Scale {scale.text} at full size", SMALL, False)], ABOVE)
    bar = bar_of(scale, bars[0].system) if bars else None
    bar_drop = drop + 6.2
    drop = bar_drop + 1.0 if bar else drop
    drop = max(drop, ABOVE + ARROW + 1.0) if norths else drop
    long = min(max(inner, NOTES_WIDTH), most)
    notes, drop = _rows([(line, SMALL, False) for note in scene.notes for line in wrapped(note, SMALL, long)], drop)
    return Caption(
        rows=(*rows, *notes),
        width=max([inner, *(width_of(row.text, row.size, bold=row.bold) for row in (*rows, *notes))]),
        height=drop + 1.0,
        bar=bar,
        bar_drop=bar_drop,
        north=norths[0] if norths else None,
    )


def _rows(texts: list[tuple[str, PaperMm, bool]], drop: PaperMm) -> tuple[tuple[Row, ...], PaperMm]:
    rows = []
    for text, size, bold in texts:
        drop += em_of(size) * 1.35
        rows.append(Row(text=text, drop=drop, size=size, bold=bold))
    return tuple(rows), drop
