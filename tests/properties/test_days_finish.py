"""The spread of the finish: ordered, the same every time, wider where paces scatter more, no sooner for more work."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from days_jobs import job, plan
from pinfold.studies.days.finishing import Scatter, finish_of
from pinfold.studies.days.scheduling import Asked

DENVER = ZoneInfo("America/Denver")
NOW = datetime(2026, 5, 4, 5, tzinfo=DENVER)
OF = plan()
WHOLE = job(OF)


def finish(whole=WHOLE, left=None, times=12, people=OF.people):
    asked = Asked(people=people, now=NOW, zone=DENVER, left=left or {})
    return finish_of(whole, asked, 120, scatter=Scatter(times=times))


def spread_by(share):
    return replace(WHOLE, paces={key: replace(pace, spread=share) for key, pace in WHOLE.paces.items()})


def test_it_is_ordered_and_the_same_every_time():
    one, other = finish(), finish()

    assert one == other
    assert one.early <= one.likely <= one.late
    assert not one.in_weather


def test_paces_that_scatter_more_spread_it_wider():
    narrow, wide = finish(spread_by(0.05)), finish(spread_by(0.6))

    assert wide.late - wide.early > narrow.late - narrow.early


def test_more_that_is_done_is_never_later():
    left = {task.key: 0.0 for task in WHOLE.tasks[:60]}

    assert finish(left=left).late <= finish().late


def test_twice_the_people_are_sooner():
    assert finish(people=replace(OF.people, count=4)).likely < finish().likely


def test_nothing_left_has_no_finish():
    assert finish(left={task.key: 0.0 for task in WHOLE.tasks}) is None


def test_what_finds_no_room_has_no_finish():
    asked = Asked(people=OF.people, now=NOW, zone=DENVER)

    assert finish_of(WHOLE, asked, -20, scatter=Scatter(times=3)) is None


def test_progress_is_told():
    seen = []
    finish_of(WHOLE, Asked(people=OF.people, now=NOW, zone=DENVER), 120, scatter=Scatter(times=3),
              tell=lambda done, whole: seen.append((done, whole)))  # fmt: skip

    assert seen == [(0, 3), (1, 3), (2, 3)]


@pytest.mark.parametrize("count", [1, 2])
def test_one_person_alone_gets_there(count):
    assert finish(people=replace(OF.people, count=count), times=3) is not None
