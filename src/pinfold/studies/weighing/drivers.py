"""What drives cost, hours and strength to spare of a plan: which unsure figure each of them hangs on most."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.plan.enclosure import Enclosure
from pinfold.plan.stock import Prices
from pinfold.sources import Standing, weakest
from pinfold.studies.days.records import Job, Pace
from pinfold.studies.gathering.records import Gathered
from pinfold.studies.lessons.records import Lesson
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Criterion
from pinfold.studies.weighing.sensitivity import Array, Share, indices_of
from pinfold.studies.weighing.strength_curves import Checked, Curve, Told, curve_of
from pinfold.studies.weighing.unsure import Factors, Unsure, factors_at
from pinfold.studies.weighing.unsure_cost import cash, unsure_of_cost
from pinfold.studies.weighing.unsure_strength import unsure_of_strength
from pinfold.units import Ratio


class Driver(NamedTuple):
    """One unsure figure and what hangs on it.

    Attributes:
        unsure: which figure.
        first: share of the variance that it brings by itself.
        total: that it brings with the others together.
    """

    unsure: Unsure
    first: Share
    total: Share


@dataclass(frozen=True, kw_only=True)
class Driven:
    """One criterion of a plan and what it hangs on.

    Attributes:
        criterion: which.
        middle: half of what was drawn is less, in SI, money in the smallest coin; None where it is not shown.
        low: a twentieth of what was drawn is less.
        high: a twentieth is more.
        below: share of the draws below nothing.
        drivers: what it hangs on, the most first.
        standing: the weakest of the spreads.
        because: how it was found; where it is not shown, what is missing.
    """

    criterion: Criterion
    middle: float | None
    low: float | None
    high: float | None
    below: Ratio
    drivers: tuple[Driver, ...]
    standing: Standing
    because: str


@dataclass(frozen=True, kw_only=True)
class Planned:
    """A plan as counted, for the question what it hangs on.

    Attributes:
        plan: with what the log teaches.
        gathered: buying list, loads and water.
        prices: of it.
        job: tasks with their paces.
        lessons: of the log.
        missing: what the cost leaves out.
    """

    plan: Enclosure
    gathered: Gathered
    prices: Prices
    job: Job
    lessons: tuple[Lesson, ...]
    missing: tuple[str, ...]


def drivers_of(planned: Planned, checked: Checked, told: Told | None = None) -> tuple[Driven, ...]:
    """What cash now, hours and strength to spare hang on.

    Args:
        planned: the plan as counted
        checked: lays a plan out and checks it
        told: of the progress of checking plans
    """
    return (_cash(planned), _hours(planned.job), _margin(planned.plan, checked, told))


def _cash(planned: Planned) -> Driven:
    key, unsure = "cash_now", unsure_of_cost(planned.gathered, planned.lessons)
    if planned.missing or not unsure:
        return _not_shown(key, "; ".join(planned.missing) or "nothing is bought")
    gathered, prices, haul = planned.gathered, planned.prices, planned.plan.haul
    because = "the buying list bought anew in whole packs; pieces cut to length as listed"
    return _driven(key, unsure, lambda factors: cash(gathered, prices, haul, factors), because)


def _hours(job: Job) -> Driven:
    """Every sort of work goes faster or slower by itself."""
    key, unknown = "hours", [name for name, pace in job.paces.items() if not pace.is_known]
    if unknown or job.missing or not job.tasks:
        told = [f"time of {name} is not known" for name in unknown]
        return _not_shown(key, "; ".join((*told, *job.missing)) or "there is no work")
    by_work: dict[str, list[Pace]] = {}
    for task in job.tasks:
        by_work.setdefault(task.work.value, []).append(job.paces[task.key])
    labor = {work: math.fsum(pace.labor for pace in paces) for work, paces in by_work.items()}
    unsure = tuple(_pace(work, paces, labor[work]) for work, paces in by_work.items() if labor[work] > 0)
    because = "each sort of work taking more or less time by itself"
    return _driven(key, unsure, lambda factors: _worked(labor, factors), because)


def _pace(work: str, paces: list[Pace], labor: float) -> Unsure:
    spread = math.fsum(pace.spread * pace.labor for pace in paces) / labor
    told = "; ".join(dict.fromkeys(pace.told for pace in paces))
    return Unsure(work, f"pace: {work}", spread, weakest(pace.standing for pace in paces), told)


def _worked(labor: dict[str, float], factors: Factors) -> Array:
    return np.asarray(sum(labor[work] * factor for work, factor in factors.items()))


def _margin(plan: Enclosure, checked: Checked, told: Told | None) -> Driven:
    key, unsure = "margin", unsure_of_strength(plan)
    curve = curve_of(plan, unsure, checked, told)
    if curve is None:
        return _not_shown(key, "not one check of strength could be answered")
    return _driven(key, unsure, curve.carried, _curve_told(curve), lambda carried: 1 - 1 / carried)


def _curve_told(curve: Curve) -> str:
    return (
        f"strength beside what acts, by {curve.asked} plans checked in full and a curve through them that explains "
        f"{100 * curve.explains:.0f} % of the scatter where it was tried; what carries less than half counts as half; "
        f"governed by {', '.join(curve.governed[:_GOVERNED])}; gates are left out"
    )


_GOVERNED = 5
Shown = Callable[[Array], Array]


def _driven(
    key: str, unsure: tuple[Unsure, ...], model: Callable[[Factors], Array], because: str, shown: Shown = np.asarray
) -> Driven:  # fmt: skip
    """What a model hangs on.

    Args:
        key: of the criterion
        unsure: figures that the model takes
        model: gives a number for every draw
        because: how it was found
        shown: the criterion's own number from the model's, more for more
    """
    (found,) = indices_of(lambda chances: model(factors_at(chances, unsure))[None], len(unsure))
    answers = shown(found.answers)
    low, middle, high = np.quantile(answers, (0.05, 0.5, 0.95)).tolist()
    drivers = [Driver(*each) for each in zip(unsure, found.first, found.total, strict=True)]
    return Driven(
        criterion=CRITERION_BY_KEY[key], middle=middle, low=low, high=high, below=float((answers < 0).mean()),
        drivers=_most_first(drivers), standing=weakest(each.standing for each in unsure), because=because,
    )  # fmt: skip


def _most_first(drivers: Iterable[Driver]) -> tuple[Driver, ...]:
    return tuple(sorted(drivers, key=lambda each: -each.total.value))


def _not_shown(key: str, because: str) -> Driven:
    return Driven(
        criterion=CRITERION_BY_KEY[key], middle=None, low=None, high=None, below=0.0, drivers=(),
        standing=Standing.DERIVED, because=because,
    )  # fmt: skip
