"""How strong a mix is at an age: what was thought before, narrowed by the builder's own tests of it and its family.

The one place that the whole program asks.
"""

from __future__ import annotations

import math

from pinfold.findings import Step, work
from pinfold.formulas import strength_mix
from pinfold.sources import Standing
from pinfold.studies.lessons.levels import Belief, Level, Spreads, believed
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strength_prior import DAYS_28, StrengthPrior, aged, growth_of, prior_strength
from pinfold.studies.lessons.strength_records import Strength, StrengthTests
from pinfold.studies.lessons.telling import HALF
from pinfold.studies.lessons.tried import spreads_of
from pinfold.tables.shelf import Kind
from pinfold.units import Second

_FIVE = -1.6448536269514722
"""Five of a hundred lie below, in standard deviations."""
_NONE = StrengthTests()


def strength_at(mix: Kind, age: Second, lessons: Lessons | None) -> Strength:
    """How strong a mix is at an age.

    Args:
        mix: of shelf `mixes`, or made for a wish
        age: since casting
        lessons: of the site; None for what is thought before any test

    Raises:
        NotFoundError: nothing is known of such a mix.
        OutOfRangeError: the age is not above 0, or no law speaks of the mix.
    """
    return strength_by_tests(mix, age, _NONE if lessons is None else lessons.strengths)


def strength_by_tests(mix: Kind, age: Second, tests: StrengthTests) -> Strength:
    """The same by tests alone; raises as `strength_at` does."""
    prior = prior_strength(mix)
    before = _told(mix, age, prior, _NONE)
    if prior.family.name not in tests.beliefs:
        return before
    return _told(mix, age, prior, tests, before)


def _told(
    mix: Kind, age: Second, prior: StrengthPrior, tests: StrengthTests, before: Strength | None = None
) -> Strength:
    thought = aged(prior.curve, prior.strength, (DAYS_28, age))
    growth, spreads = growth_of(thought), spreads_of(prior.family)
    level = _belief(prior, tests, spreads).level(mix.name, growth)
    first = believed((), spreads).level(mix.name, growth)
    found, ends = _ends(thought[-1].number, first, level, prior)
    mean, low, high, sure = found
    own = len(tests.readings.get(mix.name, ()))
    others = tests.counts.get(prior.family.name, 0) - own
    weight = 0.0 if before is None else max(0.0, 1 - (level.spread / first.spread) ** 2)
    return Strength(
        mix=mix.name, age=age, family=prior.family.name, body=prior.family.word("body"), mean=mean, low=low, high=high,
        sure=sure, spread=mean * _of_a_batch(level, prior), doubt=level.spread, weight=weight, own=own, others=others,
        standing=Standing.LEARNED if weight >= HALF else prior.standing, says=_says(prior, own, others),
        steps=(*prior.working, *thought, *ends), figures=(*prior.figures, *prior.spreads), before=before,
    )  # fmt: skip


def _belief(prior: StrengthPrior, tests: StrengthTests, spreads: Spreads) -> Belief:
    return tests.beliefs.get(prior.family.name) or believed((), spreads)


def _of_a_batch(level: Level, prior: StrengthPrior) -> float:
    return math.hypot(level.spread, prior.spread("batch"), prior.spread("within"))


def _ends(
    thought: float, first: Level, level: Level, prior: StrengthPrior
) -> tuple[tuple[float, float, float, float], tuple[Step, ...]]:
    """Mean, low, high and surely passed, with their lines of working."""
    middle = work(
        strength_mix.strength_off_middle, why="as the tests move it", middle=thought, spread=level.over, steps=1.0
    )  # fmt: skip
    whole = _of_a_batch(level, prior)
    low, high, sure = (
        work(strength_mix.strength_off_middle, why=why, middle=middle.number, spread=spread, steps=steps)
        for why, spread, steps in (
            ("5 of 100 batches lie below", whole, _FIVE), ("95 of 100 batches lie below", whole, -_FIVE),
            ("the mean is above, 95 of 100", level.spread, _FIVE),
        )
    )  # fmt: skip
    moved = () if level == first else (middle,)
    return (middle.number, low.number, high.number, sure.number), (*moved, low, high, sure)


def _says(prior: StrengthPrior, own: int, others: int) -> str:
    if own and others:
        return f"{prior.says}, then {own} tests of it and {others} of other {prior.family.says}"
    if own or others:
        what = f"{own} test{'' if own == 1 else 's'} of it" if own else f"{others} tests of other {prior.family.says}"
        return f"{prior.says}, then {what}"
    return f"{prior.says}; nothing was tried yet"
