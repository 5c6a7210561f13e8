"""A trial's mix as amounts that can be measured: half bags, quarters and eighths of a bucket, cups, half liters.

Amounts are rounded so that, read back, the ratios still lie in their ranges.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product
from typing import NamedTuple

from pinfold.logbook.entries import Amount
from pinfold.studies.batching.records import Charge, Ingredient
from pinfold.studies.lessons.things import Measures
from pinfold.studies.trials.contents import contents_of
from pinfold.studies.trials.makeup import ADDED, binders_of, ratios_of
from pinfold.studies.trials.records import Factor
from pinfold.tables.shelf import Kind
from pinfold.units import UNIT_BY_SYMBOL, System

_HALF_BAG = 0.01
"""Bags that lie so near a half are measured by the bag."""


_SCALE = 0.002
"""A bucket serves before a scale where both come as near, to about a twentieth of a range."""


_CUP = UNIT_BY_SYMBOL["gal"].factor / 16
_JUG = {System.US: (_CUP, _CUP / 4), System.METRIC: (0.0005, 0.0001)}
"""What a jug tells apart of much water and of little."""


class Ranges(NamedTuple):
    """Ranges of a proposal.

    Attributes:
        kept: of the factors, that it must not leave.
        whole: of all that makes up the mix, to tell what is near.
    """

    kept: Sequence[Factor]
    whole: Sequence[Factor]


class Measured(NamedTuple):
    """Amounts and the ratios that they truly have."""

    amounts: tuple[Amount, ...]
    ratios: Mapping[str, float]


def measured(
    charge: Charge, mix: Kind, wanted: Mapping[str, float], ranges: Ranges, measures: Measures, *, system: System
) -> Measured | None:  # fmt: skip
    """The amounts nearest to what is wanted whose ratios lie in the ranges; None where none do.

    Args:
        charge: of the mix wanted
        mix: the trials began from
        wanted: ratios
        ranges: that are kept, and of all its makeup
        measures: of the site
        system: of the plan, for the fineness of water
    """
    added = {name: ratio for name, ratio in wanted.items() if name in ADDED}
    choices = list(_choices(charge, mix, added, measures, system))

    def tried(amounts: tuple[Amount, ...]) -> Measured:
        return Measured(amounts, ratios_of(contents_of(amounts, mix, measures), mix)[0])

    found = [each for amounts in product(*choices) if _holds(each := tried(amounts), ranges.kept)]
    return min(found, key=_off(wanted, ranges.whole), default=None)


def _holds(tried: Measured, factors: Sequence[Factor]) -> bool:
    return all(factor.key not in tried.ratios or factor.holds(tried.ratios[factor.key]) for factor in factors)


def _off(wanted: Mapping[str, float], factors: Sequence[Factor]) -> Callable[[Measured], float]:
    """How far ratios lie from the wanted ones, in shares of their ranges; a scale is a little off by itself."""

    def off(tried: Measured) -> float:
        return sum(
            ((tried.ratios[factor.key] - wanted[factor.key]) / (factor.high - factor.low)) ** 2
            for factor in factors if factor.key in tried.ratios and factor.key in wanted
        ) + _SCALE * sum(amount.measure == "kg" for amount in tried.amounts)  # fmt: skip

    return off


def _choices(
    charge: Charge, mix: Kind, added: Mapping[str, float], measures: Measures, system: System
) -> Iterator[list[Amount]]:  # fmt: skip
    """For each thing that goes in, the amounts it may be measured to."""
    for ingredient in charge.ingredients:
        yield list(_of_ingredient(ingredient))
    bound = sum(charge.part(part).loose for part in binders_of(mix) if _has(charge, part))
    for name, ratio in added.items():
        if not _has(charge, name) and name in ADDED and ratio > 0:
            buckets = ratio * bound / measures.mixing.bucket
            yield [Amount(name, count, "bucket") for count in _eighths(buckets)]
    if charge.water_to_add > 0:
        yield [Amount("water", volume, "m3") for volume in _poured(charge.water_to_add, system)]


def _has(charge: Charge, part: str) -> bool:
    return any(ingredient.part == part for ingredient in charge.ingredients)


def _of_ingredient(ingredient: Ingredient) -> Iterator[Amount]:
    name, bags = ingredient.kind.name, ingredient.bags
    if bags and abs(bags * 2 - round(bags * 2)) < _HALF_BAG and round(bags * 2):
        yield Amount(name, round(bags * 2) / 2, "bag")
        return
    for count in _eighths(ingredient.buckets):
        yield Amount(name, count, "bucket")
    if ingredient.buckets < 2 and not ingredient.kind.has("bulking_low"):  # a little dry powder is weighed
        yield Amount(name, max(round(ingredient.mass, 1), 0.1), "kg")


def _eighths(buckets: float) -> tuple[float, ...]:
    """Marks of a bucket on both sides: quarters from two buckets on, eighths below."""
    parts = 4 if buckets >= 2 else 8
    low = math.floor(buckets * parts) / parts
    return tuple(count for count in (low, low + 1 / parts) if count > 0)


def _poured(volume: float, system: System) -> tuple[float, ...]:
    """Water on both sides: to half a liter or a cup, finer where there is little."""
    size, finer = _JUG[system]
    size = finer if volume < 20 * size else size
    low = math.floor(volume / size)
    return tuple(count * size for count in (low, low + 1) if count > 0)
