"""The picture of a face's day: how warm it gets dry and wet, and how fast water leaves it, with the rounds below.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby

from pinfold.reports.chart_marks import INK, QUIET, RULE, letters, stroke
from pinfold.studies.drying.day import WetFace, WetHour
from pinfold.studies.drying.records import SPREAD, limits
from pinfold.units import UNIT_BY_SYMBOL, System, printed, significant

WIDE, HIGH = 640.0, 236.0
_LEFT, _RIGHT, _TOP, _FOOT = 52.0, 14.0, 44.0, 36.0
_DRY, _WET = "#9c3f28", "#1f5f73"
_STROKES = {
    "dry": (_DRY, 2.2, ""), "wet": (_WET, 2.2, ""), "air": (QUIET, 1.4, "2 3"), "level": (INK, 1.1, "6 3"),
    "rule": (RULE, 0.8, ""),
}  # fmt: skip
LEGEND = (
    "Above: the face dry (first line), kept wet (second) and the air (dots). Below: what a fresh coat loses, with the "
    "spread it may be off by; the thin line is what the wetted wall loses. Drops: rounds with water."
)
DEGREES = {System.US: "°F", System.METRIC: "°C"}
_STEPS = {System.US: (0.1, 0.2, 0.5, 1.0, 5.0, 1e9), System.METRIC: (0.5, 1.0, 2.0, 5.0, 20.0, 1e9)}
"""Of the scale of rates, four of which are as high as the picture goes."""
RATE = {System.US: "lb/(ft2 h)", System.METRIC: "kg/(m2 h)"}


@dataclass(frozen=True, kw_only=True)
class _Line:
    """One figure through the day, in the unit of its panel; parts that are not known are left out."""

    sort: str
    values: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class _Panel:
    title: str
    lines: tuple[_Line, ...]
    levels: tuple[tuple[float, str], ...]
    low: float
    high: float
    band: tuple[_Line, _Line] | None = None

    def x(self, hour: float) -> float:
        return _LEFT + hour / 24 * (WIDE - _LEFT - _RIGHT)

    def y(self, value: float) -> float:
        share = (min(value, self.high) - self.low) / (self.high - self.low)
        return HIGH - _FOOT - share * (HIGH - _FOOT - _TOP)


def wet_chart(face: WetFace, system: System) -> str:
    """The picture for a page; the table beside it says the same."""
    told = escape(_told(face))
    drawn = "".join(_svg(panel, face, system) for panel in _panels(face, system))
    return (
        f'<figure class="wetday"><div class="drawing" tabindex="0" role="group" aria-label="{told}">{drawn}</div>'
        f"<figcaption>{LEGEND}</figcaption></figure>"
    )


def wet_sheet(face: WetFace, system: System, *, wide_mm: float) -> tuple[str, float]:
    """The picture for paper, and its height in mm."""
    panels = _panels(face, system)
    inside = "".join(
        _svg(panel, face, system).replace("<svg ", f'<svg y="{number * HIGH:g}" width="{WIDE:g}" height="{HIGH:g}" ', 1)
        for number, panel in enumerate(panels)
    )
    high_mm = wide_mm * len(panels) * HIGH / WIDE
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide_mm:g}mm" height="{high_mm:.1f}mm" '
        f'viewBox="0 0 {WIDE:g} {len(panels) * HIGH:g}">{inside}</svg>'
    )
    return text, high_mm


def _told(face: WetFace) -> str:
    return f"warmth and drying of {face.name} hour by hour, with {len(face.rounds)} rounds of water"


def _panels(face: WetFace, system: System) -> tuple[_Panel, _Panel]:
    return _warmth(face.hours, system), _leaving(face.hours, system)


def _warmth(hours: Sequence[WetHour], system: System) -> _Panel:
    unit = UNIT_BY_SYMBOL[DEGREES[system]]
    step = 20.0 if system is System.US else 10.0

    def line(sort: str, values: Sequence[float]) -> _Line:
        return _Line(sort=sort, values=tuple((value - unit.offset) / unit.factor for value in values))

    lines = (
        line("air", [hour.air_c for hour in hours]), line("wet", [hour.wet_face_c for hour in hours]),
        line("dry", [hour.dry_face_c for hour in hours]),
    )  # fmt: skip
    hot = (limits().too_hot.value - unit.offset) / unit.factor
    known = [value for each in lines for value in each.values if math.isfinite(value)] or [0.0]
    low, high = math.floor(min(known) / step) * step, math.ceil(max(*known, hot + step / 4) / step) * step
    levels = ((hot, f"too hot to coat {significant(hot)} {unit.symbol}"),)
    return _Panel(title=f"face, {unit.symbol}", lines=lines, levels=levels, low=low, high=high)


def _leaving(hours: Sequence[WetHour], system: System) -> _Panel:
    symbol = RATE[system]
    factor, known = UNIT_BY_SYMBOL[symbol].factor, limits()
    fresh = [max(hour.fresh_evaporation, 0.0) / factor for hour in hours]

    def times(share: float) -> _Line:
        return _Line(sort="spread", values=tuple(value * share for value in fresh))

    lines = (
        _Line(sort="air", values=tuple(max(hour.evaporation, 0.0) / factor for hour in hours)),
        _Line(sort="wet", values=tuple(fresh)),
    )  # fmt: skip
    levels = ((known.caution.value / factor, "watch"), (known.act.value / factor, "act"))
    band = (times(1 - SPREAD.value), times(1 + SPREAD.value))
    most = max([value for value in band[1].values if math.isfinite(value)], default=0.0)
    step = next(size for size in _STEPS[system] if 4 * size >= max(most, 1.2 * known.act.value / factor))
    high = 4 * step
    return _Panel(title=f"leaves, {printed(symbol)}", lines=lines, levels=levels, low=0.0, high=high, band=band)


def _svg(panel: _Panel, face: WetFace, system: System) -> str:
    told = f"{panel.title} of {face.name} from 0 to 24 h, between {panel.low:.3g} and {panel.high:.3g}"
    inside = "".join(_drawn(panel, face))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="wetday" viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" '
        f'aria-label="{escape(told)}" data-system="{system.value}" '
        f'font-family="Atkinson Hyperlegible Next, sans-serif" font-size="12"><g>{inside}</g></svg>'
    )


def _drawn(panel: _Panel, face: WetFace) -> Iterator[str]:
    for part in range(5):
        value = panel.low + (panel.high - panel.low) * part / 4
        yield _path(f"M{_LEFT:g} {panel.y(value):.1f}H{WIDE - _RIGHT:g}", "rule")
        yield letters(_LEFT - 6, panel.y(value) + 4, f"{value:.3g}", "end")
    yield letters(_LEFT - 44, 16, panel.title, "start", loud=True)
    if panel.band is not None:
        yield _band(panel, *panel.band)
    for value, says in panel.levels:
        yield _path(f"M{_LEFT:g} {panel.y(value):.1f}H{WIDE - _RIGHT:g}", "level")
        yield letters(WIDE - _RIGHT, panel.y(value) - 4, says, "end", loud=True)
    for line in panel.lines:
        yield _path(_way(panel, line.values), line.sort)
    for hour in range(0, 25, 3):
        yield letters(panel.x(hour), HIGH - _FOOT + 18, f"{hour:02d}", "middle")
    if panel.band is not None:
        yield from _drops(panel, face)


def _drops(panel: _Panel, face: WetFace) -> Iterator[str]:
    for number, hour in enumerate(face.hours):
        if hour.water > 0:
            x, y = panel.x(number), HIGH - 4
            yield (
                f'<path class="drop" d="M{x:.1f} {y - 11:.1f}c5 6 4 11 0 11s-5 -5 0 -11Z" fill="{_WET}" stroke="none"/>'
            )


def _way(panel: _Panel, values: Sequence[float]) -> str:
    """Through the middles of the hours, anew after hours that are not known."""
    parts = []
    for known, run in groupby(enumerate(values), key=lambda pair: math.isfinite(pair[1])):
        if known:
            points = (f"{panel.x(hour + 0.5):.1f} {panel.y(value):.1f}" for hour, value in run)
            parts.append(f"M{'L'.join(points)}")
    return "".join(parts)


def _band(panel: _Panel, low: _Line, high: _Line) -> str:
    pairs = [
        (panel.x(hour + 0.5), panel.y(under), panel.y(over))
        for hour, (under, over) in enumerate(zip(low.values, high.values, strict=True)) if math.isfinite(under + over)
    ]  # fmt: skip
    if len(pairs) < 2:
        return ""
    there = "L".join(f"{x:.1f} {over:.1f}" for x, _, over in pairs)
    back = "L".join(f"{x:.1f} {under:.1f}" for x, under, _ in reversed(pairs))
    return f'<path class="spread" d="M{there}L{back}Z" fill="{_WET}" fill-opacity=".16"/>'


def _path(d: str, sort: str) -> str:
    ink, weight, dashes = _STROKES[sort]
    return stroke(d, sort, ink, weight=weight, dashes=dashes)
