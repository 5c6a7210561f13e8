"""Finding the scale card in a photo: where it lies, how large, how oblique, how sharp, how well lit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pinfold.errors import InputError
from pinfold.imaging.scale_card import CardMarker, ScaleCard
from pinfold.units import Radian

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]

_SAMPLES = 121
_ALONG_SIDE = np.linspace(0.18, 0.82, 11)
_BESIDE_MM = 1.6


@dataclass(frozen=True, kw_only=True, eq=False)
class CardInPhoto:
    """The card as it lies in one photo.

    Attributes:
        to_pixels: homography from mm on the card to pixels of the photo.
        misfit_mm: how far marker corners lie from where a flat card would have them, root mean square.
        blur_across: spread of edges that face along the card's width, as standard deviation in pixels.
        blur_down: the same for edges that face along its height.
        blur_doubt: how far the blur differs from marker to marker, as a share.
        halo: how far edges overshoot black and paper, as a share of the step between them; phones sharpen so.
        black: brightness of the printed black over that of the paper, in linear light.
        paper: brightness of the paper, in linear light, full white 1.
    """

    to_pixels: Grid
    misfit_mm: float
    blur_across: float
    blur_down: float
    blur_doubt: float
    halo: float
    black: float
    paper: float

    def pixels(self, points_mm: Grid) -> Grid:
        """Pixels of points in mm, (n, 2)."""
        ones = np.ones((*points_mm.shape[:-1], 1))
        carried = np.concatenate([points_mm, ones], axis=-1) @ self.to_pixels.T
        return np.asarray(carried[..., :2] / carried[..., 2:], dtype=np.float64)

    def scale(self, points_mm: Grid, directions: Grid) -> Grid:
        """Pixels per mm at points, (n, 2), along unit directions, (n, 2)."""
        step = 0.05
        ahead, behind = self.pixels(points_mm + directions * step), self.pixels(points_mm - directions * step)
        return np.asarray(np.linalg.norm(ahead - behind, axis=-1) / (2 * step), dtype=np.float64)

    def blur_mm(self, points_mm: Grid, directions: Grid) -> Grid:
        """Spread of the blur at points along unit directions, in mm."""
        spread = np.hypot(directions[:, 0] * self.blur_across, directions[:, 1] * self.blur_down)
        return np.asarray(spread / self.scale(points_mm, directions), dtype=np.float64)

    def tilt(self, middle_mm: tuple[float, float]) -> Radian:
        """Angle between the camera's view and straight on, judged by how the middle of the card is squeezed."""
        x, y = middle_mm
        here = np.array([[x, y], [x + 0.1, y], [x, y + 0.1]])
        at, right, down = self.pixels(here)
        sizes = np.linalg.svd(np.column_stack([right - at, down - at]), compute_uv=False)
        return math.acos(min(1.0, float(sizes[1] / sizes[0])))


def markers_in(gray: NDArray[np.uint8], card: ScaleCard) -> Grid:
    """Corners of the four markers in pixels, (4, 4, 2), in the card's order.

    Raises:
        InputError: markers hidden, or seen twice.
    """
    import cv2

    parameters = cv2.aruco.DetectorParameters()
    parameters.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    corners, numbers, _ = cv2.aruco.ArucoDetector(dictionary, parameters).detectMarkers(gray)
    seen: dict[int, list[Grid]] = {}
    for number, quad in zip([] if numbers is None else np.ravel(numbers), corners, strict=True):
        seen.setdefault(int(number), []).append(np.asarray(quad, dtype=np.float64).reshape(4, 2))
    _refuse_hidden([marker for marker in card.markers if marker.number not in seen], card)
    if any(len(seen[marker.number]) > 1 for marker in card.markers):
        raise InputError("more than one scale card is in the picture; keep one and take it again")
    return np.stack([seen[marker.number][0] for marker in card.markers])


def _refuse_hidden(hidden: Sequence[CardMarker], card: ScaleCard) -> None:
    if not hidden:
        return
    if len(hidden) == len(card.markers):
        raise InputError(
            "no scale card was found; lay the printed card flat beside the crack, go near and hold still"
            " so that all four black squares are whole and sharp"
        )
    places = " and ".join(f"the {marker.place} one" for marker in hidden)
    raise InputError(
        f"only {len(card.markers) - len(hidden)} of the 4 black squares of the scale card can be read,"
        f" {places} cannot; keep all four in the picture, uncovered, evenly lit and sharp"
    )


def card_in(light: NDArray[np.float32], corners: Grid, card: ScaleCard) -> CardInPhoto:
    """How the card lies in a photo.

    Args:
        light: the photo in linear light, full white 1.
        corners: of its markers in pixels, (4, 4, 2).
        card: which card it is.
    """
    import cv2

    flat = np.array([card.corners_mm(marker) for marker in card.markers])
    corners = np.stack([_straightened(light, quad, card.marker_mm) for quad in corners])
    to_pixels, _ = cv2.findHomography(flat.reshape(-1, 2), corners.reshape(-1, 2), 0)
    there = cv2.perspectiveTransform(corners.reshape(1, -1, 2), np.linalg.inv(to_pixels))
    misfit = float(np.sqrt(np.mean(np.sum((there.reshape(-1, 2) - flat.reshape(-1, 2)) ** 2, axis=1))))
    edges = [_edges_of(light, quad, card.marker_mm) for quad in corners]
    across = np.array([edge.across for edge in edges])
    down = np.array([edge.down for edge in edges])
    black = np.array([edge.black for edge in edges])
    paper = np.array([edge.paper for edge in edges])
    return CardInPhoto(
        to_pixels=np.asarray(to_pixels, dtype=np.float64),
        misfit_mm=misfit,
        blur_across=float(np.median(across)),
        blur_down=float(np.median(down)),
        blur_doubt=float(np.hypot(np.std(across) / np.mean(across), np.std(down) / np.mean(down)) / math.sqrt(2)),
        halo=float(np.median([edge.halo for edge in edges])),
        black=float(np.median(black / paper)),
        paper=float(np.median(paper)),
    )


@dataclass(frozen=True, kw_only=True)
class _Edges:
    across: float
    down: float
    halo: float
    black: float
    paper: float


def _edges_of(light: NDArray[np.float32], quad: Grid, marker_mm: float) -> _Edges:
    sides = [_side(light, quad, index, marker_mm) for index in range(4)]
    (above, _), (right, _), (below, _), (left, _) = spreads = [_spread_of(side.rise, side.steps) for side in sides]
    return _Edges(
        across=(right + left) / 2,
        down=(above + below) / 2,
        halo=float(np.mean([halo for _, halo in spreads])),
        black=float(np.mean([side.black for side in sides])),
        paper=float(np.mean([side.paper for side in sides])),
    )


@dataclass(frozen=True, kw_only=True, eq=False)
class _Side:
    """Brightness across one side of a marker: 0 the black, 1 the paper, (n, m)."""

    rise: Grid
    steps: Grid
    feet: Grid
    outward: Grid
    black: float
    paper: float


def _side(light: NDArray[np.float32], quad: Grid, index: int, marker_mm: float) -> _Side:
    """One side of a marker, sampled square to it."""
    start, end = quad[index], quad[(index + 1) % 4]
    along = (end - start) / np.linalg.norm(end - start)
    outward = np.array([along[1], -along[0]])
    if outward @ (start - quad.mean(axis=0)) < 0:
        outward = -outward
    reach = _BESIDE_MM * float(np.sqrt(abs(_area(quad)))) / marker_mm
    steps = np.linspace(-reach, reach, _SAMPLES)
    feet = start + _ALONG_SIDE[:, None] * (end - start)
    profiles = sampled(light, feet[:, None, :] + steps[None, :, None] * outward)
    tail = _SAMPLES // 8
    black, paper = np.median(profiles[:, :tail], axis=1), np.median(profiles[:, -tail:], axis=1)
    return _Side(
        rise=(profiles - black[:, None]) / np.maximum(paper - black, 1e-3)[:, None],
        steps=steps,
        feet=feet,
        outward=outward,
        black=float(np.median(black)),
        paper=float(np.median(paper)),
    )


def _straightened(light: NDArray[np.float32], quad: Grid, marker_mm: float) -> Grid:
    """Corners of a marker where straight lines through its sides meet; as they were where a side is not to be seen."""
    lines = []
    for index in range(4):
        side = _side(light, quad, index, marker_mm)
        shift = np.array([_crossing(row, side.steps, 0.5) for row in side.rise])
        seen = np.isfinite(shift)
        if np.count_nonzero(seen) < 5:
            return quad
        shift = np.where(seen, shift, np.median(shift[seen]))
        seen &= np.abs(shift - np.median(shift)) < 0.25 * side.steps[-1]
        points = (side.feet + shift[:, None] * side.outward)[seen]
        middle = points.mean(axis=0)
        lines.append((middle, np.linalg.svd(points - middle)[2][0]))
    met = [_meeting(*lines[index - 1], *lines[index]) for index in range(4)]
    return np.array(met)


def _meeting(one: Grid, along_one: Grid, other: Grid, along_other: Grid) -> Grid:
    share = np.linalg.solve(np.column_stack([along_one, -along_other]), other - one)
    return np.asarray(one + share[0] * along_one, dtype=np.float64)


def _spread_of(rise: Grid, steps: Grid) -> tuple[float, float]:
    """Standard deviation of the blur behind rising edges, in the unit of the steps, and how far they overshoot."""
    middles = np.array([_crossing(row, steps, 0.5) for row in rise])
    shifted = np.array([
        np.interp(steps + middle, steps, row) for row, middle in zip(rise, middles, strict=True) if np.isfinite(middle)
    ])  # fmt: skip
    if len(shifted) == 0:
        return float(steps[-1]), 0.0
    mean = np.median(shifted, axis=0)
    low, high = _crossing(mean, steps, 0.1587), _crossing(mean, steps, 0.8413)
    halo = max(float(mean.max()) - 1, 0.0) + max(-float(mean.min()), 0.0)
    return (max((high - low) / 2, 0.0) if np.isfinite(high - low) else float(steps[-1])), halo


def _crossing(row: Grid, steps: Grid, level: float) -> float:
    """Where a rising row last passes a level before it first stays above; NaN when it never does."""
    above = np.flatnonzero((row[1:] >= level) & (row[:-1] < level))
    if len(above) == 0:
        return math.nan
    index = above[np.argmin(np.abs(steps[above]))]
    share = (level - row[index]) / (row[index + 1] - row[index])
    return float(steps[index] + share * (steps[index + 1] - steps[index]))


def _area(quad: Grid) -> float:
    x, y = quad[:, 0], quad[:, 1]
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


def sampled(light: NDArray[np.float32], points: Grid) -> Grid:
    """Brightness at points in pixels, (..., 2), between pixels by cubic; NaN outside the photo."""
    import cv2

    flat = points.reshape(-1, points.shape[-2], 2).astype(np.float32)
    found = cv2.remap(
        light, flat[..., 0], flat[..., 1], cv2.INTER_CUBIC, borderMode=cv2.BORDER_CONSTANT, borderValue=math.nan
    )
    return np.asarray(found, dtype=np.float64).reshape(points.shape[:-1])
