"""Choosing what is looked at: the factors that the trials changed, no more than they can tell apart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from pinfold.studies.trials.ranges import MOST
from pinfold.studies.trials.records import Factor, Trial

LEAST = 2
_VARIES = 0.1
"""A factor that moved less than this share of its range did not vary."""
_TOLD = 2 / 3
"""Share of the trials that must tell a factor for it to be looked at."""


class Choice(NamedTuple):
    """The factors looked at, and what is to be known of the choice."""

    factors: tuple[Factor, ...]
    notes: tuple[str, ...]


def chosen(trials: Sequence[Trial], factors: Sequence[Factor]) -> Choice:
    """The factors that varied most, two at least and no more than half as many as there are trials.

    Where fewer than two varied, the first ones of the makeup are added: nothing is known of them yet.
    """
    told = {factor.key: _told(trials, factor) for factor in factors}
    varied = [factor for factor in factors if _spread(told[factor.key], factor) >= _VARIES]
    enough = [factor for factor in varied if len(told[factor.key]) >= _TOLD * len(trials)]
    most = min(MOST, max(LEAST, len(trials) // 2))
    ranked = sorted(enough, key=lambda factor: -_spread(told[factor.key], factor))[:most]
    kept = [factor for factor in factors if factor in ranked]
    notes = [*_seldom(trials, varied, enough, told), *_too_many(enough, kept, len(trials))]
    added = _first(factors, kept)
    notes += _same(trials, kept, added) if trials else []
    return Choice(tuple(factor for factor in factors if factor in (*kept, *added)), tuple(notes))


def _told(trials: Sequence[Trial], factor: Factor) -> list[float]:
    return [trial.values[factor.key] for trial in trials if factor.key in trial.values]


def _spread(values: Sequence[float], factor: Factor) -> float:
    return (max(values) - min(values)) / (factor.high - factor.low) if values else 0.0


def _first(factors: Sequence[Factor], kept: Sequence[Factor]) -> list[Factor]:
    """Factors of the makeup beside those that varied, so that there are two: sand and water before all others."""
    order = sorted(
        (factor for factor in factors if factor not in kept and factor.usual is not None),
        key=lambda factor: factor.key not in ("sand", "clay_soil", "water", "water_cement"),
    )
    return order[: max(LEAST - len(kept), 0)]


def _seldom(
    trials: Sequence[Trial], varied: Sequence[Factor], enough: Sequence[Factor], told: dict[str, list[float]]
) -> list[str]:
    return [
        f"{factor.says} was written down for {len(told[factor.key])} of {len(trials)} trials only, and is not looked at"
        for factor in varied if factor not in enough
    ]  # fmt: skip


def _too_many(enough: Sequence[Factor], kept: Sequence[Factor], count: int) -> list[str]:
    left = [factor.says for factor in enough if factor not in kept]
    if not left:
        return []
    return [f"{', '.join(left)} varied too, but {count} trials do not tell so many factors apart"]


def _same(trials: Sequence[Trial], kept: Sequence[Factor], added: Sequence[Factor]) -> list[str]:
    names = " and ".join(factor.says for factor in added)
    if not kept and len(trials) > 1:
        return [f"all trials were alike in everything that can be told; {names} are taken to be changed next"]
    if len(kept) == 1 and added:
        return [f"only {kept[0].says} varied; {names} is taken beside it, and nothing is known of it yet"]
    return []
