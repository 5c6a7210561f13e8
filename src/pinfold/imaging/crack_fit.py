"""Fitting a dark band of known blur to brightness square to a crack; all stations at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pinfold.imaging.crack_width import Bands, Fit

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]

_ROUNDS = 30
_THINNEST_MM = 0.004
_MOST_DEPTH = 1.0
_CENTER_DOUBT_MM = 0.35
_BLUR_DOUBT = 0.05
_RAGGED_SHARE = 0.15
_SHARPEST = 0.6
_ENOUGH = 1e-4
_CLEAR = 4.0


@dataclass(frozen=True, kw_only=True, eq=False)
class DepthGuess:
    """What is thought of the depth before a station is looked at.

    Attributes:
        depth: share of the wall's brightness missing inside the crack, (n,) or one for all.
        doubt: its standard deviation.
    """

    depth: Grid | float
    doubt: float


def wall_light(bands: Bands) -> Grid:
    """Brightness of the wall beside each station, over that of the paper."""
    far = np.where((bands.weight > 0) & (np.abs(bands.steps) > 0.5 * bands.steps[0, -1]), bands.light, np.nan)
    nowhere = ~np.isfinite(far).any(axis=1)
    far[nowhere] = np.where(bands.weight > 0, bands.light, 0.0)[nowhere]
    return np.asarray(np.nanmedian(far, axis=1), dtype=np.float64)


def fitted(bands: Bands, guess: DepthGuess) -> Fit:
    """The band that fits each station best, by damped least squares with the guess as one more reading."""
    wall = np.maximum(wall_light(bands), 1e-3)
    noise = _noise(bands, wall)
    first = np.broadcast_to(np.asarray(guess.depth, dtype=np.float64), wall.shape)
    spacing = bands.steps[:, 1] - bands.steps[:, 0]
    inner = np.abs(bands.steps) < 0.6 * bands.steps[:, -1:]
    missing = ((1 - bands.light / wall[:, None]) * bands.weight * inner).sum(axis=1) * spacing
    width = np.clip(missing / first, 0.05, 1.2 * bands.steps[:, -1])
    none = np.zeros_like(wall)
    aim = np.column_stack([none, width, first, wall, none, bands.blur])
    soft = np.hypot(_BLUR_DOUBT * bands.blur, _RAGGED_SHARE * width)
    prior = np.zeros_like(aim)
    prior[:, 0], prior[:, 2], prior[:, 5] = _CENTER_DOUBT_MM**-2, guess.doubt**-2, soft**-2
    state, normal = _descended(bands, aim, prior, noise)
    spread = np.linalg.inv(normal)
    held = np.linalg.inv(np.delete(np.delete(normal, 2, axis=1), 2, axis=2))
    alone = np.sqrt(held[:, 1, 1])
    return Fit(
        width=state[:, 1],
        center=state[:, 0],
        depth=state[:, 2],
        wall=state[:, 3],
        width_doubt=alone,
        depth_doubt=np.sqrt(spread[:, 2, 2]),
        clear=np.asarray(state[:, 1] > _CLEAR * alone),
    )


def _descended(bands: Bands, aim: Grid, prior: Grid, noise: Grid) -> tuple[Grid, Grid]:
    state = aim
    damping = np.full(len(state), 1e-2)
    cost = _cost(bands, state, aim, prior, noise)
    for _ in range(_ROUNDS):
        normal, pull = _normal(bands, state, aim, prior, noise)
        damped = normal + damping[:, None, None] * np.eye(6) * np.einsum("nii->ni", normal)[:, None, :]
        tried = _bounded(state + np.linalg.solve(damped, pull[..., None])[..., 0], bands)
        tried_cost = _cost(bands, tried, aim, prior, noise)
        better = tried_cost < cost
        done = bool(np.all((cost - tried_cost)[better] < _ENOUGH)) and bool(np.all(better | (damping > 1e3)))
        state = np.where(better[:, None], tried, state)
        cost = np.where(better, tried_cost, cost)
        damping = np.clip(np.where(better, damping / 4, damping * 6), 1e-9, 1e6)
        if done:
            break
    return state, _normal(bands, state, aim, prior, noise)[0]


def _bounded(state: Grid, bands: Bands) -> Grid:
    kept = state.copy()
    kept[:, 1] = np.clip(kept[:, 1], _THINNEST_MM, 2 * bands.steps[:, -1])
    kept[:, 2] = np.clip(kept[:, 2], 0.05, _MOST_DEPTH)
    kept[:, 5] = np.clip(kept[:, 5], _SHARPEST * bands.blur, None)
    return kept


def _parts(bands: Bands, state: Grid) -> tuple[Grid, Grid, Grid, Grid, Grid, Grid]:
    """Cover of the band, how it changes with either lip and with the blur, the wall and the whole."""
    from scipy.special import erf

    center, width, depth, wall, lean, blur = (column[:, None] for column in state.T)
    right, left = bands.steps - center + width / 2, bands.steps - center - width / 2
    cover = 0.5 * (erf(right / blur / np.sqrt(2)) - erf(left / blur / np.sqrt(2)))
    bell = np.sqrt(2 * np.pi) * blur
    at_right, at_left = np.exp(-0.5 * (right / blur) ** 2) / bell, np.exp(-0.5 * (left / blur) ** 2) / bell
    ground = wall * (1 + lean * bands.steps)
    softer = (left * at_left - right * at_right) / blur
    return cover, at_right, at_left, softer, ground, ground * (1 - depth * cover)


def _cost(bands: Bands, state: Grid, aim: Grid, prior: Grid, noise: Grid) -> Grid:
    model = _parts(bands, state)[-1]
    misfit = ((bands.light - model) ** 2 * bands.weight).sum(axis=1) / noise**2
    return np.asarray(misfit + (prior * (state - aim) ** 2).sum(axis=1), dtype=np.float64)


def _normal(bands: Bands, state: Grid, aim: Grid, prior: Grid, noise: Grid) -> tuple[Grid, Grid]:
    """Normal equations of each station: middle, width, depth, wall, lean, blur."""
    cover, at_right, at_left, softer, ground, model = _parts(bands, state)
    depth, wall = state[:, 2, None], state[:, 3, None]
    slopes = np.stack(
        [
            ground * depth * (at_right - at_left),
            -ground * depth * (at_right + at_left) / 2,
            -ground * cover,
            model / wall,
            wall * bands.steps * (1 - depth * cover),
            -ground * depth * softer,
        ],
        axis=-1,
    )
    weight = bands.weight / noise[:, None] ** 2
    normal = np.einsum("nmi,nm,nmj->nij", slopes, weight, slopes)
    pull = np.einsum("nmi,nm->ni", slopes, weight * (bands.light - model)) - prior * (state - aim)
    normal = normal + prior[:, :, None] * np.eye(6)
    return normal + 1e-9 * np.eye(6) * np.trace(normal, axis1=1, axis2=2)[:, None, None], pull


def _noise(bands: Bands, wall: Grid) -> Grid:
    """Grain of the wall beside each station, widened for how far grains reach, so that readings count as apart."""
    out = (np.abs(bands.steps) > 0.5 * bands.steps[:, -1:]) & (bands.weight > 0)
    rest = np.where(out, bands.light - wall[:, None], 0.0)
    for side in (bands.steps > 0, bands.steps < 0):
        part = out & side
        mean = rest.sum(axis=1, where=part) / np.maximum(part.sum(axis=1), 1)
        rest = np.where(part, rest - mean[:, None], rest)
    share = rest / wall[:, None]
    spread = np.sqrt((share**2).sum() / max(int(out.sum()), 1))
    lags = range(1, min(60, share.shape[1] // 4))
    joint = [(share[:, lag:] * share[:, :-lag]).sum() / max((share**2).sum(), 1e-12) for lag in lags]
    reach = 1.0
    for value in joint:
        if value <= 0.05:
            break
        reach += 2 * float(value)
    return np.asarray(np.maximum(spread, 1e-3) * np.sqrt(reach) * wall, dtype=np.float64)
