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
    Topic.BUCKET_WEIGHT: "materials",
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
            yield Learned(lesson.topic.value, what, lesson.value / first - 1.0, lesson.count)


def _named(lesson: Lesson, *, money: bool) -> str:
    """The thing by its name on a shelf; empty where it is on none."""
    of, _, rest = lesson.subject.partition(", ")
    if lesson.topic is Topic.PRICE:
        return of if money and of in shelf("materials") else ""
    name = _SHELVES.get(lesson.topic)
    if name is None or of not in shelf(name):
        return ""
    return f"{of}, thickness" if rest == "thickness" else of
