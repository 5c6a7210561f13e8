"""Options held against limits: which keep to all of them, which miss by how much, which misses by least."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.findings import Verdict
from pinfold.studies.weighing.front import Column, Yes
from pinfold.studies.weighing.limits import Bound, Limit
from pinfold.studies.weighing.records import Weighed, failing_in_all, unshown_in_all


class Short(NamedTuple):
    """By how much an option misses one limit.

    Attributes:
        limit: which.
        by: past it, in the criterion's unit, money in the smallest coin.
    """

    limit: Limit
    by: float


@dataclass(frozen=True, kw_only=True)
class Miss:
    """One option that misses.

    Attributes:
        number: of the option, from 0 in the order they came.
        shorts: limits it misses, the worst first.
        share: by what part of the limit it misses the worst of them.
    """

    number: int
    shorts: tuple[Short, ...]
    share: float


@dataclass(frozen=True, kw_only=True)
class Held:
    """Options held against limits.

    Attributes:
        kept: those that keep to all, (n,).
        unsure: those that miss none that is shown, and of which something limited is not shown, (n,).
        nearest: of the rest the one whose worst miss is least; None where there is none.
    """

    kept: Yes
    unsure: Yes
    nearest: Miss | None


def columns_of(weighed: Sequence[Weighed], keys: Sequence[str], *, holds: bool = False) -> Mapping[str, Column]:
    """The numbers of options that were judged; nan where one is not shown.

    Args:
        weighed: judged
        keys: of the criteria
        holds: whether everything has to hold: then nothing is known to be left over where a check is not shown that
            another option shows, so that nothing passes for holding that was not looked at; what all hide, and what
            the plan gives that fails in all, tells none from another
    """
    columns = {key: np.array([_number(each, key) for each in weighed], dtype=float) for key in keys}
    if holds and "margin" in columns:
        common = unshown_in_all(weighed), failing_in_all(weighed)
        columns["margin"] = np.array([_held(each, *common) for each in weighed], dtype=float)
    return columns


def _number(weighed: Weighed, key: str) -> float:
    score = weighed.scores.get(key)
    return np.nan if score is None or score.value is None else float(score.value)


def _held(weighed: Weighed, unshown: frozenset[str], failing: frozenset[str]) -> float:
    """Strength to spare where all has to hold."""
    value = _number(weighed, "margin")
    if weighed.fails_beside(failing):
        return float(np.fmin(value, _FAILS))
    return np.nan if value >= 0 and hides(weighed, unshown) else value


def hides(weighed: Weighed, common: frozenset[str]) -> bool:
    """Whether an option does not show a check that others show.

    Args:
        weighed: the option
        common: checks that none of the options shows
    """
    blind = weighed.verdict is Verdict.NOT_SHOWN or (weighed.only_given and bool(weighed.unshown))
    return blind and not (weighed.unshown and common.issuperset(weighed.unshown))


_FAILS = -1e-3
"""What fails in a check that is none of strength, such as frost, does not hold however much strength is left."""


def past(columns: Mapping[str, Column], limits: Sequence[Limit]) -> Column:
    """How far every option is past every limit, in the unit of its criterion, (n, limits); nan where not shown."""
    signed = [
        columns[limit.criterion.key] - limit.value if limit.bound is Bound.MOST
        else limit.value - columns[limit.criterion.key] for limit in limits
    ]  # fmt: skip
    return np.stack(signed, axis=1)


def held_against(columns: Mapping[str, Column], limits: Sequence[Limit]) -> Held:
    """Options held against limits; all of them keep to none.

    Args:
        columns: by criterion, at least those that are limited, (n,)
        limits: to keep to
    """
    if not limits:
        count = len(next(iter(columns.values()), ()))
        return Held(kept=np.ones(count, dtype=bool), unsure=np.zeros(count, dtype=bool), nearest=None)
    over = past(columns, limits)
    size = np.array([limit.value or 1.0 for limit in limits])
    missed: Yes = np.asarray(over > _ROUNDING * size)
    unshown: Yes = np.asarray(np.isnan(over).any(axis=1))
    missing: Yes = np.asarray(missed.any(axis=1))
    return Held(kept=~missing & ~unshown, unsure=~missing & unshown, nearest=_nearest(over, size, missed, limits))


_ROUNDING = 1e-9


def _nearest(over: Column, size: Column, missed: Yes, limits: Sequence[Limit]) -> Miss | None:
    """The option whose worst miss is the least part of its limit, those first of which all that is limited is shown;
    of two alike the one that misses fewer, then the first."""
    misses = missed.any(axis=1)
    shown = misses & ~np.isnan(over).any(axis=1)
    fair = np.flatnonzero(shown if shown.any() else misses)
    if not len(fair):
        return None
    shares = np.where(missed, over / size, 0.0)[fair]
    best = np.lexsort((fair, missed[fair].sum(axis=1), shares.max(axis=1)))[0]
    number, worst_first = int(fair[best]), np.argsort(-shares[best], kind="stable")
    shorts = tuple(Short(limits[at], float(over[number, at])) for at in worst_first if missed[number, at])
    return Miss(number=number, shorts=shorts, share=float(shares[best].max()))
