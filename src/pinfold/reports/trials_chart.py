"""The picture of the score along one factor: what is expected with its band, the trials, and where nothing is known."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from pinfold.reports.html_text import safe
from pinfold.studies.trials.records import Response, Trial

_WIDE, _HIGH, _LEFT, _FOOT, _EDGE = 640.0, 240.0, 40.0, 34.0, 12.0
_TOP = 10.0
_NEAR = 0.08
"""Trials within this share of the range of the picture's line are drawn on it."""


def chart(response: Response, trials: Sequence[Trial], label: tuple[str, str, str]) -> str:
    """SVG of a response; the words beside it say the same.

    Args:
        response: along a factor
        trials: to draw as dots
        label: what the factor counts, and both ends of its range as text
    """
    says, low, high = label
    told = f"score along {says}, from {low} to {high}, with {len(trials)} trials"
    parts = [*_frame(label), *_blind(response), _band(response), _line(response), *_dots(response, trials)]
    return (
        f'<div class="drawing" tabindex="0" role="group" aria-label="{safe(told)}">'
        f'<svg class="response" viewBox="0 0 {_WIDE:g} {_HIGH:g}" role="img" aria-label="{safe(told)}">{_HATCH}<g>'
        f"{''.join(parts)}</g></svg></div>"
    )


_HATCH = (
    '<defs><pattern id="blind" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<path class="hatch" d="M0 0V8"/></pattern></defs>'
)


def _x(share: float) -> float:
    return _LEFT + min(max(share, -0.03), 1.03) * (_WIDE - _LEFT - _EDGE)


def _y(score: float) -> float:
    return _HIGH - _FOOT - min(max(score, 0.0), _TOP) / _TOP * (_HIGH - _FOOT - _EDGE)


def _frame(label: tuple[str, str, str]) -> Iterator[str]:
    for score in (0, 5, 10):
        yield f'<path class="rule" d="M{_LEFT:g} {_y(score):.1f}H{_WIDE - _EDGE:g}"/>'
        yield f'<text x="{_LEFT - 8:g}" y="{_y(score) + 4:.1f}" text-anchor="end">{score}</text>'
    says, low, high = map(safe, label)
    for text, x, side in ((low, _LEFT, "start"), (says, (_LEFT + _WIDE) / 2, "middle"), (high, _WIDE - _EDGE, "end")):
        yield f'<text x="{x:g}" y="{_HIGH - 10:g}" text-anchor="{side}">{text}</text>'


def _blind(response: Response) -> Iterator[str]:
    """Where nothing is known, hatched."""
    factor = response.factor
    for known, group in groupby(response.points, key=lambda point: point.known):
        stretch = list(group)
        if not known and len(stretch) > 1:
            left, right = (_x(factor.share(point.value)) for point in (stretch[0], stretch[-1]))
            yield f'<rect class="blind" x="{left:.1f}" y="{_y(_TOP):.1f}" width="{right - left:.1f}" ' \
                  f'height="{_y(0) - _y(_TOP):.1f}"/>'  # fmt: skip


def _band(response: Response) -> str:
    there = [(response.factor.share(point.value), point.mean + point.spread) for point in response.points]
    back = [(response.factor.share(point.value), point.mean - point.spread) for point in reversed(response.points)]
    return f'<path class="band" d="{_path([*there, *back])}Z"/>'


def _line(response: Response) -> str:
    return f'<path class="mean" d="{_path([(response.factor.share(p.value), p.mean) for p in response.points])}"/>'


def _path(points: Sequence[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{_x(share):.1f} {_y(score):.1f}" for share, score in points)


def _dots(response: Response, trials: Sequence[Trial]) -> Iterator[str]:
    for trial in trials:
        if trial.score is not None:
            share = response.factor.share(trial.values[response.factor.key])
            sort = "near" if _on_line(response, trial) else "far"
            yield f'<circle class="{sort}" cx="{_x(share):.1f}" cy="{_y(trial.score):.1f}" r="5"/>'


def _on_line(response: Response, trial: Trial) -> bool:
    return all(
        abs(factor.share(trial.values[factor.key]) - factor.share(value)) <= _NEAR for factor, value in response.others
    )
