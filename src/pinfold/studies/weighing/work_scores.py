"""Hours, days, crafts and tools."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from functools import lru_cache

from pinfold.figures import Figure
from pinfold.logbook.works import Work
from pinfold.plan.people import People
from pinfold.sources import Standing, weakest
from pinfold.studies.days.listing import listed
from pinfold.studies.days.pieces import pieces_of
from pinfold.studies.days.problem import NOT_YET
from pinfold.studies.days.records import Job, Measures, Pace, Task
from pinfold.studies.days.scheduling import Asked as ScheduleAsked
from pinfold.studies.days.scheduling import laid_over
from pinfold.studies.weighing.elements import rows_for
from pinfold.studies.weighing.records import Score, not_shown
from pinfold.studies.weighing.subject import Asked, Subject
from pinfold.tables.shelf import Kind
from pinfold.units import Ratio

_MONDAY = datetime(2026, 5, 4, tzinfo=UTC)
"""Any Monday: no weather is asked, so that options differ by their work and waits alone."""
_HORIZONS = (180, 360, 720, 1100)
"""Days that are looked at, as many as it takes."""


def hours(subject: Subject, asked: Asked) -> Score:
    """Work of all hands."""
    del asked
    job = subject.job
    unknown = tuple(key for key, pace in job.paces.items() if not pace.is_known)
    if unknown or job.missing:
        return not_shown("; ".join((*(f"time of {key} is not known" for key in unknown), *job.missing)))
    labor = math.fsum(pace.labor for pace in job.paces.values())
    spread = _spread(job)
    figures: dict[str, Figure] = {}
    for pace in job.paces.values():
        figures.update(pace.figures)
    return Score(
        value=labor, low=labor / (1 + spread), high=labor * (1 + spread), figures=tuple(figures.items()),
        standing=weakest(pace.standing for pace in job.paces.values()), because=_paces_told(job),
    )  # fmt: skip


def over_norms(pace: Callable[[Job], Job]) -> Mapping[Work, Ratio]:
    """How many times as long as the norms say each sort of work takes at a pace that is the same for all of a sort.

    Args:
        pace: brings a whole job from the norms' times to the crew's own
    """
    one = Pace(labor=1.0, most=1, spread=0.0, told="", standing=Standing.PRACTICE, figures=())
    tasks = tuple(
        Task(key=work, work=work, says="", place="", layer="", measures=Measures(), norms=()) for work in Work
    )
    job = pace(Job(tasks=tasks, paces=dict.fromkeys(Work, one)))
    return {work: job.paces[work].labor for work in Work}


def _spread(job: Job) -> Ratio:
    """Share that all of it may take more, the paces of one crew together."""
    labor = math.fsum(pace.labor for pace in job.paces.values())
    return math.fsum(pace.labor * pace.spread for pace in job.paces.values()) / labor if labor > 0 else 0.0


def _paces_told(job: Job) -> str:
    return "; ".join(dict.fromkeys(pace.told for pace in job.paces.values()))


def days(subject: Subject, asked: Asked) -> Score:
    """From the first day to the last by the quick rule of `days`: work and waits, no weather."""
    if subject.people.count == 0 or not subject.people.weekdays:
        return not_shown("nobody works: people.count is 0, or no weekday is worked on")
    labor = hours(subject, asked)
    if labor.value is None:
        return not_shown(labor.because)
    spread = _spread(subject.job)
    usual, quick, slow = (_days(subject, factor) for factor in (1.0, 1 / (1 + spread), 1 + spread))
    if usual is None:
        return not_shown(f"it takes over {_HORIZONS[-1]} days with {subject.people.count} people")
    return Score(
        value=usual, low=quick, high=slow, standing=labor.standing,
        because="by the quick rule: work in order, waits for what hardens, no weather; 'pinfold days job' has both",
    )  # fmt: skip


def _days(subject: Subject, factor: Ratio) -> int | None:
    """Days with all work taking so many times as long; None where it is not done in the longest time looked at."""
    paces = {key: replace(pace, labor=pace.labor * factor) for key, pace in subject.job.paces.items()}
    asked = _asked_of(subject.people)
    pieces = pieces_of(replace(subject.job, paces=paces), asked.people, asked.left)
    for horizon in _HORIZONS:
        problem = laid_over(pieces, asked, {}, horizon, risks=False)
        starts = listed(problem)
        if NOT_YET not in starts:
            ends = [problem.slots.end_of(start, piece.slots) for start, piece in zip(starts, pieces, strict=True)]
            return (max(ends, default=_MONDAY).date() - _MONDAY.date()).days + 1
    return None


@lru_cache(maxsize=4)  # asked for every option; slots are laid once for one question
def _asked_of(people: People) -> ScheduleAsked:
    return ScheduleAsked(people=people, now=_MONDAY, zone=UTC)


def skills(subject: Subject, asked: Asked) -> Score:
    """Crafts that it asks for."""
    del asked
    names = sorted(row.says for row in _crafts(subject).values())
    return Score(value=len(names), standing=Standing.PRACTICE, because=", ".join(names))


def tools(subject: Subject, asked: Asked) -> Score:
    """Tools that it asks for beyond the plainest."""
    del asked
    names = sorted(dict.fromkeys(tool for row in _crafts(subject).values() for tool in _tools(row)))
    return Score(value=len(names), standing=Standing.PRACTICE, because=", ".join(names))


def _crafts(subject: Subject) -> Mapping[str, Kind]:
    return {row.name: row for element in subject.elements for row in rows_for("crafts", element.ref)}


def _tools(row: Kind) -> Iterator[str]:
    found = row.words.get("tools", ())
    yield from found if isinstance(found, list) else ()
