from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from pinfold.drawings.clipping import clipped
from pinfold.drawings.scenes import Frame

FRAME = Frame(left=0.0, bottom=0.0, right=10.0, top=5.0)
places = st.floats(-20, 20).map(lambda value: round(value, 3))


@given(st.lists(st.tuples(places, places), min_size=2, max_size=8, unique=True))
def test_what_is_left_is_what_lies_in_the_frame(path):
    ours = [shapely.LineString(part) for part in clipped(tuple(path), FRAME)]
    rival = shapely.LineString(path).intersection(shapely.box(0, 0, 10, 5))
    length = rival.length if path else 0.0
    assert shapely.union_all(ours).length == pytest.approx(length, abs=1e-6)


def test_a_path_inside_stays_as_it_is_and_one_outside_is_gone():
    inside = ((1.0, 1.0), (4.0, 3.0), (9.0, 2.0))
    assert tuple(clipped(inside, FRAME)) == (inside,)
    assert not tuple(clipped(((11.0, 0.0), (12.0, 5.0)), FRAME))


def test_a_path_that_leaves_and_comes_back_gives_two_parts():
    parts = tuple(clipped(((1.0, 1.0), (1.0, 9.0), (3.0, 9.0), (3.0, 1.0)), FRAME))
    assert parts == (((1.0, 1.0), (1.0, 5.0)), ((3.0, 5.0), (3.0, 1.0)))
