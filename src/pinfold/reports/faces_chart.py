"""The picture of a day of sun: a row for each face, a column for each hour, how much is lit and how strongly."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from html import escape

from pinfold.reports.chart_marks import letters, stroke
from pinfold.studies.sun.day import FaceDay, FacesDay

_COLUMN, _ROW, _HEAD, _FOOT, _EDGE, _LETTER = 30.0, 21.0, 42.0, 40.0, 26.0, 6.3
_INK, _QUIET, _RULE, _SUN, _NIGHT = "#272522", "#5b564c", "#c3bbaa", "#a8560a", "#ebe7dc"
_HOUR = timedelta(hours=1)
_FULL = 900.0
"""Light in W/m2 that is drawn as dark as it goes."""
_FAINTEST = 0.22
LEGEND = (
    "A bar is as high as the share of the face that the sun shines on, and as dark as all light on it is strong. A "
    "thin line: light of sky and ground alone. Dim ground: night."
)


def faces_chart(day: FacesDay, now: datetime | None = None) -> str:
    """The picture for a page.

    Args:
        day: sun and shade through it
        now: marked where it is on that day; None without mark
    """
    svg, _, _ = _svg(day, now, size="")
    told = escape(_told(day))
    return (
        f'<figure class="facesday"><div class="drawing" tabindex="0" role="group" aria-label="{told}">{svg}</div>'
        f"<figcaption>{LEGEND}</figcaption></figure>"
    )


def faces_sheet(day: FacesDay, *, wide_mm: float) -> tuple[str, float]:
    """The picture for paper, and its height in mm."""
    _, wide, high = _svg(day, None, size="")
    high_mm = wide_mm * high / wide
    return _svg(day, None, size=f'width="{wide_mm:g}mm" height="{high_mm:.1f}mm" ')[0], high_mm


def _told(day: FacesDay) -> str:
    return f"sun on {len(day.faces)} faces hour by hour on {day.day.isoformat()}; the tables below say the same"


def _svg(day: FacesDay, now: datetime | None, *, size: str) -> tuple[str, float, float]:
    frame = _frame(day)
    wide, high = frame.size
    inside = "".join(_drawn(day, frame, now))
    text = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="hours" {size}viewBox="0 0 {wide:g} {high:g}" '
        f'role="img" aria-label="{escape(_told(day))}" font-family="Atkinson Hyperlegible Next, sans-serif" '
        f'font-size="11"><g>{inside}</g></svg>'
    )
    return text, wide, high


@dataclass(frozen=True, kw_only=True)
class _Frame:
    """Where things stand in the picture.

    Attributes:
        start: of the first hour shown.
        first: its place among the hours of the day.
        last: place of the hour after the last one shown.
        left: where the hours begin, right of the names.
        foot: below the last row.
    """

    start: datetime
    first: int
    last: int
    left: float
    foot: float

    @property
    def right(self) -> float:
        """Where the hours end."""
        return self.left + _COLUMN * (self.last - self.first)

    @property
    def size(self) -> tuple[float, float]:
        """Of the whole picture."""
        return self.right + _EDGE, self.foot + _FOOT

    def x(self, moment: datetime) -> float:
        """Of a moment."""
        return self.left + _COLUMN * ((moment.astimezone(UTC) - self.start) / _HOUR)


def _frame(day: FacesDay) -> _Frame:
    """From an hour before sunrise to an hour after sunset; all hours where there is no such thing."""
    first, last = 0, len(day.hours)
    if day.sun.rise is not None and day.sun.set is not None:
        first = max(int((day.sun.rise - day.hours[0]) / _HOUR) - 1, 0)
        last = min(int((day.sun.set - day.hours[0]) / _HOUR) + 2, last)
    return _Frame(
        start=day.hours[first].astimezone(UTC), first=first, last=last,
        left=12 + _LETTER * max(len(face.name) for face in day.faces), foot=_HEAD + _ROW * len(day.faces),
    )  # fmt: skip


def _drawn(day: FacesDay, frame: _Frame, now: datetime | None) -> Iterator[str]:
    yield from _nights(day, frame)
    yield from _grid(day, frame)
    for number, face in enumerate(day.faces):
        yield from _row(face, frame, _HEAD + _ROW * number)
    yield from _marks(day, frame)
    if now is not None and frame.left <= frame.x(now) <= frame.right:
        yield from _now(frame.x(now), frame)


def _nights(day: FacesDay, frame: _Frame) -> Iterator[str]:
    ends = [(frame.left, frame.right)] if day.sun.always == "down" else []
    if day.sun.rise is not None and day.sun.set is not None:
        ends = [(frame.left, frame.x(day.sun.rise)), (frame.x(day.sun.set), frame.right)]
    for start, end in ends:
        yield _rect((start, _HEAD), (end - start, frame.foot - _HEAD), 'class="night"', _NIGHT)


def _grid(day: FacesDay, frame: _Frame) -> Iterator[str]:
    for number in range(frame.first, frame.last + 1):
        x = frame.left + _COLUMN * (number - frame.first)
        yield stroke(f"M{x:g} {_HEAD:g}V{frame.foot:g}", "rule", _RULE, weight=0.6)
        moment = (day.hours[0].astimezone(UTC) + number * _HOUR).astimezone(day.hours[0].tzinfo)
        label = f"{moment.hour}" if not moment.minute else f"{moment.hour}:{moment.minute:02}"
        if not moment.minute or not (number - frame.first) % 2:
            yield from (letters(x, y, label, "middle", ink=_QUIET) for y in (_HEAD - 5, frame.foot + 14))
    before = ""
    for number, face in enumerate(day.faces):
        stretch = face.name.rpartition(" ")[0]
        if stretch != before:
            yield stroke(f"M6 {_HEAD + _ROW * number:g}H{frame.right:g}", "rule", _RULE, weight=1.0)
        before = stretch
    yield stroke(f"M6 {frame.foot:g}H{frame.right:g}", "rule", _RULE, weight=1.0)


def _row(face: FaceDay, frame: _Frame, top: float) -> Iterator[str]:
    yield letters(frame.left - 6, top + _ROW - 6, face.name, "end", loud=True, ink=_INK)
    for number in range(frame.first, frame.last):
        share, light = face.lit[number], face.light[number]
        if light < 1:
            continue
        x, strength = frame.left + _COLUMN * (number - frame.first), min(light / _FULL, 1.0)
        high = max(share * (_ROW - 4), 1.6)
        dark = f'class="sun" fill-opacity="{_FAINTEST + (1 - _FAINTEST) * strength:.2f}"'
        yield _rect((x + 1, top + _ROW - 1 - high), (_COLUMN - 2, high), dark, _SUN)


def _marks(day: FacesDay, frame: _Frame) -> Iterator[str]:
    """Sunrise, noon and sunset with their times."""
    for name, moment in (("rise", day.sun.rise), ("noon", day.sun.noon), ("set", day.sun.set)):
        if moment is None or (name == "noon" and day.sun.always == "down"):
            continue
        x = frame.x(moment)
        yield stroke(f"M{x:.1f} {_HEAD:g}V{frame.foot:g}", "noon" if name == "noon" else "edge", _INK, weight=0.8)
        yield letters(x, 14, f"{name} {moment:%H:%M}", "middle", loud=True, ink=_INK)


def _now(x: float, frame: _Frame) -> Iterator[str]:
    yield stroke(f"M{x:.1f} {_HEAD:g}V{frame.foot + 20:g}", "now", _INK, weight=2.0)
    yield letters(x, frame.foot + 32, "now", "middle", loud=True, bold=True, ink=_INK)


def _rect(corner: tuple[float, float], size: tuple[float, float], sort: str, fill: str) -> str:
    (x, y), (wide, high) = corner, size
    return f'<rect {sort} x="{x:.1f}" y="{y:.1f}" width="{max(wide, 0):.1f}" height="{high:.1f}" fill="{fill}"/>'
