"""The picture of the job: a row for each sort of work, a column for each day, in it a stroke as high as its hours.

The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from html import escape

from pinfold.plan.people import HOUR
from pinfold.reports.days_job import WorkTold

_LEFT, _RIGHT, _TOP, _ROW, _FOOT = 96.0, 12.0, 26.0, 26.0, 26.0
_LEAST, _MOST = 3.4, 14.0
_INK, _QUIET, _RULE, _FIRM, _WASH = "#1f2326", "#545b60", "#c9c4b8", "#9c3f28", "#ece8de"
LEGEND = (
    "Each stroke is a day's work of its row, as high as its hours. Thick strokes: days looked at hour by hour; thin "
    "ones are estimated. Ticks on the floor: Mondays."
)


def picture(works: Sequence[WorkTold], *, hours: float, wide: float = 900.0) -> str:
    """SVG of all work; the tables beside it say the same. Empty without work.

    Args:
        works: pieces in order
        hours: of a day, that fill a row
        wide: of the drawing
    """
    if not works:
        return ""
    first, last = works[0].start.date(), max(work.end.date() for work in works)
    days = (last - first).days + 1
    step = min(max((wide - _LEFT - _RIGHT) / days, _LEAST), _MOST)
    rows = rows_of(works)
    width, height = _LEFT + _RIGHT + days * step, _TOP + len(rows) * _ROW + _FOOT
    told = f"{len(rows)} sorts of work over {days} days, from {first.isoformat()} to {last.isoformat()}"
    inside = "".join(_drawn(rows, first, days, step=step, hours=hours))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="strokes" viewBox="0 0 {width:.1f} {height:.1f}" '
        f'width="{width:.0f}" role="img" aria-label="{escape(told)}" '
        f'font-family="Atkinson Hyperlegible Next, sans-serif" font-size="11"><g>{inside}</g></svg>'
    )


def framed(svg: str) -> str:
    """A picture for the middle of a page, with what it shows."""
    if not svg:
        return ""
    told = "the job in days, row by row; the tables below say the same"
    return (
        f'<figure class="strokes"><div class="drawing" tabindex="0" role="group" aria-label="{told}">{svg}</div>'
        f"<figcaption>{LEGEND}</figcaption></figure>"
    )


def rows_of(works: Sequence[WorkTold]) -> dict[str, dict[date, tuple[float, bool]]]:
    """Hours of each day and whether they are estimated, by sort of work, in the order the sorts begin."""
    found: dict[str, dict[date, tuple[float, bool]]] = defaultdict(dict)
    for work in works:
        day, time = work.start.date(), (work.end - work.start).total_seconds() / HOUR
        before = found[work.work].get(day, (0.0, work.estimated))
        found[work.work][day] = (before[0] + time, work.estimated)
    return dict(found)


def _drawn(
    rows: dict[str, dict[date, tuple[float, bool]]], first: date, days: int, *, step: float, hours: float
) -> Iterator[str]:
    floor = _TOP + len(rows) * _ROW
    yield from _days(first, days, step, floor)
    for number, (name, strokes) in enumerate(rows.items()):
        foot = _TOP + (number + 1) * _ROW - 4
        yield f'<path class="rule" d="M{_LEFT:g} {foot:.1f}h{days * step:.1f}" stroke="{_RULE}" stroke-width=".6"/>'
        yield (
            f'<text class="loud" x="{_LEFT - 8:g}" y="{foot:.1f}" text-anchor="end" fill="{_INK}">{escape(name)}</text>'
        )
        for day, (time, estimated) in strokes.items():
            x = _LEFT + ((day - first).days + 0.5) * step
            high = max(min(time / hours, 1.0) * (_ROW - 8), 1.5)
            thick = step * (0.35 if estimated else 0.8)
            kind = "later" if estimated else "firm"
            yield (
                f'<path class="{kind}" d="M{x:.1f} {foot:.1f}v{-high:.1f}" stroke="{_INK if estimated else _FIRM}" '
                f'stroke-width="{thick:.1f}"/>'
            )


def _days(first: date, days: int, step: float, floor: float) -> Iterator[str]:
    """Ticks at Mondays, names of months."""
    yield f'<path class="rule" d="M{_LEFT:g} {floor:.1f}h{days * step:.1f}" stroke="{_QUIET}"/>'
    named = -99.0
    for number in range(days):
        day, x = first + timedelta(days=number), _LEFT + number * step
        if day.weekday() == 0:
            yield f'<path class="rule" d="M{x:.1f} {floor:.1f}v5" stroke="{_QUIET}"/>'
        if (number == 0 or day.day == 1) and x - named > 44:
            named = x
            yield f'<text class="quiet" x="{x:.1f}" y="{floor + 18:.1f}" fill="{_QUIET}">{day.day} {day:%b}</text>'
            yield (f'<path class="month" d="M{x:.1f} {_TOP - 8:.1f}V{floor:.1f}" stroke="{_WASH}" stroke-width="1.2"/>')
