"""Cracks measured in rendered photos of known widths, and photos that are refused."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from io import BytesIO

import cv2
import numpy as np
import pytest
from PIL import Image

from imaging.wall_photos import Wall, crack_frame, photo_of, true_width
from pinfold.errors import InputError
from pinfold.imaging.card_in_photo import card_in, markers_in
from pinfold.imaging.crack_photo import linear_light, measured_crack
from pinfold.imaging.crack_records import PhotoBars
from pinfold.imaging.scale_card import CARD

SMALL = Wall(across=1150, down=900, view=132.0)
WIDTHS = (0.1, 0.2, 0.35, 0.6, 1.0, 1.8, 3.0)


def grid():
    """Walls of every width twice: straight, and aslant, soft, noisy and shaded; in the window and beside the card."""
    chance = np.random.default_rng(20)
    for index, width in enumerate(WIDTHS):
        for round_ in range(2):
            yield replace(
                SMALL,
                width=width,
                wander=float(chance.choice([0.0, 0.5, 1.0])),
                place="beside" if index % 2 == round_ else "window",
                turn=float(chance.uniform(55, 105)),
                tilt=((0.0, 25.0), (15.0, 35.0))[index % 2][round_],
                tilt_about=float(chance.uniform(0, 180)),
                blur=(0.8, 1.8)[round_] if width >= 0.2 else 0.8,
                noise=(0.004, 0.011)[round_],
                grain=float(chance.uniform(0.01, 0.05)) if width >= 0.2 else 0.02,
                wall=float(chance.uniform(0.32, 0.62)),
                crack=float(chance.uniform(0.02, 0.09)),
                ink=float(chance.uniform(0.03, 0.07)),
                shade=float(chance.uniform(0, 0.5)),
                shadow=round_ == 1,
                quality=int(chance.integers(82, 95)),
                gamma=float(chance.choice([0.0, 0.0, 2.4])),
                seed=int(chance.integers(1e6)),
            )


@pytest.fixture(scope="module")
def measured():
    """The grid, each wall with what its photo says."""
    walls = tuple(grid())
    with ThreadPoolExecutor(2) as both:
        return tuple(zip(walls, both.map(lambda wall: measured_crack(photo_of(wall)), walls), strict=True))


def test_the_true_width_lies_within_two_spreads_nine_times_in_ten_and_the_spread_is_no_excuse(measured):
    off = np.array([(said.median * 1e3 - wall.width) / (said.spread * 1e3) for wall, said in measured])

    assert np.mean(np.abs(off) <= 2) >= 0.9
    assert np.abs(off).max() < 4
    assert abs(off.mean()) < 0.8
    for wall, said in measured:
        assert said.spread < 0.1e-3
        if wall.width > 3 * said.blur * 1e3:
            assert said.median * 1e3 == pytest.approx(wall.width, rel=0.02 if wall.width >= 1.5 else 0.1)
            assert said.spread < (0.05 if wall.width >= 1 else 0.12) * said.median
        assert np.degrees(said.tilt) == pytest.approx(wall.tilt, abs=7)
        assert said.pixel * 1e3 == pytest.approx(wall.view / wall.across, rel=0.25)
        assert wall.blur * 0.8 < said.blur / said.pixel < wall.blur * 1.6 + 0.3
        if wall.place == "window" and abs(wall.turn - 90) < 20:
            assert said.length * 1e3 == pytest.approx(25.0, abs=5)


@pytest.mark.parametrize("taper", [0.5, 0.8])
def test_a_taper_is_followed_along_the_crack(taper):
    wall = replace(SMALL, width=1.0, taper=taper, wander=0.3, turn=90.0)
    said = measured_crack(photo_of(wall))
    along = np.array([at.along for at in said.widths]) * 1e3
    widths = np.array([at.width for at in said.widths]) * 1e3
    middle, direction, _ = crack_frame(wall)
    assert middle[1] == 37.0
    assert direction[1] == pytest.approx(1.0)
    slope, _ = np.polyfit(along, widths, 1)

    assert abs(slope) == pytest.approx(wall.width * taper / 30, rel=0.1)
    assert said.median * 1e3 == pytest.approx(wall.width, abs=0.05)
    assert said.largest * 1e3 == pytest.approx(true_width(wall, np.array(13.0)), rel=0.08)
    assert said.median < said.high <= said.largest * 1.05


@pytest.mark.parametrize(
    ("what", "more"),
    [
        ("a lens out of focus", {"lens": "disk", "blur": 1.4}),
        ("a hand that moved", {"lens": "shake", "blur": 1.6}),
        ("a phone that sharpens", {"sharpening": 0.8}),
        ("ragged lips", {"ragged": 0.08}),
        ("another tone curve", {"gamma": 1.9}),
    ],
)
def test_what_the_model_does_not_know_stays_within_three_spreads(what, more):
    for width in (0.25, 0.8):
        said = measured_crack(photo_of(replace(SMALL, width=width, seed=9, **more)))

        assert abs(said.median * 1e3 - width) < 3 * said.spread * 1e3, what
        assert said.median * 1e3 == pytest.approx(width, rel=0.15)


def test_bevelled_lips_count_by_the_light_they_swallow():
    """Lips half dark over 0.1 mm on either side count as half of that each."""
    said = measured_crack(photo_of(replace(SMALL, width=0.8, chamfer=0.1)))

    assert said.median * 1e3 == pytest.approx(0.9, abs=0.05)


def test_a_sharpening_phone_is_told():
    said = measured_crack(photo_of(replace(SMALL, width=0.8, sharpening=1.2)))

    assert any("sharpened" in note for note in said.notes)


def test_a_crack_finer_than_the_photo_shows_says_what_its_width_rests_on():
    said = measured_crack(photo_of(replace(SMALL, width=0.12, grain=0.015)))

    assert any("printed black" in note for note in said.notes)
    assert said.spread > 0.05 * said.median


def test_a_picture_held_sideways_measures_the_same():
    raw = photo_of(replace(SMALL, width=0.7))
    upright = measured_crack(raw)
    exif = Image.Exif()
    exif[0x0112] = 6
    out = BytesIO()
    Image.open(BytesIO(raw)).transpose(Image.Transpose.ROTATE_90).save(out, "PNG", exif=exif)
    turned = measured_crack(out.getvalue())

    assert turned.median == pytest.approx(upright.median, rel=0.01)


def test_the_same_photo_says_the_same_twice():
    raw = photo_of(replace(SMALL, width=0.4))

    assert measured_crack(raw) == measured_crack(raw)


def refused(wall, words, **more):
    with pytest.raises(InputError, match=words):
        measured_crack(wall if isinstance(wall, bytes) else photo_of(wall), **more)


@pytest.mark.parametrize(
    ("index", "place"), [(0, "top left"), (1, "top right"), (2, "bottom right"), (3, "bottom left")]
)
def test_a_hidden_marker_is_named(index, place):
    refused(replace(SMALL, hidden=(index,)), f"only 3 of the 4 .* the {place} one")


def test_all_hidden_markers_are_named():
    refused(replace(SMALL, hidden=(0, 2)), "only 2 of the 4 .* top left one and the bottom right one")


def test_a_picture_without_a_card_is_refused():
    refused(replace(SMALL, hidden=(0, 1, 2, 3)), "no scale card was found")


def test_two_cards_are_refused():
    one = Image.open(BytesIO(photo_of(SMALL)))
    both = Image.new("L", (one.width * 2, one.height))
    both.paste(one, (0, 0))
    both.paste(one, (one.width, 0))
    out = BytesIO()
    both.save(out, "JPEG")
    refused(out.getvalue(), "more than one scale card")


def test_a_blurred_picture_is_refused():
    refused(replace(SMALL, blur=3.3, grain=0.01), "too blurred")


def test_a_card_too_small_is_refused():
    refused(replace(SMALL, view=300.0), "too small in the picture, 3")


def test_a_picture_taken_aslant_is_refused():
    refused(replace(SMALL, tilt=57.0, view=140.0, blur=0.5), "aslant")


@pytest.mark.parametrize("more", [{"grain": 0.01}, {"grain": 0.07, "shadow": True}, {"grain": 0.05, "tilt": 25.0}])
def test_a_sound_wall_has_no_crack(more):
    refused(replace(SMALL, place="none", **more), "no crack was found")


def test_a_window_left_in_the_card_is_no_crack():
    refused(replace(SMALL, place="none", window_cut=False), "no crack was found")


def test_a_dark_picture_is_refused():
    refused(replace(SMALL, light=0.012), "too dark")


def test_a_burnt_out_picture_is_refused():
    refused(replace(SMALL, light=6.0), "burnt out")


def test_a_burnt_out_card_is_refused():
    refused(replace(SMALL, light=1.9, shade=0.0, wall=0.3), "burnt out")


def test_a_bent_card_is_refused():
    gray = np.array(Image.open(BytesIO(photo_of(replace(SMALL, width=1.0)))))
    y, x = np.mgrid[: gray.shape[0], : gray.shape[1]].astype(np.float32)
    bent = cv2.remap(
        gray, x, y + 14 * np.sin(x / gray.shape[1] * 9).astype(np.float32), cv2.INTER_LINEAR, borderValue=120
    )
    out = BytesIO()
    Image.fromarray(bent).save(out, "PNG")
    refused(out.getvalue(), "does not lie flat")


def test_a_file_that_is_no_picture_is_refused():
    refused(b"%PDF-1.7 and so on", "no picture")


def test_a_picture_of_too_many_pixels_is_refused_unopened():
    out = BytesIO()
    Image.new("1", (10_000, 6_001)).save(out, "PNG")
    refused(out.getvalue(), "million")


def test_the_bars_can_be_set():
    refused(replace(SMALL, width=0.5), "too small in the picture", bars=PhotoBars(least_scale=50.0))


def test_the_card_is_found_to_a_thirtieth_of_a_millimeter():
    wall = replace(SMALL, tilt=30.0)
    gray = np.array(Image.open(BytesIO(photo_of(wall))))
    corners = markers_in(gray, CARD)
    lie = card_in(linear_light(gray), corners, CARD)

    assert lie.misfit_mm < 0.03
    assert lie.black == pytest.approx(wall.ink / 0.82, abs=0.04)
