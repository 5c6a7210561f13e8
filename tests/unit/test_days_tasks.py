"""Tasks of a plan: all of its layers, in an order that can be built, cut to days, with the times they take."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from days_jobs import counted, job, plan
from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR, People
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import job_of, pace_of
from pinfold.studies.days.pieces import pieces_of
from pinfold.studies.days.records import IN_ONE_GO
from pinfold.studies.days.scheduling import Asked, scheduled
from pinfold.studies.days.slots import SLOT, moment_of, slots_of
from pinfold.studies.days.tasks import tasks_of, work_of
from pinfold.studies.days.wall_tasks import day_heights
from pinfold.studies.quantities.take_off import Section

SAMPLES = ("seed-garden", "quinta")
DENVER = ZoneInfo("America/Denver")
NOW = datetime(2026, 5, 4, 5, tzinfo=DENVER)


def by_work(tasks, work):
    return [task for task in tasks if task.work is work]


@pytest.mark.parametrize("sample", SAMPLES)
def test_each_task_comes_after_what_it_waits_for_and_is_there_once(sample):
    tasks = job(plan(sample)).tasks
    seen = set()
    for task in tasks:
        assert task.key not in seen
        assert all(link.key in seen for link in task.after), task.key
        seen.add(task.key)
    assert tasks[0].work is Work.SET_OUT


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_mix_of_the_take_off_goes_into_tasks_whole(sample):
    of = plan(sample)
    layout, quantities, cards = counted(of)
    tasks = tasks_of(layout, quantities, cards)
    for card in cards:
        doses = [dose for task in tasks for dose in task.doses if (dose.layer, dose.mix) == (card.layer, card.mix.name)]

        assert sum(dose.volume for dose in doses) == pytest.approx(card.gross), card.layer
        assert sum(dose.batches for dose in doses) <= card.batches + 0.5


@pytest.mark.parametrize("sample", SAMPLES)
def test_what_is_dug_is_dug_once_also_where_a_run_is_one_stretch(sample):
    layout, quantities, cards = counted(plan(sample))
    tasks = tasks_of(layout, quantities, cards)
    for work, name in ((Work.DIG, "trench"), (Work.HOLES, "hole")):
        dug = sum(line.net for line in quantities if line.kind.name == name)

        assert sum(task.measures.m3 for task in by_work(tasks, work)) == pytest.approx(dug)


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_tasks_of_each_section_are_together_all_of_them(sample):
    layout, quantities, cards = counted(plan(sample))
    whole = tasks_of(layout, quantities, cards)
    parts = [task for section in Section for task in work_of(layout, Counted(quantities, cards), {section})]

    assert sorted((task.key, task.norms) for task in parts) == sorted((task.key, task.norms) for task in whole)


@pytest.mark.parametrize("sample", SAMPLES)
def test_faces_of_a_coat_are_all_of_its_area(sample):
    of = plan(sample)
    layout, quantities, cards = counted(of)
    coated = sum(dict(line.working[0].inputs)["area"] for line in quantities if line.layer == "coat" and line.working)
    tasks = by_work(tasks_of(layout, quantities, cards), Work.COAT)

    assert sum(task.measures.m2 for task in tasks) == pytest.approx(coated)
    assert {task.face for task in tasks} == {"outer", "inner"}


def test_lifts_of_a_wall_are_all_of_it():
    of = plan()
    layout, quantities, cards = counted(of)
    tasks = by_work(tasks_of(layout, quantities, cards), Work.LAY)
    for stretch in layout.stretches:
        own = [task for task in tasks if task.place == stretch.name]
        area = sum(step.height * (step.end - step.start) for step in stretch.steps)

        assert sum(task.measures.m2 for task in own) == pytest.approx(area, rel=1e-6)


def test_no_day_s_height_is_more_than_may_be_laid_and_courses_stay_whole():
    wall = plan().buildups["block and mesh"].wall
    for height in (0.2, 0.8, 1.4, 1.6, 2.4, 3.2):
        bands = day_heights(wall, height)

        assert bands[0][0] == 0.0
        assert bands[-1][1] == pytest.approx(height)
        assert all(high - low <= 1.5 + 0.21 for low, high in bands)
        assert all(after[0] == before[1] for before, after in pairwise(bands))


def test_posts_in_the_wall_stand_before_it_is_grouted_and_gates_hang_after_their_collars():
    tasks = {task.key: task for task in job(plan()).tasks}

    assert "posts south/1" in {link.key for link in tasks["grout south/1b"].after}
    (hung,) = [link for link in tasks["gate foot gate"].after if link.key == "posts foot gate"]
    assert hung.wait >= 7 * 24 * HOUR


def test_the_second_coat_waits_as_its_first_asks():
    tasks = {task.key: task for task in job(plan()).tasks}
    (link,) = tasks["coat south/1b outer 2"].after

    assert link.key == "coat south/1b outer 1"
    assert link.wait == pytest.approx(48 * HOUR)
    assert link.target == "next-coat"


def test_blocks_made_on_the_plot_cure_before_they_are_laid():
    tasks = {task.key: task for task in job(plan("quinta")).tasks}
    (link,) = [link for link in tasks["lay valley/1a 1"].after if link.key == "make blocks valley/1a"]

    assert link.wait == pytest.approx(28 * 24 * HOUR)


def test_slowness_goes_over_the_norm():
    of = plan()
    layout, quantities, cards = counted(of)
    task = by_work(tasks_of(layout, quantities, cards), Work.LAY)[0]
    norm = pace_of(task, of.people)

    assert pace_of(task, replace(of.people, slowness=3.0)).labor == pytest.approx(2 * norm.labor)


def test_pieces_fit_into_a_day_and_add_up():
    of = plan()
    whole = job(of)
    pieces = pieces_of(whole, of.people, {})
    for piece in pieces:
        assert piece.slots * SLOT <= of.people.hours + 0.5 * SLOT
        assert piece.people <= of.people.count
    for key, pace in whole.paces.items():
        parts = [piece for piece in pieces if piece.task.key == key]
        assert sum(piece.labor for piece in parts) == pytest.approx(pace.labor)
        assert sum(piece.share for piece in parts) == pytest.approx(1.0)


def test_what_leaves_a_seam_is_cut_into_the_fewest_parts_that_fit_into_days():
    of = plan()
    whole = job(of)
    for piece in pieces_of(whole, of.people, {}):
        if piece.task.work in IN_ONE_GO:
            pace = whole.paces[piece.task.key]
            time = pace.labor / min(of.people.count, pace.most)

            assert piece.parts == max(math.ceil(time / (of.people.hours + 0.5 * SLOT) - 1e-6), 1)


def test_a_schedule_keeps_to_every_wait_and_to_the_people():
    of = plan()
    whole = job(of)
    asked = Asked(people=of.people, now=NOW, zone=DENVER, time=1.0)
    laid = scheduled(whole, asked)
    assert laid is not None
    ends = {}
    for placed in laid.placed:
        ends[placed.piece.task.key] = max(placed.end, ends.get(placed.piece.task.key, placed.end))
    begins = {}
    for placed in reversed(laid.placed):
        begins[placed.piece.task.key] = placed.start

    assert laid.unplaced == ()
    for task in whole.tasks:
        for link in task.after:
            assert (begins[task.key] - ends[link.key]).total_seconds() >= link.wait - 1.0, (task.key, link.key)
    used = np.zeros(laid.problem.slots.count, dtype=int)
    for placed in laid.placed:
        used[placed.slot : placed.slot + placed.piece.slots] += placed.piece.people
    assert used.max() <= of.people.count
    assert laid.finish is not None
    assert 0 <= laid.gap < 1


def test_what_is_done_never_lengthens_what_is_left():
    of = plan()
    whole = job(of)
    finishes = []
    left = {}
    for count in (0, 20, 60, 100):
        left = {task.key: 0.0 for task in whole.tasks[:count]}
        laid = scheduled(whole, Asked(people=of.people, now=NOW, zone=DENVER, left=left, time=0.5))
        assert laid is not None
        assert laid.finish is not None
        finishes.append(laid.finish)

    assert finishes == sorted(finishes, reverse=True)
    done = {task.key: 0.0 for task in whole.tasks}
    nothing = scheduled(whole, Asked(people=of.people, now=NOW, zone=DENVER, left=done, time=0.5))
    assert nothing is not None
    assert nothing.placed == ()


def test_what_was_done_lately_still_hardens():
    of = plan()
    whole = job(of)
    left = {task.key: 0.0 for task in whole.tasks if task.key != "gate cart gate"}
    done = {"posts cart gate": NOW}
    laid = scheduled(whole, Asked(people=of.people, now=NOW, zone=DENVER, left=left, done=done, time=0.5))

    assert laid is not None
    assert (laid.placed[0].start - NOW).total_seconds() >= 7 * 24 * HOUR


def test_nobody_lays_nothing_into_days():
    of = plan()
    whole = job(of)

    assert scheduled(whole, Asked(people=replace(of.people, count=0), now=NOW, zone=DENVER)) is None
    assert scheduled(whole, Asked(people=replace(of.people, weekdays=()), now=NOW, zone=DENVER)) is None


def test_days_begin_by_the_clock_on_the_wall_through_the_change_of_clocks():
    people = People(weekdays=tuple(range(7)))
    slots = slots_of(people, first=date(2026, 3, 7), days=3, zone=DENVER)
    firsts = [slots.starts[int(np.flatnonzero(slots.days == day)[0])] for day in range(3)]

    assert [first.astimezone(DENVER).hour for first in firsts] == [7, 7, 7]
    assert [first.hour for first in firsts] == [14, 13, 13]
    assert (firsts[1] - firsts[0]).total_seconds() == 23 * HOUR
    assert all(len(np.flatnonzero(slots.days == day)) == 22 for day in range(3))


def test_a_day_that_holds_the_change_has_the_hours_it_has():
    people = People(start=0.0, end=24 * HOUR, weekdays=tuple(range(7)))
    spring = slots_of(people, first=date(2026, 3, 8), days=1, zone=DENVER)
    autumn = slots_of(people, first=date(2026, 11, 1), days=1, zone=DENVER)

    assert (spring.count, autumn.count) == (46, 50)
    assert moment_of(date(2026, 5, 3), 24 * HOUR, UTC) == datetime(2026, 5, 4, tzinfo=UTC)


def test_missing_amounts_are_told_and_not_counted():
    of = plan()
    layout, quantities, cards = counted(of)
    unknown = tuple(
        replace(line, net=float("nan"), note="no density is known") if line.layer == "coping" or (
            line.layer == "grout" and line.place == "south/1b") else line
        for line in quantities
    )  # fmt: skip
    tasks = tasks_of(layout, unknown, cards)
    found = job_of(tasks, of.people, Counted(unknown, cards).missing)

    assert not found.paces["grout south/1b"].is_known
    assert any("no density is known" in text for text in found.missing)
    laid = scheduled(found, Asked(people=of.people, now=NOW, zone=DENVER, time=0.5))
    assert laid is not None
    assert laid.unknown == ("grout south/1b",)
