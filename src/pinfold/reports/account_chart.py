"""The pictures of an account: bars of shares, the cost of a length with its spread, cracks over time.

They are as wide as a phone, so that their letters stay as large there as on paper. The inks are written into the
drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from html import escape
from typing import NamedTuple

from pinfold.reports.chart_marks import INK, QUIET, RULE, letters, stroke
from pinfold.studies.account.records import CostOfLength, SharedCrack

WIDE = 420.0
_BAR, _SEEN = "#8f877a", "#9c3f28"
_ROW, _NAMES, _FIGURES = 24.0, 112.0, 104.0
_DAY = 86400.0


class Picture(NamedTuple):
    """A drawing.

    Attributes:
        inside: of it, as SVG without its frame; empty where there is nothing to draw.
        high: how high it is where it is `WIDE`.
        says: what it shows, for who cannot see it.
        legend: under it.
    """

    inside: str
    high: float
    says: str
    legend: str = ""


class Bar(NamedTuple):
    """One bar.

    Attributes:
        name: left of it.
        share: of all.
        figure: right of it.
    """

    name: str
    share: float
    figure: str


def svg_of(picture: Picture, *, named: bool) -> str:
    """The whole drawing; with the name of its space where it stands alone, as paper wants it."""
    space = 'xmlns="http://www.w3.org/2000/svg" ' if named else ""
    return (
        f'<svg {space}class="shared" viewBox="0 0 {WIDE:g} {picture.high:g}" role="img" '
        f'aria-label="{escape(picture.says)}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="13">'
        f"<g>{picture.inside}</g></svg>"
    )


def bars(rows: Sequence[Bar], says: str) -> Picture:
    """A bar for each row, all from one line, the longest over the whole width."""
    most = max((row.share for row in rows), default=0.0)
    if most <= 0:
        return Picture("", 0.0, says)
    parts = [stroke(f"M{_NAMES:g} 2V{_ROW * len(rows) + 2:g}", "rule", QUIET, weight=1.0)]
    for number, row in enumerate(rows):
        y = _ROW * number + 4
        wide = max(row.share / most, 0.0) * (WIDE - _NAMES - _FIGURES)
        parts.append(f'<rect class="bar" x="{_NAMES:g}" y="{y:g}" width="{wide:.1f}" height="16" fill="{_BAR}"/>')
        parts.append(letters(_NAMES - 7, y + 13, row.name, "end", loud=True))
        parts.append(letters(_NAMES + wide + 6, y + 13, row.figure, "start"))
    return Picture("".join(parts), _ROW * len(rows) + 6, says)


def length_picture(cost: CostOfLength, planned: str, foreseen: str, each: str) -> Picture:
    """What was planned for a length as a line, what is foreseen as a spread across it.

    Args:
        cost: as shares of what was planned
        planned: its figure
        foreseen: the figure of what is foreseen
        each: the length, such as `a meter`
    """
    low, likely, high = cost.foreseen
    most = max(high, 1.0) * 1.12

    def x(share: float) -> float:
        return 10.0 + share / most * (WIDE - 20.0)

    side = "end" if x(1.0) > 0.6 * WIDE else "start"
    parts = [
        stroke(f"M{x(0):g} 62H{x(most):.1f}", "rule", QUIET, weight=1.0),
        stroke(f"M{x(1):.1f} 22V62", "norm", INK, weight=1.4, dashes="6 4"),
        letters(x(1), 15, f"planned {planned}", side, loud=True),
        stroke(f"M{x(low):.1f} 44H{x(high):.1f}", "spread", _SEEN, weight=6.0),
        stroke(f"M{x(likely):.1f} 35V53", "likely", INK, weight=3.0),
        letters(x(likely), 80, f"foreseen {foreseen}", "end" if x(likely) > 0.6 * WIDE else "start", loud=True),
        letters(x(0), 80, "0", "start"),
    ]
    says = f"goods for {each}: planned {planned}, foreseen {foreseen}"
    return Picture("".join(parts), 88.0, says, "Notch: half the time. Ends of the bar: 1 in 10 and 9 in 10.")


def crack_picture(cracks: Sequence[SharedCrack]) -> Picture:
    """The widths of all cracks over the days since the first day of the account, each crack with its number."""
    widths = [each for crack in cracks for each in crack.widths]
    says = f"widths of {len(cracks)} cracks over time"
    if not widths:
        return Picture("", 0.0, says)
    last = max(max(each.after for each in widths), _DAY)
    first = min(min(each.after for each in widths), 0.0)
    top = _round_up(max(1e3 * (each.width + each.spread) for each in widths))

    def at(after: float, width: float) -> tuple[float, float]:
        x = 62.0 + (after - first) / (last - first) * (WIDE - 90.0)
        return x, 176.0 - 1e3 * max(width, 0.0) / top * 166.0

    parts = []
    for part in range(5):
        y = 176.0 - part / 4 * 166.0
        parts += [stroke(f"M62 {y:.1f}H{WIDE - 28:g}", "rule", RULE, weight=0.8),
                  letters(57, y + 4, f"{top * part / 4:.3g} mm", "end")]  # fmt: skip
    for number, crack in enumerate(cracks, start=1):
        parts += _crack(str(number), [(at(w.after, w.width), at(w.after, w.width - w.spread)[1],
                                       at(w.after, w.width + w.spread)[1]) for w in crack.widths])  # fmt: skip
    parts += [
        letters(62, 194, f"day {first / _DAY:.0f}", "start"),
        letters(WIDE - 28, 194, f"day {last / _DAY:.0f}", "end"),
    ]
    legend = "Each number is a crack; the uprights are one spread to either side of a reading."
    return Picture("".join(parts), 200.0, says, legend)


def _crack(name: str, points: Sequence[tuple[tuple[float, float], float, float]]) -> Iterator[str]:
    if len(points) > 1:
        yield stroke("M" + "L".join(f"{x:.1f} {y:.1f}" for (x, y), _, _ in points), "trend", _SEEN, weight=1.6)
    for (x, y), low, high in points:
        yield stroke(f"M{x:.1f} {low:.1f}V{high:.1f}", "spread", _SEEN, weight=1.6)
        yield f'<circle class="reading" cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{INK}"/>'
    (x, y), _, _ = points[-1]
    yield letters(x + 8, y + 4, name, "start", loud=True)


def _round_up(most: float) -> float:
    """A round figure no less than the most, whose quarters are round too."""
    size = 10.0 ** math.floor(math.log10(most)) if most > 0 else 0.1
    return next(step * size for step in (1, 2, 4, 8, 10, 20) if step * size >= most)
