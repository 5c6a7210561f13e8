"""The SVG writer: exact text, safe text, the same bytes, real millimeters, and something to see."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.drawings.hatching import STROKES_MOST, texture
from pinfold.drawings.scales import metric
from pinfold.drawings.scenes import (
    HATCHES,
    LAYERS,
    Arc,
    Area,
    Circle,
    Dimension,
    Label,
    NorthArrow,
    Polyline,
    ScaleBar,
    Scene,
    Shape,
    Tick,
)
from pinfold.drawings.sheets import sheet_of
from pinfold.drawings.styles import INKS, PAPER, STYLES, TEXTURES, TINTS, night_rules
from pinfold.drawings.svg import sheet_svg, to_svg
from pinfold.drawings.svg_shapes import number

SPACE = "{http://www.w3.org/2000/svg}"
SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 0.5), (0.0, 0.5))
EVERYTHING: tuple[Shape, ...] = (
    Area(layer="wall", points=SQUARE, hatch="block", holes=(((0.4, 0.1), (0.6, 0.1), (0.6, 0.3)),)),
    Polyline(layer="line", points=((-1, -1), (2, -1)), dashed=True),
    Circle(layer="bar", center=(0.5, 0.2), radius=0.01, filled=True),
    Arc(layer="swing", center=(0, 0), radius=0.5, start=0, end=math.pi / 2, dashed=True),
    Arc(layer="gate", center=(0, 0), radius=0.5, start=1, end=1),
    Label(at=(0.5, 0.5), text="coping\nof stone", reach=12),
    Label(at=(0, 0), text="south", turn=math.pi / 2, bold=True),
    Dimension(start=(0, 0), end=(1, 0), offset=-8, text="1.000 m"),
    Tick(layer="mark", at=(1, 1), turn=0.5),
    NorthArrow(turn=0.3, at=(2, 1)),
    NorthArrow(turn=0.3),
    ScaleBar(at=(0, -2)),
    ScaleBar(),
)


def scene(*shapes: Shape, title: str = "Trial", notes: tuple[str, ...] = ()) -> Scene:
    return Scene(name="trial", title=title, shapes=shapes, notes=notes)


def test_a_small_scene_gives_exactly_this_text():
    small = scene(
        Area(layer="wall", points=SQUARE, hatch="none"),
        Arc(layer="swing", center=(0, 0), radius=0.5, start=0, end=math.pi / 2),
        Label(at=(0.5, 0.5), text='"1 < 2"', anchor="above", movable=False),
        title="A < B & C",
    )
    assert to_svg(small, scale=metric(50), captioned=False) == (
        '<svg xmlns="http://www.w3.org/2000/svg" class="drawn" width="22mm" height="15.99mm" '
        'viewBox="0 0 22 15.99" role="img" aria-labelledby="trial-title trial-about" '
        'font-family="\'Atkinson Hyperlegible Next\', sans-serif" fill="none" stroke-linejoin="round">\n'
        '<title id="trial-title">A &lt; B &amp; C</title>\n'
        '<desc id="trial-about">Scale 1:50.</desc>\n'
        '<g id="trial-wall" class="layer-wall" stroke="#1f2326" stroke-width="0.4">\n'
        '<path d="M1 14.99L21 14.99L21 4.99L1 4.99Z"/>\n'
        "</g>\n"
        '<g id="trial-swing" class="layer-swing" stroke="#41603a" stroke-width="0.18" stroke-dasharray="1.5 1">\n'
        '<path d="M11 14.99A10 10 0 0 0 1 4.99"/>\n'
        "</g>\n"
        '<g id="trial-label-words" class="layer-label words inked" fill="#1f2326" stroke="#ffffff" '
        'stroke-width="0.7" paint-order="stroke">\n'
        '<text x="11" y="3.28" font-size="2.99" text-anchor="middle">"1 &lt; 2"</text>\n'
        "</g>\n"
        "</svg>\n"
    )


def test_everything_there_is_gives_well_formed_text_without_raw_numbers():
    text = to_svg(scene(*EVERYTHING, notes=("A note.",)))
    root = ElementTree.fromstring(text)
    assert root.tag == f"{SPACE}svg"
    assert not re.search(r"\d\.\d{3}|e-\d|nan|inf\b", re.sub(r">[^<]*<", "><", text))


def test_the_same_scene_gives_the_same_bytes_twice():
    assert to_svg(scene(*EVERYTHING)) == to_svg(scene(*EVERYTHING))


@given(st.text(max_size=20), st.text(max_size=20))
@settings(max_examples=60, deadline=None)
def test_any_text_a_person_types_comes_back_as_text(title, words):
    text = to_svg(scene(Label(at=(0, 0), text=words), title=title, notes=(words,)), room=(400, 4000))
    root = ElementTree.fromstring(text.encode("utf-8"))
    assert {child.tag for child in root.iter()} <= {f"{SPACE}{tag}" for tag in ("svg", "title", "desc", "g", "text")}


def test_markup_in_a_text_stays_text():
    text = to_svg(scene(Label(at=(0, 0), text='</text><script>x("&")</script>')))
    assert "<script" not in text
    assert "&lt;/text&gt;&lt;script&gt;" in text


def test_paper_is_in_real_millimeters_and_a_meter_at_its_scale():
    root = ElementTree.fromstring(to_svg(scene(Polyline(layer="wall", points=((0, 0), (1, 0)))), scale=metric(20)))
    width, high = root.attrib["width"], root.attrib["height"]
    assert root.attrib["viewBox"] == f"0 0 {width.removesuffix('mm')} {high.removesuffix('mm')}"
    numbers = [float(one) for one in re.findall(r"-?[\d.]+", root.findall(f".//{SPACE}path")[0].attrib["d"])]
    assert numbers[2] - numbers[0] == pytest.approx(1000 / 20, abs=0.011)


def test_up_in_the_scene_is_up_on_the_paper():
    drawn = to_svg(scene(Polyline(layer="wall", points=((0, 0), (0, 1)))), scale=metric(20), captioned=False)
    assert 'd="M1 51L1 1"' in drawn


def test_two_drawings_can_share_a_page():
    sheet = sheet_of(scene(*EVERYTHING))
    ids = [set(re.findall(r' id="([^"]+)"', sheet_svg(sheet, prefix=prefix))) for prefix in ("one", "two")]
    assert ids[0]
    assert not ids[0] & ids[1]


def test_a_drawing_says_what_it_is_to_who_cannot_see_it():
    root = ElementTree.fromstring(to_svg(Scene(name="a", title="South side", shapes=(), about="A wall of 30 m.")))
    assert root.attrib["role"] == "img"
    assert root.find(f"{SPACE}title").text == "South side"
    assert root.find(f"{SPACE}desc").text == "A wall of 30 m."
    assert root.attrib["aria-labelledby"].split() == [root[0].attrib["id"], root[1].attrib["id"]]


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.001, "0"), (138.00000000000003, "138"), (-1.5, "-1.5"), (1 / 3, "0.33"), (100.0, "100")],
)
def test_numbers_are_fixed_to_hundredths_without_idle_zeros(value, text):
    assert number(value) == text


@pytest.mark.parametrize("hatch", [hatch for hatch in HATCHES if hatch != "none"])
def test_texture_lines_lie_inside_their_area_and_out_of_its_holes(hatch):
    from shapely import LineString, Polygon  # the rival

    outer = ((0.0, 0.0), (40.0, 3.0), (30.0, 30.0), (14.0, 9.0), (2.0, 28.0))
    hole = ((20.0, 8.0), (30.0, 8.0), (28.0, 16.0))
    lines = texture((outer, hole), hatch)
    room = Polygon(outer, [hole]).buffer(1e-6)
    assert len(lines) > 20
    assert all(room.covers(LineString(line)) for line in lines)


def test_full_texture_lines_have_together_the_length_of_the_area_over_their_spacing():
    lines = texture((((0, 0), (50, 0), (50, 30), (0, 30)),), "block")
    (family,) = TEXTURES["block"]
    assert sum(math.dist(*line) for line in lines) == pytest.approx(50 * 30 / family.spacing, rel=0.01)


def test_a_texture_of_a_field_stays_small():
    field = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0))
    for hatch in HATCHES:
        assert len(texture((field,), hatch)) <= 1.2 * STROKES_MOST * max(len(TEXTURES[hatch]), 1)


def test_every_layer_has_a_style_and_every_hatch_a_tint_and_a_texture():
    assert set(STYLES) == set(LAYERS)
    assert set(TEXTURES) == set(HATCHES)
    assert set(TINTS) == set(HATCHES) - {"none"}


def _light(color: str) -> float:
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_light(one), _light(other)))
    return (high + 0.05) / (low + 0.05)


def test_every_ink_can_be_read_on_its_ground_by_day_and_by_night():
    for day, night in INKS.values():
        assert _contrast(day, PAPER[0]) >= 4.5
        assert _contrast(night, PAPER[1]) >= 4.5
        assert all(_contrast(day, tint) >= 4.0 for tint in TINTS.values())


def test_night_rules_name_every_layer():
    rules = night_rules(scope=".night")
    assert all(f".night .layer-{layer}{{" in rules for layer in LAYERS)


def test_the_typesetter_shows_ink_where_the_wall_is(tmp_path):
    import typst

    text = to_svg(scene(Polyline(layer="wall", points=((0, 0), (1, 0)))), scale=metric(20), captioned=False)
    (tmp_path / "one.svg").write_text(text, encoding="utf-8")
    (tmp_path / "page.typ").write_text('#set page(width: auto, height: auto, margin: 0mm)\n#image("one.svg")')
    again = typst.compile(tmp_path / "page.typ", format="svg").decode()
    width, high = re.search(r'width="([\d.]+)pt" height="([\d.]+)pt"', again).groups()
    assert float(width) == pytest.approx(52 / 25.4 * 72, abs=0.1)  # it keeps our millimeters
    assert float(high) == pytest.approx(2 / 25.4 * 72, abs=0.1)
