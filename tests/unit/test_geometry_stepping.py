"""Stepping by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from pinfold.errors import InputError
from pinfold.geometry.stepping import StepRules, Steps, TopLine, stepped

RULES = StepRules(course=0.2, height=0.6, minimum_step=1.0)
SLOPE = ((0.0, 0.0), (10.0, 1.0))


def rounded(pairs):
    return [tuple(round(number, 9) for number in pair) for pair in pairs]


def shapes(run: Steps) -> list[tuple[float, ...]]:
    return [tuple(round(number, 6) for number in (step.start, step.end, step.top, step.bed)) for step in run.steps]


def test_flat_ground_takes_one_level_step_of_just_the_wanted_height():
    run = stepped(((0.0, 2.0), (8.0, 2.0)), RULES)
    assert shapes(run) == [(0, 8, 2.6, 2.0)]
    assert run.is_level
    assert run.steps[0].courses == 3
    assert run.face_area == pytest.approx(8 * 0.6)


def test_one_in_ten_with_courses_of_a_fifth_steps_every_two_meters():
    run = stepped(SLOPE, RULES)
    assert shapes(run) == [
        (0, 2, 0.8, 0.0), (2, 4, 1.0, 0.2), (4, 6, 1.2, 0.4), (6, 8, 1.4, 0.6), (8, 10, 1.6, 0.8),
    ]  # fmt: skip
    assert not run.is_level
    assert run.face_area == pytest.approx(10 * 0.8)


def test_a_longer_minimum_step_makes_fewer_and_costs_wall():
    run = stepped(SLOPE, replace(RULES, minimum_step=4.0))
    assert len(run.steps) == 2
    assert all(step.length >= 4.0 for step in run.steps)
    assert run.face_area > 10 * 0.8


def test_steps_stand_on_the_module():
    run = stepped(SLOPE, replace(RULES, module=0.4, minimum_step=1.0))
    for step in run.steps[1:]:
        assert step.start / 0.4 == pytest.approx(round(step.start / 0.4))
        assert step.length >= 1.0


def test_cover_and_footing_go_down_by_whole_courses():
    run = stepped(((0.0, 0.0), (8.0, 0.0)), replace(RULES, cover=0.1, footing_thickness=0.25))
    (step,) = run.steps
    assert step.bed == pytest.approx(-0.2)
    assert step.footing_bottom == pytest.approx(-0.45)
    deep = stepped(((0.0, 0.0), (8.0, 0.0)), replace(RULES, footing_thickness=0.25, depth=0.6)).steps[0]
    assert deep.bed == pytest.approx(-0.4)
    assert deep.footing_bottom <= -0.6


def test_courses_of_neighbors_meet_on_a_common_datum():
    run = stepped(((0.0, 0.05), (8.0, 0.05)), replace(RULES, datum=0.0))
    assert (run.steps[0].top, run.steps[0].bed) == pytest.approx((0.8, 0.0))


def test_a_level_top_still_steps_its_bed():
    run = stepped(SLOPE, RULES, TopLine.LEVEL)
    assert {step.top for step in run.steps} == {1.6}
    assert [round(step.bed, 6) for step in run.steps] == [0.0, 0.2, 0.4, 0.6, 0.8]
    assert [step.courses for step in run.steps] == [8, 7, 6, 5, 4]


def test_a_raked_top_follows_the_ground():
    run = stepped(SLOPE, RULES, TopLine.RAKED)
    assert rounded(run.tops[0]) == [(0.0, 0.6), (2.0, 0.8)]
    assert run.face_area == pytest.approx(10 * 0.7)
    assert run.steps[0].top == pytest.approx(0.8)


def test_a_step_that_saves_too_little_is_not_made():
    assert len(stepped(SLOPE, replace(RULES, worth=100.0)).steps) == 1


def test_a_run_shorter_than_the_minimum_is_one_step():
    assert shapes(stepped(((0.0, 0.0), (0.5, 0.3)), RULES)) == [(0, 0.5, 0.9, -0.1)]
    assert len(stepped(((0.0, 0.0), (0.5, 0.3)), replace(RULES, module=0.1)).steps) == 1


def test_a_profile_may_start_anywhere():
    run = stepped(((5.0, 0.0), (9.0, 0.4)), replace(RULES, module=0.5))
    assert (run.steps[0].start, run.steps[-1].end) == (5.0, 9.0)
    assert shapes(run)[1][0] == 7.0


@pytest.mark.parametrize(
    "changes",
    [
        {"course": 0.0},
        {"height": -1.0},
        {"module": 0.0},
        {"cover": math.nan},
        {"datum": math.inf},
        {"minimum_step": 0.0},
    ],
)
def test_rules_that_make_no_sense_are_refused(changes):
    with pytest.raises(InputError):
        replace(RULES, **changes)


def test_a_cliff_or_a_broken_profile_is_refused():
    with pytest.raises(InputError, match="courses"):
        stepped(((0.0, 0.0), (1.0, 1e6)), RULES)
    with pytest.raises(InputError, match="ascend"):
        stepped(((0.0, 0.0), (0.0, 1.0)), RULES)
