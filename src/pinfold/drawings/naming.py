"""Words on drawings: names that can start an id, lengths on the plan's tape, kinds with their figures."""

from __future__ import annotations

import re
import unicodedata

from pinfold.drawings.lettering import wrapped
from pinfold.drawings.scenes import Anchor, PaperMm, Point
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, System, tape

COLUMN: PaperMm = 66.0
"""Width of a column of call-outs."""
HELD = "·"
"""Stands for a space at which no line is broken; about as wide."""
SMALL: PaperMm = 1.6
"""Height of a capital in names that come often."""


_HOLDS = re.compile(
    r"(?<=\d') (?=\d)|(?<=\d) (?=\d+/\d|(?:mm|m|in|ft|lb|cm|gauge|x)\b|[×:%])|(?<=[×:x]) (?=\d)"
    r"|(?<=[\dm'\"]) (?=×)| (?=—)"
)


def slug(*words: str) -> str:
    """Words as the name of a scene: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFD", "-".join(words)).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "scene"


def sentence(text: str) -> str:
    """A text as a sentence: its first letter large, a full stop at its end."""
    bare = text.strip().rstrip(".")
    return f"{bare[:1].upper()}{bare[1:]}."


def told(name: str, *figures: str) -> str:
    """`name — figure, figure`, as call-outs have it."""
    known = ", ".join(figure for figure in figures if figure)
    return f"{name} — {known}" if known else name


def column_text(text: str, size: PaperMm, width: PaperMm = COLUMN) -> str:
    """A text broken into the lines of a column of call-outs, never between a number and its unit or fraction."""
    held = _HOLDS.sub(HELD, text)
    return "\n".join(wrapped(held, size, width)).replace(HELD, " ")


def sizes(system: System, *lengths: Meter) -> str:
    """Lengths joined by a cross: `24" × 8"`."""
    return " × ".join(tape(length, system) for length in lengths)


def hatch_of(kind: Kind) -> str:
    """How a kind is filled where it is cut."""
    return kind.word("hatch") or _MADE_OF.get(kind.word("make"), "") or _MADE_OF.get(kind.word("material"), "none")


_MADE_OF = {
    "strip": "concrete", "pad": "concrete", "rubble-trench": "gravel", "precast": "concrete", "cast": "concrete",
    "brick": "brick", "stone": "stone", "board": "timber", "wood": "timber", "steel": "steel",
}  # fmt: skip


def side_of(direction: Point) -> Anchor:
    """Which side of a point a text stands on so that it lies in a direction from it."""
    x, y = direction
    across = "right" if x > 0.38 else "left" if x < -0.38 else ""
    up = "above" if y > 0.38 else "below" if y < -0.38 else ""
    return _ANCHORS[up, across]


_ANCHORS: dict[tuple[str, str], Anchor] = {
    ("", "right"): "right", ("", "left"): "left", ("above", ""): "above", ("below", ""): "below", ("", ""): "over",
    ("above", "right"): "above right", ("above", "left"): "above left", ("below", "right"): "below right",
    ("below", "left"): "below left",
}  # fmt: skip
