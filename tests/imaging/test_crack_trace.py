"""What was traced of a crack: where it lies, and how it is drawn over the photo."""

from __future__ import annotations

import base64
import re
from dataclasses import replace
from functools import cache
from io import BytesIO
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from imaging.wall_photos import Wall, photo_of, true_middle, true_width
from pinfold.errors import InputError
from pinfold.imaging.crack_photo import measured_crack
from pinfold.imaging.crack_picture import flat_picture
from pinfold.reports.crack_trace import LEGEND, lips, traced
from pinfold.units import System

SMALL = Wall(across=1150, down=900, view=132.0, width=0.6)
WALLS = (
    SMALL, replace(SMALL, wander=1.0, seed=4), replace(SMALL, place="beside", tilt=20.0, width=0.9),
    replace(SMALL, tilt=30.0, turn=100.0, shade=0.5), replace(SMALL, width=0.25, grain=0.015, wall=0.6),
    replace(SMALL, width=2.5, wander=0.4),
)  # fmt: skip
NAMES = ("usual", "wandering", "beside the card", "aslant", "fine", "wide")


@cache
def seen(wall):
    raw = photo_of(wall)
    return raw, measured_crack(raw)


def middles(profile):
    return 1e3 * np.array([(at.x, at.y) for at in profile.widths])


def true_line(wall):
    return true_middle(wall, np.linspace(-45, 45, 9001))


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_what_was_traced_lies_on_the_crack(wall):
    _, said = seen(wall)
    off = np.linalg.norm(middles(said)[:, None] - true_line(wall)[None], axis=2).min(axis=1)

    assert np.median(off) < 0.05
    assert off.max() < 0.1


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_it_runs_the_way_the_crack_runs(wall):
    _, said = seen(wall)
    line = true_line(wall)
    nearest = np.linalg.norm(middles(said)[:, None] - line[None], axis=2).argmin(axis=1)
    way = line[np.minimum(nearest + 5, len(line) - 1)] - line[np.maximum(nearest - 5, 0)]
    turns = np.array([at.turn for at in said.widths])
    apart = np.abs(np.tan(np.arctan2(way[:, 1], way[:, 0]) - turns))

    assert apart[4:-4].max() < 0.06
    assert apart.max() < 0.3


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_its_ends_are_as_wide_as_the_rest(wall):
    _, said = seen(wall)
    widths = np.array([at.width for at in said.widths])
    rest = np.abs(widths[3:-3] / said.median - 1).max()

    assert np.abs(widths[[1, 2, -3, -2]] / said.median - 1).max() < max(0.06, 1.5 * rest)


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_the_lips_are_a_width_apart_with_the_middle_between_them(wall):
    _, said = seen(wall)
    for at in said.widths:
        one, other = map(np.array, lips(at))

        assert np.linalg.norm(other - one) == pytest.approx(1e3 * at.width)
        assert (one + other) / 2 == pytest.approx((1e3 * at.x, 1e3 * at.y))


def test_the_widest_reading_is_at_the_wide_end_of_a_taper():
    wall = replace(SMALL, width=1.0, taper=0.8, wander=0.3, turn=90.0)
    _, said = seen(wall)

    assert 1e3 * said.widest.width == pytest.approx(true_width(wall, np.array(12.0)), rel=0.1)
    assert np.linalg.norm(middles(said) - (1e3 * said.widest.x, 1e3 * said.widest.y), axis=1).argmin() in {
        1, 2, 3, len(said.widths) - 4, len(said.widths) - 3, len(said.widths) - 2,
    }  # fmt: skip


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_the_flat_picture_is_dark_where_the_crack_was_traced_and_bright_beside_it(wall):
    raw, said = seen(wall)
    view = flat_picture(raw, said)
    gray = np.asarray(Image.open(BytesIO(view.jpeg)).convert("L"), dtype=float)
    scale = gray.shape[1] / view.width

    def at(place):
        column, row = int((place[0] / 1e3 - view.left) * scale), int((place[1] / 1e3 - view.top) * scale)
        return gray[row, column]

    for each in said.widths[2:-2]:
        one, other = map(np.array, lips(each))
        off = (other - one) / np.linalg.norm(other - one) * 1.2
        assert at((one + other) / 2) < min(at(one - off), at(other + off)) - 5


def test_the_flat_picture_is_true_to_scale_and_has_room_around_the_crack():
    raw, said = seen(SMALL)
    view = flat_picture(raw, said)
    wide, high = Image.open(BytesIO(view.jpeg)).size
    low, top = middles(said).min(axis=0), middles(said).max(axis=0)

    assert wide / view.width == pytest.approx(high / view.height, rel=0.01)
    assert max(wide, high) <= 1000
    assert view.left < low[0] / 1e3 - 0.005
    assert view.left + view.width > top[0] / 1e3 + 0.005
    assert view.top < low[1] / 1e3 - 0.005
    assert view.top + view.height > top[1] / 1e3 + 0.005


def test_another_photo_has_no_flat_picture():
    _, said = seen(SMALL)
    blank = BytesIO()
    Image.new("RGB", (800, 600), "gray").save(blank, "JPEG")
    with pytest.raises(InputError, match="no scale card"):
        flat_picture(blank.getvalue(), said)


def drawing(wall, system=System.METRIC):
    raw, said = seen(wall)
    view = flat_picture(raw, said)
    return said, view, ElementTree.fromstring(traced(said, view, system))


@pytest.mark.parametrize("wall", WALLS, ids=NAMES)
def test_the_strokes_end_at_the_lips_from_the_first_station_to_the_last(wall):
    said, _, svg = drawing(wall)
    casing, core = svg.findall(".//{*}path")
    ends = {(float(x), float(y)) for x, y in re.findall(r"M([-\d.]+) ([-\d.]+)l", core.get("d"))}
    every = {(round(x, 3), round(y, 3)) for at in said.widths for x, y in lips(at)}

    assert casing.get("d") == core.get("d")
    assert ends <= every
    for at in (said.widths[0], said.widths[-1]):
        assert {(round(x, 3), round(y, 3)) for x, y in lips(at)} <= ends


def test_the_ring_goes_around_the_widest_reading():
    said, _, svg = drawing(SMALL)
    x, y, radius = map(float, re.search(r"M([-\d.]+) ([-\d.]+)a([-\d.]+)", svg.find(".//{*}path").get("d")).groups())

    assert (x + radius, y) == pytest.approx((1e3 * said.widest.x, 1e3 * said.widest.y), abs=0.02)
    assert radius > 1e3 * said.widest.width / 2


def test_the_drawing_holds_its_picture_and_says_itself_in_words():
    _, view, svg = drawing(SMALL)
    picture = svg.find(".//{*}image")
    box = [float(each) for each in svg.get("viewBox").split()]

    assert base64.b64decode(picture.get("href").removeprefix("data:image/jpeg;base64,")) == view.jpeg
    assert [float(picture.get(key)) for key in ("x", "y", "width", "height")] == box
    assert svg.get("role") == "img"
    assert svg.get("aria-label").startswith("The wall around the crack, with 29 mm of it traced from the")
    assert "10 mm" in LEGEND


def test_nothing_in_it_is_script_or_style_that_a_page_would_refuse():
    _, _, svg = drawing(SMALL)
    for part in svg.iter():
        assert not [key for key in part.attrib if key == "style" or key.startswith("on")]
        assert part.tag.rpartition("}")[2] in {"svg", "g", "image", "path"}


def test_in_a_plan_of_feet_and_inches_the_words_are_so_too():
    _, _, svg = drawing(SMALL, System.US)

    assert re.search(r'with 1( \d+/\d+)?"', svg.get("aria-label"))
