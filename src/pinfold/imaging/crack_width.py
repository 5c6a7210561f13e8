"""How wide a crack is: brightness square to its line, fitted by a dark band of known blur.

A band of width w and depth d, seen through a blur s, takes away light of w times d whatever the blur: that product is
always well known. Where the band is wider than the blur its depth shows too, and with it the width; where it is finer,
the depth is taken from the crack's wider parts, or from the printed black of the card, with a doubt to match.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pinfold.imaging.card_in_photo import CardInPhoto, sampled
from pinfold.imaging.crack_line import length_of
from pinfold.imaging.scale_card import ScaleCard

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]

STATION_MM = 1.0
"""Length of crack that is averaged into one width."""

_FINE_MM = 0.25
_TOUCH_MM = 1.0
_BENT_MM = 2.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Bands:
    """Brightness square to the crack, one row per station.

    Attributes:
        steps: distance from the line in mm, (n, m).
        light: brightness over that of the paper, (n, m); anything where the weight is 0.
        weight: 1 where wall or crack is seen, 0 on the card and outside the photo, (n, m).
        blur: spread of the blur in mm, (n,).
        along: distance along the crack in mm, (n,).
        places: of the stations in mm on the card's scale, (n, 2).
        across: unit directions that the steps count along there, (n, 2).
    """

    steps: Grid
    light: Grid
    weight: Grid
    blur: Grid
    along: Grid
    places: Grid
    across: Grid


@dataclass(frozen=True, kw_only=True, eq=False)
class Fit:
    """What fits each station.

    Attributes:
        width: in mm, (n,).
        center: of the band, off the line in mm, (n,).
        depth: share of the wall's brightness that is missing inside the crack, (n,).
        wall: brightness of the wall over that of the paper, (n,).
        width_doubt: standard deviation of the width from grain and noise, its depth held, in mm, (n,).
        depth_doubt: standard deviation of the depth, (n,).
        clear: stations where the dark band stands well out of the grain, (n,).
    """

    width: Grid
    center: Grid
    depth: Grid
    wall: Grid
    width_doubt: Grid
    depth_doubt: Grid
    clear: NDArray[np.bool_]


def bands_across(light: NDArray[np.float32], lie: CardInPhoto, line: Grid, card: ScaleCard) -> Bands:
    """Brightness square to a crack, the line being moved to the middle of the darkness first.

    Args:
        light: the photo in linear light.
        lie: where the card is in it.
        line: rough middle line of the crack in mm, (n, 2).
        card: the card, which is no wall.
    """
    line = _even(_softened(line, 4))
    reach = 2.5
    for _ in range(3):
        normal = _normals(line)
        profiles, weight, steps = _sample(light, lie, line, reach, card)
        shift, width = _middles(profiles, weight, steps)
        line = _even(_softened(line + _running_median(shift, 5)[:, None] * normal, 3))
        reach = float(np.clip(1.5 * width + 1.5, 2.0, 9.0))
    line = _with_straight_ends(_without_ends(line, width))
    normal = _normals(line)
    blur = lie.blur_mm(line, normal)
    reach = float(np.clip(width / 2 + 4 * np.median(blur) + 1.6, 2.2, 9.0))
    profiles, weight, steps = _sample(light, lie, line, reach, card)
    return _stations(line, profiles / lie.paper, weight, steps, blur)


def _stations(line: Grid, profiles: Grid, weight: Grid, steps: Grid, blur: Grid) -> Bands:
    each = round(STATION_MM / _FINE_MM)
    count = max(1, len(line) // each)
    cut = slice(0, min(len(line), count * each))

    def joined(values: Grid) -> Grid:
        return values[cut].reshape(count, -1, *values.shape[1:])

    share = joined(weight)
    total = share.sum(axis=1)
    light = (joined(np.nan_to_num(profiles)) * share).sum(axis=1) / np.maximum(total, 1)
    across = joined(_normals(line)).mean(axis=1)
    distance = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    return Bands(
        steps=np.broadcast_to(steps, light.shape),
        light=light,
        weight=(total >= share.shape[1] * 0.75).astype(np.float64),
        blur=joined(blur).mean(axis=1),
        along=joined(distance).mean(axis=1),
        places=joined(line).mean(axis=1),
        across=across / np.linalg.norm(across, axis=1, keepdims=True),
    )


def _even(line: Grid) -> Grid:
    """The line with points at even distances."""
    distance = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    even = np.arange(0, distance[-1] + 1e-9, _FINE_MM)
    return np.column_stack([np.interp(even, distance, line[:, axis]) for axis in (0, 1)])


def _softened(line: Grid, spread: float) -> Grid:
    """The line smoothed by a bell of so many points, its ends kept straight."""
    half = int(3 * spread)
    bell = np.exp(-0.5 * (np.arange(-half, half + 1) / spread) ** 2)
    bell /= bell.sum()
    half = min(half, len(line) - 1)
    before = 2 * line[0] - line[half:0:-1]
    after = 2 * line[-1] - line[-2 : -half - 2 : -1]
    padded = np.concatenate([before, line, after])
    middle = (len(bell) - 1) // 2
    bell = bell[middle - half : middle + half + 1]
    bell = bell / bell.sum()
    return np.column_stack([np.convolve(padded[:, axis], bell, mode="valid") for axis in (0, 1)])


def _without_ends(line: Grid, width: float) -> Grid:
    """The line short of its ends by half a width and a bit, where a wide crack's end would bend it."""
    cut = min(round(0.7 * width / _FINE_MM), len(line) // 4)
    return line[cut : len(line) - cut]


def _with_straight_ends(line: Grid) -> Grid:
    """The line, its last bit at either end straight on from what leads there: darkness cut off at an end bends it."""
    bent, leading = round(_BENT_MM / _FINE_MM), round(3 * _BENT_MM / _FINE_MM)
    if len(line) < 2 * leading:
        return line
    straight = line.copy()
    for way in (straight, straight[::-1]):
        step = (way[bent] - way[leading]) / (leading - bent)
        way[:bent] = way[bent] + step * np.arange(bent, 0, -1)[:, None]
    return straight


def _normals(line: Grid) -> Grid:
    along = np.gradient(line, axis=0)
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-9)
    return np.column_stack([-along[:, 1], along[:, 0]])


def _sample(
    light: NDArray[np.float32], lie: CardInPhoto, line: Grid, reach: float, card: ScaleCard
) -> tuple[Grid, Grid, Grid]:  # fmt: skip
    """Brightness square to the line, weights, and steps in mm."""
    normal = _normals(line)
    pixel = 1 / float(np.median(lie.scale(line, normal)))
    steps = np.linspace(-reach, reach, 2 * math.ceil(reach / (0.5 * pixel)) + 1)
    points = line[:, None, :] + steps[None, :, None] * normal[:, None, :]
    profiles = sampled(light, lie.pixels(points))
    seen = np.isfinite(profiles) & ~_on_card(points, card)
    return np.where(seen, profiles, 0.0), seen.astype(np.float64), steps


def _on_card(points: Grid, card: ScaleCard) -> NDArray[np.bool_]:
    left, top, right, bottom = card.window_mm
    x, y = points[..., 0], points[..., 1]
    near = _TOUCH_MM
    on = (x > -near) & (x < card.width_mm + near) & (y > -near) & (y < card.height_mm + near)
    through = (x > left + near) & (x < right - near) & (y > top + near) & (y < bottom - near)
    return np.asarray(on & ~through)


def _middles(profiles: Grid, weight: Grid, steps: Grid) -> tuple[Grid, float]:
    """How far the darkness lies off the line at each point, and a rough width of it."""
    mean = (profiles * weight).sum(axis=1) / np.maximum(weight.sum(axis=1), 1)
    bright = np.percentile(np.where(weight > 0, profiles, mean[:, None]), 75, axis=1)
    soft = _running_mean(profiles * weight, 9) / np.maximum(_running_mean(weight, 9), 1e-6)
    dark = np.clip(1 - soft / np.maximum(bright, 1e-6)[:, None], 0, None) * weight
    core = dark * np.exp(-0.5 * (steps / max(0.4 * steps[-1], 0.8)) ** 2)
    peak = core.max(axis=1, keepdims=True)
    core = np.where(core > 0.5 * peak, core, 0)
    shift = (core * steps).sum(axis=1) / np.maximum(core.sum(axis=1), 1e-9)
    rough = np.median((core > 0).sum(axis=1)) * (steps[1] - steps[0])
    return shift, float(rough)


def _running_mean(rows: Grid, count: int) -> Grid:
    """Mean of neighboring rows."""
    count = min(count, len(rows))
    half = count // 2
    total = np.cumsum(np.concatenate([np.zeros((1, rows.shape[1])), rows]), axis=0)
    index = np.arange(len(rows))
    low, high = np.maximum(index - half, 0), np.minimum(index + half + 1, len(rows))
    return np.asarray((total[high] - total[low]) / (high - low)[:, None], dtype=np.float64)


def _running_median(values: Grid, count: int) -> Grid:
    half = count // 2
    padded = np.pad(values, half, mode="edge")
    return np.median(np.lib.stride_tricks.sliding_window_view(padded, count), axis=1)


def length_along(bands: Bands, clear: NDArray[np.bool_]) -> float:
    """Length of crack from the first clear station to the last, in mm."""
    kept = np.flatnonzero(clear)
    if len(kept) == 0:
        return 0.0
    return length_of(bands.places[kept[0] : kept[-1] + 1]) + STATION_MM
