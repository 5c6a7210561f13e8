"""How long each task takes: by the log's own pace where it is known, else by norms of the trade."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.figures import Figure
from pinfold.plan.people import People
from pinfold.sources import Standing, weakest
from pinfold.studies.days.records import Job, Pace, Task
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.tables.shelf import kind
from pinfold.units import Second

_LEARNED_LEAST = 0.05
"""However often something was timed, another day goes otherwise by so much."""


def job_of(tasks: Iterable[Task], people: People, lessons: Lessons, missing: Iterable[str] = ()) -> Job:
    """Tasks with how long each takes.

    Args:
        tasks: of the plan
        people: who builds; their slowness goes over the norms
        lessons: what the log teaches
        missing: what could not be counted
    """
    found = tuple(tasks)
    known = {(lesson.subject, lesson.per): lesson for lesson in lessons.about(Topic.PACE)}
    paces = {task.key: pace_of(task, people, known) for task in found}
    return Job(tasks=found, paces=paces, missing=tuple(missing))


def pace_of(task: Task, people: People, known: dict[tuple[str, str], Lesson]) -> Pace:
    """How long one task takes: the lesson on its own layer goes before any norm."""
    lesson = _lesson(task, known)
    return _by_norms(task, people) if lesson is None else _by_lesson(task, lesson)


def _lesson(task: Task, known: dict[tuple[str, str], Lesson]) -> Lesson | None:
    """By area before by length; what the log calls a layer or by the sort of work."""
    for per in ("m2", "m"):
        for subject in dict.fromkeys((task.work.value, task.layer)):
            lesson = known.get((subject, per))
            if lesson is not None and task.measures.by(per) > 0 and _is_its_own(task, subject):
                return lesson
    return None


_MAIN = {"trench": "dig", "footing": "footing", "wall": "lay", "coat": "coat", "coping": "coping", "rails": "rails",
         "mesh": "mesh", "apron": "apron", "grout": "grout"}  # fmt: skip
"""What the log's word for a layer means where several tasks are of it."""


def _is_its_own(task: Task, subject: str) -> bool:
    return subject == task.work.value or _MAIN.get(subject) == task.work.value


def _by_lesson(task: Task, lesson: Lesson) -> Pace:
    labor = lesson.value * task.measures.by(lesson.per)
    spread = lesson.spread / lesson.value if lesson.spread is not None and lesson.value > 0 else _norm_spread()
    rows = [kind("labor", row) for row, _ in task.norms]
    return Pace(
        labor=labor, most=_most(rows), spread=max(spread, _LEARNED_LEAST), told=f"your own pace: {lesson.told}",
        standing=Standing.LEARNED, figures=(),
    )  # fmt: skip


def _by_norms(task: Task, people: People) -> Pace:
    rows = [kind("labor", row) for row, _ in task.norms]
    times = [row.value("time") * amount.by(row.word("per")) for row, (_, amount) in zip(rows, task.norms, strict=True)]
    figures = tuple((f"time to {row.says}, for 1 {row.word('per')}", row.figure("time")) for row in rows)
    return Pace(
        labor=math.fsum(times) * people.slowness, most=_most(rows), spread=_norm_spread(),
        told=f"norms of the trade, times {people.slowness:g}", standing=_standing(figures), figures=figures,
    )  # fmt: skip


def _most(rows: list) -> int:  # type: ignore[type-arg]
    return max((int(row.words["most"]) for row in rows), default=1)


def _norm_spread() -> float:
    return kind("job_rules", "spread").value("job")


def _standing(figures: tuple[tuple[str, Figure], ...]) -> Standing:
    return weakest([Standing.PRACTICE, *(figure.standing for _, figure in figures)])


def working_time(pace: Pace, people: int) -> Second:
    """How long so many people take; not a number where no time is known or nobody works."""
    crew = min(people, pace.most)
    return pace.labor / crew if crew > 0 else math.nan
