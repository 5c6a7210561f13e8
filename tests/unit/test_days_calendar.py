"""The calendar file, read back by the package: ids that stay, sequences that grow, times of the place."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest

from pinfold.reports.days_calendar import calendar_bytes
from pinfold.reports.days_job import WorkTold

DENVER = ZoneInfo("America/Denver")
NOW = datetime(2026, 3, 1, 12, tzinfo=UTC)


def work(day=6, hour=7, **changes):
    start = datetime(2026, 3, day, hour, tzinfo=DENVER)
    told = WorkTold(
        key="coat south/1b outer 1", work="coat", says="first coat, 10 m²", place="south/1b", face="outer", part=0,
        parts=1, start=start, end=start + timedelta(hours=3), people=2, mixes=("plaster-scratch",), batches=2.4,
        water=0.05, why=("south/1b outer face: in shade from 11:40",), steps=("mist it; shade it, \\ and so on",),
        not_shown=(), estimated=False, pace="",
    )  # fmt: skip
    return replace(told, **changes)


def events(*works, now=NOW, zone=DENVER):
    read = icalendar.Calendar.from_ical(calendar_bytes("plot, old", works, now=now, zone=zone))
    return read, list(read.walk("VEVENT"))


def test_what_is_written_is_read_back():
    calendar, (event,) = events(work())

    assert calendar["version"] == "2.0"
    assert event["summary"] == "coat: south/1b outer"
    assert event.decoded("dtstart") == datetime(2026, 3, 6, 7, tzinfo=DENVER)
    assert event.decoded("dtend") - event.decoded("dtstart") == timedelta(hours=3)
    assert "mist it; shade it, \\ and so on." in event["description"]
    assert "batches 2.4" in event["description"]
    assert event.decoded("dtstamp").tzinfo is not None
    assert list(calendar.walk("VTIMEZONE"))


def test_ids_stay_and_sequences_grow_when_work_moves():
    _, (first,) = events(work())
    _, (later,) = events(work(day=20), now=NOW + timedelta(minutes=1))

    assert first["uid"] == later["uid"]
    assert later["sequence"] > first["sequence"]


def test_the_last_parts_keep_their_ids_while_the_first_get_done():
    _, three = events(*(work(day=day, part=part, parts=3) for day, part in ((6, 1), (9, 2), (10, 3))))
    _, two = events(*(work(day=day, part=part, parts=2) for day, part in ((11, 1), (12, 2))))
    ids = [event["uid"] for event in three]

    assert len(set(ids)) == 3
    assert [event["uid"] for event in two] == ids[1:]


def test_other_plots_and_places_have_other_ids():
    ids = {events(work(key=key))[1][0]["uid"] for key in ("coat a outer 1", "coat a outer 2", "coat b outer 1")}

    assert len(ids) == 3


@pytest.mark.parametrize(("day", "offset"), [(6, -7), (9, -6)])
def test_seven_o_clock_is_seven_o_clock_before_and_after_the_change_of_clocks(day, offset):
    _, (event,) = events(work(day=day))

    assert event.decoded("dtstart").utcoffset() == timedelta(hours=offset)
    assert event.decoded("dtstart").hour == 7


def test_without_a_zone_times_float():
    calendar, (event,) = events(work(), zone=None)

    assert event.decoded("dtstart") == datetime(2026, 3, 6, 7)  # noqa: DTZ001 - floating on purpose
    assert not list(calendar.walk("VTIMEZONE"))


def test_lines_are_folded_and_end_as_the_standard_has_it():
    content = calendar_bytes("plot", [work(says="ä" * 300)], now=NOW, zone=DENVER)

    assert all(len(line) <= 75 for line in content.split(b"\r\n"))
    assert content.endswith(b"END:VCALENDAR\r\n")


def test_nothing_to_do_is_an_empty_calendar():
    calendar, listed = events()

    assert listed == []
    assert calendar["method"] == "PUBLISH"
