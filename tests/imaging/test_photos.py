"""Photos for the log: upright, small, without metadata; anything else refused in plain words."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from pinfold.errors import InputError
from pinfold.imaging.opening import MOST_PIXELS
from pinfold.imaging.photos import prepared_photo


def picture(width=60, height=40):
    """Red at the top left, green at the top right, blue below."""
    pixels = np.zeros((height, width, 3), np.uint8)
    pixels[: height // 2, : width // 2, 0] = 255
    pixels[: height // 2, width // 2 :, 1] = 255
    pixels[height // 2 :, :, 2] = 255
    return Image.fromarray(pixels)


def raw_of(image, kind="JPEG", **more):
    out = BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def exif(*, orientation=1, taken="2026:04:30 17:05:12", place=True):
    made = Image.Exif()
    made[0x0112] = orientation
    made[0x010F] = "a maker's name"
    made.get_ifd(0x8769).update({0x9003: taken, 0xA420: "0123456789abcdef"})
    if place:
        made.get_ifd(0x8825).update({1: "S", 2: (38.0, 30.0, 36.0), 3: "W", 4: (9.0, 15.0, 0.0)})
    return made


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_way_of_holding_the_phone_comes_out_upright(orientation):
    back = {1: None, 2: 0, 3: 3, 4: 1, 5: 5, 6: 2, 7: 6, 8: 4}
    ways = {None: None, 0: Image.Transpose.FLIP_LEFT_RIGHT, 1: Image.Transpose.FLIP_TOP_BOTTOM, 2: Image.Transpose.ROTATE_90, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.ROTATE_270, 5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.TRANSVERSE}  # fmt: skip
    way = ways[back[orientation]]
    held = picture() if way is None else picture().transpose(way)
    done = prepared_photo(raw_of(held, exif=exif(orientation=orientation), quality=95))
    got = Image.open(BytesIO(done.jpeg))

    assert (done.width, done.height) == got.size == (60, 40)
    assert np.argmax(got.getpixel((10, 8))) == 0
    assert np.argmax(got.getpixel((50, 8))) == 1
    assert np.argmax(got.getpixel((30, 32))) == 2


@pytest.mark.parametrize(("keep", "place"), [(True, False), (False, True)])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WebP"])
def test_no_metadata_stays_in_the_picture(kind, keep, place):
    """Unless a place is wished, and told."""
    raw = raw_of(picture(), kind, exif=exif(place=place), **({"comment": b"a secret"} if kind == "JPEG" else {}))
    done = prepared_photo(raw, keep_place=keep)
    got = Image.open(BytesIO(done.jpeg))

    assert dict(got.getexif()) == {}
    assert dict(got.getexif().get_ifd(0x8825)) == {}
    assert set(got.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert segments(done.jpeg) <= {0xE0, 0xDB, 0xC0, 0xC2, 0xC4, 0xDA}
    for secret in (b"Exif", b"maker", b"0123456789abcdef", b"secret", b"2026"):
        assert secret not in done.jpeg


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WebP"])
def test_a_place_that_is_wished_stays_in_the_picture_and_nothing_else_does(kind):
    done = prepared_photo(raw_of(picture(), kind, exif=exif(orientation=6)), keep_place=True)
    got = Image.open(BytesIO(done.jpeg)).getexif()

    assert set(got) == {0x8825}
    assert dict(got.get_ifd(0x8825)) == {1: "S", 2: (38.0, 30.0, 36.0), 3: "W", 4: (9.0, 15.0, 0.0)}
    assert segments(done.jpeg) <= {0xE0, 0xE1, 0xDB, 0xC0, 0xC2, 0xC4, 0xDA}
    for secret in (b"maker", b"0123456789abcdef", b"2026"):
        assert secret not in done.jpeg


@given(latitude=st.floats(-90, 90), longitude=st.floats(-180, 180))
def test_a_place_kept_is_the_same_when_read_again(latitude, longitude):
    made = Image.Exif()
    angles = {2: (abs(latitude), 0.0, 0.0), 4: (abs(longitude), 0.0, 0.0)}
    made.get_ifd(0x8825).update({1: "N" if latitude >= 0 else "S", 3: "E" if longitude >= 0 else "W", **angles})
    first = prepared_photo(raw_of(picture(), exif=made), keep_place=True)
    again = prepared_photo(first.jpeg, keep_place=True)

    if first.place is not None:
        assert first.place == pytest.approx((latitude, longitude), abs=1e-4)
        assert again.place is None or again.place == pytest.approx(first.place, abs=3e-7)


def segments(jpeg):
    """Marker bytes of a JPEG's segments up to its pixels."""
    found, at = set(), 2
    while jpeg[at + 1] != 0xDA:
        assert jpeg[at] == 0xFF
        found.add(jpeg[at + 1])
        at += 2 + struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
    return found


def test_the_place_is_told_only_when_asked_for():
    raw = raw_of(picture(), exif=exif())

    assert prepared_photo(raw).place is None
    assert prepared_photo(raw, keep_place=True).place == pytest.approx((-38.51, -9.25))
    assert prepared_photo(raw_of(picture(), exif=exif(place=False)), keep_place=True).place is None


def test_the_time_is_kept_as_the_camera_wrote_it():
    assert prepared_photo(raw_of(picture(), exif=exif())).taken == "2026-04-30T17:05:12"
    assert prepared_photo(raw_of(picture())).taken is None


@pytest.mark.parametrize(
    "written", ["0000:00:00 00:00:00", "2026:13:40 99:00:00", "yesterday", "", "2026:02:30 10:00:00"]
)
def test_a_time_that_is_none_is_left_out(written):
    assert prepared_photo(raw_of(picture(), exif=exif(taken=written))).taken is None


@pytest.mark.parametrize("told", [{2: (138.0, 0.0, 0.0)}, {2: (0.0, 0.0, 0.0), 4: (0.0, 0.0, 0.0)}])
def test_a_place_that_is_none_is_left_out(told):
    made = exif()
    made.get_ifd(0x8825).update(told)
    done = prepared_photo(raw_of(picture(), exif=made), keep_place=True)

    assert done.place is None
    assert dict(Image.open(BytesIO(done.jpeg)).getexif()) == {}


def test_large_pictures_shrink_and_small_ones_stay():
    large = prepared_photo(raw_of(picture(3000, 1500)))
    small = prepared_photo(raw_of(picture(300, 150)))

    assert (large.width, large.height) == (1600, 800)
    assert (small.width, small.height) == (300, 150)
    assert prepared_photo(raw_of(picture(3000, 1500)), longest=200).width == 200


def test_what_shows_through_becomes_white():
    clear = Image.new("RGBA", (20, 20), (255, 0, 0, 0))
    got = Image.open(BytesIO(prepared_photo(raw_of(clear, "PNG")).jpeg))

    assert min(got.getpixel((10, 10))) > 250


@pytest.mark.parametrize("mode", ["L", "LA", "P", "1", "I;16", "CMYK", "RGBA"])
def test_any_color_mode_is_taken(mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    image = Image.fromarray(np.full((20, 30), 500, np.uint16)) if mode == "I;16" else picture(30, 20).convert(mode)

    assert prepared_photo(raw_of(image, kind)).width == 30


def test_the_kind_is_known_by_its_bytes():
    with pytest.raises(InputError, match="no picture"):
        prepared_photo(b"GIF89a" + b"\x00" * 40)
    with pytest.raises(InputError, match="no picture"):
        prepared_photo(b"<svg xmlns='http://www.w3.org/2000/svg'/>")
    with pytest.raises(InputError, match="no picture"):
        prepared_photo(b"")


@pytest.mark.parametrize("brand", [b"heic", b"mif1", b"heix", b"avif"])
def test_heic_is_refused_with_what_to_do(brand):
    with pytest.raises(InputError, match="save JPEG"):
        prepared_photo(b"\x00\x00\x00\x18ftyp" + brand + b"\x00" * 30)


def bomb(width, height):
    """A PNG of few bytes that says it is huge."""

    def chunk(name, body):
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\x00" * 1000))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(("width", "height"), [(60_001, 1000), (30_000, 30_000), (2**31 - 1, 2**31 - 1)])
def test_a_bomb_is_refused_before_it_is_unpacked(width, height):
    assert width * height > MOST_PIXELS
    with pytest.raises(InputError, match="million"):
        prepared_photo(bomb(width, height))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WebP"])
def test_a_picture_cut_short_is_refused(kind):
    noise = Image.fromarray(np.random.default_rng(1).integers(0, 255, (200, 200, 3), dtype=np.uint8))
    raw = raw_of(noise, kind)
    for share in (0.01, 0.3, 0.7):
        with pytest.raises(InputError, match=r"damaged|no picture"):
            prepared_photo(raw[: max(12, int(len(raw) * share))])


GOOD = {kind: raw_of(picture(), kind, exif=exif()) for kind in ("JPEG", "PNG", "WebP")}


@given(
    kind=st.sampled_from(sorted(GOOD)), edits=st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 255)), max_size=8)
)
def test_damage_ends_in_a_picture_or_in_plain_words(kind, edits):
    raw = bytearray(GOOD[kind])
    for at, value in edits:
        raw[at % len(raw)] = value
    try:
        done = prepared_photo(bytes(raw), keep_place=True)
    except InputError:
        return
    assert done.jpeg[:2] == b"\xff\xd8"


def test_a_longest_side_of_nothing_is_refused():
    with pytest.raises(InputError):
        prepared_photo(raw_of(picture()), longest=0)
