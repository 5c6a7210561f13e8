"""How wrong what was thought was, and a site's lessons with one of them put back, to see what that one changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import Prices
from pinfold.studies.lessons.applying import taught_plan
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.units import CubicMeter, Second

_FIGURES: Mapping[Topic, tuple[str, str, str]] = {
    Topic.BUCKET_WEIGHT: ("materials", "bulk_density", ", loose"),
    Topic.MOISTURE: ("materials", "moisture", ", water in it"),
    Topic.YIELD: ("mixes", "yield_ratio", ""), Topic.FOAM: ("mixes", "foam_loss", ""),
    Topic.COVERAGE: ("coats", "waste", ", mix used"),
}  # fmt: skip
"""Shelf and name of the figure that a lesson puts in place of a shipped one, and how its subject ends."""


def moved(lesson: Lesson) -> float | None:
    """By how many of its first spreads a figure moved from what was thought; None where nothing was."""
    first = lesson.prior.first
    if first.value is None or not first.spread:
        return None
    return abs(lesson.value - first.value) / first.spread


def figure_key(lesson: Lesson) -> tuple[str, str, str] | None:
    """Shelf, kind and name of the figure that a lesson puts in place; None where it puts none."""
    shelf, name, ending = _FIGURES.get(lesson.topic, ("", "", ""))
    if not shelf or not lesson.subject.endswith(ending):
        return None
    return shelf, lesson.subject.removesuffix(ending), name


def acts(lesson: Lesson) -> bool:
    """Whether it is known what putting one back changes in money, water and hours."""
    return bool(lesson.used) and (lesson.topic is Topic.PRICE or figure_key(lesson) is not None)


def put_back(lesson: Lesson, lessons: Lessons, plan: Enclosure, prices: Prices) -> Lessons:
    """All lessons but one.

    Args:
        lesson: to put back
        lessons: all of them
        plan: as the builder wrote it
        prices: as listed
    """
    left = tuple(each for each in lessons.lessons if each is not lesson)
    if lesson.topic is Topic.PRICE:
        return replace(lessons, lessons=left, prices=_listed(lesson.subject, lessons.prices, prices))
    key = figure_key(lesson)
    figures = tuple(each for each in lessons.figures if (each.shelf, each.kind, each.name) != key)
    return replace(lessons, lessons=left, figures=figures, plan=taught_plan(plan, lessons.mixing, figures))


def _listed(item: str, now: Prices, listed: Prices) -> Prices:
    others = {name: price for name, price in now.by_item.items() if name != item}
    return replace(now, by_item={**others, **({item: listed.by_item[item]} if item in listed.by_item else {})})


class Wrong(NamedTuple):
    """A figure that was thought otherwise, and what the plan takes more for it now than with that one put back.

    Attributes:
        lesson: on it.
        moved: by how many of its first spreads; None where it had none.
        money: in whole coins, below 0 for less.
        water: likewise.
        hours: of one person, by norms of the trade.
    """

    lesson: Lesson
    moved: float | None
    money: int
    water: CubicMeter
    hours: Second
