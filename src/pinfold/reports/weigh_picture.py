"""The picture of a trade-off: build-ups as numbered marks over two criteria, with their spreads and the limits.

It reads without color: what nothing betters is a full square, what is bettered an open ring, what misses a limit a
cross. The inks are written into the drawing, for paper; a page puts its own colors over them by the classes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from html import escape
from typing import NamedTuple

from pinfold.reports.chart_marks import INK, QUIET, RULE, letters, stroke
from pinfold.reports.weigh_amounts import Money, amount, unit_of
from pinfold.reports.weigh_words import head, number
from pinfold.studies.weighing.records import Criterion, Score, Weighed
from pinfold.studies.weighing.trading import Trade
from pinfold.units import System

WIDE, HIGH = 660.0, 400.0
_LEFT, _RIGHT, _TOP, _FOOT = 64.0, 22.0, 30.0, 52.0
_MARK = "#9c3f28"
_ROUND = 0.04
"""Room left beyond the outermost marks, as a share."""
_PARTS = 5
"""Round numbers along an axis, one more or less."""
_PLACES = ((9, -6), (9, 14), (-9, -6), (-9, 14), (9, 26), (-9, 26), (9, -18), (-9, -18))
"""Where a mark's number may stand beside it, the first that is free."""
LEGEND = (
    "Full square: bettered by none. Ring: bettered by another. Cross: past a limit, or a check FAILS. "
    "Lines through a mark: its spread."
)


class _Axis(NamedTuple):
    """One criterion along an edge of the drawing."""

    criterion: Criterion
    low: float
    high: float
    start: float
    end: float
    step: float

    def lines(self) -> list[float]:
        """Where its lines are."""
        count = round((self.high - self.low) / self.step)
        return [self.low + part * self.step for part in range(count + 1)]

    def at(self, value: float) -> float:
        """Where a number lies; what is off the drawing lies on its edge."""
        share = (value - self.low) / (self.high - self.low)
        return self.start + min(max(share, 0.0), 1.0) * (self.end - self.start)


def picture(trade: Trade, system: System, money: Money) -> str:
    """SVG of the first two criteria with a numbered list of the build-ups; empty where fewer than two are shown."""
    svg = _svg(trade, system, money, "")
    if not svg:
        return ""
    rows = "".join(f"<li>{escape(name)}{f': {what}' if what else ''}</li>" for name, what in marks_told(trade))
    return (
        f'<figure class="trade"><div class="drawing" tabindex="0" role="group" aria-label="{escape(_says(trade))}">'
        f"{svg}</div><figcaption>{LEGEND}<ol>{rows}</ol></figcaption></figure>"
    )


def trade_sheet(trade: Trade, system: System, money: Money, *, wide_mm: float) -> tuple[str, float]:
    """The picture for paper and its height in mm; empty likewise."""
    high = wide_mm * HIGH / WIDE
    return _svg(trade, system, money, f'width="{wide_mm:g}mm" height="{high:.1f}mm" '), high


def marks_told(trade: Trade) -> tuple[tuple[str, str], ...]:
    """Name of each mark in the order of their numbers, and what is to be said of it; mostly nothing."""
    return tuple((each.option.name, _told(trade, each.option.name)) for each in _marked(trade))


def _told(trade: Trade, name: str) -> str:
    if name in trade.front:
        return "bettered by none"
    if name in (*trade.missing, *trade.failing):
        return "past a limit" if name in trade.missing else "a check FAILS"
    return "not shown in all" if name in trade.unsure else ""


def _marked(trade: Trade) -> list[Weighed]:
    """Those of which both criteria are shown."""
    return [each for each in trade.options if all(_value(each, of) is not None for of in trade.criteria[:2])]


def _says(trade: Trade) -> str:
    across, up = trade.criteria[:2]
    front = ", ".join(trade.front) or "none"
    return f"{len(_marked(trade))} build-ups by {across.says} and {up.says}; bettered by none: {front}"


def _svg(trade: Trade, system: System, money: Money, size: str) -> str:
    marked = _marked(trade)
    if len(trade.criteria) < 2 or len(marked) < 2:
        return ""
    across, up = trade.criteria[:2]
    x = _axis(across, marked, _LEFT, WIDE - _RIGHT, unit_of(across, system, money))
    y = _axis(up, marked, HIGH - _FOOT, _TOP, unit_of(up, system, money))
    inside = "".join((*_frame(x, y, system, money), *_limits(trade, x, y, system, money), *_marks(trade, marked, x, y)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" '
        f'aria-label="{escape(_says(trade))}" font-family="Atkinson Hyperlegible Next, sans-serif" font-size="13">'
        f"{inside}</svg>"
    )


def _value(each: Weighed, criterion: Criterion) -> float | None:
    score = each.scores.get(criterion.key)
    return score.value if score is not None else None


def _axis(criterion: Criterion, marked: Sequence[Weighed], start: float, end: float, unit: float) -> _Axis:
    """An axis from one round number to another, in its shown unit."""
    values = [value / unit for each in marked if (value := _value(each, criterion)) is not None]
    low, high = min(values), max(values)
    room = _ROUND * (high - low or abs(high) or 1.0)
    step = _round_step((high - low + 2 * room) / _PARTS)
    first = math.floor((low - room) / step) if low < 0 else max(math.floor((low - room) / step), 0)
    return _Axis(criterion, first * step * unit, math.ceil((high + room) / step) * step * unit, start, end, step * unit)


def _round_step(least: float) -> float:
    """The next 1, 2 or 5 with noughts."""
    size = 10.0 ** math.floor(math.log10(least))
    return next(size * part for part in (1, 2, 5, 10) if size * part >= least * (1 - 1e-9))


def _frame(x: _Axis, y: _Axis, system: System, money: Money) -> Iterator[str]:
    """Lines at round numbers; arrows say which way is better."""
    for at in x.lines():
        yield stroke(f"M{x.at(at):.1f} {_TOP:g}V{HIGH - _FOOT:g}", "rule", RULE)
        yield letters(x.at(at), HIGH - _FOOT + 18, number(x.criterion, at, system, money.digits), "middle")
    for at in y.lines():
        yield stroke(f"M{_LEFT:g} {y.at(at):.1f}H{WIDE - _RIGHT:g}", "rule", RULE)
        yield letters(_LEFT - 6, y.at(at) + 4, number(y.criterion, at, system, money.digits), "end")
    title = _title(x.criterion, system, money, "← ", " →")
    yield letters((_LEFT + WIDE - _RIGHT) / 2, HIGH - 12, title, "middle", loud=True)
    yield letters(8, 18, _title(y.criterion, system, money, "↓ ", " ↑"), "start", loud=True)


def _title(criterion: Criterion, system: System, money: Money, less: str, more: str) -> str:
    words = head(criterion, system, money.currency)
    return f"{less}better: less {words}" if criterion.better == "less" else f"better: more {words}{more}"


def _limits(trade: Trade, x: _Axis, y: _Axis, system: System, money: Money) -> Iterator[str]:
    """A dashed line for each limit on one of the two."""
    for limit in trade.limits.all:
        told = f"{limit.bound.value} {amount(limit.criterion, limit.value, system, money)}"
        if limit.criterion is x.criterion and x.low < limit.value < x.high:
            yield stroke(f"M{x.at(limit.value):.1f} {_TOP:g}V{HIGH - _FOOT:g}", "limit", INK, dashes="6 4")
            yield letters(x.at(limit.value) + 4, _TOP + 12, told, "start", loud=True)
        elif limit.criterion is y.criterion and y.low < limit.value < y.high:
            yield stroke(f"M{_LEFT:g} {y.at(limit.value):.1f}H{WIDE - _RIGHT:g}", "limit", INK, dashes="6 4")
            yield letters(WIDE - _RIGHT - 4, y.at(limit.value) - 5, told, "end", loud=True)


def _marks(trade: Trade, marked: Sequence[Weighed], x: _Axis, y: _Axis) -> Iterator[str]:
    taken = [(x.at(_value(each, x.criterion) or 0.0), y.at(_value(each, y.criterion) or 0.0)) for each in marked]
    spots = tuple(taken)
    for number_, (each, (at, high)) in enumerate(zip(marked, spots, strict=True), start=1):
        yield from _spreads(each.scores[x.criterion.key], each.scores[y.criterion.key], x, y)
        yield _mark(each.option.name, trade, at, high)
        away, down = next((place for place in _PLACES if _is_free(at, high, place, taken)), _PLACES[0])
        taken.append((at + 1.8 * away, high + down - 5))
        yield letters(at + away, high + down, str(number_), "start" if away > 0 else "end", loud=True)


def _is_free(at: float, high: float, place: tuple[int, int], taken: Sequence[tuple[float, float]]) -> bool:
    """Whether a number has room beside a mark."""
    middle, level = at + 1.8 * place[0], high + place[1] - 5
    inside = _LEFT < middle < WIDE - 8 and _TOP - 8 < level < HIGH - _FOOT
    return inside and all(abs(middle - across) > 15 or abs(level - up) > 10 for across, up in taken)


def _spreads(across: Score, up: Score, x: _Axis, y: _Axis) -> Iterator[str]:
    at, high = x.at(across.value or 0.0), y.at(up.value or 0.0)
    if across.low is not None and across.high is not None:
        yield stroke(f"M{x.at(across.low):.1f} {high:.1f}H{x.at(across.high):.1f}", "spread", QUIET)
    if up.low is not None and up.high is not None:
        yield stroke(f"M{at:.1f} {y.at(up.low):.1f}V{y.at(up.high):.1f}", "spread", QUIET)


def _mark(name: str, trade: Trade, at: float, high: float) -> str:
    if name in trade.front:
        return f'<rect class="front" x="{at - 5:.1f}" y="{high - 5:.1f}" width="10" height="10" fill="{_MARK}"/>'
    if name in (*trade.missing, *trade.failing):
        return stroke(f"M{at - 5:.1f} {high - 5:.1f}l10 10m0 -10l-10 10", "missing", INK, weight=1.8)
    dashes = ' stroke-dasharray="2 2"' if name in trade.unsure else ""
    return (
        f'<circle class="beaten" cx="{at:.1f}" cy="{high:.1f}" r="5" fill="none" stroke="{INK}" stroke-width="1.6"'
        f"{dashes}/>"
    )
