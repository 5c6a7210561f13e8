"""The picture of a strength: its curve with the band of batches, the band thought before behind it, tests as marks."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from pinfold.studies.lessons.strength_records import Strength, StrengthReading
from pinfold.units import Pascal, Second, System, significant

_WIDE, _HIGH, _LEFT, _FOOT, _EDGE = 640.0, 260.0, 68.0, 34.0, 12.0
_DAY = 86400.0
_TICKS = (1, 3, 7, 14, 28, 90, 365)
_COUNT = 25
_PSI = 6894.757293168
Place = Callable[[Second, Pascal], tuple[float, float]]


def points(strength: Callable[[Second], Strength], readings: Sequence[StrengthReading]) -> tuple[Strength, ...]:
    """The strength from a day to a year, further where an older body was tried, evenly on a scale of doubling ages."""
    last = max([365 * _DAY, *(each.age for each in readings)])
    first = min([_DAY, *(each.age for each in readings)])
    return tuple(strength(first * (last / first) ** (part / (_COUNT - 1))) for part in range(_COUNT))


def chart(curve: Sequence[Strength], readings: Sequence[StrengthReading], system: System) -> str:
    """SVG over the ages; the tables beside it say the same."""
    top, unit, factor = _scale(curve, readings, system)
    first, last = math.log(curve[0].age), math.log(curve[-1].age)

    def at(age: Second, strength: Pascal) -> tuple[float, float]:
        x = _LEFT + (math.log(age) - first) / (last - first) * (_WIDE - _LEFT - _EDGE)
        return x, _HIGH - _FOOT - min(strength / factor, top) / top * (_HIGH - _FOOT - _EDGE)

    tried = bool(readings)
    before = [each.before or each for each in curve]
    parts = [*_frame(at, curve, (top, unit))]
    if any(each.before is not None for each in curve):
        parts.append(f'<path class="thought" d="{_band(before, at)}"/>')
    parts.append(f'<path class="batches" d="{_band(curve, at)}"/>')
    parts.append(f'<path class="middle" d="{_line([at(each.age, each.mean) for each in curve])}"/>')
    parts += [_mark(each, at, top * factor) for each in readings]
    most = f"{significant(top)} {unit}"
    told = f"strength from {curve[0].age / _DAY:.3g} to {curve[-1].age / _DAY:.0f} days, up to {most}"
    told += f", with {len(readings)} tests" if tried else ", nothing tried yet"
    return (
        f'<figure class="strength"><div class="drawing" tabindex="0" role="group" aria-label="{told}">'
        f'<svg class="strengths" viewBox="0 0 {_WIDE:g} {_HIGH:g}" role="img" aria-label="{told}"><g>'
        f"{''.join(parts)}</g></svg></div><figcaption>{_LEGEND}</figcaption></figure>"
    )


_LEGEND = (
    "Line: half of all batches lie above. Band: 90 of 100 batches. Dashed band: what was thought before any test. "
    "Circles: bodies crushed or broken. Bars: what a hand test allows."
)


def _scale(curve: Sequence[Strength], readings: Sequence[StrengthReading], system: System) -> tuple[float, str, Pascal]:
    unit, factor = ("psi", _PSI) if system is System.US else ("MPa", 1e6)
    highs = [end.high for each in curve for end in (each, each.before) if end is not None]
    most = max([*highs, *(each.strength for each in readings if each.is_exact)])
    return _round_up(most / factor), unit, factor


def _frame(at: Place, curve: Sequence[Strength], up: tuple[float, str]) -> Iterator[str]:
    top, unit = up
    floor = _HIGH - _FOOT
    for part in range(5):
        y = floor - part / 4 * (floor - _EDGE)
        yield f'<path class="rule" d="M{_LEFT:g} {y:.1f}H{_WIDE - _EDGE:g}"/>'
        level = significant(top * part / 4, 4)
        yield f'<text x="{_LEFT - 6:g}" y="{y + 4:.1f}" text-anchor="end">{level} {unit}</text>'
    shown = [days for days in _TICKS if curve[0].age <= days * _DAY * 1.001 and days * _DAY <= curve[-1].age * 1.001]
    for days in shown:
        x, _ = at(days * _DAY, 0.0)
        anchor = "end" if x > _WIDE - 3 * _EDGE else "middle"
        yield f'<path class="rule" d="M{x:.1f} {floor:.1f}v5"/>'
        yield f'<text x="{x:.1f}" y="{_HIGH - 10:g}" text-anchor="{anchor}">{days} d</text>'


def _band(curve: Sequence[Strength], at: Place) -> str:
    there = [at(each.age, each.high) for each in curve]
    back = [at(each.age, each.low) for each in reversed(curve)]
    return f"{_line([*there, *back])}Z"


def _line(places: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in places)


def _mark(reading: StrengthReading, at: Place, top: Pascal) -> str:
    if reading.is_exact:
        x, y = at(reading.age, reading.strength)
        return f'<circle class="tried" cx="{x:.1f}" cy="{y:.1f}" r="4"/>'
    x, low = at(reading.age, reading.low or 0.0)
    _, high = at(reading.age, top if reading.high is None else reading.high)
    return f'<path class="felt" d="M{x:.1f} {low:.1f}V{high:.1f}"/>'


def _round_up(most: float) -> float:
    """A round figure no less than the most, whose quarters are round too."""
    size = 10 ** math.floor(math.log10(most)) if most > 0 else 1.0
    return next(step * size for step in (1, 2, 4, 6, 8, 10, 20) if step * size >= most)
