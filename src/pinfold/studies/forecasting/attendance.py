"""Days a week really worked: on how many of the plan's days the log shows work, and how many weather took."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from pinfold.formulas import carrying
from pinfold.logbook.entries import Entry
from pinfold.studies.days.progress import WORK_KINDS
from pinfold.studies.days.records import Kept
from pinfold.tables.shelf import kind
from pinfold.units import Meter, Ratio

WET = frozenset({"rain", "snow"})
"""Words for the sky on a day that weather may have taken."""
_DAY = 86400.0
_WET_FROM: Meter = 0.005
"""Rain in the gauge from which on a day counts as wet (common practice)."""


@dataclass(frozen=True, kw_only=True)
class Attendance:
    """Days of the plan's week since the work began, and what became of them.

    Attributes:
        first: first day with work, ISO; empty where there is none.
        last: last day with work, ISO; empty likewise.
        planned: days of the plan's week after the first, to the last.
        worked: days with work after the first; not more than planned.
        weather: planned days without work on which the log shows rain or snow.
        week: days of the plan's week.
    """

    first: str
    last: str
    planned: int
    worked: int
    weather: int
    week: int

    @property
    def missed(self) -> int:
        """Planned days without work that weather does not explain."""
        return self.planned - self.worked - self.weather

    @property
    def kept(self) -> Kept:
        """Share of planned days that are worked, weather aside, as it is believed."""
        row = kind("job_rules", "attendance")
        worth, usual = row.value("worth") / _DAY, row.value("kept")
        return Kept(yes=worth * usual + self.worked, no=worth * (1 - usual) + self.missed)

    @property
    def share(self) -> tuple[Ratio, Ratio]:
        """The same as likely and spread."""
        kept = self.kept
        found = carrying.share_by_counting(
            before_yes=kept.yes - self.worked, before_no=kept.no - self.missed, yes=float(self.worked),
            no=float(self.missed),
        )  # fmt: skip
        return found.mean, found.spread

    @property
    def days_a_week(self) -> tuple[float, float]:
        """Days a week that will be worked, weather aside: likely, and spread."""
        value, spread = self.share
        return self.week * value, self.week * spread


def attendance(entries: Iterable[Entry], weekdays: Collection[int], wet: Iterable[Entry] = ()) -> Attendance:
    """Which of the planned days were worked.

    It is counted from the first day with work to the last: what was not written down since is not taken for idle.

    Args:
        entries: of the log, those that stand
        weekdays: of the plan's week, 0 for Monday
        wet: entries of weather
    """
    days = {entry.when.date() for entry in entries if entry.kind in WORK_KINDS}
    if not days:
        return Attendance(first="", last="", planned=0, worked=0, weather=0, week=len(weekdays))
    first, last = min(days), max(days)
    planned = {day for day in _between(first, last) if day.weekday() in weekdays}
    idle = planned - days
    rained = {entry.when.date() for entry in wet if _is_wet(entry)} & idle
    worked = min(len(days - {first}), len(planned - rained))
    weather = min(len(rained), len(planned) - worked)
    return Attendance(
        first=first.isoformat(), last=last.isoformat(), planned=len(planned), worked=worked, weather=weather,
        week=len(weekdays),
    )  # fmt: skip


def _between(first: date, last: date) -> Iterable[date]:
    """Days after the first, to the last."""
    return (first + timedelta(days=number) for number in range(1, (last - first).days + 1))


def _is_wet(entry: Entry) -> bool:
    return entry.text("sky") in WET or (entry.number("rain") or 0.0) >= _WET_FROM
