"""What time it is, as the log writes it, and by whose clock days and times without an offset are meant."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from pinfold.errors import InputError

if TYPE_CHECKING:
    from pinfold.plan.enclosure import Enclosure

_DAY = len("2026-05-03")


@dataclass(frozen=True, kw_only=True)
class SiteClock:
    """The clock that days and times go by which somebody typed without an offset.

    Attributes:
        zone: of the place; None to go by this computer's.
        why_not: why it is not the place's; empty where it is.
    """

    zone: tzinfo | None
    why_not: str = ""

    @property
    def name(self) -> str:
        """Of the zone: `Europe/Lisbon`, or `UTC+01:00` as this computer has it today."""
        return f"UTC{now_local()[-6:]}" if self.zone is None else str(self.zone)

    @property
    def says(self) -> str:
        """By whose clock, in a sentence."""
        if self.zone is not None:
            return f"Days and times go by the clock of the place, {self.name}."
        return f"Days and times go by this computer's clock, {self.name} today, for {self.why_not}."

    def now(self) -> str:
        """Now, to the second with the offset: when a thing happened that is told at once."""
        return datetime.now(UTC).astimezone(self.zone).isoformat(timespec="seconds")

    def moment(self, text: str, place: str) -> datetime:
        """A time, with its offset.

        Raises:
            InputError: it is none.
        """
        try:
            found = datetime.fromisoformat(text)
            return found if found.tzinfo is not None else self._here(found)
        except (ValueError, OverflowError):
            raise InputError(f"{text[:40]!r} is no time; write it like 2026-05-03T14:20", place=place) from None

    def edge(self, text: str, place: str, *, end: bool = False) -> datetime:
        """A time, or where a day begins; where it ends if that is asked for.

        Raises:
            InputError: it is neither.
        """
        try:
            if len(text) > _DAY:
                return self.moment(text, place)
            day = date.fromisoformat(text) + timedelta(days=1 if end else 0)
            return self._here(datetime(day.year, day.month, day.day))  # noqa: DTZ001 - it gets the zone there
        except (ValueError, OverflowError):
            raise InputError(
                f"{text[:40]!r} is no day or time; write it like 2026-05-03 or 2026-05-03T14:20", place=place
            ) from None

    def _here(self, found: datetime) -> datetime:
        return found.astimezone() if self.zone is None else found.replace(tzinfo=self.zone)


def site_clock(plan: Enclosure | None) -> SiteClock:
    """The clock of a plan's place, else of this computer.

    Args:
        plan: of the site; None while it has complaints
    """
    if plan is None:
        return SiteClock(zone=None, why_not="the plan has complaints")
    if plan.place.time_zone is None:
        return SiteClock(zone=None, why_not="the plan gives no time_zone under [place]")
    return SiteClock(zone=ZoneInfo(plan.place.time_zone))


def now_local() -> str:
    """Now by the computer's own zone, to the second with the offset."""
    return SiteClock(zone=None).now()


def received_now() -> str:
    """Now in UTC, to the millisecond: when the log takes a thing."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
