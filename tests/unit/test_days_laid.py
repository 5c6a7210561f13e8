"""The job of a site in days: with weather and without, hostile plans, sheets, the same every time."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import icalendar
import numpy as np
import pytest

from pinfold.actions.answers import told
from pinfold.actions.days_job import NOBODY, job_calendar, job_in_days, job_part, today_lines
from pinfold.actions.days_laid import JobAsked, laid_out
from pinfold.actions.days_sheet import day_sheet, first_sheets
from pinfold.errors import InputError, InvalidPlan, NoSolutionError, NotFoundError
from pinfold.plan.people import HOUR
from pinfold.reports.days_job import NO_WEATHER
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample
from pinfold.studies.days import solving
from pinfold.studies.days.limiting import forbidden, limits_of, mean_risk, summed
from pinfold.studies.days.listing import tried
from pinfold.studies.days.outlook import Limits
from pinfold.studies.days.scheduling import laid_over, scheduled
from pinfold.studies.seasons.records import May

FIRST = date(2026, 5, 4)
NOW = datetime(2026, 5, 4, 11, tzinfo=UTC)  # 5:00 in Denver
SHORT = JobAsked()


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    folder = tmp_path_factory.mktemp("days") / "garden"
    from_sample(folder, "seed-garden", today=FIRST)
    return folder


@pytest.fixture
def site(kept, tmp_path):
    return shutil.copytree(kept, tmp_path / "garden")


def changed(site, *pairs, more=""):
    text = (site / NAME).read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    (site / NAME).write_text(text + more, encoding="utf-8")
    return site


def test_no_hour_that_weather_sun_or_season_forbid_is_worked_in(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    outlook, schedule = laid.asked.outlook, laid.schedule
    assert outlook is not None
    assert schedule is not None
    looked = 0
    for placed in schedule.placed:
        season = outlook.season_of(placed.piece.task)
        for step in range(placed.piece.slots):
            hour = outlook.hour(placed.start.timestamp() + step * 0.5 * HOUR)
            assert not outlook.dark[hour]
            if season is not None:
                looked += 1
                assert season.verdicts[hour] != May.NO, placed.piece.name
    assert looked > 100


def test_the_same_site_gives_the_same_days(kept, site):
    one, other = (job_in_days(folder, SHORT, now=NOW) for folder in (kept, site))

    assert told(one, as_json=True) == told(other, as_json=True)


def test_it_is_told_in_eighty_columns_and_as_json(kept):
    answer = job_in_days(kept, SHORT, now=NOW)
    text = told(answer, as_json=False, width=80)
    record = json.loads(told(answer, as_json=True))

    assert max(len(line) for line in text.splitlines()) <= 80
    assert "90 of 100 times by" in " ".join(text.split())
    assert record["early"] <= record["likely"] <= record["late"]
    assert 0 <= record["gap"] < 1
    assert record["works"][0]["work"] == "set out"


def test_progress_of_long_work_is_told(kept):
    seen = []
    other = JobAsked(people="3")
    job_in_days(kept, other, now=NOW, told=lambda done, whole: seen.append((done, whole)))

    assert seen[0][0] == 0
    assert all(done <= whole for done, whole in seen)


def test_more_people_and_longer_days_are_not_later(kept):
    ends = [laid_out(kept, asked, now=NOW).schedule.finish for asked in (
        JobAsked(people="1"), SHORT, JobAsked(people="3"), JobAsked(people="3", hours="9"))]  # fmt: skip

    assert ends == sorted(ends, reverse=True)


@pytest.mark.parametrize(
    ("asked", "place"),
    [
        (JobAsked(people="0"), "people"), (JobAsked(people="many"), "people"), (JobAsked(hours="0"), "hours"),
        (JobAsked(hours="25 h"), "hours"), (JobAsked(hours="3 ft"), "hours"), (JobAsked(first="soon"), "from"),
        (JobAsked(first="2020-01-01"), "from"), (JobAsked(first="2999-01-01"), "from"),
    ],
)  # fmt: skip
def test_what_cannot_be_asked_is_told_with_its_place(kept, asked, place):
    with pytest.raises(InputError) as refused:
        laid_out(kept, asked, now=NOW)

    assert refused.value.place == place


def test_without_weather_it_goes_by_waits_and_pace_alone_and_says_so(site):
    shutil.rmtree(site / "weather")
    laid = laid_out(site, SHORT, now=NOW)
    text = told(job_in_days(site, SHORT, now=NOW), as_json=False)

    assert laid.asked.outlook is None
    assert laid.schedule is not None
    assert laid.schedule.unplaced == ()
    assert " ".join(NO_WEATHER.split()) in " ".join(text.split())
    assert NO_WEATHER in day_sheet(site, "today", now=NOW).record.weather


def test_nobody_works(site):
    changed(site, more="\n[people]\ncount = 0\n")
    text = told(job_in_days(site, SHORT, now=NOW), as_json=False)

    assert "NOT SHOWN" in text
    assert today_lines(site, now=NOW) == (NOBODY,)
    assert first_sheets(site, 3, now=NOW) == ()
    assert job_part(site, now=NOW)[1] == ""
    for ask in (lambda: day_sheet(site, "today", now=NOW), lambda: job_calendar(site, SHORT, now=NOW)):
        with pytest.raises(NoSolutionError):
            ask()
    assert laid_out(site, JobAsked(people="2"), now=NOW).schedule is not None


def test_days_off_are_off(site):
    changed(site, more='\n[people]\nweekdays = ["saturday", "sunday"]\nhours = "5 h"\n')
    schedule = laid_out(site, SHORT, now=NOW).schedule
    sheet = day_sheet(site, "2026-05-05", now=NOW)

    assert schedule is not None
    assert {placed.start.astimezone(schedule.problem.slots.zone).weekday() for placed in schedule.placed} == {5, 6}
    assert sheet.record.off
    assert sheet.record.works == ()


def test_a_plan_without_walls_has_posts_and_mesh(site):
    changed(site, ('buildup = "block and mesh"', 'buildup = "mesh on the ground"'))
    works = {task.work.value for task in laid_out(site, SHORT, now=NOW).job.tasks}

    assert {"set out", "holes", "posts", "rails", "mesh", "gate"} <= works
    assert not works & {"lay", "coat", "footing", "grout"}


def test_a_plan_that_cannot_be_read_is_told(site):
    changed(site, more="\n[people]\ncount = -3\n")
    with pytest.raises(InvalidPlan, match="whole number"):
        laid_out(site, SHORT, now=NOW)


@pytest.mark.parametrize("day", ["yesterday", "2026-05-03", "2026-13-01", "../plan.toml", "9999-01-01"])
def test_days_there_are_none_of_are_told(kept, day):
    with pytest.raises((InputError, NotFoundError)):
        day_sheet(kept, day, now=NOW)


def test_a_sheet_has_what_the_schedule_has_on_that_day(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    day = laid.schedule.placed[3].start.astimezone(laid.days.zone).date()
    sheet = day_sheet(kept, day.isoformat(), now=NOW)

    assert [work.key for work in sheet.record.works] == [
        placed.piece.task.key for placed in laid.schedule.on(day, laid.days.zone)
    ]
    assert max(len(line) for line in told(sheet, as_json=False, width=80).splitlines()) <= 80
    assert "Find water, gas and power lines" in " ".join(sheet.record.cautions)


def test_a_coat_is_wetted_the_days_after_and_covered_before_frost(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    coat = next(placed for placed in laid.schedule.placed if placed.piece.task.work.value == "coat"
                and placed.piece.part == placed.piece.parts * (placed.piece.parts > 1))  # fmt: skip
    after = coat.end.astimezone(laid.days.zone).date() + timedelta(days=1)
    sheet = day_sheet(kept, after.isoformat(), now=NOW).record
    face = f"{coat.piece.task.place} {coat.piece.task.face}"

    assert face in {each.place for each in sheet.wet}
    assert all(time.date() == after for each in sheet.wet for time in each.times)
    for day in range(0, 60, 7):
        covers = day_sheet(kept, (FIRST + timedelta(days=day)).isoformat(), now=NOW).record.covers
        assert all(cover.by.date() == FIRST + timedelta(days=day) for cover in covers)


def test_the_calendar_has_every_piece_once(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    read = icalendar.Calendar.from_ical(job_calendar(kept, SHORT, now=NOW))
    ids = [event["uid"] for event in read.walk("VEVENT")]

    assert len(set(ids)) == len(ids) == len(laid.schedule.placed)


def test_a_hot_face_waits_for_its_shade():
    """By hand: three hours, the middle one too hot, the last one in the shade."""
    limits = Limits(np.array([False, True, False]), np.array([8.0, 8.0, 0.0]), np.ones(3, dtype=bool))
    hours = np.array([0, 0, 1, 1, 2, 2])
    sums = summed(limits, hours)
    no, risk = forbidden(sums, 2), mean_risk(sums, 2)

    assert no.tolist() == [False, True, True, True, False, False]
    assert risk[4] == 0.0
    assert risk[0] == 8.0


def test_tasks_that_are_bound_alike_share_their_limits_and_each_has_its_own(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    tasks, outlook = laid.job.tasks, laid.asked.outlook
    found = limits_of(tasks, outlook)

    assert len({id(limits) for limits in found.values()}) < len(tasks)
    for task in tasks:
        for shared, own in zip(found[task.key], outlook.limits_for(task), strict=True):
            assert np.array_equal(shared, own)


def test_without_risks_the_same_slots_are_allowed(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    pieces, limits = laid.schedule.problem.pieces, limits_of(laid.job.tasks, laid.asked.outlook)
    whole, bare = (laid_over(pieces, laid.asked, limits, 40, 3, risks=risks) for risks in (True, False))

    assert np.array_equal(whole.allowed, bare.allowed)
    assert whole.risk.any()
    assert not bare.risk.any()


def test_a_job_that_is_the_same_in_numbers_is_not_solved_again(kept, monkeypatch):
    laid = laid_out(kept, SHORT, now=NOW)
    calls = []
    monkeypatch.setattr(solving, "tried", lambda problem: calls.append(problem) or tried(problem))
    solving._solved.cache_clear()
    named = replace(laid.job, tasks=tuple(replace(task, says=f"{task.says} again") for task in laid.job.tasks))
    longer = replace(laid.job, paces={key: replace(pace, labor=pace.labor * 2) for key, pace in laid.job.paces.items()})
    plans = [[(each.piece.name, each.slot) for each in scheduled(job, laid.asked).placed]
             for job in (laid.job, named, longer)]  # fmt: skip

    assert plans[0] == plans[1] != plans[2]
    assert len(calls) == 2


def test_what_has_not_hardened_makes_it_another_job(kept):
    laid = laid_out(kept, SHORT, now=NOW)
    problem = laid.schedule.problem
    slower = replace(problem, ready=lambda link, ends: problem.ready(link, ends) + HOUR)

    assert solving._numbers_of(problem) == solving._numbers_of(replace(problem))
    assert solving._numbers_of(problem) != solving._numbers_of(slower)


def test_a_part_of_a_task_tells_which_share_of_its_amounts_is_meant():
    from pinfold.actions.days_job import _said
    from pinfold.logbook.works import Work
    from pinfold.studies.days.pieces import Piece
    from pinfold.studies.days.records import Measures, Task

    task = Task(
        key="dig a",
        work=Work.DIG,
        says="dig the trench, 9 m³",
        place="a",
        layer="trench",
        measures=Measures(m3=9.0),
        norms=(),
    )
    whole = Piece(task=task, part=0, parts=1, slots=2, people=2, labor=1.0, after=(), tail=0.0, share=1.0)
    assert _said(whole) == "dig the trench, 9 m³"
    assert _said(whole._replace(part=2, parts=9, share=1 / 9)) == "dig the trench, 9 m³ in all, 11% of it now"
