"""The scale card: its drawing is to size, and its markers are the dictionary's."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import cv2
import numpy as np

from pinfold.imaging.scale_card import CARD, CELLS, card_svg, marker_cells

SVG = "{http://www.w3.org/2000/svg}"


def drawn(pixels_per_mm=8):
    """The card's rectangles and marker paths, painted by a reader of our own."""
    root = ET.fromstring(card_svg())
    picture = np.full((round(CARD.height_mm * pixels_per_mm), round(CARD.width_mm * pixels_per_mm)), 255, np.uint8)

    def fill(x, y, width, height, color):
        edges = [round(edge * pixels_per_mm) for edge in (y, y + height, x, x + width)]
        picture[edges[0] : edges[1], edges[2] : edges[3]] = color

    for part in root:
        if part.tag == f"{SVG}rect" and part.get("fill") == "#000":
            fill(*(float(part.get(name)) for name in ("x", "y", "width", "height")), 0)
        if part.tag == f"{SVG}path" and part.get("fill") == "#fff":
            for x, y, width, height in re.findall(r"M([\d.]+) ([\d.]+)h([\d.]+)v([\d.]+)h-[\d.]+z", part.get("d")):
                fill(float(x), float(y), float(width), float(height), 255)
    return picture


def test_the_drawing_is_as_large_in_mm_as_it_says():
    root = ET.fromstring(card_svg())

    assert (root.get("width"), root.get("height")) == ("104mm", "74mm")
    assert root.get("viewBox") == "0 0 104 74"


def test_marker_middles_are_80_by_50_mm_apart():
    first, second, third, fourth = CARD.markers

    assert (second.x_mm - first.x_mm, third.y_mm - second.y_mm) == (80.0, 50.0)
    assert (third.x_mm - fourth.x_mm, fourth.y_mm - first.y_mm) == (80.0, 50.0)


def test_the_four_markers_are_found_in_the_drawing_where_the_record_has_them():
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    corners, numbers, _ = cv2.aruco.ArucoDetector(dictionary).detectMarkers(drawn())
    found = {int(number): quad.reshape(4, 2) / 8 for number, quad in zip(numbers.ravel(), corners, strict=True)}

    assert set(found) == {marker.number for marker in CARD.markers}
    for marker in CARD.markers:
        assert np.allclose(found[marker.number], CARD.corners_mm(marker), atol=0.15)


def test_markers_stay_apart_by_half_their_cells_even_when_turned():
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    for marker in CARD.markers:
        bits = np.array(marker_cells(marker.number), np.uint8)[1:-1, 1:-1]
        others = [dictionary.getDistanceToId(bits, other.number) for other in CARD.markers if other is not marker]

        assert dictionary.getDistanceToId(bits, marker.number) == 0
        assert min(others) >= 4


def test_a_marker_has_a_black_rim():
    for marker in CARD.markers:
        cells = np.array(marker_cells(marker.number))

        assert cells.shape == (CELLS, CELLS)
        assert not (cells[0].any())
        assert not (cells[-1].any())
        assert not (cells[:, 0].any())
        assert not (cells[:, -1].any())


def test_the_ruler_is_50_mm_and_the_words_say_so():
    text = card_svg()
    start, length = re.search(r'd="M([\d.]+) [\d.]+h([\d.]+)M', text).groups()

    assert (float(start), float(length)) == (CARD.ruler_mm[0], 50.0)
    for words in ("pinfold scale card", "print at 100 %", "measure the ruler: it must be 50 mm"):
        assert words in text


def test_nothing_is_printed_over_a_marker_or_its_white_rim_or_in_the_window():
    left, top, right, bottom = CARD.window_mm
    for marker in CARD.markers:
        half = CARD.marker_mm / 2 + CARD.marker_mm / CELLS
        assert not (
            left < marker.x_mm + half
            and right > marker.x_mm - half
            and top < marker.y_mm + half
            and bottom > marker.y_mm - half
        )
        assert marker.x_mm - half >= 0
        assert marker.x_mm + half <= CARD.width_mm
    for x, y in re.findall(r'<text x="([\d.]+)" y="([\d.]+)"', card_svg()):
        assert not (left < float(x) < right and top < float(y) < bottom)


def test_the_same_card_is_drawn_twice():
    assert card_svg() == card_svg()
