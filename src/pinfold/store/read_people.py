"""Reading the table `people` of a plan file: who builds, and when in the day and the week."""

from __future__ import annotations

import re

from pinfold.plan.people import HOUR, WEEKDAYS, People
from pinfold.store.forms import Form
from pinfold.units import RATIO, SECOND, Second

_DAY = 24 * HOUR
_CLOCK = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")


def read_people(whole: Form) -> People:
    """The table `people`; what is absent stands as usual and is told as such."""
    form = whole.sub("people") or Form({}, "people", whole.complaints)
    usual = People()
    hours = form.quantity("hours", SECOND, otherwise=usual.hours, low=0.5 * HOUR, high=16 * HOUR)
    start = _clock(form, "start", usual.start)
    end = _clock(form, "end", max(usual.end, min(start + hours + 4 * HOUR, _DAY)))
    people = People(
        count=form.count("count", otherwise=usual.count, low=0, high=100),
        hours=hours,
        start=start,
        end=end,
        weekdays=_weekdays(form, usual.weekdays),
        slowness=form.quantity("slowness", RATIO, otherwise=usual.slowness, low=0.2, high=10.0),
        usual=tuple(key for key in usual.usual if key not in form.table),
    )
    if end - start < hours:
        form.complain("end", "leaves less time than hours asks for; write a later end, an earlier start or fewer hours")
    form.refuse_unknown()
    return people


def _clock(form: Form, key: str, otherwise: Second) -> Second:
    found = form.raw(key)
    if found is None:
        return otherwise
    matched = _CLOCK.fullmatch(found) if isinstance(found, str) else None
    if matched is None:
        form.complain(key, f'{found!r} found; a time of the day is wanted, like {key} = "6:30"')
        return otherwise
    return int(matched[1]) * HOUR + int(matched[2]) * 60.0


def _weekdays(form: Form, otherwise: tuple[int, ...]) -> tuple[int, ...]:
    found = form.raw("weekdays")
    if found is None:
        return otherwise
    if not isinstance(found, list) or any(day not in WEEKDAYS for day in found):
        form.complain("weekdays", f'{found!r} found; a list of days is wanted, like ["monday", "saturday"]')
        return otherwise
    return tuple(sorted({WEEKDAYS.index(day) for day in found}))
