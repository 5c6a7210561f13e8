"""The age at the reference warmth by which a mix is so strong, with weak and with strong batches."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from pinfold.sources import Standing
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strength_prior import DAY, DAYS_28, prior_strength
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.ripening.records import Ages
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import Kind
from pinfold.units import Pascal, Ratio

_FIVE = 1.645
"""Five of a hundred lie beyond, in standard deviations."""
_FIRST, _LAST, _PLACES = 3600.0, 730 * DAY, 96


class Growth(NamedTuple):
    """How a mix grows, at the reference warmth.

    Attributes:
        ages: rising.
        low: strength at each, 5 of 100 batches below; never falling.
        middle: likewise, half of them below.
        high: likewise, 95 of 100 below.
        whole: the middle at 28 days.
        pace_spread: how far its growth may lie off the curve: of the exponent of its share of the strength at 28 days.
        standing: of the strength.
    """

    ages: Hours
    low: Hours
    middle: Hours
    high: Hours
    whole: Pascal
    pace_spread: Ratio
    standing: Standing


@lru_cache(maxsize=128)
def growth(mix: Kind, lessons: Lessons | None) -> Growth:
    """Strength by age.

    Args:
        mix: of shelf `mixes`
        lessons: of the site; None for what is thought before any test

    Raises:
        NotFoundError: nothing is known of such a mix.
        OutOfRangeError: no law speaks of it.
    """
    ages = np.geomspace(_FIRST, _LAST, _PLACES)
    told = [strength_at(mix, float(age), lessons) for age in ages]
    low, middle, high = (
        np.maximum.accumulate([getattr(each, end) for each in told]) for end in ("low", "mean", "high")
    )  # fmt: skip
    whole = strength_at(mix, DAYS_28, lessons)
    return Growth(
        ages=ages, low=low, middle=middle, high=high, whole=whole.mean, standing=whole.standing,
        pace_spread=prior_strength(mix).spread("age"),
    )  # fmt: skip


def ages_for(grown: Growth, strength: Pascal) -> Ages:
    """The ages by which a strength is there.

    Args:
        grown: how the mix grows
        strength: wanted
    """
    return Ages(*(_age(grown.ages, each, strength) for each in (grown.high, grown.middle, grown.low)))


def ages_for_share(grown: Growth, share: Ratio) -> Ages:
    """The ages by which a batch has a share of its own strength at 28 days: how quickly it grows scatters alone.

    Args:
        grown: how the mix grows
        share: wanted, below 1
    """
    ways = (grown.pace_spread * steps for steps in (-_FIVE, 0.0, _FIVE))
    return Ages(*(_age(grown.ages, grown.middle, share ** (1 / (1 + way)) * grown.whole) for way in ways))


def _age(ages: Hours, strengths: Hours, wanted: Pascal) -> float:
    if wanted <= strengths[0]:
        return float(ages[0] * wanted / strengths[0]) if strengths[0] > 0 else float(ages[0])
    if wanted > strengths[-1]:
        return math.inf
    return float(np.exp(np.interp(wanted, strengths, np.log(ages))))
