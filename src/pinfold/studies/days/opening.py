"""When a day's work may begin: as the plan says, else at seven, else at first light where the day grows hot."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, tzinfo
from functools import cache

from pinfold.plan.people import HOUR, People
from pinfold.studies.days.outlook import Outlook
from pinfold.studies.days.slots import moment_of
from pinfold.units import Second

Opens = Callable[[date], Second]
"""Time after midnight at which a day's work may begin."""
_EARLIER = 2
"""Hours before the usual beginning that first light is looked for in."""


def opening(people: People, outlook: Outlook | None, zone: tzinfo) -> Opens:
    """When work may begin, day by day.

    Args:
        people: who works; a beginning that the plan itself says is kept
        outlook: sun and heat; the usual beginning where neither is known
        zone: clock of the place
    """
    if outlook is None or outlook.heat is None or outlook.sun is None or "start" not in people.usual:
        return lambda _: people.start
    heavy, dark = outlook.heat.work["heavy"], outlook.dark
    usual = int(people.start / HOUR)

    def hours(day: date, first: int, last: int) -> list[tuple[int, int]]:
        found = ((hour, outlook.hour(moment_of(day, hour * HOUR, zone).timestamp())) for hour in range(first, last))
        return [(hour, number) for hour, number in found if number >= 0]

    @cache
    def opens(day: date) -> Second:
        if not any(heavy[number] < HOUR for _, number in hours(day, usual, round(people.end / HOUR))):
            return people.start
        light = [hour for hour, number in hours(day, usual - _EARLIER, usual) if not dark[number]]
        return min([hour * HOUR for hour in light], default=people.start)

    return opens
