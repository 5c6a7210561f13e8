"""How a mix hardens as against the present one: strength, stiffness, tension, shrinkage, stress left, each with spread.

What is known of the present mix as it stands in the plan (the coat's or the wall's own figures, which 'stand' goes by)
is carried over to the others as published methods have both; where two methods differ, the spread holds both.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import practice, printed
from pinfold.findings import Step, work
from pinfold.formulas import cracking, richness, stiffness
from pinfold.sources import Standing
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.richness.base import Recipe
from pinfold.studies.richness.records import Band
from pinfold.tables.shelf import Kind
from pinfold.units import PASCAL, RATIO, Pascal, Ratio, Second

DAYS_28: Second = 28 * 86400.0
SHRINKAGE_SPREAD = printed("19 %", RATIO, Standing.READ, "MORTAR-CREEP", "mean error of a method for mortars")
MODULUS_SPREAD = practice("20 %", RATIO, "of a modulus told from strength")
TENSION_SPREAD = practice("30 %", RATIO, "of tension from place to place")
CREEP_SPREAD = practice("15 %", RATIO, "of the stress left after creep")
PICKETT = printed("1.7", RATIO, Standing.MEMORY, "PICKETT", "gravel and quartz sand; 1.2 at least")
FIVE = 1.645
"""Standard deviations to where 5 of 100 lie beyond."""


class Known(NamedTuple):
    """What is known of the present mix as it stands; None where it is not.

    Attributes:
        modulus: stiffness.
        tension: what it can be pulled.
        shrinkage: in the end.
        relaxation: share of a held stress that creep leaves.
    """

    modulus: Pascal | None = None
    tension: Pascal | None = None
    shrinkage: Ratio | None = None
    relaxation: Ratio | None = None


@dataclass(frozen=True, kw_only=True)
class Hardened:
    """How a mix hardens.

    Attributes:
        strength: at 28 days.
        stiffer: modulus beside the present mix's.
        stronger: tension beside the present mix's.
        shrinks: shrinkage beside the present mix's.
        relaxation: share of stress left; None where the present mix's is not known.
        missing: what is not shown, and why.
        steps: lines of working.
    """

    strength: Band | None
    stiffer: Band | None
    stronger: Band | None
    shrinks: Band | None
    relaxation: Ratio | None
    missing: tuple[str, ...]
    steps: tuple[Step, ...]


def banded(times: Band | None, known: float | None, spread: Ratio) -> Band | None:
    """A known figure times what is found, its own spread with it; None where one of them is not known."""
    if times is None or known is None:
        return None
    low, high = known * times.low * math.exp(-FIVE * spread), known * times.high * math.exp(FIVE * spread)
    return Band(known * times.value, low, high, RATIO if known < 1 else PASCAL)


def strength_of(recipe: Recipe, present: Recipe, mix: Kind, lessons: Lessons | None) -> tuple[Band, tuple[Step, ...]]:
    """Strength at 28 days, as the log and the law have it; a type's known strength carried over by the law.

    Raises:
        NotFoundError, OutOfRangeError: as `strength_at` tells.
    """
    now, by_law = strength_at(mix, DAYS_28, lessons), strength_at(present.mix, DAYS_28, lessons)
    if recipe is present:
        return Band(now.mean, now.low, now.high, PASCAL), now.steps
    found, times = strength_at(recipe.mix, DAYS_28, lessons), now.mean / by_law.mean
    return Band(found.mean * times, found.low * times, found.high * times, PASCAL), found.steps


def hardened(
    recipe: Recipe, present: Recipe, *, mix: Kind, known: Known, lessons: Lessons | None
) -> Hardened:  # fmt: skip
    """How a mix hardens beside the present one.

    Args:
        recipe: of it
        present: of the present mix
        mix: the present mix as the plan has it
        known: what is known of it as it stands
        lessons: of the site
    """
    try:
        strength, steps = strength_of(recipe, present, mix, lessons)
        beside, _ = strength_of(present, present, mix, lessons)
    except (NotFoundError, OutOfRangeError) as limit:
        none = f"strength, and what follows from it: {limit}"
        return Hardened(
            strength=None, stiffer=None, stronger=None, shrinks=_shrinks(recipe, present), relaxation=None,
            missing=(none,), steps=(),
        )  # fmt: skip
    left = None if known.relaxation is None else work(
        richness.stress_left, why="stress left after creep", known=known.relaxation, strength=strength.value,
        known_strength=beside.value,
    )  # fmt: skip
    stiffer, more, missing = _stiffer(recipe, present, strength.value, beside.value)
    return Hardened(
        strength=strength, stiffer=stiffer, stronger=_stronger(strength.value, beside.value),
        shrinks=_shrinks(recipe, present), relaxation=None if left is None else left.number, missing=missing,
        steps=(*steps, *more, *((left,) if left else ())),
    )  # fmt: skip


def _stiffer(
    recipe: Recipe, present: Recipe, strength: Pascal, known: Pascal
) -> tuple[Band | None, tuple[Step, ...], tuple[str, ...]]:
    try:
        found, beside = (
            work(stiffness.modulus_by_aci318, why=why, strength=f, density=each.density)
            for why, f, each in (("stiffness by strength", strength, recipe), ("of the present mix", known, present))
        )
    except OutOfRangeError as limit:
        return None, (), (f"stiffness: {limit}",)
    rival = stiffness.modulus_by_en1992(strength=strength) / stiffness.modulus_by_en1992(strength=known)
    return _between(found.number / beside.number, rival), (found, beside), ()


def _stronger(strength: Pascal, known: Pascal) -> Band:
    """Tension: ACI has it go with the root of the strength, EN 1992 with more."""
    here = stiffness.tension_by_aci318(strength=strength) / stiffness.tension_by_aci318(strength=known)
    rival = stiffness.tension_by_en1992(strength=strength) / stiffness.tension_by_en1992(strength=known)
    return _between(here, rival)


def _shrinks(recipe: Recipe, present: Recipe) -> Band:
    """Concrete by ACI 209's factor for cement, mortar by its water; both beside Pickett's law of the grains."""
    pickett = [
        richness.shrinkage_by_pickett(paste=1.0, aggregate=min(each.stones, 1.0), exponent=PICKETT.value)
        for each in (recipe, present)
    ]
    return _between(_shrinks_beside(recipe, present), pickett[0] / pickett[1])


def _shrinks_beside(recipe: Recipe, present: Recipe) -> Ratio:
    if "gravel" in recipe.masses:
        found, beside = (_cement_factor(each) for each in (recipe, present))
        return found / beside
    return richness.shrinkage_by_water(known=1.0, share=recipe.water_share, known_share=present.water_share)


def _cement_factor(recipe: Recipe) -> Ratio:
    """ACI 209's factor for the cement in it; all others are the same in both."""
    factors = cracking.aci209_factors(
        humidity=0.7, size=0.1, slump=0.075, sand=0.4, cement=recipe.masses["cement"] / recipe.volume, air=0.02,
        curing=7 * 86400.0,
    )  # fmt: skip
    return factors.cement


def _between(value: Ratio, rival: Ratio) -> Band:
    """A share with its rival as the spread, to one side or the other."""
    return Band(value, min(value, rival), max(value, rival), RATIO)


def as_kind(of: Kind, values: Iterable[tuple[str, float | None]]) -> Kind:
    """A coat or a wall with other figures, as 'stand' would take it."""
    figures = dict(of.figures)
    for name, value in values:
        if value is not None and name in figures:
            figures[name] = replace(figures[name], value=value, printed="")
    return replace(of, figures=figures)
