"""When the rows of a file are, in UTC: offsets, standard time all year, hours that come twice or never."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import HourFile

HOUR = timedelta(hours=1)


class Moments(NamedTuple):
    """When the hours of a file begin.

    Attributes:
        begins: of each row, in UTC.
        notes: what was met.
    """

    begins: tuple[datetime, ...]
    notes: tuple[str, ...]


def moments_of(file: HourFile, zone: tzinfo | None) -> Moments:
    """The beginning of each row's hour.

    Args:
        file: with stamps that have an offset, or go by its own clock or the place's
        zone: the place's clock; None where the plan does not say

    Raises:
        InvalidPlan: times without offset, and neither file nor plan says by which clock.
    """
    clock = file.zone or zone
    if clock is None and any(stamp.tzinfo is None for stamp in file.stamps):
        told = (
            "its times have no offset like +01:00, and the plan gives no time_zone under [place]; add "
            "time_zone = 'America/Denver' or such to the plan"
        )
        raise InvalidPlan(file.source.name, [InputError(told)])
    back = HOUR if file.ending else timedelta()
    if clock is None:
        return Moments(tuple(stamp.astimezone(UTC) - back for stamp in file.stamps), ())
    standard = _never_struck(file.stamps, clock)
    begins = _by_standard_time(file.stamps, clock) if standard else _by_clock(file.stamps, clock)
    notes = _notes(file.stamps, clock, standard=standard)
    return Moments(tuple(begin - back for begin in begins), notes)


def _never_struck(stamps: Sequence[datetime], clock: tzinfo) -> bool:
    """Whether a time stands there that no clock of the place showed, for it was put forward then."""
    return any(
        stamp.replace(tzinfo=clock).astimezone(UTC).astimezone(clock).replace(tzinfo=None) != stamp
        for stamp in stamps
        if stamp.tzinfo is None
    )


def _by_standard_time(stamps: Sequence[datetime], clock: tzinfo) -> tuple[datetime, ...]:
    def moment(stamp: datetime) -> datetime:
        if stamp.tzinfo is not None:
            return stamp.astimezone(UTC)
        there = stamp.replace(tzinfo=clock)
        ahead, saving = there.utcoffset() or timedelta(), there.dst() or timedelta()
        return stamp.replace(tzinfo=UTC) - (ahead - saving)

    return tuple(moment(stamp) for stamp in stamps)


def _by_clock(stamps: Sequence[datetime], clock: tzinfo) -> tuple[datetime, ...]:
    """An hour that comes twice when the clock is put back is the second one once it was there before."""
    moments: list[datetime] = []
    before: datetime | None = None
    again = False
    for stamp in stamps:
        if stamp.tzinfo is not None:
            moments.append(stamp.astimezone(UTC))
            continue
        twice = stamp.replace(tzinfo=clock).utcoffset() != stamp.replace(tzinfo=clock, fold=1).utcoffset()
        again = twice and (again or (before is not None and stamp <= before))
        moments.append(stamp.replace(tzinfo=clock, fold=int(again)).astimezone(UTC))
        before = stamp
    return tuple(moments)


def _notes(stamps: Sequence[datetime], clock: tzinfo, *, standard: bool) -> tuple[str, ...]:
    if standard:
        return (
            "Its times run through the hour that is left out when clocks are put forward: they are taken as standard "
            "time all along.",
        )
    naive = [stamp for stamp in stamps if stamp.tzinfo is None]
    if naive and len({stamp.replace(tzinfo=clock).utcoffset() for stamp in (min(naive), max(naive))}) > 1:
        return ("Clocks are changed within these hours; the hour that comes twice is taken in the order of the file.",)
    return ()
