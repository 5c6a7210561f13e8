"""How the score goes along each factor, which factor matters, and where nothing is known."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pinfold.studies.trials.choosing import spread_over
from pinfold.studies.trials.records import Factor, Response, ResponsePoint, Trial
from pinfold.studies.trials.surface import Surface

_POINTS = 41
_BLIND = 0.8
"""Where the score is as unsure as this share of what it was before any trial, nothing is known of it."""
_LEVELS = 11
"""Values of a factor at which the others are averaged out."""


def responses_of(surface: Surface, factors: Sequence[Factor], best: Trial) -> tuple[Response, ...]:
    """Along each factor, the one that matters most first.

    Args:
        surface: through all trials
        factors: looked at
        best: trial whose other factors are kept
    """
    at_best = np.array([factor.share(best.values[factor.key]) for factor in factors])
    parts = _shares(surface, len(factors))
    found = [
        Response(
            factor=factor,
            share=parts[place],
            points=_points(surface, factor, place, at_best),
            others=tuple((other, best.values[other.key]) for other in factors if other is not factor),
        )
        for place, factor in enumerate(factors)
    ]
    return tuple(sorted(found, key=lambda response: -response.share))


def _points(surface: Surface, factor: Factor, place: int, at_best: np.ndarray) -> tuple[ResponsePoint, ...]:
    shares = np.linspace(0.0, 1.0, _POINTS)
    places = np.repeat(at_best[None, :], _POINTS, axis=0)
    places[:, place] = shares
    means, spreads = surface.at(places)
    return tuple(
        ResponsePoint(
            value=factor.low + share * (factor.high - factor.low), mean=float(mean), spread=float(spread),
            known=bool(spread < _BLIND * surface.signal),
        )
        for share, mean, spread in zip(shares, means, spreads, strict=True)
    )  # fmt: skip


def _shares(surface: Surface, count: int) -> list[float]:
    """What of the change of the score each factor makes by itself, the others averaged out; together 1."""
    spread = spread_over(count)
    changes = []
    for place in range(count):
        means = []
        for level in np.linspace(0.0, 1.0, _LEVELS):
            places = spread.copy()
            places[:, place] = level
            means.append(float(surface.mean_at(places).mean()))
        changes.append(float(np.var(means)))
    whole = sum(changes)
    return [change / whole if whole > 0 else 1 / count for change in changes]


def unknown_share(surface: Surface) -> float:
    """Share of the ranges of which nothing is known."""
    _, spreads = surface.at(spread_over(len(surface.lengths)))
    return float((spreads >= _BLIND * surface.signal).mean())


def blind_spots(response: Response) -> tuple[tuple[float, float], ...]:
    """Stretches of a factor, the others as in the best trial, of which nothing is known."""
    spots: list[list[float]] = []
    for before, point in zip((None, *response.points), response.points, strict=False):
        if point.known:
            continue
        if before is not None and not before.known and spots:
            spots[-1][1] = point.value
        else:
            spots.append([point.value, point.value])
    return tuple((low, high) for low, high in spots if high > low)
