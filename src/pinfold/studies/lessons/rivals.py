"""What other published laws say of a mix at an age, beside the one it is judged by."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import strength_age, strength_mix
from pinfold.studies.lessons.strength_prior import DAYS_28, kearsley_strength, prior_strength, water_cement_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Pascal, Second


class RivalStrength(NamedTuple):
    """What another law says.

    Attributes:
        law: what it is called.
        strength: by it, without any test.
        steps: lines of working.
    """

    law: str
    strength: Pascal
    steps: tuple[Step, ...]


def rivals_at(mix: Kind, age: Second) -> tuple[RivalStrength, ...]:
    """Rivals for a mix at an age, as far as any speaks of it; none is used.

    Raises:
        NotFoundError: nothing is known of the mix at all.
    """
    prior = prior_strength(mix)
    found: list[RivalStrength] = []
    if prior.curve.has("slowness") and age != DAYS_28:
        found.append(_european(prior.strength, prior.curve, age))
    for law in (_by_porosity, _by_abrams):
        try:
            found += law(mix, prior.family, age)
        except (NotFoundError, OutOfRangeError):
            continue
    return tuple(found)


def _european(strength: Pascal, curve: Kind, age: Second) -> RivalStrength:
    share = work(
        strength_age.share_by_en1992, why="by the European curve", age=age, slowness=curve.value("slowness")
    )  # fmt: skip
    then = work(
        strength_age.strength_at_other_age, why="by the European curve", strength=strength, known_share=1.0,
        share=share.number,
    )  # fmt: skip
    return RivalStrength("growth by EN 1992-1-1", then.number, (share, then))


def _by_porosity(mix: Kind, family: Kind, age: Second) -> list[RivalStrength]:
    if family.name != "foamed":
        return []
    step = kearsley_strength(mix, age)
    return [RivalStrength("by its pores, a law found for dense foam", step.number, (step,))]


def _by_abrams(mix: Kind, family: Kind, age: Second) -> list[RivalStrength]:
    """The curve drawn through the table of concrete, asked of what has a law of its own; at 28 days alone."""
    if family.name not in ("mortar", "bond") or age != DAYS_28:
        return []
    law = kind("strengths", "abrams")
    step = work(
        strength_mix.strength_by_abrams, why="as if it were concrete", water_cement=water_cement_of(mix),
        base=law.value("base"), divisor=law.value("divisor"),
    )  # fmt: skip
    return [RivalStrength("by water over cement, as concrete", step.number, (step,))]
