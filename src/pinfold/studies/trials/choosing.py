"""Which places are worth a trial: those expected to gain most, or, with few trials, those furthest from all others.

The same code serves the builder's trials and any other table of places and scores.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pinfold.formulas.trials import chance_better, expected_gain
from pinfold.studies.trials.records import Expected
from pinfold.studies.trials.surface import Noise, Seen, Surface, surface_of

ENOUGH = 5
"""With fewer trials the ranges are only filled."""
ALIKE = 0.08
"""Places that lie within this share of every range are alike: what a bucket can tell (common practice)."""
_SURE = 1e-9
_LEVELS = 256
"""Places that are spread over the ranges to choose from."""


def expected_at(surface: Surface, place: Sequence[float], best: float) -> Expected:
    """What is expected of a trial at a place, beside a score to beat."""
    means, spreads = surface.at(np.array([place]))
    mean, spread = float(means[0]), max(float(spreads[0]), _SURE)
    gain = float(expected_gain(mean=mean, spread=spread, best=best))
    return Expected(mean, spread, gain, float(chance_better(mean=mean, spread=spread, best=best)))


def best_mean(surface: Surface, among: Sequence[Sequence[float]]) -> float:
    """The highest score that trials at some places have by all that is known."""
    return float(surface.mean_at(np.array(among)).max())


def worth_most(surface: Surface, offered: np.ndarray, *, best: float, many: int) -> tuple[int, ...]:
    """Places with the most expected gain, one after the other.

    After each the surface believes that a trial there came out as expected, and the next is sought where none is alike.

    Args:
        surface: through all trials
        offered: places to choose from, one a row
        best: score to beat
        many: how many; fewer where fewer places are offered
    """
    chosen: list[int] = []
    for _ in range(min(many, len(offered))):
        mean, spread = surface.at(offered)
        gain = _gains(mean, spread, best)
        open_ones = np.flatnonzero(_unlike(offered, offered[chosen]))
        if not len(open_ones):
            break
        chosen.append(int(max(open_ones, key=lambda place: (gain[place], mean[place], -place))))
        surface = surface.believing(tuple(offered[chosen[-1]]))
    return tuple(chosen)


def _unlike(offered: np.ndarray, chosen: np.ndarray) -> np.ndarray:
    """Which places are like none of those chosen."""
    apart = np.abs(offered[:, None, :] - chosen[None, :, :]).max(axis=2, initial=0.0)
    unlike: np.ndarray = (apart > ALIKE).all(axis=1)
    return unlike


def _gains(mean: np.ndarray, spread: np.ndarray, best: float) -> np.ndarray:
    gain = expected_gain(mean=mean, spread=np.maximum(spread, _SURE), best=best)  # type: ignore[arg-type]  # arrays too
    return np.asarray(gain)


def spread_out(taken: Sequence[Sequence[float]], offered: np.ndarray, *, many: int) -> tuple[int, ...]:
    """Places that lie furthest from all trials and from each other, one after the other.

    Args:
        taken: places of trials made
        offered: places to choose from, one a row
        many: how many; fewer where fewer places are offered
    """
    middle = np.full((1, offered.shape[1]), 0.5)
    near = _nearest(offered, np.array(taken, dtype=float)) if len(taken) else -_nearest(offered, middle)
    chosen: list[int] = []
    for _ in range(min(many, len(offered))):
        index = int(np.argmax(np.where(np.isin(np.arange(len(offered)), chosen), -np.inf, near)))
        own = _nearest(offered, offered[index : index + 1])
        near = np.minimum(near, own) if chosen or len(taken) else own
        chosen.append(index)
    return tuple(chosen)


def _nearest(offered: np.ndarray, taken: np.ndarray) -> np.ndarray:
    """How far each place offered is from the nearest one taken."""
    distances: np.ndarray = np.sqrt(((offered[:, None, :] - taken[None, :, :]) ** 2).sum(axis=2)).min(axis=1)
    return distances


def next_place(seen: Seen, noise: Noise, offered: np.ndarray) -> int:
    """The one place most worth a trial, for a table that offers only some places."""
    if len(seen.scores) < ENOUGH:
        return spread_out(seen.places, offered, many=1)[0]
    surface = surface_of(seen, noise)
    return worth_most(surface, offered, best=best_mean(surface, seen.places), many=1)[0]


def spread_over(factors: int) -> np.ndarray:
    """Places spread over ranges from 0 to 1, corners and middle among them, always the same."""
    from scipy.stats import qmc

    even = qmc.Sobol(factors, scramble=False).random(_LEVELS)
    corners = np.array(np.meshgrid(*[[0.0, 1.0]] * factors)).reshape(factors, -1).T
    return np.vstack([np.full((1, factors), 0.5), corners, even])
