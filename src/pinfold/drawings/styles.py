"""Inks, line weights and fillings: how each layer looks on paper, and after dark on a screen.

Seven inks, each for one kind of thing, all dark enough to read on white (4.5 to 1 or better) and to copy in gray:
soot for what is built, slate for what carries or measures it, umber for ground, rust for coats and joints, moss for
what moves, water for what is buried, ash for what stands there already. Weight tells before color does: what is cut
is drawn 0.4 to 0.5 mm wide, edges 0.35, parts 0.25, surfaces 0.18, textures 0.13. Ground under an area is a tint of its
material, so that a coat too thin to be hatched still shows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.drawings.scenes import HATCHES, LAYERS, PaperMm

INKS: dict[str, tuple[str, str]] = {  # name: (on white paper, on a dark screen)
    "soot": ("#1f2326", "#e9e6df"), "slate": ("#46525c", "#b3bec7"), "umber": ("#74522f", "#d0ab7f"),
    "rust": ("#9c3f28", "#e59a83"), "moss": ("#41603a", "#a3c795"), "water": ("#235f80", "#8cc0de"),
    "ash": ("#545b60", "#9aa2a8"),
}  # fmt: skip
PAPER = ("#ffffff", "#16191b")


@dataclass(frozen=True, kw_only=True)
class Style:
    """How one layer is drawn.

    Attributes:
        ink: a name in INKS.
        weight: line width.
        dashes: lengths of strokes and gaps in turn; empty is a full line.
    """

    ink: str
    weight: PaperMm
    dashes: tuple[PaperMm, ...] = ()

    @property
    def color(self) -> str:
        """The ink on paper."""
        return INKS[self.ink][0]


DASHES: tuple[PaperMm, ...] = (2.0, 1.2)
"""Of a line that is dashed by its own wish."""

STYLES: dict[str, Style] = {
    "sheet": Style(ink="slate", weight=0.25), "zone": Style(ink="ash", weight=0.18, dashes=(3.0, 1.5)),
    "ground": Style(ink="umber", weight=0.5), "contour": Style(ink="umber", weight=0.13),
    "neighbor": Style(ink="ash", weight=0.35), "trench": Style(ink="umber", weight=0.25, dashes=(2.5, 1.0)),
    "footing": Style(ink="slate", weight=0.35), "wall": Style(ink="soot", weight=0.4),
    "course": Style(ink="slate", weight=0.13), "coat": Style(ink="rust", weight=0.25),
    "joint": Style(ink="rust", weight=0.25, dashes=(4.0, 1.0, 0.4, 1.0)), "bar": Style(ink="soot", weight=0.35),
    "bank": Style(ink="umber", weight=0.35),
    "apron": Style(ink="slate", weight=0.18), "mesh": Style(ink="slate", weight=0.13),
    "rail": Style(ink="slate", weight=0.25), "post": Style(ink="soot", weight=0.35),
    "gate": Style(ink="moss", weight=0.35), "swing": Style(ink="moss", weight=0.18, dashes=(1.5, 1.0)),
    "line": Style(ink="water", weight=0.35, dashes=(5.0, 1.0, 1.0, 1.0)), "outline": Style(ink="soot", weight=0.35),
    "mark": Style(ink="rust", weight=0.25), "dimension": Style(ink="slate", weight=0.18),
    "label": Style(ink="soot", weight=0.18), "note": Style(ink="soot", weight=0.25),
}  # fmt: skip

TEXTURE_WEIGHT: PaperMm = 0.13
TINTS: dict[str, str] = {
    "block": "#eceded", "brick": "#f3e4dd", "concrete": "#e6e8e9", "foam": "#f4f1e1", "earth": "#efe4d6",
    "stone": "#e9e7e3", "timber": "#f4e8d3", "steel": "#d5dade", "plaster": "#f7eee8", "gravel": "#efece6",
    "ground": "#f3ebe0",
}  # fmt: skip
"""The tint under each hatch, on paper; a night ground takes the same at a fifth of its strength."""


@dataclass(frozen=True, kw_only=True)
class Strokes:
    """One family of parallel texture lines.

    Attributes:
        turn: their direction, radians.
        spacing: from one line to the next.
        dashes: lengths of strokes and gaps in turn; empty is a full line.
        shift: how far along itself each line is moved against the one before.
        start: how far the first line lies from the origin, across and along.
    """

    turn: float
    spacing: PaperMm
    dashes: tuple[PaperMm, ...] = ()
    shift: PaperMm = 0.0
    start: tuple[PaperMm, PaperMm] = (0.0, 0.0)


def _strokes(degrees: float, spacing: float, *dashes: float, shift: float = 0.0, across: float = 0.0) -> Strokes:
    return Strokes(turn=math.radians(degrees), spacing=spacing, dashes=tuple(dashes), shift=shift, start=(across, 0.0))


TEXTURES: dict[str, tuple[Strokes, ...]] = {
    "none": (),
    "block": (_strokes(45, 2.4),),
    "brick": (_strokes(45, 2.0), _strokes(45, 2.0, across=0.55)),
    "concrete": (
        _strokes(18, 2.1, 0.7, 2.9, shift=1.3), _strokes(77, 2.7, 0.6, 2.7, shift=1.1, across=0.9),
        _strokes(-41, 3.1, 0.15, 1.7, shift=0.7),
    ),
    "foam": (_strokes(60, 1.6), _strokes(-60, 1.6)),
    "earth": (
        _strokes(0, 3.0, 2.0, 3.2, shift=2.6), _strokes(0, 3.0, 1.4, 3.8, shift=2.6, across=0.7),
        _strokes(90, 5.2, 0.15, 2.85, across=3.6),
    ),
    "stone": (
        _strokes(4, 2.6, 3.2, 0.9, shift=2.2), _strokes(68, 3.9, 1.5, 2.4, shift=1.7),
        _strokes(-63, 4.3, 1.3, 3.1, shift=1.2, across=1.4),
    ),
    "timber": (_strokes(12, 0.9, 6.0, 0.7, shift=2.3), _strokes(12, 2.7, 2.5, 4.2, shift=3.1, across=0.4)),
    "steel": (_strokes(45, 0.8),),
    "plaster": (_strokes(30, 0.9, 0.15, 1.15, shift=0.6),),
    "gravel": (
        _strokes(0, 1.91, 0.9, 1.3, shift=1.1), _strokes(60, 1.91, 0.9, 1.3, shift=1.1),
        _strokes(120, 1.91, 0.9, 1.3, shift=1.1),
    ),
    "ground": (
        _strokes(45, 4.6, 2.6, 2.0, shift=2.3), _strokes(45, 4.6, 2.6, 2.0, shift=2.3, across=0.8),
        _strokes(45, 4.6, 2.6, 2.0, shift=2.3, across=1.6),
    ),
}  # fmt: skip
"""The texture lines of each hatch: pinfold's own, none a copy of a published pattern."""


def night_rules(*, scope: str = "") -> str:
    """Style rules for a page that shows drawings on a dark ground, over the ink written into them.

    Args:
        scope: a selector put before each rule, such as `.night`
    """
    before = f"{scope} " if scope else ""
    rules = [
        f"{before}.layer-{layer}{{stroke:{INKS[STYLES[layer].ink][1]};color:{INKS[STYLES[layer].ink][1]}}}"
        for layer in LAYERS
    ]
    rules += [f"{before}.drawn .inked{{fill:currentColor}}", f"{before}.drawn .words{{stroke:{PAPER[1]}}}"]
    rules += [f"{before}.tint-{hatch}{{fill-opacity:.2}}" for hatch in HATCHES if hatch != "none"]
    return "\n".join(rules)
