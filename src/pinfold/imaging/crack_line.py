"""Finding a crack: the longest dark line beside the card, and the line down its middle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from pinfold.errors import InputError
from pinfold.imaging.card_in_photo import CardInPhoto
from pinfold.imaging.scale_card import ScaleCard

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]
    Picture = NDArray[np.float32]
    Mask = NDArray[np.bool_]

AROUND_MM = 40.0
"""How far beyond the card's edge a crack is looked for; farther out the card's scale says too little."""

SHORTEST_MM = 10.0
"""Shorter dark lines are not taken for a crack."""

_CELL_MM = 0.2
_EDGE_MM = 2.5
_CLOSE_MM = 7.0
_SPREADS_MM = (0.3, 0.6, 1.2)
_NEEDLE_MM = 5.0
_TURNS = 12
_TRIED = 4


@dataclass(frozen=True, kw_only=True, eq=False)
class FlatView:
    """The wall around the card as seen straight on, coarse, for finding things only.

    Attributes:
        darkness: how much darker than its surroundings each cell is, as a share of their brightness.
        valid: cells that show wall, not card and not what lies outside the photo.
        left_mm: place of the first column on the card's scale.
        top_mm: place of the first row.
    """

    darkness: Picture
    valid: Mask
    left_mm: float
    top_mm: float

    def places_mm(self, cells: Grid) -> Grid:
        """Places in mm of cells given as column and row, (n, 2)."""
        return np.asarray(cells * _CELL_MM + np.array([self.left_mm, self.top_mm]), dtype=np.float64)


def flat_view(light: Picture, lie: CardInPhoto, card: ScaleCard) -> FlatView:
    """The surroundings of the card laid flat."""
    import cv2

    left, top = -AROUND_MM, -AROUND_MM
    columns = round((card.width_mm + 2 * AROUND_MM) / _CELL_MM)
    rows = round((card.height_mm + 2 * AROUND_MM) / _CELL_MM)
    to_pixels = lie.to_pixels @ np.array([[_CELL_MM, 0, left], [0, _CELL_MM, top], [0, 0, 1.0]])
    shrink = max(1, int(_CELL_MM * _pixels_per_mm(lie, card)))
    small = cv2.resize(light, None, fx=1 / shrink, fy=1 / shrink, interpolation=cv2.INTER_AREA) if shrink > 1 else light
    half = (shrink - 1) / 2
    shift = np.array([[1 / shrink, 0, -half / shrink], [0, 1 / shrink, -half / shrink], [0, 0, 1.0]])
    way = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    flat = np.asarray(
        cv2.warpPerspective(small, shift @ to_pixels, (columns, rows), flags=way, borderValue=-1.0), dtype=np.float32
    )
    valid = _wall_cells(flat, card)
    return FlatView(darkness=_darkness(flat, valid), valid=valid, left_mm=left, top_mm=top)


def _pixels_per_mm(lie: CardInPhoto, card: ScaleCard) -> float:
    middle = np.array([[card.width_mm / 2, card.height_mm / 2]] * 2)
    return float(np.min(lie.scale(middle, np.eye(2))))


def _wall_cells(flat: Picture, card: ScaleCard) -> Mask:
    import cv2

    seen = (flat > 0).astype(np.uint8)
    kernel = np.ones((2 * round(_EDGE_MM / _CELL_MM) + 1,) * 2, np.uint8)
    valid = cv2.erode(seen, kernel, borderValue=0) > 0
    _rectangle(valid, -_EDGE_MM, -_EDGE_MM, card.width_mm + _EDGE_MM, card.height_mm + _EDGE_MM)[:] = False
    left, top, right, bottom = card.window_mm
    window = slice_of(left + _EDGE_MM, top + _EDGE_MM, right - _EDGE_MM, bottom - _EDGE_MM)
    valid[window] = flat[window] > 0
    return valid


def slice_of(left: float, top: float, right: float, bottom: float) -> tuple[slice, slice]:
    """Rows and columns of the flat view that a rectangle in mm covers."""
    columns = slice(round((left + AROUND_MM) / _CELL_MM), round((right + AROUND_MM) / _CELL_MM))
    rows = slice(round((top + AROUND_MM) / _CELL_MM), round((bottom + AROUND_MM) / _CELL_MM))
    return rows, columns


def _rectangle(mask: Mask, left: float, top: float, right: float, bottom: float) -> Mask:
    return mask[slice_of(left, top, right, bottom)]


def _darkness(flat: Picture, valid: Mask) -> Picture:
    """Share by which each cell is darker than a surface laid over the wall's bright parts; shadows' edges stay flat."""
    import cv2

    share = valid.astype(np.float32)
    size = (0, 0)
    near = cv2.GaussianBlur(np.where(valid, flat, 0).astype(np.float32), size, 3.0 / _CELL_MM)
    weight = cv2.GaussianBlur(share, size, 3.0 / _CELL_MM)
    filled = np.where(valid, flat, near / np.maximum(weight, 1e-3)).astype(np.float32)
    soft = cv2.GaussianBlur(filled, size, 0.5 / _CELL_MM)
    side = 2 * round(_CLOSE_MM / _CELL_MM / 2) + 1
    ground = cv2.morphologyEx(soft, cv2.MORPH_CLOSE, cv2.getStructuringElement(cv2.MORPH_RECT, (side, side)))
    dark = 1 - filled / np.maximum(ground, 1e-3)
    return np.where(valid, np.clip(dark, -0.2, 1.0), 0.0).astype(np.float32)


def line_response(view: FlatView) -> Picture:
    """How much each cell looks like part of a dark line: ridge filters at three widths, summed along needles."""
    import cv2

    best = np.zeros_like(view.darkness)
    for spread in _SPREADS_MM:
        size = spread / _CELL_MM
        soft = cv2.GaussianBlur(view.darkness, (0, 0), size)
        xx, yy = cv2.Sobel(soft, cv2.CV_32F, 2, 0, ksize=3), cv2.Sobel(soft, cv2.CV_32F, 0, 2, ksize=3)
        xy = cv2.Sobel(soft, cv2.CV_32F, 1, 1, ksize=3)
        half, differ = (xx + yy) / 2, np.sqrt(((xx - yy) / 2) ** 2 + xy**2)
        ridge = np.clip(differ - half, 0, None) - np.abs(differ + half)
        np.maximum(best, np.clip(ridge, 0, None) * (size**2 / 4), out=best)
    best[~view.valid] = 0
    long = np.zeros_like(best)
    for turn in range(_TURNS):
        np.maximum(long, cv2.filter2D(best, -1, _needle(math.pi * turn / _TURNS)), out=long)
    return np.where(view.valid, np.sqrt(best * long), 0).astype(np.float32)


def _needle(angle: float) -> Picture:
    import cv2

    half = round(_NEEDLE_MM / _CELL_MM / 2)
    kernel = np.zeros((2 * half + 1,) * 2, np.float32)
    tip = (half + round(half * math.cos(angle)), half + round(half * math.sin(angle)))
    cv2.line(kernel, (2 * half - tip[0], 2 * half - tip[1]), tip, 1.0)
    return np.asarray(kernel / kernel.sum(), dtype=np.float32)


def crack_line(view: FlatView) -> Grid:
    """The middle line of the clearest crack, in mm on the card's scale, (n, 2), one point per cell.

    Raises:
        InputError: no dark line long and clear enough.
    """
    response = line_response(view)
    wall = response[view.valid]
    if wall.size * _CELL_MM**2 < 100:
        raise InputError("the picture shows hardly any wall beside the scale card; step back a little")
    usual = float(np.median(wall))
    spread = 1.4826 * float(np.median(np.abs(wall - usual)))
    lines = [
        _line_through(response, cells) for cells in _groups(response, low=usual + 3 * spread, high=usual + 9 * spread)
    ]
    lines = [line for line in lines if length_of(view.places_mm(line)) >= SHORTEST_MM]
    if not lines:
        raise InputError(
            "no crack was found beside the scale card or in its window; a crack must show as a dark line"
            f" at least {SHORTEST_MM:.0f} mm long, so go nearer, and light it evenly"
        )
    clearest = max(lines, key=lambda line: float(_along(response, line).sum()))
    return view.places_mm(clearest)


def length_of(points: Grid) -> float:
    """Length of a line through points, (n, 2)."""
    return float(np.sum(np.linalg.norm(np.diff(points, axis=0), axis=1)))


def _along(response: Picture, line: Grid) -> Picture:
    cells = line.astype(int)
    return np.asarray(response[cells[:, 1], cells[:, 0]], dtype=np.float32)


def _groups(response: Picture, *, low: float, high: float) -> list[Mask]:
    """Joined cells above a low bar that somewhere pass a high one, the strongest few first."""
    import cv2

    above = response > low
    wide = cv2.dilate(above.astype(np.uint8), np.ones((5, 5), np.uint8))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(wide, connectivity=8)
    across = np.hypot(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT]) * _CELL_MM
    strength = np.bincount(labels.ravel(), weights=np.where(response > high, response, 0).ravel(), minlength=count)
    strength[0] = 0
    order = [index for index in np.argsort(-strength) if strength[index] > 0 and across[index] >= 0.7 * SHORTEST_MM]
    return [labels == index for index in order[:_TRIED]]


def _line_through(response: Picture, cells: Mask) -> Grid:
    """The cheapest way between the two ends of a group of cells that lie farthest apart."""
    from scipy.sparse.csgraph import dijkstra

    rows, columns = np.nonzero(cells)
    number = np.full(cells.shape, -1)
    number[rows, columns] = np.arange(len(rows))
    cost = 1.0 / (response[rows, columns] + 0.02 * float(response[cells].max()))
    lengths = _joined(number, None)
    first = int(np.argmax(response[rows, columns]))
    one = int(np.argmax(_reached(dijkstra(lengths, indices=first))))
    other = int(np.argmax(_reached(dijkstra(lengths, indices=one))))
    _, before = dijkstra(_joined(number, cost), indices=one, return_predecessors=True)
    way = [other]
    while way[-1] != one:
        way.append(int(before[way[-1]]))
    return np.column_stack([columns[way], rows[way]]).astype(np.float64)


def _reached(distances: Grid) -> Grid:
    return np.where(np.isfinite(distances), distances, -1)


def _joined(number: NDArray[np.int_], cost: Picture | None):  # type: ignore[no-untyped-def]
    """The graph of neighboring cells as a sparse matrix: lengths, or lengths times the cost of both cells."""
    from scipy.sparse import coo_matrix

    starts, ends, weights = [], [], []
    for down, right in ((0, 1), (1, 0), (1, 1), (1, -1)):
        here = number[: number.shape[0] - down, max(0, -right) : number.shape[1] - max(0, right)]
        there = number[down:, max(0, right) : number.shape[1] + min(0, right)]
        both = (here >= 0) & (there >= 0)
        start, end = here[both], there[both]
        length = np.full(len(start), math.hypot(down, right))
        starts.append(start)
        ends.append(end)
        weights.append(length if cost is None else length * (cost[start] + cost[end]) / 2)
    start, end, weight = np.concatenate(starts), np.concatenate(ends), np.concatenate(weights)
    size = int(number.max()) + 1
    return coo_matrix(
        (np.tile(weight, 2), (np.concatenate([start, end]), np.concatenate([end, start]))), shape=(size, size)
    ).tocsr()
