"""What a day asks besides the work: rounds with water on what cures, covers before frost and rain."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, datetime, timedelta, tzinfo
from typing import NamedTuple

import numpy as np

from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.studies.days.outlook import Outlook
from pinfold.studies.days.records import WET, Task
from pinfold.studies.days.scheduling import Schedule
from pinfold.studies.days.slots import moment_of
from pinfold.studies.drying.records import CATCH, Drying
from pinfold.studies.drying.wetting import DRAINED, FROST
from pinfold.studies.weather.records import Element
from pinfold.tables.shelf import kind
from pinfold.units import Celsius, CubicMeter, Second

_WATER = 1000.0
_USUAL = (7, 12, 18)
"""Hours of the clock at which what cures is wetted where nobody knows how fast it dries."""
_FROM, _UNTIL = 6, 20
_OFTEN = 6
"""More rounds than these in a day, and something is hung before the face instead."""
_LATE = 17
"""By this hour fresh work is covered for the night, while there is light."""
_COVERED: Second = 72 * HOUR
"""Fresh work is kept from frost for so long."""
_RAIN_KEPT: Second = 24 * HOUR
_WETTING_CHANCE = 0.4
_COVERS = frozenset({Work.FOOTING, Work.LAY, Work.GROUT, Work.COPING, Work.COAT, Work.POSTS, Work.BLOCKS})


class Round(NamedTuple):
    """One face or place wetted through a day.

    Attributes:
        place: what is wetted.
        times: when, by the clock of the place.
        water: for all of the day; not a number where it is not known.
        until: day on which it is kept damp to the end.
        because: what the times rest on.
    """

    place: str
    times: tuple[datetime, ...]
    water: CubicMeter
    until: date
    because: str


class Cover(NamedTuple):
    """Something fresh that is covered.

    Attributes:
        place: what.
        by: when at the latest, by the clock of the place.
        because: frost or rain, and when.
        lowest: air it is covered from; not a number for rain.
    """

    place: str
    by: datetime
    because: str
    lowest: Celsius


class Finished(NamedTuple):
    """A task with wet work and when it was, or will be, done."""

    task: Task
    end: datetime


def finished_before(
    schedule: Schedule, done: Iterable[Finished], day: date, zone: tzinfo
) -> tuple[Finished, ...]:  # fmt: skip
    """Wet work that is done by the end of a day, by the log and by the schedule."""
    ends: dict[str, Finished] = {each.task.key: each for each in done}
    for placed in schedule.placed:
        if placed.end.astimezone(zone).date() <= day and placed.piece.task.work in WET:
            ends[placed.piece.task.key] = Finished(placed.piece.task, placed.end)
    return tuple(ends.values())


def rounds_on(day: date, fresh: Iterable[Finished], outlook: Outlook | None, *, zone: tzinfo) -> tuple[Round, ...]:
    """Rounds with water on a day: on every coat that is kept damp still, face by face.

    Args:
        day: by the clock of the place
        fresh: wet work done by its end
        outlook: how long a wetting lasts on each face, and frost, before which nothing is wetted; None where nothing
            is known
        zone: clock of the place
    """
    drying = None if outlook is None else outlook.drying
    latest: dict[str, Finished] = {}
    for each in fresh:
        if each.task.wet_for > 0:
            name = f"{each.task.place} {each.task.face}".strip()
            if name not in latest or latest[name].end < each.end:
                latest[name] = each
    found = []
    for name, each in latest.items():
        until = (each.end + timedelta(seconds=each.task.wet_for)).astimezone(zone)
        begin = max(each.end.astimezone(zone), _at(day, _FROM, zone))
        end = min(until, _at(day, _UNTIL, zone))
        if begin < end:
            found.append(_round(name, each.task, (begin, end), drying, until.date()))
    frostless = (each._replace(times=tuple(at for at in each.times if not _freezes(outlook, at))) for each in found)
    return tuple(each for each in frostless if each.times)


def _freezes(outlook: Outlook | None, moment: datetime) -> bool:
    """Whether it freezes then or soon after."""
    if outlook is None or not outlook.weather.has(Element.TEMPERATURE):
        return False
    air = outlook.weather.of(Element.TEMPERATURE)
    return _first(outlook, air, moment, moment + timedelta(seconds=DRAINED.value), under=True) is not None


def _round(
    name: str, task: Task, span: tuple[datetime, datetime], drying: Drying | None, until: date
) -> Round:  # fmt: skip
    begin, end = span
    if drying is None or not _covers_span(drying, name, end):
        times = tuple(at for hour in _USUAL if begin <= (at := _at(begin.date(), hour, begin.tzinfo)) <= end)
        return Round(name, times, float("nan"), until, "morning, noon and evening: how fast it dries is NOT SHOWN")
    face = drying.of(name)
    times = tuple(_times(drying, face, begin, end))
    each = float(drying.held[face]) * task.area / CATCH.value / _WATER
    return Round(name, times, each * len(times), until, _OFTENER if len(times) > _OFTEN else _BEFORE_DRY)


_BEFORE_DRY = "before it is dry again, by sun, wind and air"
_OFTENER = (
    f"{_BEFORE_DRY}; where that is too often, hang shade cloth or a sheet before it: 'pinfold days wet --cover sheet' "
    "tells how long it lasts then"
)


def _covers_span(drying: Drying, name: str, end: datetime) -> bool:
    """Whether it tells of a face until a moment."""
    hours = (end - drying.start).total_seconds() / HOUR
    return drying.shown and any(face.name == name for face in drying.faces) and hours < len(drying.known)


def _at(day: date, hour: int, zone: tzinfo | None) -> datetime:
    assert zone is not None
    return moment_of(day, hour * HOUR, zone).astimezone(zone)


def _times(drying: Drying, face: int, begin: datetime, end: datetime) -> Iterator[datetime]:
    """The first as it begins to dry, each next one before the last is gone; at whole hours."""
    moment = begin if begin.minute == 0 else begin.replace(minute=0) + timedelta(hours=1)
    while moment <= end:
        hour = int((moment - drying.start).total_seconds() // HOUR)
        if not 0 <= hour < drying.wet_interval_least.shape[1]:
            return
        yield moment
        lasts = float(drying.wet_interval_least[face, hour])
        step = np.clip(lasts, HOUR, 6 * HOUR) if np.isfinite(lasts) else 6 * HOUR
        moment += timedelta(hours=float(step) // HOUR)


def covers_on(day: date, fresh: Iterable[Finished], outlook: Outlook | None, *, zone: tzinfo) -> tuple[Cover, ...]:
    """What is covered on a day: fresh work that frost or rain finds before the next evening."""
    if outlook is None:
        return ()
    begin, end = (moment_of(day, hour * HOUR, zone) for hour in (6, 24))
    night = end + timedelta(hours=10)
    found = [
        cover
        for each in fresh
        if each.task.work in _COVERS
        for cover in _covers(each, outlook, (max(begin, each.end), night), zone=zone)
        if cover.by.astimezone(zone).date() == day
    ]
    return tuple(sorted(found, key=lambda cover: (cover.by, cover.place)))


def _covers(
    each: Finished, outlook: Outlook, span: tuple[datetime, datetime], *, zone: tzinfo
) -> Iterator[Cover]:  # fmt: skip
    begin, night = span
    name = f"{each.task.work} {each.task.place} {each.task.face}".strip()
    air = outlook.weather.of(Element.TEMPERATURE) if outlook.weather.has(Element.TEMPERATURE) else None
    cold = _first(outlook, air, begin, min(night, each.end + timedelta(seconds=_COVERED)), under=True)
    if cold is not None and air is not None:
        hour, moment = cold
        lowest = float(np.nanmin(air[hour : max(outlook.hour(night.timestamp()), hour + 1)]))
        by = _evening(moment, begin, zone)
        kept = "leave it covered, " if by <= begin and each.end < begin else ""
        yield Cover(name, by, f"{kept}frost from {moment.astimezone(zone):%H:%M}", lowest)
    chance = outlook.weather.of(Element.RAIN_CHANCE) if outlook.weather.has(Element.RAIN_CHANCE) else None
    wet = _first(outlook, chance, begin, min(night, each.end + timedelta(seconds=_RAIN_KEPT)), under=False)
    if wet is not None and outlook.foreseen[wet[0]]:
        moment = wet[1]
        yield Cover(
            name, max(moment, begin).astimezone(zone), f"rain from {moment.astimezone(zone):%H:%M}", float("nan")
        )


def _first(
    outlook: Outlook, values: np.ndarray | None, begin: datetime, end: datetime, *, under: bool
) -> tuple[int, datetime] | None:  # fmt: skip
    """First hour of a span in which it freezes, or in which rain is likely."""
    if values is None:
        return None
    first = outlook.hour(begin.timestamp())
    for hour in range(first if first >= 0 else outlook.count, outlook.count):
        moment = outlook.weather.start + timedelta(hours=hour)
        if moment >= end:
            return None
        if (values[hour] < FROST.value) if under else (values[hour] >= _WETTING_CHANCE):
            return hour, moment
    return None


def _evening(moment: datetime, begin: datetime, zone: tzinfo) -> datetime:
    """Two hours before it freezes, yet by daylight: not after five in the afternoon before the night."""
    local = moment.astimezone(zone)
    evening = _at(local.date() - timedelta(days=1 if local.hour < 10 else 0), _LATE, zone)
    return max(min(local - timedelta(hours=2), evening), begin.astimezone(zone))


def cautions_of(tasks: Iterable[Task], *, has_lines: bool) -> tuple[str, ...]:
    """Cautions of the work of a day, each once: those of its mixes first."""
    found: list[str] = []
    for task in tasks:
        for dose in task.doses:
            listed = kind("mixes", dose.mix).words.get("cautions", [])
            found += [str(text) for text in listed] if isinstance(listed, list) else []
        names = [*_BY_WORK.get(task.work, ())]
        if has_lines and task.work in (Work.DIG, Work.HOLES):
            names.append("buried-lines")
        found += [kind("cautions", name).says for name in names]
    return tuple(dict.fromkeys(found))


_BY_WORK: dict[Work, tuple[str, ...]] = {
    Work.LAY: ("green-wall", "heavy-lift"), Work.RAILS: ("wire-tension",), Work.MESH: ("wire-tension", "sheet-edges"),
    Work.APRON: ("sheet-edges",),
}  # fmt: skip
