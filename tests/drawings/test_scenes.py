"""Scenes refuse what cannot be drawn, and know how far they reach."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.drawings.scenes import (
    Arc,
    Area,
    Circle,
    Dimension,
    Frame,
    Label,
    NorthArrow,
    Polyline,
    ScaleBar,
    Scene,
    Shape,
    arc_points,
    arc_span,
    bounds,
    chain,
)


def scene(*shapes: Shape) -> Scene:
    return Scene(name="trial", title="Trial", shapes=shapes)


def test_bounds_hold_lines_circles_labels_and_measured_points():
    found = bounds(
        scene(
            Polyline(layer="wall", points=((0, 0), (3, 1))),
            Circle(layer="post", center=(5, 0), radius=0.5),
            Label(at=(0, 2), text="corner", stand=(-1, 2.5)),
            Dimension(start=(0, -0.2), end=(3, -0.7), offset=8, text="3 m"),
            NorthArrow(),
            ScaleBar(),
        )
    )
    assert found == Frame(left=-1, bottom=-0.7, right=5.5, top=2.5)
    assert (found.width, found.height) == (6.5, 3.2)


def test_an_empty_scene_has_no_size():
    assert bounds(scene()) == Frame(left=0, bottom=0, right=0, top=0)


def test_an_arc_reaches_as_far_as_its_top():
    found = bounds(scene(Arc(layer="swing", center=(1, 1), radius=2, start=math.pi / 4, end=3 * math.pi / 4)))
    assert math.isclose(found.top, 3)
    assert math.isclose(found.bottom, 1 + math.sqrt(2))
    assert math.isclose(found.right, 1 + math.sqrt(2))


@given(st.floats(-20, 20), st.floats(-20, 20))
def test_an_arcs_points_lie_on_its_circle_between_its_ends(start, end):
    arc = Arc(layer="swing", center=(1, -2), radius=3, start=start, end=end)
    points = arc_points(arc, steps=5)
    assert 0 < arc_span(arc) <= math.tau
    assert all(math.isclose(math.dist(point, (1, -2)), 3) for point in points)
    many = [start + arc_span(arc) * part / 200 for part in range(201)]
    assert max(x for x, _ in points) >= max(1 + 3 * math.cos(turn) for turn in many) - 1e-9
    assert min(y for _, y in points) <= min(-2 + 3 * math.sin(turn) for turn in many) + 1e-9


def test_a_chain_measures_from_each_point_to_the_next():
    one, other = chain(((0, 0), (1, 0), (3, 0)), ("1 m", "2 m"), offset=8)
    assert (one.start, one.end, other.start, other.end) == ((0, 0), (1, 0), (1, 0), (3, 0))
    with pytest.raises(ValueError, match="zip"):
        chain(((0, 0), (1, 0)), ("1 m", "2 m"), offset=8)


@pytest.mark.parametrize(
    ("shape", "complaint"),
    [
        (Polyline(layer="hedge", points=((0, 0),)), "no layer 'hedge'"),
        (Area(layer="wall", points=((0, 0),), hatch="straw"), "no hatch 'straw'"),
        (Polyline(layer="wall", points=((0, math.nan),)), "Polyline on layer 'wall'.*not finite"),
        (Area(layer="wall", points=(), holes=(((0, math.inf),),)), "not finite"),
        (Label(at=(0, 0), text="x", turn=math.inf), "not finite"),
    ],
)
def test_what_cannot_be_drawn_is_refused(shape, complaint):
    with pytest.raises(ValueError, match=complaint):
        scene(shape)


@pytest.mark.parametrize("name", ["", "South", "1st", "a b", 'a"b'])
def test_a_name_that_cannot_start_an_id_is_refused(name):
    with pytest.raises(ValueError, match="cannot name a scene"):
        Scene(name=name, title="x", shapes=())
