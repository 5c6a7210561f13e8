"""What strengths the log proves, and where a lower one takes the place of what the plan counts on.

Tests can only take away: a wall is never counted stronger for them, for bodies from the mold are kept better than the
wall is, and codes go by classes of proportions. A lower strength counts once three bodies were crushed or broken: of
what is cast that which 5 of 100 batches lie below, of mortar, whose class is a mean of cubes, what its mean surely
passes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.figures import Figure
from pinfold.plan.buildups import Wall
from pinfold.plan.enclosure import Enclosure
from pinfold.sources import Standing
from pinfold.studies.lessons.applying import STRENGTHS, taught_kind
from pinfold.studies.lessons.records import Lesson, Override, Prior, Taught, Topic
from pinfold.studies.lessons.strength_prior import DAYS_28
from pinfold.studies.lessons.strength_records import Strength, StrengthTests
from pinfold.studies.lessons.strengths import strength_by_tests
from pinfold.studies.lessons.telling import with_spread
from pinfold.tables.shelf import Kind, kind
from pinfold.units import PASCAL, Pascal, System

ENOUGH = 3
"""From so many bodies crushed or broken on a lower strength is proven; hands that try a nail prove none."""
_WITH_IT = tuple(name for name in STRENGTHS if name not in ("strength", "compressive"))
"""Figures of a cast wall that go with its strength: by its root in concrete, in proportion in all else."""


def strength_lessons(
    tests: StrengthTests, plan: Enclosure, figures: tuple[Override, ...], system: System
) -> Taught:  # fmt: skip
    """The strength of every mix that was tried, and what of the plan is lower by it.

    Args:
        tests: of the log
        plan: as the builder wrote it
        figures: learned of materials and mixes
        system: of the plan
    """
    found = {name: _strength(name, tests, figures) for name in tests.readings}
    walls = tuple(dict.fromkeys(buildup.wall for buildup in plan.buildups.values() if buildup.wall is not None))
    lowered = tuple(
        each for strength in found.values() if _proves(strength, tests) for each in _lower(strength, walls, system)
    )
    names = {each.kind for each in lowered}
    lessons = tuple(_lesson(each, tests, _used(each, names, walls), system) for each in found.values())
    return Taught(lessons=lessons, figures=lowered, set_aside=tests.set_aside)


def _strength(name: str, tests: StrengthTests, figures: tuple[Override, ...]) -> Strength:
    return strength_by_tests(taught_kind(kind("mixes", name), figures), DAYS_28, tests)


def _proves(strength: Strength, tests: StrengthTests) -> bool:
    return sum(each.is_exact for each in tests.readings[strength.mix]) >= ENOUGH


def _lower(strength: Strength, walls: tuple[Wall, ...], system: System) -> Iterator[Override]:
    mortars = (wall.mortar for wall in walls if wall.mortar is not None and wall.mortar.name == strength.mix)
    for mortar in dict.fromkeys(mortars):
        if mortar.has("strength") and strength.sure < mortar.value("strength"):
            says = "its mean surely passes this by your cubes; the class of its proportions is no longer counted"
            yield _override(mortar, "strength", strength.sure, (strength, says, system))
    cast = (wall.kind for wall in walls if wall.kind.word("mix") == strength.mix and wall.kind.has("compressive"))
    for of_wall in dict.fromkeys(cast):
        counted = of_wall.figure("compressive")
        if counted.standing is not Standing.GIVEN and strength.low < counted.value:
            yield from _lower_wall(of_wall, strength, system)


def _lower_wall(of_wall: Kind, strength: Strength, system: System) -> Iterator[Override]:
    ratio = strength.low / of_wall.value("compressive")
    says = "5 of 100 batches lie below by your tests"
    yield _override(of_wall, "compressive", strength.low, (strength, says, system))
    concrete = of_wall.word("material") == "concrete"
    for name in _WITH_IT:
        if of_wall.has(name) and of_wall.figure(name).standing is not Standing.GIVEN:
            value = of_wall.value(name) * (math.sqrt(ratio) if concrete else ratio)
            how = "by the root of its strength" if concrete else "in proportion to its strength"
            yield _override(of_wall, name, value, (strength, f"lowered {how}", system))


def _override(of: Kind, name: str, value: Pascal, told: tuple[Strength, str, System]) -> Override:
    strength, says, system = told
    figure = Figure(
        value=value, unit=PASCAL, standing=Standing.LEARNED, source="LOG",
        where=f"{strength.own} tests of {strength.mix}", printed=with_spread(value, None, PASCAL, system),
    )  # fmt: skip
    counted = with_spread(of.value(name), None, PASCAL, system)
    note = f"Your log: {name.replace('_', ' ')} {figure.printed} instead of {counted}: {says}."
    return Override(of.shelf, of.name, name, figure, note)


def _used(strength: Strength, lowered: set[str], walls: tuple[Wall, ...]) -> str:
    """Where a strength lowers what is counted on; empty where it is only told."""
    of_walls = {wall.kind.name for wall in walls if wall.kind.word("mix") == strength.mix}
    return "will it stand" if lowered & {strength.mix, *of_walls} else ""


def _lesson(strength: Strength, tests: StrengthTests, used: str, system: System) -> Lesson:
    before, days = strength.before or strength, [each.day for each in tests.readings[strength.mix]]
    mean = with_spread(strength.mean, strength.mean * strength.doubt, PASCAL, system)
    told = (
        f"{strength.mix} is {mean} strong at 28 days as a {strength.body}, by {strength.says}; 5 of 100 batches lie "
        f"below {with_spread(strength.low, None, PASCAL, system)}."
    )
    told += " That is less than the plan counted on, and is used." if used else ""
    prior = Prior(
        value=before.mean, spread=before.mean * before.doubt, within=before.spread, unit=PASCAL, figure=None,
        says=before.says,
    )  # fmt: skip
    return Lesson(
        topic=Topic.STRENGTH, subject=f"{strength.mix}, 28 days", prior=prior, value=strength.mean,
        spread=strength.mean * strength.doubt, count=strength.own, weight=strength.weight, per="", told=told, used=used,
        since=min(days), last=max(days), standing=strength.standing, working=strength.steps,
    )  # fmt: skip
