"""The wall around a measured crack as seen straight on, to draw upon what was traced."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np

from pinfold.imaging.card_in_photo import card_in, markers_in
from pinfold.imaging.crack_photo import linear_light
from pinfold.imaging.crack_records import CrackProfile
from pinfold.imaging.opening import opened, upright
from pinfold.imaging.scale_card import CARD, ScaleCard
from pinfold.units import Meter

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]

_AROUND_MM = 9.0
_LEAST_MM = 40.0
_LONGEST = 1000
"""Pixels of the longer side at most."""
_OUTSIDE = (128, 128, 128)
"""Where the photo shows nothing."""


@dataclass(frozen=True, kw_only=True)
class FlatPicture:
    """A part of a wall seen straight on, the scale card upright.

    Attributes:
        jpeg: the picture.
        left: of its left edge, to the right of the card's top left corner.
        top: of its upper edge, down from that corner.
        width: of the wall that it shows.
        height: likewise.
    """

    jpeg: bytes
    left: Meter
    top: Meter
    width: Meter
    height: Meter


def flat_picture(photo: bytes, profile: CrackProfile, *, card: ScaleCard = CARD) -> FlatPicture:
    """The wall around a crack, with room to see what else could have been taken for it.

    Args:
        photo: the one that the crack was measured in.
        profile: what was measured.
        card: which card it shows.

    Raises:
        InputError: it is another photo, without a whole card.
    """
    from PIL import Image

    image = upright(opened(photo), mode="RGB")
    gray = np.asarray(image.convert("L"))
    lie = card_in(linear_light(gray), markers_in(gray, card), card)
    left, top, right, bottom = _around(profile)
    scale = min(1e-3 / profile.pixel, _LONGEST / max(right - left, bottom - top))
    across, down = round(scale * (right - left)), round(scale * (bottom - top))
    flat = _laid_flat(np.asarray(image), lie.to_pixels, (left, top, right, bottom), (across, down))
    out = BytesIO()
    Image.fromarray(flat).save(out, "JPEG", quality=82, optimize=True)
    return FlatPicture(
        jpeg=out.getvalue(), left=left / 1e3, top=top / 1e3, width=(right - left) / 1e3, height=(bottom - top) / 1e3
    )  # fmt: skip


def _around(profile: CrackProfile) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the picture, in mm on the card's scale."""
    places = 1e3 * np.array([(at.x, at.y) for at in profile.widths])
    low, high = places.min(axis=0), places.max(axis=0)
    middle = (low + high) / 2
    half = np.maximum((high - low) / 2 + _AROUND_MM, _LEAST_MM / 2)
    (left, top), (right, bottom) = middle - half, middle + half
    return float(left), float(top), float(right), float(bottom)


def _laid_flat(
    photo: NDArray[np.uint8], to_pixels: Grid, box: tuple[float, float, float, float], size: tuple[int, int]
) -> NDArray[np.uint8]:
    """The photo over a box in mm, in so many pixels; drawn twice as fine first, so that nothing flickers."""
    import cv2

    left, top, right, bottom = box
    fine = (2 * size[0], 2 * size[1])
    cell = np.array([(right - left) / fine[0], (bottom - top) / fine[1]])
    to_mm = np.array([[cell[0], 0, left + cell[0] / 2], [0, cell[1], top + cell[1] / 2], [0, 0, 1.0]])
    way = cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    flat = cv2.warpPerspective(photo, to_pixels @ to_mm, fine, flags=way, borderValue=_OUTSIDE)
    return np.asarray(cv2.resize(flat, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)
