"""Scales that are off: what one makes of a kilogram and shows with nothing on it, by weights that are known."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import measures
from pinfold.logbook.entries import Entry
from pinfold.logbook.seen import seen
from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.habits import SCALE_SPREAD, SCALE_WITHIN, SCALE_ZERO_SPREAD, SCALE_ZERO_WITHIN
from pinfold.studies.lessons.records import Lesson, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, lesson_of, with_spread
from pinfold.units import KILOGRAM, RATIO, Kilogram, Ratio, System, percent


class Scale(NamedTuple):
    """A scale as it was found.

    Attributes:
        factor: what it makes of a kilogram.
        zero: what it shows with nothing on it.
    """

    factor: Ratio = 1.0
    zero: Kilogram = 0.0

    def difference(self, mass: Kilogram) -> Kilogram:
        """What a difference of two readings truly weighs: the zero is in both."""
        return measures.true_mass(shown=mass, zero=0.0, factor=self.factor)

    def reading(self, shown: Kilogram) -> Kilogram:
        """What one reading truly weighs."""
        return measures.true_mass(shown=shown, zero=self.zero, factor=self.factor)


def scales(tried: Sequence[Entry], system: System) -> tuple[Taught, Mapping[str, Scale]]:
    """Each scale by its name, and what was learned of it.

    Args:
        tried: entries of scales
        system: of the plan
    """
    aside: Counter[str] = Counter()
    groups: dict[str, list[Entry]] = defaultdict(list)
    for entry in tried:
        groups[entry.text("scale")].append(entry)
    lessons: list[Lesson] = []
    found: dict[str, Scale] = {}
    for name, group in groups.items():
        told, found[name] = _one(name, group, system, aside)
        lessons += told
    return Taught(lessons=tuple(lessons), set_aside=aside), found


def _one(name: str, group: Sequence[Entry], system: System, aside: Counter[str]) -> tuple[list[Lesson], Scale]:
    readings = [(figures["known"], figures["shown"], _day(entry)) for entry in group if (figures := _figures(entry))]
    lessons = []
    zero = 0.0
    empty = [Reading(shown, day) for known, shown, day in readings if known == 0]
    if empty:
        lesson = _zero(name, empty, system)
        lessons.append(lesson)
        zero = lesson.value
    factors, steps = [], []
    for known, shown, day in readings:
        if known == 0:
            continue
        try:
            step = work(measures.scale_factor, why="what it makes of a kilogram", shown=shown, zero=zero, known=known)
        except OutOfRangeError as wrong:
            aside[f"scale: {wrong}"] += 1
            continue
        factors.append(Reading(step.number, day))
        steps.append(step)
    if not factors:
        return lessons, Scale(zero=zero)
    lesson = _factor(name, factors, steps[-1])
    return [*lessons, lesson], Scale(factor=lesson.value, zero=zero)


def _figures(entry: Entry) -> Mapping[str, float]:
    return seen("scale", entry.values).figures


def _day(entry: Entry) -> str:
    return entry.when.date().isoformat()


def _called(name: str) -> str:
    return f"the scale {name}" if name else "the scale"


def _zero(name: str, readings: Sequence[Reading], system: System) -> Lesson:
    prior = Prior(
        value=0.0, spread=SCALE_ZERO_SPREAD, within=SCALE_ZERO_WITHIN, unit=KILOGRAM, figure=None,
        says="a scale shows nothing with nothing on it",
    )  # fmt: skip
    learned = learned_from(readings, prior)
    shown = with_spread(learned.value, learned.spread, KILOGRAM, system)
    told = (
        f"With nothing on it {_called(name)} shows {shown} by {entries(len(readings))}; take that off every single "
        "reading. The difference of two readings needs no such thing."
    )
    subject = f"{_called(name)}, with nothing on it"
    return lesson_of(learned, prior, readings, topic=Topic.SCALE, subject=subject, told=told, used="weights of bags")


def _factor(name: str, readings: Sequence[Reading], last: Step) -> Lesson:
    prior = Prior(
        value=1.0, spread=SCALE_SPREAD, within=SCALE_WITHIN, unit=RATIO, figure=None,
        says="a scale shows a kilogram for a kilogram",
    )  # fmt: skip
    learned = learned_from(readings, prior)
    told = (
        f"Of a weight {_called(name)} shows {percent(learned.value, 1)} ± {percent(learned.spread, 1)} by "
        f"{entries(len(readings))}; "
        f"what it shows is divided by {learned.value:.3f} before anything is made of it."
    )
    subject = f"{_called(name)}, shown over true"
    return lesson_of(
        learned, prior, readings, topic=Topic.SCALE, subject=subject, told=told, used="weighed buckets and bags",
        before=(last,),
    )  # fmt: skip
