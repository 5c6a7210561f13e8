"""Laws of pushes: what feet hold, how a push spreads, and what a stiff panel makes of it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import cantilevers, pushes, walls
from pinfold.tables.shelf import shelf

forces, lengths = st.floats(0.0, 5000.0), st.floats(0.05, 30.0)


@given(st.floats(1.0, 1000.0), st.floats(0.0, 1.5))
def test_feet_slide_when_the_push_is_friction_on_their_weight(mass, grip):
    """A block on a slope of the angle of friction just slides: its weight along the slope over that across it."""
    slope = math.atan(grip)
    weight = mass * walls.GRAVITY

    push = pushes.foothold_push(mass=mass, grip=grip)

    assert push == pytest.approx(weight * math.sin(slope) / math.cos(slope), rel=1e-9)


@given(forces, lengths, lengths)
def test_a_push_on_a_long_panel_bends_by_itself_whatever_its_height(force, arm, length):
    load = pushes.spread_push(force=force, arm=arm, length=arm + length)

    assert load * arm == pytest.approx(force)


@given(forces, lengths, lengths)
def test_a_panel_shorter_than_the_push_is_high_takes_all_of_it(force, arm, length):
    load = pushes.spread_push(force=force, arm=arm + length, length=length)

    assert load * length == pytest.approx(force)


@given(forces, lengths, lengths, st.floats(1.0, 3.0))
def test_a_longer_panel_never_bends_more(force, arm, length, more):
    short, long = (pushes.spread_push(force=force, arm=arm, length=each) for each in (length, length * more))

    assert long <= short * (1 + 1e-12)


@given(forces, lengths, lengths)
def test_a_push_along_a_fence_is_the_sum_of_its_posts(load, one, other):
    parts = [pushes.post_push(line_load=load, share=share) for share in (one, other)]

    assert math.fsum(parts) == pytest.approx(pushes.post_push(line_load=load, share=one + other))


@given(forces, st.floats(0.0, 5.0))
def test_a_push_turns_a_post_as_a_line_load_turns_a_meter_of_wall(force, arm):
    post = pushes.push_moment(force=force, arm=arm)

    assert post == pytest.approx(walls.line_load_moment(line_load=force, height=arm, below=0.0))


def test_pushes_take_arrays_as_they_take_numbers():
    arms = np.array([0.5, 1.0, 4.0])

    found = pushes.spread_push(force=900.0, arm=arms, length=2.0)

    assert found == pytest.approx([pushes.spread_push(force=900.0, arm=arm, length=2.0) for arm in (0.5, 1.0, 4.0)])


@pytest.mark.parametrize(
    ("formula", "inputs"),
    [
        (pushes.foothold_push, {"mass": -1.0, "grip": 0.5}),
        (pushes.spread_push, {"force": 900.0, "arm": 0.0, "length": 1.0}),
        (pushes.spread_push, {"force": 900.0, "arm": 1.0, "length": 0.0}),
        (pushes.post_push, {"line_load": -1.0, "share": 1.0}),
        (pushes.push_moment, {"force": 1.0, "arm": math.nan}),
    ],
)
def test_what_cannot_push_is_refused(formula, inputs):
    with pytest.raises(OutOfRangeError):
        formula(**inputs)


def test_a_climbers_lean_is_that_of_a_straight_body_at_sixty_degrees():
    """Moments about the feet: the weight at mid-length, the level push at the top end; half the weight over tan 60°."""
    statics = 1 / (2 * math.tan(math.radians(60)))

    for one in shelf("pushes").values():
        if one.has("lean"):
            assert one.value("lean") == pytest.approx(statics, abs=0.02)


def test_every_kind_says_how_hard_and_how_high():
    for one in shelf("pushes").values():
        presses = any(one.has(name) for name in ("point", "line", "grip")) and one.has("height")
        climbs = one.has("lean") and one.has("reach") and one.has("hangs") and one.has("mass")
        assert presses or climbs, one.name
        assert not one.has("grip") or one.has("mass")


def test_a_guards_height_turns_the_point_load_of_a_person_to_seven_hundred_foot_pounds():
    """200 lbf at 42 in."""
    person = shelf("pushes")["person"]

    moment = pushes.push_moment(force=person.value("point"), arm=person.value("height"))

    assert moment / (4.4482216152605 * 0.3048) == pytest.approx(700.0)


@given(st.floats(0.0, 2.0), st.floats(0.05, 2.0), st.floats(0.0, 1.0))
def test_two_rails_take_all_of_a_push_and_all_of_its_moment(low, apart, part):
    high = low + apart
    height = min(low + part * apart, high)
    upper = pushes.rail_share(height=height, rail=high, other=low)
    lower = pushes.rail_share(height=height, rail=low, other=high)

    assert upper + lower == pytest.approx(1.0)
    assert upper * high + lower * low == pytest.approx(height, abs=1e-9)


@pytest.mark.parametrize("height", [0.4, 1.6])
def test_a_push_above_or_below_both_rails_is_not_shared(height):
    with pytest.raises(OutOfRangeError):
        pushes.rail_share(height=height, rail=1.5, other=0.5)


def test_two_rails_at_one_height_are_refused():
    with pytest.raises(OutOfRangeError):
        pushes.rail_share(height=1.0, rail=1.0, other=1.0)


@given(st.floats(0.0, 5000.0), st.floats(0.1, 6.0))
def test_a_push_in_the_middle_bends_a_rail_twice_as_much_as_spread_evenly(force, span):
    middle = pushes.rail_push_moment(force=force, span=span)

    assert middle == pytest.approx(2 * cantilevers.span_moment(load=force / span, span=span))
    assert middle == pytest.approx(force / 2 * span / 2)
