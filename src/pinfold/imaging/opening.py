"""Opening a picture that came from outside: known by its bytes, never by its name, and never larger than allowed."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import TYPE_CHECKING

from pinfold.errors import InputError

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_PIXELS = 60_000_000
"""Pixels above which a picture is refused before it is unpacked."""

_ORIENTATION = 0x0112
_HEIC_BRANDS = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1", b"avif", b"avis")


def kind_of(raw: bytes) -> str:
    """What a file is, `JPEG`, `PNG` or `WebP`, by its first bytes.

    Raises:
        InputError: it is something else.
    """
    if raw[:3] == b"\xff\xd8\xff":
        return "JPEG"
    if raw[:8] == b"\x89PNG\r\n\x1a\n":
        return "PNG"
    if raw[:4] == b"RIFF" and raw[8:12] == b"WEBP":
        return "WebP"
    if raw[4:8] == b"ftyp" and raw[8:12] in _HEIC_BRANDS:
        raise InputError(
            "the picture is HEIC, which cannot be opened here; set the phone's camera to save JPEG"
            " (often called most compatible), or send the picture to yourself as JPEG"
        )
    raise InputError("the file is no picture that can be opened here; send a JPEG, PNG or WebP picture")


def opened(raw: bytes, *, draft: tuple[str, int] | None = None, most_pixels: int = MOST_PIXELS) -> Image:
    """A picture with its orientation still to be applied, its pixels not yet unpacked.

    Args:
        raw: the bytes of the file.
        draft: a mode and a size of the longest side that is enough, which lets a JPEG be unpacked faster.
        most_pixels: pixels above which it is refused.

    Raises:
        InputError: no picture, damaged, or too many pixels.
    """
    kind = kind_of(raw)
    try:
        image = _reader(kind)(BytesIO(raw))
    except Exception as fault:  # the readers raise many kinds for damaged files
        raise InputError(f"the {kind} picture is damaged and cannot be opened; take or send it again") from fault
    width, height = image.size
    if width * height > most_pixels:
        raise InputError(
            f"the picture has {width} x {height} pixels, more than {most_pixels / 1e6:.0f} million;"
            " send a smaller one, a phone's usual size is plenty"
        )
    if draft is not None:
        image.draft(draft[0], (draft[1], draft[1]))
    return image


def upright(image: Image, *, mode: str) -> Image:
    """The picture unpacked, turned as it was taken, in a mode such as `RGB` or `L`, with no word of metadata in it.

    Raises:
        InputError: its pixels are damaged or missing.
    """
    from PIL import Image as Pictures
    from PIL import ImageOps

    try:
        image.load()
        turned = ImageOps.exif_transpose(image)
        if turned.has_transparency_data:
            turned = turned.convert("RGBA")
            ground = Pictures.new("RGBA", turned.size, "white")
            turned = Pictures.alpha_composite(ground, turned)
        plain = turned.convert(mode)
    except Exception as fault:  # the readers raise many kinds for damaged files
        raise InputError("the picture is damaged or cut short; take or send it again") from fault
    plain.info.clear()
    return plain


def _reader(kind: str) -> Callable[[BytesIO], Image]:
    """The one reader for a kind: no other is ever tried, whatever the bytes say further on."""
    from PIL import JpegImagePlugin, PngImagePlugin, WebPImagePlugin

    readers: dict[str, Callable[[BytesIO], Image]] = {
        "JPEG": JpegImagePlugin.JpegImageFile,
        "PNG": PngImagePlugin.PngImageFile,
        "WebP": WebPImagePlugin.WebPImageFile,
    }
    return readers[kind]
