"""All measures of a site in one table: what each holds, what it weighs full of each stuff, how that is known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.plan.measures import USUAL, SiteMeasure
from pinfold.plan.place import Mixing
from pinfold.sources import Standing, weakest
from pinfold.studies.batching.loose import bag_of
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.habits import BAG_SPREAD, DENSITY_SPREAD, DENSITY_WITHIN
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.studies.lessons.weighings import dampness
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Kilogram

BAG = "bag"
_BAG_KEYS = {"portland-cement": "bag", "hydrated-lime": "lime_bag", "hydraulic-lime": "lime_bag"}


@dataclass(frozen=True, kw_only=True)
class FullWeight:
    """What a measure weighs full of one stuff, the empty one taken off.

    Attributes:
        material: of shelf `materials`, as learned.
        mass: of its filling, water in it counted.
        spread: one standard deviation.
        weighed: how many times; 0 where it is reckoned.
        standing: how far it can be trusted.
    """

    material: Kind
    mass: Kilogram
    spread: Kilogram
    weighed: int
    standing: Standing


@dataclass(frozen=True, kw_only=True)
class MeasureRow:
    """One measure.

    Attributes:
        measure: its word.
        holds: volume as the builder fills it; None for a bag.
        spread: one standard deviation of it.
        standing: how far what it holds can be trusted.
        before: what it counted before the log; None where the log says nothing.
        before_spread: one standard deviation of that.
        weighed: how many entries say what it holds.
        weights: what it weighs full of each stuff.
    """

    measure: str
    holds: CubicMeter | None
    spread: CubicMeter
    standing: Standing
    before: CubicMeter | None
    before_spread: CubicMeter
    weighed: int
    weights: tuple[FullWeight, ...]


def measure_rows(lessons: Lessons, materials: Sequence[Kind]) -> tuple[MeasureRow, ...]:
    """Bucket, pail, shovel, barrow and bag, whether the plan or the log says anything of them or not.

    Args:
        lessons: of the site
        materials: that are mixed there, as shipped or as the plan has them
    """
    stuffs = [taught_kind(each, lessons.figures) for each in materials]
    names = dict.fromkeys(("bucket", *USUAL, *(each.name for each in lessons.mixing.measures)))
    rows = [_row(lessons.mixing.measure(name), stuffs, lessons) for name in names]
    bags = tuple(found for each in stuffs if (found := _bag(each, lessons)) is not None)
    bag = MeasureRow(
        measure=BAG, holds=None, spread=0.0, standing=weakest(each.standing for each in bags), before=None,
        before_spread=0.0, weighed=0, weights=bags,
    )  # fmt: skip
    return (*rows, bag) if bags else tuple(rows)


def _row(measure: SiteMeasure, stuffs: Sequence[Kind], lessons: Lessons) -> MeasureRow:
    told = _told(lessons, Topic.MEASURE, measure.name)
    loose = [each for each in stuffs if each.has("bulk_density") and _is_filled(measure.name, each, lessons)]
    prior = told.prior if told else None
    return MeasureRow(
        measure=measure.name, holds=measure.holds, spread=measure.spread * measure.holds, standing=measure.standing,
        before=prior.value if prior else None, before_spread=(prior.spread or 0.0) if prior else 0.0,
        weighed=told.count if told else 0, weights=tuple(_full(measure, each, lessons) for each in loose),
    )  # fmt: skip


def _is_filled(name: str, material: Kind, lessons: Lessons) -> bool:
    """Whether such stuff is measured so: what binds by the bucket alone, unless someone weighed it otherwise."""
    binds = material.word("family") == "binder"
    return name == "bucket" or not binds or _told(lessons, Topic.BUCKET_WEIGHT, f"{material.name}, {name}") is not None


def _told(lessons: Lessons, topic: Topic, subject: str) -> Lesson | None:
    return next((each for each in lessons.about(topic) if each.subject == subject), None)


def _full(measure: SiteMeasure, material: Kind, lessons: Lessons) -> FullWeight:
    weighed = _told(lessons, Topic.BUCKET_WEIGHT, f"{material.name}, {measure.name}")
    if weighed is not None:
        return _weighed(weighed, material)
    moisture, swelling, usual = dampness(material, lessons.mixing, lessons.figures)
    density = material.figure("bulk_density")
    mass = measure.holds * density.value * (1 + moisture) * (1 + usual) / (1 + swelling)
    share = DENSITY_WITHIN if density.standing in (Standing.LEARNED, Standing.GIVEN) else DENSITY_SPREAD
    return FullWeight(
        material=material, mass=mass, spread=mass * math.hypot(share, measure.spread), weighed=0,
        standing=weakest((density.standing, measure.standing)),
    )  # fmt: skip


def _weighed(lesson: Lesson, material: Kind) -> FullWeight:
    return FullWeight(
        material=material, mass=lesson.value, spread=lesson.spread or 0.0, weighed=lesson.count,
        standing=lesson.standing,
    )  # fmt: skip


def _bag(material: Kind, lessons: Lessons) -> FullWeight | None:
    mass = bag_of(material, lessons.mixing)
    weighed = _told(lessons, Topic.BUCKET_WEIGHT, f"{material.name}, {BAG}")
    if weighed is not None:
        return _weighed(weighed, material)
    if mass is None:
        return None
    return FullWeight(
        material=material, mass=mass, spread=BAG_SPREAD * mass, weighed=0,
        standing=_bag_standing(material, lessons.mixing),
    )  # fmt: skip


def _bag_standing(material: Kind, mixing: Mixing) -> Standing:
    return Standing.PRACTICE if _BAG_KEYS.get(material.name) in (*mixing.usual, None) else Standing.GIVEN
