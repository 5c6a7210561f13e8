"""What came otherwise than thought, told by pinfold's own words for things and tasks alone."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from pinfold.studies.account.records import Learned, Part
from pinfold.studies.forecasting.records import Forecast
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.tables.shelf import shelf

MOST = 8
"""So many are told."""
_LEAST = 0.02
"""A share by which a figure must have moved to be told."""
_SHELVES = {
    Topic.YIELD: "mixes", Topic.FOAM: "mixes", Topic.COVERAGE: "coats", Topic.MOISTURE: "materials",
    Topic.BUCKET_WEIGHT: "materials", Topic.PRICE: "materials",
}  # fmt: skip
"""Where the things of a topic stand; lessons on other things are not told, for their names are the builder's."""


def learned_of(lessons: Lessons, forecast: Forecast, parts: Collection[Part]) -> tuple[Learned, ...]:
    """Figures that came otherwise, what moved the most first; none where they are left out.

    Args:
        lessons: of the log
        forecast: with the pace of each task
        parts: that are shared
    """
    if Part.LESSONS not in parts:
        return ()
    found = [*_figures(lessons, money=Part.MONEY in parts), *(_paces(forecast) if Part.HOURS in parts else ())]
    told = [each for each in found if abs(each.by) >= _LEAST]
    return tuple(sorted(told, key=lambda each: -abs(each.by))[:MOST])


def _paces(forecast: Forecast) -> Iterator[Learned]:
    for each in forecast.works:
        if each.entries:
            yield Learned("time", each.work, each.over_norm - 1.0, each.entries)


def _figures(lessons: Lessons, *, money: bool) -> Iterator[Learned]:
    for lesson in lessons.lessons:
        what, first = _named(lesson, money=money), lesson.prior.first.value
        if what and first:
            yield Learned(_asked(lesson), what, lesson.value / first - 1.0, lesson.count)


def _asked(lesson: Lesson) -> str:
    """What of the thing a lesson is about."""
    rest = lesson.subject.partition(", ")[2]
    return _OF_SUBJECT.get(rest) or _OF_TOPIC.get(lesson.topic) or rest or lesson.topic.value


_OF_SUBJECT = {"thickness": "how thick it is put on"}
_OF_TOPIC = {
    Topic.YIELD: "what a batch gives", Topic.COVERAGE: "mix it takes", Topic.BUCKET_WEIGHT: "weight of a bucket",
}  # fmt: skip


def _named(lesson: Lesson, *, money: bool) -> str:
    """The thing by the words of its shelf; empty where it is on none."""
    name = _SHELVES.get(lesson.topic)
    found = None if name is None else shelf(name).get(lesson.subject.partition(", ")[0])
    if found is None or (lesson.topic is Topic.PRICE and not money):
        return ""
    return found.says.partition(",")[0]
