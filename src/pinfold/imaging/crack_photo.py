"""A crack measured in one photo: the width along it, and how far that can be trusted."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from pinfold.errors import InputError
from pinfold.imaging.card_in_photo import CardInPhoto, card_in, markers_in
from pinfold.imaging.crack_doubts import doubts_of, first_guess, fitted_twice, notes_of
from pinfold.imaging.crack_line import SHORTEST_MM, crack_line, flat_view
from pinfold.imaging.crack_records import CrackProfile, PhotoBars, WidthAt
from pinfold.imaging.crack_width import Bands, Fit, bands_across, length_along
from pinfold.imaging.opening import opened, upright
from pinfold.imaging.scale_card import CARD, ScaleCard

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]
    Light = NDArray[np.float32]


BARS = PhotoBars()
"""The bars that are used unless others are given."""

_PRINT_DOUBT = 0.005
_PIXEL_DOUBT = 0.04
_HALO_DOUBT = 1.6


def measured_crack(photo: bytes, *, card: ScaleCard = CARD, bars: PhotoBars = BARS) -> CrackProfile:
    """The width of the clearest crack in a photo that shows the scale card.

    Raises:
        InputError: no picture, no whole card, too small, too oblique, too dark, too bright, blurred, or no crack.
    """
    gray = np.asarray(upright(opened(photo, draft=("L", 1 << 20)), mode="L"))
    _refuse_light(gray)
    corners = markers_in(gray, card)
    light = linear_light(gray)
    lie = card_in(light, corners, card)
    scale = _refuse_lie(lie, card, bars)
    _refuse_paper(lie, gray, corners, bars)
    line = crack_line(flat_view(light, lie, card))
    bands = bands_across(light, lie, line, card)
    return _profile(bands, lie, card, scale)


def linear_light(gray: NDArray[np.uint8]) -> Light:
    """The picture in linear light, full white 1, by the curve that sRGB pictures are written with."""
    import cv2

    code = np.arange(256) / 255
    table = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4).astype(np.float32)
    return np.asarray(cv2.LUT(gray, table), dtype=np.float32)


def _refuse_light(gray: NDArray[np.uint8]) -> None:
    if float(np.percentile(gray, 95)) < 40:
        raise InputError("the picture is too dark; take it by daylight or with an even lamp")
    if float(np.mean(gray >= 254)) > 0.5:
        raise InputError("the picture is burnt out to white; take it out of the full sun or with less exposure")


def _refuse_lie(lie: CardInPhoto, card: ScaleCard, bars: PhotoBars) -> float:
    """Pixels per mm at the card, or a refusal."""
    middle = (card.width_mm / 2, card.height_mm / 2)
    tilt = lie.tilt(middle)
    if tilt > bars.most_tilt:
        raise InputError(
            f"the picture is taken {math.degrees(tilt):.0f}° aslant; stand straight before the wall,"
            f" within {math.degrees(bars.most_tilt):.0f}°"
        )
    turns = np.radians(np.arange(0, 180, 15))
    ways = np.column_stack([np.cos(turns), np.sin(turns)])
    scales = lie.scale(np.tile(np.array(middle), (len(ways), 1)), ways)
    scale = float(np.min(scales))
    if scale < bars.least_scale:
        raise InputError(
            f"the scale card is too small in the picture, {scale:.1f} pixels to a millimeter;"
            f" {bars.least_scale:.0f} are wanted, so go nearer until the card fills half the picture"
        )
    if lie.misfit_mm > bars.most_misfit * 1e3:
        raise InputError(
            f"the scale card does not lie flat, its squares are {lie.misfit_mm:.1f} mm out of place;"
            " press it to the wall, or glue it to stiff board"
        )
    blur = max(lie.blur_across, lie.blur_down) / scale
    if blur > bars.most_blur * 1e3:
        raise InputError(
            f"the picture is too blurred, edges are {2 * blur:.1f} mm soft; hold still, tap on the card to focus,"
            " and take it again"
        )
    return float(np.exp(np.mean(np.log(scales))))


def _refuse_paper(lie: CardInPhoto, gray: NDArray[np.uint8], corners: Grid, bars: PhotoBars) -> None:
    if lie.paper < bars.darkest_paper or lie.black > 0.5:
        raise InputError("the scale card is too dark in the picture; take it by daylight or with an even lamp")
    left, top = np.floor(corners.reshape(-1, 2).min(axis=0)).astype(int)
    right, bottom = np.ceil(corners.reshape(-1, 2).max(axis=0)).astype(int)
    within = gray[max(top, 0) : bottom + 1, max(left, 0) : right + 1]
    if float(np.mean(within >= 254)) > 0.25:
        raise InputError("the scale card is burnt out to white; take the picture out of the full sun, or less exposed")


def _profile(bands: Bands, lie: CardInPhoto, card: ScaleCard, scale: float) -> CrackProfile:
    first = first_guess(bands, lie)
    fit, guess = fitted_twice(bands, first)
    kept = np.flatnonzero(fit.clear)
    length = length_along(bands, fit.clear)
    if length < SHORTEST_MM or len(kept) < 0.5 * (kept[-1] - kept[0] + 1):
        raise InputError(
            "the dark line beside the scale card is too faint to be measured as a crack; go nearer, and light it evenly"
        )
    widths = fit.width[kept]
    traced = _traced(bands, fit, kept)
    calm = _of_three(widths)
    parts = doubts_of(bands, fit, first, lie, kept)
    parts["pixel"] = math.hypot(_PIXEL_DOUBT, _HALO_DOUBT * lie.halo) / scale
    parts["scale"] = float(np.median(widths)) * math.hypot(_PRINT_DOUBT, lie.misfit_mm / 40)
    return CrackProfile(
        widths=traced,
        median=float(np.median(widths)) / 1e3,
        largest=float(calm.max()) / 1e3,
        widest=traced[int(calm.argmax()) + (len(traced) - len(calm)) // 2],
        high=float(np.percentile(widths, 95)) / 1e3,
        length=length / 1e3,
        spread=math.sqrt(sum(part**2 for part in parts.values())) / 1e3,
        pixel=1e-3 / scale,
        blur=float(np.median(bands.blur[kept])) / 1e3,
        tilt=lie.tilt((card.width_mm / 2, card.height_mm / 2)),
        notes=notes_of(fit, bands, guess, kept, lie),
    )


def _traced(bands: Bands, fit: Fit, kept: NDArray[np.int_]) -> tuple[WidthAt, ...]:
    """The clear stations from one end of the crack to the other."""
    middles = bands.places + fit.center[:, None] * bands.across
    turns = np.arctan2(-bands.across[:, 0], bands.across[:, 1])
    return tuple(
        WidthAt(
            along=float(bands.along[index] - bands.along[kept[0]]) / 1e3,
            width=float(fit.width[index]) / 1e3,
            spread=float(fit.width_doubt[index]) / 1e3,
            x=float(middles[index, 0]) / 1e3,
            y=float(middles[index, 1]) / 1e3,
            turn=float(turns[index]),
        )
        for index in kept
    )


def _of_three(widths: Grid) -> Grid:
    if len(widths) < 3:
        return widths
    return np.median(np.lib.stride_tricks.sliding_window_view(widths, 3), axis=1)
