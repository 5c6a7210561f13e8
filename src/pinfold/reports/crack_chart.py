"""The picture of a crack: its widths over time with their spread, and the line through them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime

from pinfold.studies.cracks.records import CrackReading, CrackTrend
from pinfold.studies.cracks.trend import predicted_width

_WIDE, _HIGH, _LEFT, _FOOT, _EDGE = 640.0, 220.0, 56.0, 30.0, 10.0
_DAY = 86400.0


def chart(readings: Sequence[CrackReading], trend: CrackTrend) -> str:
    """SVG of the readings in millimeters over the days, two spreads each way; the words beside it say the same."""
    first, last = readings[0].at, max(readings[-1].at, readings[0].at + _DAY)
    top = _round_up(max(1e3 * (each.width + 2 * each.spread) for each in readings))

    def at(moment: float, width: float) -> tuple[float, float]:
        x = _LEFT + (moment - first) / (last - first) * (_WIDE - _LEFT - _EDGE)
        return x, _HIGH - _FOOT - 1e3 * width / top * (_HIGH - _FOOT - _EDGE)

    parts = [*_frame(first, last, top)]
    for each in readings:
        (x, low), (_, high), (_, middle) = (
            at(each.at, width) for width in (max(each.width - 2 * each.spread, 0.0), each.width + 2 * each.spread,
                                             each.width)
        )  # fmt: skip
        parts.append(f'<path class="spread" d="M{x:.1f} {low:.1f}V{high:.1f}"/>')
        parts.append(f'<circle class="reading" cx="{x:.1f}" cy="{middle:.1f}" r="4"/>')
    if trend.fit is not None:
        fit = trend.fit
        ends = [at(moment, max(predicted_width(fit, at=moment).width, 0.0)) for moment in (first, last)]
        parts.append(f'<path class="trend" d="M{ends[0][0]:.1f} {ends[0][1]:.1f}L{ends[1][0]:.1f} {ends[1][1]:.1f}"/>')
    told = f"widths of {len(readings)} readings over time, up to {top:g} mm"
    return (
        f'<div class="drawing" tabindex="0" role="group" aria-label="{told}">'
        f'<svg class="widths" viewBox="0 0 {_WIDE:g} {_HIGH:g}" role="img" aria-label="{told}"><g>'
        f"{''.join(parts)}</g></svg></div>"
    )


def _frame(first: float, last: float, top: float) -> Iterator[str]:
    floor = _HIGH - _FOOT
    for part in range(5):
        y = floor - part / 4 * (floor - _EDGE)
        yield f'<path class="rule" d="M{_LEFT:g} {y:.1f}H{_WIDE - _EDGE:g}"/>'
        yield f'<text x="{_LEFT - 6:g}" y="{y + 4:.1f}" text-anchor="end">{top * part / 4:.3g} mm</text>'
    for moment, x, side in ((first, _LEFT, "start"), (last, _WIDE - _EDGE, "end")):
        day = datetime.fromtimestamp(moment, UTC).strftime("%Y-%m-%d")
        yield f'<text x="{x:g}" y="{_HIGH - 8:g}" text-anchor="{side}">{day}</text>'


def _round_up(most: float) -> float:
    """A round figure no less than the most, whose quarters are round too."""
    size = 10 ** math.floor(math.log10(most)) if most > 0 else 0.1
    return next(step * size for step in (1, 2, 4, 8, 10, 20) if step * size >= most)
