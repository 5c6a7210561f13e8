"""The picture of a ladder of mixes: strength, shrinkage, own drying and cost from rich to lean, each with its spread.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape

from pinfold.reports.chart_marks import INK, RULE, letters, stroke
from pinfold.units import significant

WIDE, HIGH = 330.0, 214.0
_LEFT, _RIGHT, _TOP, _FOOT = 46.0, 12.0, 40.0, 42.0
_SPREAD, _WASH = "#9c3f28", "#ece8de"


@dataclass(frozen=True, kw_only=True)
class Curve:
    """One figure along the ladder.

    Attributes:
        title: what it is, with its unit.
        values: at each rung; None where it is not shown.
        lows: likewise, the low end.
        highs: likewise, the high end.
        level: a line to hold it against, such as 1; None without.
        says: what the line means.
    """

    title: str
    values: tuple[float | None, ...]
    lows: tuple[float | None, ...]
    highs: tuple[float | None, ...]
    level: float | None = None
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class Along:
    """What a ladder goes along.

    Attributes:
        places: of the rungs, rising.
        labels: under them.
        title: of the axis.
        present: place of the present mix.
        cheapest: place of the cheapest that is strong enough; None without.
        published: where the published range begins and ends; None where none is known.
    """

    places: tuple[float, ...]
    labels: tuple[str, ...]
    title: str
    present: int
    cheapest: int | None
    published: tuple[float, float] | None


def panel(curve: Curve, along: Along) -> str:
    """SVG of one figure; the table beside it says the same in words."""
    told = f"{curve.title} from {along.labels[0]} to {along.labels[-1]}, {along.title}{_of_present(curve, along)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="ladder" viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" '
        f'aria-label="{escape(told)}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="11">'
        f"<g>{''.join(_drawn(curve, along))}</g></svg>"
    )


def pictures(curves: Sequence[Curve], along: Along) -> str:
    """All figures as one block of a page: side by side where there is room."""
    return f'<div class="ladders">{"".join(panel(curve, along) for curve in curves)}</div>'


def sheet(curves: Sequence[Curve], along: Along, *, wide_mm: float) -> tuple[str, float]:
    """All figures on one drawing for paper, two by two, and its height in mm."""
    rows = math.ceil(len(curves) / 2)
    inside = [
        panel(curve, along).replace(
            "<svg ", f'<svg x="{number % 2 * WIDE:g}" y="{number // 2 * HIGH:g}" width="{WIDE:g}" height="{HIGH:g}" ', 1
        )
        for number, curve in enumerate(curves)
    ]
    high_mm = wide_mm * rows * HIGH / (2 * WIDE)
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide_mm:g}mm" height="{high_mm:.1f}mm" '
        f'viewBox="0 0 {2 * WIDE:g} {rows * HIGH:g}">{"".join(inside)}</svg>'
    )
    return text, high_mm


def _of_present(curve: Curve, along: Along) -> str:
    value = curve.values[along.present]
    return "" if value is None else f"; {significant(value)} now"


def _drawn(curve: Curve, along: Along) -> Iterator[str]:
    frame = _Frame(along.places, _round_up(max(_known((*curve.highs, *curve.values, curve.level)), default=1.0)))
    yield from _outside(frame, along)
    yield from _rules(frame)
    yield letters(_LEFT - 38, 13, curve.title, "start", loud=True, bold=True)
    if curve.level is not None:
        yield from _level(frame, curve)
    yield from _band(frame, curve)
    yield from _line(frame, curve)
    yield from _marks(frame, curve, along)
    yield from _axis(frame, along)


@dataclass(frozen=True)
class _Frame:
    places: tuple[float, ...]
    top: float

    def x(self, place: float) -> float:
        first, last = self.places[0], self.places[-1]
        share = (place - first) / (last - first) if last > first else 0.5
        return _LEFT + share * (WIDE - _LEFT - _RIGHT)

    def y(self, value: float) -> float:
        return HIGH - _FOOT - value / self.top * (HIGH - _FOOT - _TOP)


def _known(values: Sequence[float | None]) -> list[float]:
    return [value for value in values if value is not None and math.isfinite(value)]


def _outside(frame: _Frame, along: Along) -> Iterator[str]:
    if along.published is None:
        return
    first, last = frame.places[0], frame.places[-1]
    low, high = (min(max(place, first), last) for place in along.published)
    for start, end in ((first, low), (high, last)):
        if end > start:
            yield (
                f'<rect class="beyond" x="{frame.x(start):.1f}" y="{_TOP:g}" '
                f'width="{frame.x(end) - frame.x(start):.1f}" height="{HIGH - _FOOT - _TOP:g}" fill="{_WASH}"/>'
            )


def _rules(frame: _Frame) -> Iterator[str]:
    for part in range(5):
        value = frame.top * part / 4
        y = frame.y(value)
        yield stroke(f"M{_LEFT:g} {y:.1f}H{WIDE - _RIGHT:g}", "rule", RULE, weight=0.8)
        yield letters(_LEFT - 5, y + 4, significant(value, 4), "end")


def _level(frame: _Frame, curve: Curve) -> Iterator[str]:
    assert curve.level is not None
    y = frame.y(curve.level)
    yield stroke(f"M{_LEFT:g} {y:.1f}H{WIDE - _RIGHT:g}", "level", INK, weight=1.2, dashes="5 3")
    yield letters(WIDE - _RIGHT, y + 12, curve.says, "end", loud=True)


def _band(frame: _Frame, curve: Curve) -> Iterator[str]:
    ends = [
        (frame.x(place), frame.y(low), frame.y(high))
        for place, low, high in zip(frame.places, curve.lows, curve.highs, strict=True)
        if low is not None and high is not None and math.isfinite(low + high)
    ]
    if len(ends) > 1:
        there = "L".join(f"{x:.1f} {high:.1f}" for x, _, high in ends)
        back = "L".join(f"{x:.1f} {low:.1f}" for x, low, _ in reversed(ends))
        yield f'<path class="spread" d="M{there}L{back}Z" fill="{_SPREAD}" fill-opacity=".16"/>'


def _line(frame: _Frame, curve: Curve) -> Iterator[str]:
    points = [
        f"{frame.x(place):.1f} {frame.y(value):.1f}"
        for place, value in zip(frame.places, curve.values, strict=True) if value is not None
    ]  # fmt: skip
    if points:
        yield stroke(f"M{'L'.join(points)}", "course", _SPREAD, weight=2.0)


def _marks(frame: _Frame, curve: Curve, along: Along) -> Iterator[str]:
    """The present mix with a line and its word on top, the cheapest with a ring and its word below."""
    at = frame.x(along.places[along.present])
    yield stroke(f"M{at:.1f} {_TOP - 4:g}V{HIGH - _FOOT:g}", "now", INK, weight=1.0)
    yield letters(at, _TOP - 8, "now", _anchor(at), loud=True)
    for number, (place, value) in enumerate(zip(frame.places, curve.values, strict=True)):
        if value is None:
            continue
        x, y = frame.x(place), frame.y(value)
        if number == along.cheapest:
            yield f'<circle class="cheapest" cx="{x:.1f}" cy="{y:.1f}" r="7" fill="none" stroke="{INK}"/>'
        full = INK if number == along.present else "#ffffff"
        sort = "rung present" if number == along.present else "rung"
        yield (
            f'<circle class="{sort}" cx="{x:.1f}" cy="{y:.1f}" r="3.4" fill="{full}" stroke="{INK}" '
            f'stroke-width="1.4"/>'
        )


def _anchor(x: float) -> str:
    return "start" if x < _LEFT + 14 else "end" if x > WIDE - _RIGHT - 14 else "middle"


def _axis(frame: _Frame, along: Along) -> Iterator[str]:
    """Labels that have room, the present one always."""
    room = 0.0
    shown = -math.inf
    for number, (place, label) in enumerate(zip(along.places, along.labels, strict=True)):
        x, room = frame.x(place), 6.4 * len(label) + 5
        present_next = number < along.present and frame.x(along.places[along.present]) - x < room
        if x - shown >= room and not present_next:
            yield letters(x, HIGH - _FOOT + 17, label, "middle", loud=number == along.present)
            shown = x
    yield letters((_LEFT + WIDE - _RIGHT) / 2, HIGH - 10, along.title, "middle")


def _round_up(most: float) -> float:
    """A round figure no less than the most, whose quarters are round too."""
    if most <= 0:
        return 1.0
    size = 10.0 ** math.floor(math.log10(most))
    return next(step * size for step in (1, 1.2, 1.6, 2, 2.4, 3.2, 4, 6, 8, 10, 20) if step * size >= most)
