"""What a bucket weighs: loose densities and measures out of weighed buckets."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

import numpy as np

from pinfold.errors import OutOfRangeError
from pinfold.formulas import learning
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Amount
from pinfold.studies.batching.loose import bag_of
from pinfold.studies.lessons.belief import Learned, learned_from
from pinfold.studies.lessons.carried import carried_lesson, prior_here
from pinfold.studies.lessons.habits import BAG_SPREAD, BAG_WITHIN, DENSITY_SPREAD, DENSITY_WITHIN
from pinfold.studies.lessons.holding import WATER
from pinfold.studies.lessons.records import Lesson, Override, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, learned_figure, lesson_of, with_spread
from pinfold.studies.lessons.things import Measures, thing
from pinfold.studies.lessons.weighings import Weighing, dampness
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, KILOGRAM, System


def weights(
    weighed: Sequence[Weighing], measures: Measures, damp: tuple[Override, ...], carried: Carried, system: System
) -> Taught:
    """Loose densities, and what each measure of each thing weighs.

    Args:
        weighed: measures weighed
        measures: of the site
        damp: moisture of the sand, as learned
        carried: lessons of other places
        system: of the plan
    """
    aside: Counter[str] = Counter()
    lessons: list[Lesson] = []
    figures: list[Override] = []
    for material in dict.fromkeys(each.material for each in weighed if each.material.name != WATER):
        of_it = [each for each in weighed if each.material is material]
        lessons += _by_measure(of_it, measures, damp, system)
        taught = _density(of_it, measures, damp, (carried, system), aside)
        if taught is not None:
            lessons.append(taught[0])
            figures.append(taught[1])
    for lesson, figure in _brought({each.kind for each in figures}, carried, system):
        lessons.append(lesson)
        figures.append(figure)
    return Taught(lessons=tuple(lessons), figures=tuple(figures), set_aside=aside)


def _density(
    weighings: Sequence[Weighing], measures: Measures, damp: tuple[Override, ...], to: tuple[Carried, System],
    aside: Counter[str],
) -> tuple[Lesson, Override] | None:  # fmt: skip
    (carried, system), material = to, weighings[0].material
    moisture, swelling, usual = dampness(material, measures.mixing, damp)
    readings = []
    for each in weighings:
        volume = _volume(each, measures)
        if volume is None:
            if each.measure != "bag" and not material.has("bulk_density"):
                aside[f"{material.name}, {each.measure}: what the {each.measure} holds is not known"] += 1
            continue
        try:
            density = learning.loose_density(
                mass=each.mass, volume=volume, moisture=moisture, swelling=swelling, usual_swelling=usual
            )
        except OutOfRangeError:
            aside[f"{material.name}, {each.measure}: the sand's moisture or swelling cannot be"] += 1
            continue
        readings.append(Reading(density, each.day))
    if not readings:
        return None
    prior = _density_here(material, [reading.value for reading in readings], carried, system)
    learned = learned_from(readings, prior)
    figure = learned_figure(learned, prior, readings, system)
    believed = with_spread(learned.value, learned.spread, KG_PER_CUBIC_METER, system)
    dry = " dry in damp loose sand" if material.has("bulking_low") else " loose"
    told = f"{material.name} weighs {believed}{dry} by {entries(len(readings))}{_before(prior, system)}."
    lesson = lesson_of(
        learned, prior, readings, topic=Topic.BUCKET_WEIGHT, subject=_loose(material), told=told, used=_USED,
    )  # fmt: skip
    return lesson, Override("materials", material.name, "bulk_density", figure, f"Your log: {told}")


def _brought(weighed: set[str], carried: Carried, system: System) -> Iterator[tuple[Lesson, Override]]:
    """Loose densities of what was weighed elsewhere alone."""
    for subject, _ in carried.subjects(Topic.BUCKET_WEIGHT):
        material = thing("materials", subject.partition(",")[0])
        if material is None or material.name in weighed:
            continue
        said = [each.value for _, each in carried.about(Topic.BUCKET_WEIGHT, subject)]
        prior = _density_here(material, said, carried, system)
        assert prior.figure is not None
        assert prior.value is not None
        assert prior.spread is not None
        told = f"{material.name} weighs {prior.figure.printed} loose"
        thought = Learned(prior.value, prior.spread, 0.0, ())
        lesson = carried_lesson(thought, prior, Topic.BUCKET_WEIGHT, subject, carried, told=told, used=_USED)
        yield lesson, Override("materials", material.name, "bulk_density", prior.figure, f"Your log: {lesson.told}")


def _density_here(material: Kind, densities: Sequence[float], carried: Carried, system: System) -> Prior:
    prior = _density_prior(material, densities)
    return prior_here(prior, Topic.BUCKET_WEIGHT, _loose(material), carried, system=system)


def _loose(material: Kind) -> str:
    return f"{material.name}, loose"


_USED = "masses of batches and loads"


def _volume(each: Weighing, measures: Measures) -> float | None:
    """Volume that was in it: as the entry says, else what its measure is known to hold, as full as it was."""
    if each.told is not None:
        return each.filled(each.told, 1.0)
    if each.measure not in measures.volumes:
        return None
    measure = measures.mixing.measure(each.measure)
    return each.filled(measure.brim, measure.filled)


def _density_prior(material: Kind, densities: Sequence[float]) -> Prior:
    if material.has("bulk_density"):
        figure = material.figure("bulk_density")
        return Prior(
            value=figure.value, spread=DENSITY_SPREAD * figure.value, within=DENSITY_WITHIN * figure.value,
            unit=KG_PER_CUBIC_METER, figure=figure, says="shipped loose density",
        )  # fmt: skip
    return Prior(
        value=None, spread=None, within=DENSITY_WITHIN * float(np.median(densities)), unit=KG_PER_CUBIC_METER,
        figure=None, says="no loose density is shipped",
    )  # fmt: skip


def _before(prior: Prior, system: System) -> str:
    if prior.value is None:
        return ""
    return f"; before it counted {with_spread(prior.value, prior.spread, prior.unit, system)}"


def _by_measure(
    weighings: Sequence[Weighing], measures: Measures, damp: tuple[Override, ...], system: System
) -> list[Lesson]:  # fmt: skip
    groups: dict[str, list[Weighing]] = defaultdict(list)
    for each in weighings:
        groups[each.measure].append(each)
    return [_one_measure(group, measures, damp, system) for group in groups.values()]


def _one_measure(
    group: Sequence[Weighing], measures: Measures, damp: tuple[Override, ...], system: System
) -> Lesson:  # fmt: skip
    material, measure = group[0].material, group[0].measure
    readings = [Reading(each.mass, each.day) for each in group]
    prior = _mass_prior(material, measure, measures, damp) or _no_mass_prior(readings)
    learned = learned_from(readings, prior)
    told = (
        f"A {measure} of {material.name} weighs {with_spread(learned.value, learned.spread, KILOGRAM, system)} "
        f"by {entries(len(readings))}"
    )
    beside = measure == "bag" and bag_of(material, measures.mixing) is not None
    if prior.value is not None:
        says = "the plan says" if beside else "reckoned before:"
        told += f"; {says} {with_spread(prior.value, None if beside else prior.spread, KILOGRAM, system)}"
    told = f"{told}.{_volumes_differ(group, measures, system)}"
    subject = f"{material.name}, {measure}"
    return lesson_of(learned, prior, readings, topic=Topic.BUCKET_WEIGHT, subject=subject, told=told, used="")


def _volumes_differ(group: Sequence[Weighing], measures: Measures, system: System) -> str:
    """What the plan's bucket holds and what weighed ones held, where they are not the same."""
    held = [each.told for each in group if each.told is not None]
    if group[0].measure != "bucket" or not held:
        return ""
    middle, planned = float(np.median(held)), measures.mixing.bucket
    if abs(middle / planned - 1) < 0.02:
        return ""
    return (
        f" The plan counts a bucket of {with_spread(planned, None, CUBIC_METER, system)}; "
        f"the ones weighed held {with_spread(middle, None, CUBIC_METER, system)}."
    )


def _mass_prior(material: Kind, measure: str, measures: Measures, damp: tuple[Override, ...]) -> Prior | None:
    bag = bag_of(material, measures.mixing) if measure == "bag" else None
    if bag is not None:
        return Prior(
            value=bag, spread=BAG_SPREAD * bag, within=BAG_WITHIN * bag, unit=KILOGRAM, figure=None,
            says="the bag of the plan",
        )  # fmt: skip
    volume = measures.volume(Amount(material.name, 1.0, measure)) if measure != "bag" else None
    if volume is None or not material.has("bulk_density"):
        return None
    moisture, swelling, usual = dampness(material, measures.mixing, damp)
    mass = volume * material.value("bulk_density") * (1 + moisture) * (1 + usual) / (1 + swelling)
    return Prior(
        value=mass, spread=DENSITY_SPREAD * mass, within=DENSITY_WITHIN * mass, unit=KILOGRAM,
        figure=material.figure("bulk_density"), says="shipped loose density times what the measure holds",
    )  # fmt: skip


def _no_mass_prior(readings: Sequence[Reading]) -> Prior:
    middle = float(np.median([reading.value for reading in readings]))
    return Prior(
        value=None, spread=None, within=DENSITY_WITHIN * middle, unit=KILOGRAM, figure=None, says="nothing was known"
    )
