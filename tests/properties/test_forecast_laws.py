"""The forecast moves with what the log says and no further; what hours teach against a rival way to reckon it."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from days_jobs import counted, plan
from half_built import half_built
from pinfold.logbook.entries import entry_of
from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.studies.days.days_off import OFTEN, days_missed, days_of_week, with_days_off
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.records import Kept
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.forecasting.attendance import attendance
from pinfold.studies.forecasting.hands import factors_of, hands_of, usual_hands
from pinfold.studies.forecasting.looking_back import looked_back, rest_then
from pinfold.studies.forecasting.rest import spread_of
from pinfold.studies.forecasting.timed import Timed, crew_time

OF = plan("quinta")
JOB = job_of(tasks_of(*counted(OF)), OF.people)
ENTRIES = tuple(entry for raw in half_built("quinta") if (entry := entry_of(raw)).kind != "purchase")
WHEN = datetime(2026, 5, 4, 8, tzinfo=UTC)


def whole(entries):
    """Time in all as foreseen after some entries."""
    took = math.fsum(crew_time(entry) for entry in entries if entry.kind == "hours")
    return spread_of(took + rest_then(JOB, entries).whole)


def wide(spread):
    return math.log(spread.high / spread.low)


def laid(number, over, practice=0.5):
    return Timed(WHEN, Work.LAY, "", over * HOUR, HOUR, practice)


def test_entry_by_entry_no_step_goes_beyond_what_the_entry_says():
    before = whole(ENTRIES[:1])
    for count in range(2, len(ENTRIES), 3):
        after = whole(ENTRIES[:count])
        # three entries of a job of hundreds: a crew's pace is never thought anew by one of them
        assert abs(math.log(after.likely / before.likely)) < 0.06, ENTRIES[count - 1]
        before = after


def test_the_spread_shrinks_as_the_log_grows():
    seen = [wide(whole(ENTRIES[:count])) for count in (1, 20, 60, 120, len(ENTRIES))]

    assert seen == sorted(seen, reverse=True)
    assert seen[-1] < seen[0] / 3


def test_looking_back_ends_where_the_log_does():
    seen = looked_back(JOB, ENTRIES, ())

    assert seen[-1].whole == whole(ENTRIES)
    assert [each.day for each in seen] == sorted(each.day for each in seen)
    assert all(one.took <= other.took and one.done <= other.done for one, other in itertools.pairwise(seen))


def test_a_slow_day_puts_it_off_and_a_quick_one_brings_it_on():
    last = next(entry for entry in reversed(ENTRIES) if entry.kind == "hours" and entry.number("done_area"))
    slow, quick = (
        replace(last, id=f"another-{factor}", values={**last.values, "time": last.values["time"] * factor})
        for factor in (3.0, 1 / 3)
    )

    foreseen = [rest_then(JOB, (*ENTRIES, each)).whole.mean() for each in (slow, quick)]
    assert foreseen[0] > rest_then(JOB, ENTRIES).whole.mean() > foreseen[1] * 0.999


def test_what_is_not_hours_of_work_leaves_the_pace_alone():
    batch = next(entry for entry in ENTRIES if entry.kind == "batch")
    hands = rest_then(JOB, ENTRIES).hands

    assert np.allclose(rest_then(JOB, (*ENTRIES, replace(batch, id="another-batch"))).hands.mean, hands.mean)


@given(over=st.lists(st.floats(0.3, 4.0), min_size=1, max_size=12))
@settings(max_examples=40, deadline=None)
def test_every_entry_makes_every_figure_surer(over):
    spreads = [np.diag(hands_of([laid(n, each) for n, each in enumerate(over[:count])]).spread)
               for count in range(len(over) + 1)]  # fmt: skip

    assert all((after <= before + 1e-12).all() for before, after in itertools.pairwise(spreads))


@given(over=st.lists(st.floats(0.3, 4.0), min_size=1, max_size=8), practice=st.floats(0.01, 1.0))
@settings(max_examples=30, deadline=None)
def test_hours_teach_what_entry_after_entry_would(over, practice):
    """All at once, or the normal update of one after the other by its own gain: the rival way."""
    usual = usual_hands()
    mean, spread = usual.mean.copy(), usual.spread.copy()
    for each in over:
        row = np.zeros(len(mean))
        row[0] = row[1 + list(Work).index(Work.LAY)] = 1.0
        row[1 + len(Work)] = row[2 + len(Work) + list(Work).index(Work.LAY)] = 1 + math.log(practice)
        gain = spread @ row / (row @ spread @ row + 0.3**2)
        mean = mean + gain * (math.log(each) - row @ mean)
        spread = spread - np.outer(gain, row @ spread)

    found = hands_of([laid(n, each, practice) for n, each in enumerate(over)])
    assert np.allclose(found.mean, mean, atol=1e-8)
    assert np.allclose(found.spread, spread, atol=1e-8)


def test_a_crew_that_learns_is_found_out():
    true = -0.2
    entries = [Timed(WHEN, Work.LAY, "", HOUR * (1 + true) * s**true, HOUR, s) for s in np.linspace(0.01, 0.6, 200)]
    hands = hands_of(entries)

    assert hands.rate(Work.LAY)[0] == pytest.approx(2**true, abs=0.02)
    assert hands.over_norm(Work.LAY)[0] == pytest.approx(1.0, abs=0.06)


@given(before=st.floats(0.0, 0.8), share=st.floats(0.05, 0.2))
def test_time_of_two_shares_is_that_of_both(before, share):
    drawn = usual_hands().drawn(5)
    one = factors_of(drawn, Work.COAT, before=before, share=share) * share
    two = factors_of(drawn, Work.COAT, before=before + share, share=share) * share

    assert np.allclose(one + two, factors_of(drawn, Work.COAT, before=before, share=2 * share) * 2 * share)


@given(more=st.integers(0, 30), less=st.integers(0, 30))
@settings(max_examples=20, deadline=None)
def test_days_missed_only_ever_put_it_off(more, less):
    first, people = date(2026, 5, 4), OF.people
    ends = [datetime(2026, 7, 1, 12, tzinfo=UTC).timestamp()]
    kept = with_days_off(ends, Kept(9.0 + more, 1.0 + less), people, first, UTC)
    worse = with_days_off(ends, Kept(9.0 + more, 2.0 + less), people, first, UTC)

    assert len(kept) == OFTEN
    assert all(end >= ends[0] for end in kept)
    assert np.mean(worse) >= np.mean(kept)


@given(worked=st.integers(1, 300), share=st.floats(0.02, 1.0), fall=st.floats(0.001, 0.999))
@settings(max_examples=200, deadline=None)
def test_days_missed_follow_the_negative_binomial(worked, share, fall):
    found = days_missed(np.array(fall), np.array(worked), np.array(share))
    missed = stats.nbinom(worked, share)

    assert missed.cdf(found) >= fall - 1e-9
    assert missed.cdf(found - 1) < fall + 1e-9


def test_all_days_kept_move_nothing():
    ends = [datetime(2026, 7, 1, 12, tzinfo=UTC).timestamp()]

    assert set(with_days_off(ends, Kept(1e9, 1e-3), OF.people, date(2026, 5, 4), UTC)) == set(ends)
    assert (
        with_days_off([0.0, math.inf], Kept(9.0, 1.0), OF.people, date(2026, 5, 4), UTC)
        == [0.0] * OFTEN + [math.inf] * OFTEN
    )


@given(start=st.integers(0, 6), length=st.integers(0, 400))
def test_days_of_the_week_are_counted_as_one_by_one(start, length):
    first = date(2026, 5, 4) + timedelta(days=start)
    one_by_one = sum((first + timedelta(days=n)).weekday() in (0, 2, 5) for n in range(length + 1))

    assert days_of_week(first, first + timedelta(days=length), (0, 2, 5)) == one_by_one


def test_a_rained_off_day_is_no_idle_day():
    hours = [entry for entry in ENTRIES if entry.kind == "hours"]
    wet = [entry for entry in ENTRIES if entry.kind == "weather"]
    with_rain, without = attendance(hours, OF.people.weekdays, wet), attendance(hours, OF.people.weekdays)

    assert with_rain.weather > 0
    assert with_rain.missed == without.missed - with_rain.weather
    assert with_rain.share[0] > without.share[0]
