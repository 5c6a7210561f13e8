"""The picture of the forecast: hours in all as foreseen day by day, an upright for each, over the hours worked.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from html import escape

from pinfold.plan.people import HOUR
from pinfold.reports.chart_marks import INK, QUIET, RULE, letters, stroke
from pinfold.studies.forecasting.records import Forecast, Seen

WIDE, HIGH = 640.0, 260.0
_LEFT, _RIGHT, _TOP, _FOOT = 50.0, 16.0, 30.0, 44.0
_APART = 34.0
"""Least distance between the names of two months."""
_SEEN, _DONE = "#9c3f28", "#ece8de"
LEGEND = (
    "Each upright is the time in all as it was foreseen that day: its notch half the time, its ends 1 in 10 and 9 in "
    "10. The ground below it is the time worked by then. Broken line: what the norms say. The bar at the right, below: "
    "the days between which it will be done."
)


@dataclass(frozen=True, kw_only=True)
class _Frame:
    first: date
    days: int
    most: float

    def x(self, day: date) -> float:
        return _LEFT + (day - self.first).days / max(self.days, 1) * (WIDE - _LEFT - _RIGHT)

    def y(self, seconds: float) -> float:
        return HIGH - _FOOT - seconds / self.most * (HIGH - _FOOT - _TOP)


def forecast_chart(found: Forecast) -> str:
    """The picture for a page; empty where the log has no hours."""
    svg = _svg(found, "")
    if not svg:
        return ""
    return (
        f'<figure class="foreseen"><div class="drawing" tabindex="0" role="group" aria-label="{escape(_says(found))}">'
        f"{svg}</div><figcaption>{LEGEND}</figcaption></figure>"
    )


def forecast_sheet(found: Forecast, *, wide_mm: float) -> tuple[str, float]:
    """The picture for paper and its height in mm."""
    high = wide_mm * HIGH / WIDE
    return _svg(found, f'width="{wide_mm:g}mm" height="{high:.1f}mm" '), high


def _says(found: Forecast) -> str:
    last = found.seen[-1]
    return (
        f"hours in all as foreseen on {len(found.seen)} days; on the last {last.whole.likely / HOUR:.0f} hours, "
        f"{last.whole.low / HOUR:.0f} to {last.whole.high / HOUR:.0f}, of which {last.took / HOUR:.0f} were worked"
    )


def _svg(found: Forecast, size: str) -> str:
    if not found.seen:
        return ""
    inside = "".join(_drawn(found, _frame(found)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="foreseen" {size}viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" '
        f'aria-label="{escape(_says(found))}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="11">'
        f"<g>{inside}</g></svg>"
    )


def _frame(found: Forecast) -> _Frame:
    first = date.fromisoformat(found.seen[0].day)
    last = date.fromisoformat(found.seen[-1].day) if found.late is None else found.late.date()
    most = max(found.hours.budget, *(each.whole.high for each in found.seen))
    return _Frame(first=first, days=(last - first).days, most=most * 1.05)


def _drawn(found: Forecast, frame: _Frame) -> Iterator[str]:
    yield from _levels(frame)
    yield from _months(frame)
    yield _worked(found.seen, frame)
    norm = frame.y(found.hours.budget)
    yield _line((_LEFT, norm, WIDE - _RIGHT, norm), "norm", QUIET, wide=1.2, dash="7 4")
    yield letters(WIDE - _RIGHT, norm - 5, "by the norms", "end")
    for each in found.seen:
        yield from _post(each, frame)
    yield from _finish(found, frame)


def _levels(frame: _Frame) -> Iterator[str]:
    step = _step(frame.most / HOUR / 4)
    for number in range(int(frame.most / HOUR / step) + 1):
        y = frame.y(number * step * HOUR)
        yield _line((_LEFT, y, WIDE - _RIGHT, y), "rule", RULE, wide=0.8)
        yield letters(_LEFT - 6, y + 4, f"{number * step:g} h", "end")


def _step(about: float) -> float:
    """A round number near it."""
    power = 10.0 ** math.floor(math.log10(max(about, 1e-3)))
    return next(share * power for share in (1.0, 2.0, 5.0, 10.0) if share * power >= about)


def _months(frame: _Frame) -> Iterator[str]:
    """A tick at the first of each month, with its name where there is room."""
    floor, before = HIGH - _FOOT, -math.inf
    for number in range(frame.days + 1):
        day = frame.first + timedelta(days=number)
        if day.day != 1 and number:
            continue
        x = frame.x(day)
        yield _line((x, floor, x, floor + 5), "rule", QUIET, wide=1.0)
        if x - before > _APART:
            yield letters(x, floor + 17, f"{day.day} {day:%b}", "start" if not number else "middle")
            before = x


def _worked(seen: tuple[Seen, ...], frame: _Frame) -> str:
    points = [(frame.x(date.fromisoformat(each.day)), frame.y(each.took)) for each in seen]
    floor = frame.y(0.0)
    path = f"M{points[0][0]:.1f} {floor:.1f}" + "".join(f"L{x:.1f} {y:.1f}" for x, y in points)
    return f'<path class="worked" d="{path}L{points[-1][0]:.1f} {floor:.1f}Z" fill="{_DONE}"/>'


def _post(each: Seen, frame: _Frame) -> Iterator[str]:
    x, low, high = frame.x(date.fromisoformat(each.day)), frame.y(each.whole.low), frame.y(each.whole.high)
    middle = frame.y(each.whole.likely)
    yield _line((x, low, x, high), "spread", _SEEN, wide=2.0)
    yield _line((x - 4, middle, x + 4, middle), "likely", INK, wide=2.4)


def _finish(found: Forecast, frame: _Frame) -> Iterator[str]:
    if found.early is None or found.likely is None or found.late is None:
        return
    y = HIGH - 10.0
    early, likely, late = (frame.x(moment.date()) for moment in (found.early, found.likely, found.late))
    yield _line((early, y, late, y), "spread", _SEEN, wide=5.0)
    yield _line((likely, y - 6, likely, y + 6), "likely", INK, wide=2.4)
    yield letters(early - 6, y + 4, "done", "end")


def _line(
    ends: tuple[float, float, float, float], sort: str, ink: str, *, wide: float, dash: str = ""
) -> str:  # fmt: skip
    x, y, right, foot = ends
    return stroke(f"M{x:.1f} {y:.1f}L{right:.1f} {foot:.1f}", sort, ink, weight=wide, dashes=dash)
