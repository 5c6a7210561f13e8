"""How a plan file writes its lengths, and writing new ones alike: to the sixteenth of an inch or the millimeter."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from enum import StrEnum

from pinfold.errors import InputError, QuantityError
from pinfold.units import METER, Meter, read

SIXTEENTH: Meter = 0.0254 / 16
MILLIMETER: Meter = 0.001
FARTHEST: Meter = 100_000.0
"""No length of a plan is larger; what comes from a page is refused past it."""


class Style(StrEnum):
    """One way of writing a length."""

    WORDS = "words"  # 6 ft 3-1/2 in
    MARKS = "marks"  # 6' 3 1/2"
    METERS = "meters"  # 1.918 m
    CENTIMETERS = "centimeters"  # 191.8 cm
    MILLIMETERS = "millimeters"  # 1918 mm

    @property
    def step(self) -> Meter:
        """The smallest length it tells apart."""
        return SIXTEENTH if self in (Style.WORDS, Style.MARKS) else MILLIMETER


_SIGNS = (
    (re.compile(r"\d\s*(?:mm)\b"), Style.MILLIMETERS),
    (re.compile(r"\d\s*(?:m|meters?|metres?)\b"), Style.METERS),
    (re.compile(r"\d\s*cm\b"), Style.CENTIMETERS),
    (re.compile(r"\d\s*(?:ft|in|feet|foot|inch|inches)\b"), Style.WORDS),
    (re.compile(r"\d\s*['\"′″]"), Style.MARKS),
)
POINTS = {"neighbor": "footprint", "line": "points", "ground": "points"}
"""Keys that hold rows of lengths."""
SINGLE = {
    "corner": ("x", "y"), "gate": ("at", "width", "height", "gap", "under", "embed", "collar"),
    "neighbor": ("height",), "line": ("depth", "clearance"), "bank": ("from", "to", "height"),
}  # fmt: skip
"""Keys that hold one length."""


def style_of(table: Mapping[str, object]) -> Style:
    """The way most corners, points and gates of a plan are written; by its units where it has none yet."""
    found = Counter(style for text in texts_in(table) if (style := _style(text)) is not None)
    if found:
        usual = found.most_common(1)[0][0]
        big = usual in (Style.CENTIMETERS, Style.MILLIMETERS) and found[Style.METERS] > 0
        return Style.METERS if big else usual
    american = table.get("units", "us" if table.get("family", "us") == "us" else "metric") == "us"
    return Style.WORDS if american else Style.METERS


def _style(text: str) -> Style | None:
    return next((style for sign, style in _SIGNS if sign.search(text)), None)


def length_text(value: Meter, style: Style) -> str:
    """A length as the plan writes it, to the nearest step of its style; that text reads back to that very step.

    Raises:
        InputError: it is no finite length within `FARTHEST`.
    """
    if not math.isfinite(value) or abs(value) > FARTHEST:
        raise InputError(f"{value!r} is no length; at most {FARTHEST:g} m is wanted")
    steps = round(abs(value) / style.step)
    sign = "-" if value < 0 and steps else ""
    if style in (Style.WORDS, Style.MARKS):
        return sign + _feet(steps, style)
    scale, unit = {Style.METERS: (3, "m"), Style.CENTIMETERS: (1, "cm"), Style.MILLIMETERS: (0, "mm")}[style]
    whole, part = divmod(steps, 10**scale)
    decimals = f".{part:0{scale}d}".rstrip("0").rstrip(".") if scale else ""
    return f"{sign}{whole}{decimals} {unit}"


def _feet(sixteenths: int, style: Style) -> str:
    feet, rest = divmod(sixteenths, 192)
    inches, part = divmod(rest, 16)
    shrink = math.gcd(part, 16)
    fraction = f"{part // shrink}/{16 // shrink}" if part else ""
    joint = "-" if style is Style.WORDS else " "
    number = joint.join(piece for piece in (str(inches) if inches or not fraction else "", fraction) if piece)
    foot, inch = (" ft", " in") if style is Style.WORDS else ("'", '"')
    if not rest:
        return f"{feet}{foot}"
    return f"{feet}{foot} {number}{inch}" if feet else f"{number}{inch}"


def texts_in(table: Mapping[str, object]) -> Iterator[str]:
    """Every text that stands where a length of the plot's outline is wanted."""
    yield from (value for value in _lengths(table) if isinstance(value, str))


def meters_of(table: Mapping[str, object]) -> dict[str, Meter]:
    """Meters by text, for every length of the outline that can be read."""
    found = {}
    for text in set(texts_in(table)):
        try:
            found[text] = read(text, like=METER)
        except QuantityError:
            continue  # its complaint comes with all others
    return found


def _lengths(table: Mapping[str, object]) -> Iterator[object]:
    for kind, keys in SINGLE.items():
        for row in _rows(table.get(kind)):
            yield from (row.get(key) for key in keys)
    for kind, key in POINTS.items():
        for row in _rows(table.get(kind)):
            yield from (value for point in _list(row.get(key)) for value in _list(point))
    for side in _rows(table.get("side")):
        yield from (run.get("to") for run in _rows(side.get("runs")))


def _rows(found: object) -> Iterator[Mapping[str, object]]:
    rows = [found] if isinstance(found, Mapping) else _list(found)
    yield from (row for row in rows if isinstance(row, Mapping))


def _list(found: object) -> list[object]:
    return found if isinstance(found, list) else []


def spelled(table: Mapping[str, object], style: Style) -> dict[str, object]:
    """The table with every bare number that stands for a length written out; a page sends meters while it drags.

    Raises:
        InputError: a number that is no length.
    """
    whole = dict(table)
    for kind in (*SINGLE, "side", "ground"):
        found = table.get(kind)
        if isinstance(found, list):
            whole[kind] = [_row(kind, row, style) if isinstance(row, Mapping) else row for row in found]
        elif isinstance(found, Mapping):
            whole[kind] = _row(kind, found, style)
    return whole


def _row(kind: str, row: Mapping[str, object], style: Style) -> dict[str, object]:
    new = dict(row)
    for key in SINGLE.get(kind, ()):
        if key in new:
            new[key] = _spelled(new[key], style)
    if isinstance(points := new.get(POINTS.get(kind, "")), list):
        new[POINTS[kind]] = [[_spelled(value, style) for value in _list(point)] or point for point in points]
    if kind == "side" and isinstance(runs := new.get("runs"), list):
        new["runs"] = [
            {**run, "to": _spelled(run["to"], style)} if isinstance(run, Mapping) and "to" in run else run
            for run in runs
        ]
    return new


def _spelled(value: object, style: Style) -> object:
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return length_text(float(value), style)
    return value
