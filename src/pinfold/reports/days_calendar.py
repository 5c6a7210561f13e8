"""The job as a calendar file that phones and other calendars read: an event for each piece of work."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from pinfold.reports.days_job import ESTIMATED, WorkTold

_COUNTED_FROM = datetime(2024, 1, 1, tzinfo=UTC)


def calendar_bytes(name: str, works: Iterable[WorkTold], *, now: datetime, zone: ZoneInfo | None) -> bytes:
    """An iCalendar file.

    An event has the same id as long as its piece of work is the same, however often it is written anew and wherever
    it moves, and a higher sequence each time, so that a calendar that takes the file again moves what it has.

    Args:
        name: of the plot
        works: pieces of work
        now: when it is written
        zone: clock of the place; None for times that float, as the clock on the wall there shows them
    """
    from icalendar import Calendar, Event

    calendar = Calendar()
    calendar.add("prodid", "-//pinfold//the job in days//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", f"{name}: the job in days")
    sequence = int((now.astimezone(UTC) - _COUNTED_FROM).total_seconds() // 60)
    listed = sorted(works, key=lambda work: work.start)
    for work in listed:
        event = Event()
        event.add("uid", event_id(name, work))
        event.add("dtstamp", now.astimezone(UTC).replace(microsecond=0))
        event.add("sequence", sequence)
        event.add("dtstart", _local(work.start, zone))
        event.add("dtend", _local(work.end, zone))
        event.add("summary", f"{ESTIMATED if work.estimated else ''}{work.named}: {work.where}")
        event.add("location", work.where)
        event.add("description", _described(work))
        event.add("status", "TENTATIVE" if work.estimated else "CONFIRMED")
        event.add("transp", "OPAQUE")
        calendar.add_component(event)
    if zone is not None and listed:
        calendar.add_missing_timezones(first_date=listed[0].start.date(), last_date=_after(listed[-1].end))
    return bytes(calendar.to_ical())


def event_id(name: str, work: WorkTold) -> str:
    """Of a piece of work; pieces are counted from the last, which stays the last while the first ones get done."""
    text = f"{name}\n{work.key}\n{work.parts - work.part if work.part else 0}"
    return f"{hashlib.sha256(text.encode()).hexdigest()[:24]}@pinfold"


def _after(moment: datetime) -> date:
    """A year on, so that the zone's change of clocks after it is told too."""
    return (moment + timedelta(days=366)).date()


def _local(moment: datetime, zone: ZoneInfo | None) -> datetime:
    return moment.replace(tzinfo=None) if zone is None else moment.astimezone(zone)


def _described(work: WorkTold) -> str:
    lines = [f"{work.says[:1].upper()}{work.says[1:]}."]
    if work.mixes:
        batches = "NOT SHOWN" if work.batches is None else f"{work.batches:.1f}"
        lines.append(f"{', '.join(work.mixes)}: batches {batches}.")
    lines += [f"Why now: {'; '.join(work.why)}."]
    lines += [f"Do: {step}." for step in work.steps]
    lines += [f"{text[:1].upper()}{text[1:]}." for text in work.not_shown]
    return "\n".join(lines)
