"""Schedules: as early as precedence allows where nothing limits them, never past a limit, and as good as any."""

from __future__ import annotations

from datetime import UTC

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from days_jobs import ALWAYS, MONDAY, best_by_trying, drawn, keeps, piece, problem
from pinfold.plan.people import HOUR
from pinfold.studies.days.listing import listed
from pinfold.studies.days.problem import NOT_YET
from pinfold.studies.days.slots import SLOT, slots_of
from pinfold.studies.days.solving import solved

SEEDS = st.integers(0, 10**6)


def longest_path(pieces):
    """Earliest slot of each piece by the waits alone."""
    found = []
    for each in pieces:
        ready = [(found[w.piece] + pieces[w.piece].slots) * SLOT + w.link.wait for w in each.after]
        found.append(int(-(-max(ready, default=0.0) // SLOT)))
    return found


@given(SEEDS)
@settings(max_examples=40, deadline=None)
def test_with_no_limits_all_begins_as_early_as_precedence_allows(seed):
    rng = np.random.default_rng(seed)
    pieces = []
    for number in range(6):
        after = [(other, float(rng.choice([0, 0.25, 3, 20]))) for other in range(number) if rng.random() < 0.4]
        pieces.append(piece(number, int(rng.integers(1, 9)), int(rng.integers(1, 4)), after))
    slots = slots_of(ALWAYS, first=MONDAY, days=20, zone=UTC)
    free = problem(pieces, slots, crew=100, allowed=np.ones((6, slots.count), dtype=bool))
    # a day without nights: only midnight may hold a piece up, so pieces may run over it here
    whole = problem(pieces, slots, crew=100)
    object.__setattr__(whole, "allowed", np.arange(slots.count)[None, :] + np.array([[p.slots] for p in pieces])
                       <= slots.count)  # fmt: skip

    assert list(listed(whole)) == longest_path(pieces)
    assert all(start >= early for start, early in zip(listed(free), longest_path(pieces), strict=True))


@given(SEEDS)
@settings(max_examples=25, deadline=None)
def test_small_schedules_are_as_good_as_the_best_of_all_there_are(seed):
    of = drawn(seed, count=3)
    found = solved(of, time=20.0, near=0.0)

    assert keeps(of, found.starts)
    assert found.proven
    assert found.cost == pytest.approx(best_by_trying(of), rel=1e-6)
    assert found.bound <= found.cost * (1 + 1e-9)


@given(SEEDS)
@settings(max_examples=60, deadline=None)
def test_no_limit_is_ever_passed(seed):
    of = drawn(seed, count=8, days=4)

    assert keeps(of, listed(of))


def slot_by_slot(of):
    """The quick schedule the plain way: in every slot each piece is tried that waits for nothing more."""
    starts, used, day_used = [NOT_YET] * len(of.pieces), [0] * of.slots.count, [0] * len(of.slots.dates)
    best = np.where(of.allowed, of.costs, np.inf)
    for slot, day in enumerate(of.slots.days):
        later = best[:, slot:][:, of.slots.days[slot:] == day]
        for number in sorted(range(len(of.pieces)), key=lambda each: (-of.pieces[each].tail, each)):
            each, span = of.pieces[number], slice(slot, slot + of.pieces[number].slots)
            free = all(NOT_YET < starts[wait.piece] < slot >= of.free_from(wait, starts[wait.piece])
                       for wait in each.after)  # fmt: skip
            if (
                starts[number] == NOT_YET and free and of.allowed[number, slot]
                and (not of.risk.any() or best[number, slot] <= later[number].min() + 1e-12)
                and max(used[span]) + each.people <= of.crew
                and day_used[day] + each.slots * each.people <= of.day_most
            ):  # fmt: skip
                starts[number] = slot
                day_used[day] += each.slots * each.people
                for taken in range(span.start, span.stop):
                    used[taken] += each.people
    return tuple(starts)


@given(SEEDS)
@settings(max_examples=60, deadline=None)
def test_looking_only_where_a_piece_may_begin_gives_the_same_as_going_slot_by_slot(seed):
    of = drawn(seed, count=8, days=4)

    assert listed(of) == slot_by_slot(of)


@given(SEEDS)
@settings(max_examples=15, deadline=None)
def test_the_solver_is_never_worse_than_the_quick_schedule_and_never_better_than_its_bound(seed):
    of = drawn(seed, count=7, days=3)
    found = solved(of, time=10.0)

    assert keeps(of, found.starts)
    assert found.cost <= of.cost_of(listed(of)) + 1e-9
    assert found.bound <= found.cost + 1e-9
    assert 0 <= found.gap < 1


@given(SEEDS)
@settings(max_examples=30, deadline=None)
def test_a_place_that_is_left_costs_more_than_any_slot(seed):
    of = drawn(seed)
    allowed = np.where(of.allowed, of.costs, -np.inf).max(axis=1)

    assert (of.left_costs > allowed).all()


def test_what_waits_for_work_that_never_begins_does_not_begin():
    slots = slots_of(ALWAYS, first=MONDAY, days=1, zone=UTC)
    allowed = np.ones((2, slots.count), dtype=bool)
    allowed[0] = False
    of = problem([piece(0, 1, 1), piece(1, 1, 1, [(0, 0.0)])], slots, allowed=allowed)

    assert listed(of) == solved(of, time=5.0).starts == (NOT_YET, NOT_YET)


def test_a_day_holds_the_hours_of_all_people_and_no_more():
    slots = slots_of(ALWAYS, first=MONDAY, days=2, zone=UTC)
    of = problem([piece(number, 4, 1) for number in range(3)], slots, crew=2, day_most=8)
    starts = listed(of)

    assert [int(of.slots.days[start]) for start in starts] == [0, 0, 1]
    assert keeps(of, starts)
    assert slots.seconds[starts[2]] - slots.seconds[0] == 24 * HOUR
