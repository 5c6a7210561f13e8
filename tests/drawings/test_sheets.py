"""A sheet takes the largest usual scale that fits, and says how large its paper is."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.drawings.captions import bar_of
from pinfold.drawings.lettering import width_of, wrapped
from pinfold.drawings.scales import METRIC, US, bar_length, metric, scales
from pinfold.drawings.scenes import Dimension, Label, NorthArrow, Polyline, ScaleBar, Scene, Shape
from pinfold.drawings.sheets import MARGIN, ROOMS, sheet_of
from pinfold.errors import NoSolutionError
from pinfold.units import System


def scene(*shapes: Shape, **more: object) -> Scene:
    return Scene(name="trial", title="Trial", shapes=shapes, **more)


def line(length: float) -> Polyline:
    return Polyline(layer="wall", points=((0, 0), (length, 0)))


@pytest.mark.parametrize("system", System)
def test_scales_go_from_large_to_small_without_end(system):
    ratios = [scale.ratio for scale in islice(scales(system), 40)]
    assert ratios == sorted(set(ratios))
    assert ratios[-1] > 100_000


def test_the_usual_scales_are_those_of_the_rules():
    assert {"1:5", "1:10", "1:20", "1:25", "1:50", "1:100", "1:200", "1:250", "1:500"} <= {one.text for one in METRIC}
    by_text = {one.text: one.ratio for one in US}
    assert by_text["1\" = 1'"] == 12
    assert by_text["1/4\" = 1'"] == 48
    assert by_text["1/8\" = 1'"] == 96
    assert by_text["1\" = 50'"] == 600


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (2.6, "1:10"),
        (2.66, "1:20"),
        (19, "1:75"),
        (25, "1:100"),
        (32, "1:125"),
        (33, "1:150"),
        (52, "1:200"),
        (2000, "1:10000"),
    ],
)
def test_the_largest_scale_that_fits_is_taken(length, text):
    assert sheet_of(scene(line(length)), room=(265, 170)).placed.scale.text == text


def test_feet_and_inches_have_their_own_scales():
    assert sheet_of(scene(line(3)), room=(265, 170), system=System.US).placed.scale.text == "1\" = 1'"


def test_a_long_elevation_gets_a_scale_at_which_it_fits():
    sheet = sheet_of(scene(line(140), Polyline(layer="post", points=((0, 0), (0, 2)))), room=ROOMS["a4"])
    assert sheet.width <= ROOMS["a4"][0]
    assert sheet.placed.scale.text == "1:1000"


@given(st.floats(0.01, 500), st.floats(0.01, 500), st.sampled_from(sorted(ROOMS)), st.sampled_from(System))
def test_a_sheet_never_exceeds_its_room(wide, high, room, system):
    shape = Polyline(layer="wall", points=((0, 0), (wide, high)))
    sheet = sheet_of(scene(shape, Label(at=(wide, high), text="far corner")), room=ROOMS[room], system=system)
    assert sheet.width <= ROOMS[room][0]
    assert sheet.height <= ROOMS[room][1]


def test_texts_and_dimensions_are_inside_the_paper():
    shapes = (
        line(5),
        Dimension(start=(0, 0), end=(5, 0), offset=-12, text="5 m"),
        Label(at=(5, 0), text="the far end"),
    )
    sheet = sheet_of(scene(*shapes, NorthArrow(), ScaleBar(at=(0, 1))))
    for text in sheet.placed.texts:
        for x, y in map(sheet.on_paper, text.slab.corners):
            assert MARGIN - 1e-6 <= x <= sheet.width - MARGIN + 1e-6
            assert MARGIN - 1e-6 <= y <= sheet.height - MARGIN + 1e-6


def test_a_given_scale_is_kept_whatever_room_it_takes():
    sheet = sheet_of(scene(line(30)), room=(100, 100), scale=metric(50), captioned=False)
    assert sheet.width == pytest.approx(600 + 2 * MARGIN)
    assert sheet.caption is None


def test_the_paper_counts_downward_from_its_upper_left_corner():
    sheet = sheet_of(scene(Polyline(layer="wall", points=((1, 1), (3, 2)))), scale=metric(20), captioned=False)
    assert sheet.from_scene(((1, 2), (3, 1))) == ((MARGIN, MARGIN), (MARGIN + 100, MARGIN + 50))


def test_texts_too_large_for_the_paper_are_no_solution():
    with pytest.raises(NoSolutionError, match="'Trial' need more than 60 by 40 mm"):
        sheet_of(scene(line(1), Label(at=(0, 0), text="W" * 60)), room=(60, 40))


def test_a_caption_holds_title_scale_and_wrapped_notes():
    sheet = sheet_of(scene(line(2), ScaleBar(), NorthArrow(turn=0.2), notes=("word " * 60,)), scale=metric(20))
    caption = sheet.caption
    assert caption is not None
    assert [row.text for row in caption.rows][:2] == ["Trial", "Scale 1:20 at full size"]
    assert len(caption.rows) > 4
    assert caption.rows[-1].drop < caption.height
    assert caption.north == 0.2
    assert caption.bar == bar_of(metric(20), System.METRIC)


@given(st.floats(1, 5000), st.sampled_from(System))
def test_a_scale_bar_is_round_and_neither_tiny_nor_long(ratio, system):
    from pinfold.drawings.scales import Scale

    meters, text = bar_length(Scale(ratio=ratio, text=""), system)
    assert 45 / 2.5 - 1e-6 <= meters * 1000 / ratio <= 45 + 1e-6
    assert text.strip("0. mft") in {"1", "2", "5"}


def test_a_space_that_holds_figure_and_unit_is_as_wide_as_another_and_never_breaks():
    assert width_of("2.5\u00a0m", 2.0) == width_of("2.5 m", 2.0)
    assert wrapped("posts 2.5\u00a0m apart", 2.0, width_of("posts 2.5", 2.0)) == ("posts", "2.5\u00a0m", "apart")
