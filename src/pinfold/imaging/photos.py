"""Photos for the log: upright, small, and rid of all that phones write into them but a place that is wished."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING

from pinfold.errors import InputError
from pinfold.imaging.opening import opened, upright

if TYPE_CHECKING:
    from PIL.Image import Exif, Image

_CAMERA = 0x8769
_PLACE = 0x8825
_TAKEN = 0x9003
_CHANGED = 0x0132


@dataclass(frozen=True, kw_only=True)
class PreparedPhoto:
    """A photo ready to be kept.

    Attributes:
        jpeg: the picture as JPEG, without metadata but the place.
        width: pixels across.
        height: pixels down.
        taken: local time by the camera's clock, as `2026-04-30T17:05:12`; None when the camera wrote none.
        place: latitude and longitude in degrees, north and east positive, as the picture tells them too; None unless
            wished and written by the camera.
    """

    jpeg: bytes
    width: int
    height: int
    taken: str | None
    place: tuple[float, float] | None


def prepared_photo(raw: bytes, *, keep_place: bool = False, longest: int = 1600) -> PreparedPhoto:
    """A photo made upright, small and free of metadata, but for the place where that is wished.

    Args:
        raw: the bytes of a JPEG, PNG or WebP file, whatever its name.
        keep_place: whether the picture goes on telling where it was taken.
        longest: pixels of the longer side at most; smaller pictures keep their size.

    Raises:
        InputError: no picture, damaged, HEIC, or too many pixels.
    """
    if longest < 1:
        raise InputError(f"the longest side is {longest} pixels; it must be at least 1")
    image = opened(raw, draft=("RGB", longest))
    exif = _exif_of(image)
    picture = upright(image, mode="RGB")
    picture.thumbnail((longest, longest))
    place = _place(exif) if keep_place else None
    told = {"exif": _exif_with(place)} if place else {}
    out = BytesIO()
    picture.save(out, "JPEG", quality=85, optimize=True, **told)
    return PreparedPhoto(
        jpeg=out.getvalue(),
        width=picture.width,
        height=picture.height,
        taken=_taken(exif),
        place=place,
    )


def _exif_of(image: Image) -> Exif | None:
    try:
        return image.getexif()
    except Exception:  # damaged metadata never stops a good picture
        return None


def _part(exif: Exif | None, part: int) -> dict[int, object]:
    if exif is None:
        return {}
    try:
        return dict(exif.get_ifd(part))
    except Exception:  # damaged metadata never stops a good picture
        return {}


def _taken(exif: Exif | None) -> str | None:
    if exif is None:
        return None
    written = str(_part(exif, _CAMERA).get(_TAKEN) or exif.get(_CHANGED) or "")
    match = re.match(r"(\d{4})\D(\d\d)\D(\d\d)[ T](\d\d):(\d\d):(\d\d)", written)
    if match is None:
        return None
    year, month, day, hour, minute, second = match.groups()
    try:
        return datetime.fromisoformat(f"{year}-{month}-{day}T{hour}:{minute}:{second}").isoformat()
    except ValueError:
        return None


def _place(exif: Exif | None) -> tuple[float, float] | None:
    part = _part(exif, _PLACE)
    latitude = _degrees(part.get(2), part.get(1), negative="S", limit=90)
    longitude = _degrees(part.get(4), part.get(3), negative="W", limit=180)
    if latitude is None or longitude is None or latitude == longitude == 0:  # so write cameras that know no place
        return None
    return latitude, longitude


def _exif_with(place: tuple[float, float]) -> Exif:
    """What tells a place and nothing else."""
    from PIL import Image as Pictures

    exif = Pictures.Exif()
    latitude, longitude = place
    exif.get_ifd(_PLACE).update({
        1: "S" if latitude < 0 else "N", 2: _in_parts(abs(latitude)),
        3: "W" if longitude < 0 else "E", 4: _in_parts(abs(longitude)),
    })  # fmt: skip
    return exif


def _in_parts(angle: float) -> tuple[float, float, float]:
    """Degrees, minutes and seconds, the seconds to a thousandth: three centimeters on the ground."""
    thousandths = round(angle * 3_600_000)
    return float(thousandths // 3_600_000), float(thousandths // 60_000 % 60), thousandths % 60_000 / 1000


def _degrees(parts: object, side: object, *, negative: str, limit: float) -> float | None:
    if not isinstance(parts, tuple) or len(parts) != 3:
        return None
    try:
        degrees, minutes, seconds = (float(part) for part in parts)
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    angle = degrees + minutes / 60 + seconds / 3600
    if not 0 <= angle <= limit:  # also stops what is no number
        return None
    letter = side.decode("ascii", "replace") if isinstance(side, bytes) else str(side)
    return -angle if letter.strip("\x00 ").upper() == negative else angle
