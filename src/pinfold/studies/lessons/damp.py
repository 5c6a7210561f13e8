"""How damp the sand is and how much it has swollen, the last readings first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime

from pinfold.errors import InputError
from pinfold.figures import printed
from pinfold.formulas import learning
from pinfold.logbook.entries import Entry
from pinfold.logbook.seen import seen
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.sand import DAMP
from pinfold.studies.lessons.belief import Learned, learned_from
from pinfold.studies.lessons.habits import (
    BULKING_SPREAD,
    BULKING_WITHIN,
    MOISTURE_SPREAD,
    MOISTURE_WITHIN,
    SAND_HALF_LIFE,
    SILT_WITHIN,
)
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import thing
from pinfold.tables.shelf import Kind
from pinfold.units import RATIO, System, percent

SILT_MOST = printed("8 %", RATIO, Standing.READ, "SILT-TEST", "by height in a jar")
"""Silt over sand up to which sand is taken as it is."""
_MOST_BULKING = 0.5
"""As the plan file bounds it."""


def dampness(read: Sequence[Entry], mixing: Mixing, now: datetime, system: System) -> tuple[Taught, Mixing]:
    """Moisture of the sand as a figure of it, and its swelling in the mixing where the plan gives none.

    Args:
        read: entries of moisture
        mixing: of the plan
        now: when the last entry of the log happened; readings fade from there back
        system: of the plan
    """
    aside: Counter[str] = Counter()
    sand = thing("materials", "sand")
    assert sand is not None
    usable = []
    for entry in read:
        found = thing("materials", entry.text("item"))
        if found is sand:
            usable.append(entry)
        else:
            aside[f"moisture of {entry.text('item')!r}: only that of sand is used"] += 1
    read_of = [(entry, _figures(entry, aside)) for entry in usable]
    lessons: list[Lesson] = []
    figures: list[Override] = []
    moisture = _faded(read_of, "moisture", now)
    if moisture:
        lesson, figure = _moisture(moisture, sand, system)
        lessons.append(lesson)
        figures.append(figure)
    swelling = _faded(read_of, "bulking", now)
    if swelling:
        swollen, learned = _bulking(swelling, sand, mixing, system)
        lessons.append(swollen)
        if mixing.sand_bulking is None:
            mixing = replace(mixing, sand_bulking=min(max(learned.value, 0.0), _MOST_BULKING))
    silt = _faded(read_of, "silt", now)
    if silt:
        lessons.append(_silt([reading._replace(weight=1.0) for reading in silt], sand, system))
    return Taught(lessons=tuple(lessons), figures=tuple(figures), set_aside=aside), mixing


def _figures(entry: Entry, aside: Counter[str]) -> Mapping[str, float]:
    """What an entry says or shows; nothing of one that cannot be."""
    try:
        return seen("moisture", entry.values).figures
    except InputError as wrong:
        aside[f"moisture: {wrong.message}"] += 1
        return {}


def _faded(read: Sequence[tuple[Entry, Mapping[str, float]]], key: str, now: datetime) -> list[Reading]:
    found = []
    for entry, figures in read:
        value = figures.get(key)
        if value is not None:
            age = max((now - entry.when).total_seconds(), 0.0)
            weight = learning.forgetting(age=age, half_life=SAND_HALF_LIFE)
            found.append(Reading(value, entry.when.date().isoformat(), max(weight, 1e-12)))
    return found


def _moisture(readings: Sequence[Reading], sand: Kind, system: System) -> tuple[Lesson, Override]:
    prior = Prior(
        value=DAMP.value, spread=MOISTURE_SPREAD, within=MOISTURE_WITHIN, unit=RATIO, figure=DAMP,
        says="damp sand as it usually lies",
    )  # fmt: skip
    learned = learned_from(readings, prior)
    learned = learned._replace(value=max(learned.value, 0.0))
    told = (
        f"Sand holds {with_spread(learned.value, learned.spread, RATIO, system)} water over its dry mass by "
        f"{entries(len(readings))}, each counting half after a week; before it counted {DAMP.printed}."
    )
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.MOISTURE, subject=f"{sand.name}, water in it", told=told,
        used="water to add, masses of loads",
    )  # fmt: skip
    figure = learned_figure(learned, prior, readings, system)
    return lesson, Override("materials", sand.name, "moisture", figure, f"Your log: {told}")


def _bulking(readings: Sequence[Reading], sand: Kind, mixing: Mixing, system: System) -> tuple[Lesson, Learned]:
    usual = sand.figure("bulking_low")
    prior = Prior(
        value=usual.value, spread=BULKING_SPREAD, within=BULKING_WITHIN, unit=RATIO, figure=usual,
        says="swelling of damp sand as mixes count on it",
    )  # fmt: skip
    learned = learned_from(readings, prior)
    told = (
        f"Sand is swollen by {with_spread(learned.value, learned.spread, RATIO, system)} by "
        f"{entries(len(readings))}, each counting half after a week"
    )
    given = mixing.sand_bulking
    told += f"; the plan says {percent(given)}, and that is used." if given is not None else "; the plan does not say."
    used = "" if given is not None else "sand to measure"
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.MOISTURE, subject=f"{sand.name}, swollen by", told=told, used=used
    )
    return lesson, learned


def _silt(readings: Sequence[Reading], sand: Kind, system: System) -> Lesson:
    """Silt does not dry or rain away: every jar of the heap counts alike."""
    prior = Prior(value=None, spread=None, within=SILT_WITHIN, unit=RATIO, figure=None, says="nothing was known")
    learned = learned_from(readings, prior)
    told = (
        f"Silt stands {with_spread(learned.value, learned.spread, RATIO, system)} as high as the sand under it by "
        f"{entries(len(readings))}; up to {SILT_MOST.printed} is let pass ({SILT_MOST.where})."
    )
    if learned.value > SILT_MOST.value:
        told += " Wash the sand, or take another: silt drinks water, shrinks, and keeps cement from the grains."
    return lesson_of(
        learned, prior, readings, topic=Topic.MOISTURE, subject=f"{sand.name}, silt in it", told=told, used=""
    )
