"""The job in days to read: who, when done, what comes in the next days and why, and all the rest in a table."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from pinfold.figures import Figure
from pinfold.plan.people import HOUR, WEEKDAYS, People
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, Working, table
from pinfold.units import CubicMeter, Ratio, Second

ESTIMATED = "~"
NO_WEATHER = "Weather NOT SHOWN: the days go by what waits for what and by pace alone."
_ESTIMATES = (
    f"{ESTIMATED} estimated: past the days that are looked at hour by hour the work goes by a usual year's weather, or "
    "by none where none is known."
)
_PACES = (
    "Times are norms of the trade, times your slowness, until the log tells your own pace: write hours down with the "
    "length or area done. Breaks come on top."
)
_ADVICE = (
    "A plan, not a promise: look at the sky, at the wall and at one another before each step, and stop when heat, cold "
    "or wind says so."
)


@dataclass(frozen=True, kw_only=True)
class WorkTold:
    """One piece of work in its place in time.

    Attributes:
        key: of its task.
        work: what sort.
        says: what is done.
        place: stretch, run or gate; empty for the whole plot.
        face: of a coat; else empty.
        part: of the task, from 1; 0 where it is whole.
        parts: of how many.
        start: when it begins, by the clock of the place.
        end: when it ends.
        people: at it.
        mixes: that go in.
        batches: of them, in all; None where no card could be made.
        water: to pour in; None likewise.
        why: why it lies there.
        steps: what the season asks.
        not_shown: what is not known.
        estimated: whether it lies past the days looked at hour by hour.
        pace: what its time rests on.
    """

    key: str
    work: str
    says: str
    place: str
    face: str
    part: int
    parts: int
    start: datetime
    end: datetime
    people: int
    mixes: tuple[str, ...]
    batches: Ratio | None
    water: CubicMeter | None
    why: tuple[str, ...]
    steps: tuple[str, ...]
    not_shown: tuple[str, ...]
    estimated: bool
    pace: str

    @property
    def where(self) -> str:
        """Place and face."""
        return f"{self.place} {self.face}".strip() or "the plot"

    @property
    def named(self) -> str:
        """What it is, with its part."""
        return f"{self.work}, part {self.part} of {self.parts}" if self.part else self.work


@dataclass(frozen=True, kw_only=True)
class JobTold:
    """The whole job in days.

    Attributes:
        people: who work.
        hours: of a day.
        weekdays: worked on.
        finish: when it is done by this schedule; None where it cannot be told.
        early: 10 of 100 times it is done by then; None likewise.
        likely: half the time.
        late: 90 of 100 times.
        done: share of the work that is done, by its time.
        in_part: tasks begun and not done.
        labor: time of one person for what is left.
        gap: by what share a better order of the coming days could cost less at most.
        proven: whether none is better by more than half a hundredth.
        until: last of the days that were looked at hour by hour, ISO.
        weather: what the weather is and what speaks against it, in words.
        works: every piece, in order.
        missing: what could not be counted or found no room.
        notes: what is to be known.
    """

    people: int
    hours: Second
    weekdays: tuple[str, ...]
    finish: datetime | None
    early: datetime | None
    likely: datetime | None
    late: datetime | None
    done: Ratio
    in_part: tuple[str, ...]
    labor: Second
    gap: Ratio
    proven: bool
    until: str
    weather: tuple[str, ...]
    works: tuple[WorkTold, ...]
    missing: tuple[str, ...]
    notes: tuple[str, ...]


def weekday_words(people: People) -> str:
    """`Monday to Saturday`, or the days one by one."""
    names = [WEEKDAYS[day].capitalize() for day in people.weekdays]
    if len(names) > 2 and people.weekdays == tuple(range(people.weekdays[0], people.weekdays[-1] + 1)):
        return f"{names[0]} to {names[-1]}"
    return ", ".join(names) or "no day"


def day_words(moment: datetime | date) -> str:
    """`Sat 3 May 2026`."""
    return f"{moment:%a} {moment.day} {moment:%b %Y}"


def job_page(
    name: str, told: JobTold, people: People, *, figures: Sequence[tuple[str, Figure]]
) -> Page:  # fmt: skip
    """The whole job."""
    blocks: list[Block] = [Paragraph(text=text) for text in _opening(told, people)]
    coming = [work for work in told.works if not work.estimated]
    later = [work for work in told.works if work.estimated]
    if coming:
        blocks += [Heading(text="The coming days"), work_table(coming)]
        blocks += [Heading(text="Why so"), *_whys(coming)]
    if later:
        blocks += [Heading(text="After that"), _summed(later), Paragraph(text=_ESTIMATES)]
    if told.missing:
        blocks += [Heading(text="Not shown"), *(Paragraph(text=text) for text in told.missing)]
    blocks += [Heading(text="What it rests on"), *(Paragraph(text=text) for text in (*told.notes, _PACES, _ADVICE))]
    blocks.append(Working(steps=(), figures=tuple(figures)))
    return Page(title=f"{name}: the job in days", blocks=tuple(blocks))


def _opening(told: JobTold, people: People) -> list[str]:
    crew = f"{people.count} {'person' if people.count == 1 else 'people'}"
    lines = [f"{crew}, {people.hours / HOUR:g} h a day, {weekday_words(people)}."]
    if told.finish is None:
        lines.append("When it is done is NOT SHOWN.")
    elif told.early is not None and told.likely is not None and told.late is not None:
        lines.append(
            f"Done about {day_words(told.likely)}; 10 of 100 times by {day_words(told.early)}, 90 of 100 times by "
            f"{day_words(told.late)}. This very order ends on {day_words(told.finish)}."
        )
    else:
        lines.append(f"Done on {day_words(told.finish)} by this order.")
    lines.append(
        f"{told.done * 100:.0f} % of the work is done by the log; {told.labor / HOUR:.0f} h of one person are left."
    )
    if told.in_part:
        lines.append(f"Begun: {', '.join(told.in_part)}.")
    lines += told.weather
    return lines


def work_table(works: Sequence[WorkTold], title: str = "") -> Table:
    """A row for each piece."""
    rows = [
        (
            f"{work.start:%a} {work.start.day} {work.start:%b}", f"{work.start:%H:%M}–{work.end:%H:%M}", work.named,
            work.where, _batches(work),
        )
        for work in works
    ]  # fmt: skip
    return table(("day", "from–to", "work", "where", "batches"), rows, right=(4,), wide=2, title=title)


def _batches(work: WorkTold) -> str:
    return "" if not work.mixes else "NOT SHOWN" if work.batches is None else f"{work.batches:.1f}"


def _whys(works: Sequence[WorkTold]) -> list[Paragraph]:
    return [
        Paragraph(text=f"{work.start:%a %H:%M} {work.named}, {work.where}: {'; '.join(work.why)}.") for work in works
    ]


def _summed(works: Sequence[WorkTold]) -> Table:
    """A row for each task: first and last day, hours."""
    by_task: dict[str, list[WorkTold]] = {}
    for work in works:
        by_task.setdefault(work.key, []).append(work)
    rows = [
        (
            ESTIMATED + f"{day_words(group[0].start)}", f"{day_words(group[-1].end)}", group[0].work, group[0].where,
            f"{sum((work.end - work.start).total_seconds() for work in group) / HOUR:.1f} h",
        )
        for group in by_task.values()
    ]  # fmt: skip
    return table(("from", "to", "work", "where", "time"), rows, right=(4,), wide=2)


def short_lines(told: JobTold, today: date, tomorrow: date) -> tuple[str, ...]:
    """Today's work and tomorrow's, a line each."""
    return tuple(
        f"{name}: {day_line([work for work in told.works if work.start.date() == day])}"
        for name, day in (("Today", today), ("Tomorrow", tomorrow))
    )  # fmt: skip


def day_line(works: Sequence[WorkTold]) -> str:
    """`7:00 dig south/1b; 10:30 footing east/1a`, or that nothing is."""
    return "; ".join(f"{work.start:%H:%M} {work.named} {work.where}" for work in works) or "nothing in the plan"


def known(value: float) -> float | None:
    """A number, None where it is none."""
    return value if math.isfinite(value) else None
