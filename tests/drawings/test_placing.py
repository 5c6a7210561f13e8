"""Placed texts never cover each other, stay near their points and always come out the same."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.drawings.boxes import Slab, collide, length_inside
from pinfold.drawings.dimensioning import TIER
from pinfold.drawings.lettering import baselines, block_size, clean, upright, width_of, wrapped
from pinfold.drawings.placing import overlaps, place
from pinfold.drawings.scales import metric
from pinfold.drawings.scenes import Dimension, Label, Polyline, Scene, Shape, chain

SCALE = metric(50)
PLACES = st.floats(-4, 4).map(lambda value: round(value, 3))
POINTS = st.tuples(PLACES, PLACES)
WORDS = st.text("AWmil 1×²é\n", min_size=1, max_size=12)
LABELS = st.builds(
    Label,
    at=POINTS,
    text=WORDS,
    anchor=st.sampled_from(["right", "above", "left", "below", "over", "above left", "below right"]),
    turn=st.sampled_from([0.0, 0.0, 0.4, math.pi / 2, math.pi, -2.0]),
    reach=st.sampled_from([0.0, 0.0, 10.0]),
    stand=st.sampled_from([None, None, (5.0, 1.0)]),
    priority=st.integers(0, 2),
)
DIMENSIONS = st.builds(
    Dimension, start=POINTS, end=POINTS, offset=st.sampled_from([8.0, -8.0, 0.0]), text=WORDS
)  # fmt: skip
LINES = st.builds(Polyline, layer=st.just("wall"), points=st.tuples(POINTS, POINTS, POINTS))
SHAPES = st.lists(st.one_of(LABELS, LABELS, DIMENSIONS, LINES), max_size=16).map(tuple)
TURNED = st.builds(
    Slab, center=POINTS, width=st.floats(0.1, 5), height=st.floats(0.1, 5), turn=st.floats(-4, 4)
)  # fmt: skip


def scene(*shapes: Shape) -> Scene:
    return Scene(name="trial", title="Trial", shapes=shapes)


@given(SHAPES)
@settings(max_examples=60, deadline=None)
def test_texts_that_may_move_never_cover_each_other(shapes):
    placed = place(scene(*shapes), SCALE)
    assert overlaps(placed) == ()
    assert len(placed.labels) == sum(isinstance(shape, Label) for shape in shapes)
    assert len(placed.dimensions) == sum(isinstance(shape, Dimension) for shape in shapes)


def test_texts_on_one_spot_all_find_a_place():
    placed = place(scene(*(Label(at=(0, 0), text=f"post number {number}") for number in range(40))), SCALE)
    assert overlaps(placed) == ()


@given(SHAPES)
@settings(max_examples=10, deadline=None)
def test_the_same_scene_gives_the_same_places(shapes):
    assert place(scene(*shapes), SCALE) == place(scene(*shapes), SCALE)


@given(SHAPES)
@settings(max_examples=30, deadline=None)
def test_every_text_reads_from_below_or_from_the_right(shapes):
    for text in place(scene(*shapes), SCALE).texts:
        assert -math.radians(75) - 1e-6 < text.slab.turn <= math.radians(105) + 1e-6


def test_a_lone_label_stands_where_it_wished():
    (text,) = place(scene(Label(at=(1, 2), text="gate", anchor="above")), SCALE).labels
    assert text.slab.center[0] == pytest.approx(20)
    assert text.slab.center[1] - text.slab.height / 2 == pytest.approx(40 + 1)
    assert text.leader == ()


def test_a_label_written_upside_down_is_turned_but_keeps_its_side():
    (text,) = place(scene(Label(at=(0, 0), text="gate", anchor="right", turn=math.pi)), SCALE).labels
    assert text.slab.turn == pytest.approx(0)
    assert text.slab.center[0] < 0  # to the right of who reads along the line is the left of the paper


def test_a_label_that_may_not_move_does_not():
    fixed = Label(at=(0, 0), text="FIXED", anchor="over", movable=False)
    placed = place(scene(Label(at=(0, 0), text="moves", anchor="over", priority=9), fixed), SCALE)
    assert placed.labels[1].slab.center == (0, 0)
    assert overlaps(placed) == ()


def test_two_that_may_not_move_are_told_as_overlapping():
    fixed = Label(at=(0, 0), text="FIXED", movable=False)
    assert len(overlaps(place(scene(fixed, fixed), SCALE))) == 1


def test_the_higher_priority_keeps_its_place():
    shapes = [Label(at=(0, 0), text=name, priority=rank) for rank, name in ((0, "low"), (5, "high"))]
    low, high = place(scene(*shapes), SCALE).labels
    assert high.slab.center[1] == pytest.approx(0)
    assert low.slab.center != high.slab.center


def test_a_text_far_from_its_point_has_a_leader_to_it():
    (text,) = place(scene(Label(at=(0.2, 0.1), text="footing", reach=15)), SCALE).labels
    assert text.leader[0] == pytest.approx((4, 2))
    assert text.slab.gap(text.leader[1]) == pytest.approx(0.5)


def test_call_outs_that_stand_in_a_column_stay_flush():
    labels = [Label(at=(0, y / 40), text=f"coat {y}", stand=(1, y / 40)) for y in range(6)]
    placed = place(scene(*labels), SCALE)
    assert overlaps(placed) == ()
    assert {round(text.slab.center[0] - text.slab.width / 2, 6) for text in placed.labels} == {21}


def test_a_label_keeps_off_a_line_when_there_is_room_beside_it():
    line = Polyline(layer="wall", points=((-3, 0), (3, 0)))
    (text,) = place(scene(line, Label(at=(0, 0), text="post", anchor="right")), SCALE).labels
    assert length_inside(text.slab, (-60, 0), (60, 0)) == 0


def test_an_overall_length_goes_outside_of_its_parts():
    parts = chain(((0, 0), (1, 0), (3, 0)), ("1 m", "2 m"), offset=-8)
    placed = place(scene(Dimension(start=(0, 0), end=(3, 0), offset=-8, text="3 m"), *parts), SCALE)
    assert [one.drawn.offset for one in placed.dimensions] == [-8 - TIER, -8, -8]


def test_texts_wider_than_their_lengths_stay_by_their_own():
    parts = chain(tuple((x / 10, 0) for x in range(8)), tuple("0.100 m" for _ in range(7)), offset=-8)
    placed = place(scene(*parts), SCALE)
    assert overlaps(placed) == ()
    for one in placed.dimensions:
        middle, text = one.drawn.middle[0], one.text
        assert text.leader or abs(text.slab.center[0] - middle) < 1e-6


def test_a_dimension_of_no_length_is_still_written():
    placed = place(scene(Dimension(start=(1, 1), end=(1, 1), offset=8, text="0")), SCALE)
    assert placed.dimensions[0].text.lines == ("0",)


@given(TURNED, TURNED)
def test_boxes_collide_exactly_when_their_surfaces_share_more_than_an_edge(one, other):
    from shapely import Polygon  # the rival

    shared = Polygon(one.corners).intersection(Polygon(other.corners)).area
    if shared > 1e-4:
        assert collide(one, other)
    if shared == 0.0:
        assert not collide(one, other)


@given(TURNED, POINTS, POINTS)
def test_the_length_of_a_line_inside_a_box_is_that_of_their_intersection(slab, start, end):
    from shapely import LineString, Polygon

    wanted = LineString([start, end]).intersection(Polygon(slab.corners)).length
    assert length_inside(slab, start, end) == pytest.approx(wanted, abs=1e-6)


@given(st.floats(-50, 50))
def test_turning_upright_keeps_the_line_of_writing(turn):
    assert abs(math.sin(upright(turn) - turn)) < 1e-9


def test_longer_and_bolder_texts_are_wider():
    assert width_of("post 12", 2.0) > width_of("post 1", 2.0)
    assert width_of("post", 2.0, bold=True) > width_of("post", 2.0)
    assert width_of("é", 2.0) == width_of("e", 2.0)
    assert width_of("中", 2.0) > width_of("W", 2.0)  # an unknown letter is taken as wide
    assert block_size(("a", "b"), 2.0)[1] > 2 * block_size(("a",), 2.0)[1]


def test_lines_of_a_text_stand_under_each_other():
    (text,) = place(scene(Label(at=(0, 0), text="welded mesh\n50 × 50", anchor="left")), SCALE).labels
    ((x, y), first), ((u, v), second) = baselines(text)
    assert (first, second) == ("welded mesh", "50 × 50")
    assert x == pytest.approx(u)
    assert y > v


def test_letters_no_file_may_hold_are_replaced():
    assert clean("a\x00b\tc\ud800d\uffff") == "a b c◊d◊"


@given(st.text("ab cd", max_size=60), st.floats(5, 60))
def test_wrapping_loses_no_word(text, width):
    lines = wrapped(text, 2.0, width)
    assert " ".join(lines).split() == text.split()
    assert all(width_of(line, 2.0) <= width or " " not in line for line in lines)
