"""What each measure of a site holds: by the plan, by water in it, by what entries say, by what a filling weighs."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import measures
from pinfold.plan.measures import SiteMeasure
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.batching.loose import water_density
from pinfold.studies.lessons.belief import Learned, learned_from
from pinfold.studies.lessons.habits import DENSITY_SPREAD, HEAPED_WITHIN, HELD_WITHIN
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Topic
from pinfold.studies.lessons.telling import HALF, entries, lesson_of, with_spread
from pinfold.studies.lessons.weighings import Weighing, dampness
from pinfold.units import CUBIC_METER, Ratio, System

WATER = "water"
_READ = tuple[Reading, Step | None]


def held(
    weighed: Sequence[Weighing], mixing: Mixing, system: System
) -> tuple[tuple[Lesson, ...], tuple[SiteMeasure, ...]]:  # fmt: skip
    """Measures that the plan says, or whose volume was told or found by water; with what was learned of each.

    Args:
        weighed: measures weighed
        mixing: of the plan
        system: of the plan
    """
    found: dict[str, list[_READ]] = defaultdict(list)
    for each in weighed:
        if each.measure == "bag":
            continue
        read = _firm(each, mixing.measure(each.measure))
        if read is not None:
            found[each.measure].append(read)
    lessons, learned = [], {each.name: each for each in mixing.measures}
    for name, group in found.items():
        lesson, measure = _believed(mixing.measure(name), group, HELD_WITHIN, system)
        lessons.append(lesson)
        learned[name] = measure
    return tuple(lessons), tuple(learned.values())


def held_by_weight(
    weighed: Sequence[Weighing], mixing: Mixing, figures: Sequence[Override], system: System
) -> tuple[tuple[Lesson, ...], tuple[SiteMeasure, ...]]:  # fmt: skip
    """Measures that nothing else is known of, by what a filling weighs and how dense its stuff lies.

    Args:
        weighed: measures weighed
        mixing: with the measures that are known otherwise
        figures: densities and moisture as learned
        system: of the plan
    """
    found: dict[str, list[_READ]] = defaultdict(list)
    unsure: dict[str, float] = {}
    for each in weighed:
        if each.measure == "bag" or is_firm(mixing, each.measure) or not _density(each, figures):
            continue
        read = _by_weight(each, mixing, figures)
        if read is not None:
            found[each.measure].append(read)
            unsure[each.measure] = max(unsure.get(each.measure, 0.0), _spread_of_density(each, figures))
    lessons, learned = [], []
    for name, group in found.items():
        lesson, measure = _believed(mixing.measure(name), group, HEAPED_WITHIN, system, unsure[name])
        lessons.append(lesson)
        learned.append(measure)
    return tuple(lessons), tuple(learned)


def is_firm(mixing: Mixing, name: str) -> bool:
    """Whether what a measure holds is known by the plan or the log, not only as usual."""
    measure = mixing.measure(name)
    return measure.standing in (Standing.GIVEN, Standing.LEARNED)


def with_measures(mixing: Mixing, known: Sequence[SiteMeasure]) -> Mixing:
    """A mixing with measures as learned; the very same where they are no others."""
    merged = {each.name: each for each in (*mixing.measures, *known)}
    bucket = merged.get("bucket")
    volume = mixing.bucket if bucket is None else bucket.holds
    if tuple(merged.values()) == mixing.measures and volume == mixing.bucket:
        return mixing
    return replace(mixing, measures=tuple(merged.values()), bucket=volume)


def _firm(each: Weighing, measure: SiteMeasure) -> _READ | None:
    """What the measure holds as it is filled, by water or by what the entry says."""
    if each.material.name == WATER:
        why = f"what the {each.measure} holds, by the water in it"
        step = work(measures.volume_by_water, why=why, mass=each.mass, water_density=water_density())
        brim = step.number / (1.0 if each.share is None else each.share)
        return Reading(brim * measure.filled, each.day), step
    if each.told is not None:
        return Reading(each.told * measure.filled, each.day), None
    return None


def _density(each: Weighing, figures: Sequence[Override]) -> float | None:
    found = _figure(each, figures)
    if found is not None:
        return found.figure.value
    return each.material.value("bulk_density") if each.material.has("bulk_density") else None


def _figure(each: Weighing, figures: Sequence[Override]) -> Override | None:
    key = ("materials", each.material.name, "bulk_density")
    return next((one for one in figures if (one.shelf, one.kind, one.name) == key), None)


def _spread_of_density(each: Weighing, figures: Sequence[Override]) -> Ratio:
    """How unsure the density is, as a share; learned ones are as sure as two fillings agree."""
    return DENSITY_SPREAD if _figure(each, figures) is None else HELD_WITHIN


def _by_weight(each: Weighing, mixing: Mixing, figures: Sequence[Override]) -> _READ | None:
    density = _density(each, figures)
    moisture, swelling, usual = dampness(each.material, mixing, figures)
    try:
        step = work(
            measures.volume_by_filling, why=f"what the {each.measure} holds, by its weight", mass=each.mass,
            density=density, moisture=moisture, swelling=swelling, usual_swelling=usual,
        )  # fmt: skip
    except OutOfRangeError:
        return None
    measure = mixing.measure(each.measure)
    return Reading(each.brim(step.number, measure.filled) * measure.filled, each.day), step


def _believed(
    measure: SiteMeasure, read: Sequence[_READ], within: Ratio, system: System, unsure: Ratio = 0.0
) -> tuple[Lesson, SiteMeasure]:  # fmt: skip
    readings = [reading for reading, _ in read]
    said = measure.standing is Standing.GIVEN
    prior = Prior(
        value=measure.holds, spread=measure.spread * measure.holds, within=within * measure.holds, unit=CUBIC_METER,
        figure=None, says="the plan" if said else "as it usually is",
    )  # fmt: skip
    alone = learned_from(readings, prior)
    learned = alone._replace(spread=math.hypot(alone.spread, unsure * alone.value))
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.MEASURE, subject=measure.name, told=_told(measure, learned, read, system),
        used="" if said else "sand and gravel to measure, amounts of batches",
        before=tuple(step for _, step in read[-1:] if step is not None),
    )  # fmt: skip
    return lesson, measure if said else _learned(measure, learned)


def _learned(measure: SiteMeasure, learned: Learned) -> SiteMeasure:
    standing = Standing.LEARNED if learned.weight >= HALF else measure.standing
    share = learned.spread / learned.value
    return replace(measure, brim=learned.value / measure.filled, standing=standing, spread=share)


def _told(measure: SiteMeasure, learned: Learned, read: Sequence[_READ], system: System) -> str:
    now = with_spread(learned.value, learned.spread, CUBIC_METER, system)
    said = measure.standing is Standing.GIVEN
    before = with_spread(measure.holds, None if said else measure.spread * measure.holds, CUBIC_METER, system)
    rest = f"the plan says {before}, and that is used" if said else f"before it counted {before}, as usual"
    return f"A {measure.name} holds {now} by {entries(len(read))}; {rest}."


def volumes_of(mixing: Mixing) -> Mapping[str, float]:
    """What each measure holds, of those that are known by plan or log."""
    names = dict.fromkeys(("bucket", *(each.name for each in mixing.measures)))
    return {name: mixing.measure(name).holds for name in names if name == "bucket" or is_firm(mixing, name)}
