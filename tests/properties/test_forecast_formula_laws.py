"""Laws of earned value and of learning curves."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import earned_value as value
from pinfold.formulas import learning_curves

AMOUNT = st.floats(1.0, 1e6)
RATE = st.floats(0.55, 1.0)


@given(budget=AMOUNT, share=st.floats(0.01, 0.99), spent=AMOUNT)
def test_what_is_to_come_and_what_is_spent_are_all_of_it(budget: float, share: float, spent: float) -> None:
    earned = share * budget
    index = value.cost_index(earned=earned, spent=spent)
    whole = value.at_completion(budget=budget, cost_index=index)
    assert value.to_complete(at_completion=whole, spent=spent) == pytest.approx((budget - earned) / index, rel=1e-9)
    assert value.difference_at_completion(budget=budget, at_completion=whole) == pytest.approx(budget - whole)
    # to end where it is heading the rest must go just as what is done did
    goal = value.index_to_complete(budget=budget, earned=earned, spent=spent, goal=whole)
    assert goal == pytest.approx(index, rel=1e-6)


@given(budget=AMOUNT, share=st.floats(0.01, 0.99))
def test_work_that_goes_as_planned_ends_as_planned_by_every_way(budget: float, share: float) -> None:
    done = share * budget
    ways = (
        value.at_completion(budget=budget, cost_index=value.cost_index(earned=done, spent=done)),
        value.at_completion_as_planned(budget=budget, earned=done, spent=done),
        value.at_completion_by_both(
            budget=budget, earned=done, spent=done, cost_index=1.0,
            schedule_index=value.schedule_index(earned=done, planned=done),
        ),
    )  # fmt: skip
    assert ways == pytest.approx([budget] * 3)
    assert value.schedule_difference(earned=done, planned=done) == 0
    assert value.cost_difference(earned=done, spent=done) == 0


@given(budget=AMOUNT, share=st.floats(0.01, 0.99), spent=AMOUNT, index=st.floats(0.2, 2.0), pace=st.floats(0.2, 2.0))
def test_a_rest_as_dear_and_as_late_takes_the_product_of_both(budget, share, spent, index, pace) -> None:
    earned = share * budget

    def whole(cost_index, schedule_index):
        return value.at_completion_by_both(
            budget=budget, earned=earned, spent=spent, cost_index=cost_index, schedule_index=schedule_index
        )

    rest = whole(index, pace) - spent
    assert rest * index * pace == pytest.approx(budget - earned, rel=1e-6)
    assert whole(index, pace) == pytest.approx(whole(pace, index)), "late counts like dear"
    assert whole(index / 2, pace) > whole(index, pace), "what goes worse never ends cheaper"


@given(rate=RATE, number=st.floats(1.0, 1000.0))
def test_twice_as_many_take_the_rate_of_it(rate: float, number: float) -> None:
    once = learning_curves.time_of_unit(first=3600.0, number=number, rate=rate)
    twice = learning_curves.time_of_unit(first=3600.0, number=2 * number, rate=rate)
    assert twice == pytest.approx(rate * once)


@pytest.mark.parametrize("rate", [0.5, 1.005, 0.0])
def test_a_rate_that_no_curve_has_is_refused(rate: float) -> None:
    with pytest.raises(OutOfRangeError):
        learning_curves.learning_exponent(rate=rate)
    with pytest.raises(OutOfRangeError):
        learning_curves.time_of_unit(first=60.0, number=0.999, rate=0.9)
    with pytest.raises(OutOfRangeError):
        learning_curves.slower_than_average(share=1.005, rate=0.9)


@given(rate=RATE, one=st.floats(0.0, 100.0), two=st.floats(0.0, 100.0), three=st.floats(0.0, 100.0))
def test_time_of_two_stretches_adds_up(rate: float, one: float, two: float, three: float) -> None:
    a, b, c = sorted((one, two, three))
    parts = learning_curves.wright_time(first=60.0, before=a, until=b, rate=rate) + learning_curves.wright_time(
        first=60.0, before=b, until=c, rate=rate
    )
    assert parts == pytest.approx(learning_curves.wright_time(first=60.0, before=a, until=c, rate=rate), abs=1e-6)


@given(rate=RATE, share=st.floats(0.01, 1.0))
def test_the_average_of_a_share_is_that_of_the_curve(rate: float, share: float) -> None:
    whole = learning_curves.wright_time(first=60.0, before=0.0, until=100.0, rate=rate) / 100
    part = learning_curves.wright_time(first=60.0, before=0.0, until=100.0 * share, rate=rate) / (100 * share)
    assert part / whole == pytest.approx(learning_curves.slower_than_average(share=share, rate=rate))
    assert learning_curves.learning_exponent(rate=rate) == pytest.approx(math.log2(rate))
