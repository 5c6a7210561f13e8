"""What alike things say of each other: a mix that was never measured borrows from those of its family that were.

Each thing's figure lies off what was thought by a part that all of its family share on this site and a part of its own,
half of the variance each. What the others say is the normal update of the shared part; with it the thing's own readings
are weighed as always.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple, TypeVar

from pinfold.findings import Step, work
from pinfold.formulas import learning
from pinfold.studies.lessons.belief import Learned, alone, learned_from
from pinfold.studies.lessons.records import Prior, Reading

SHARED = 0.5
"""Share of the variance before any reading that a whole family has in common: our own judgment."""
Thing = TypeVar("Thing", bound=Hashable)


class Member(NamedTuple):
    """One of a family.

    Attributes:
        prior: what was thought of it; with a value and a spread.
        readings: of it; none where it was never measured.
    """

    prior: Prior
    readings: Sequence[Reading]


class _Said(NamedTuple):
    """What a member's readings say alone, in spreads off what was thought: where, and how unsure."""

    off: float
    unsure: float


def learned_in_family(members: Mapping[Thing, Member]) -> dict[Thing, Learned]:
    """What is believed of each of a family, those never measured too; the order of members does not matter.

    The weight is the share of the whole log in the value, its own readings and the others'.

    Args:
        members: by what they are
    """
    said = {thing: _said(member) for thing, member in members.items() if member.readings}
    return {
        thing: _learned(member, sorted(each for other, each in said.items() if other != thing))
        for thing, member in members.items()
    }


def _said(member: Member) -> _Said:
    middle, spread = _thought(member.prior)
    found = alone(member.readings, member.prior)
    return _Said((found.value - middle) / spread, found.spread / spread)


def _thought(prior: Prior) -> tuple[float, float]:
    assert prior.value is not None
    assert prior.spread is not None
    return prior.value, prior.spread


def _learned(member: Member, others: Sequence[_Said]) -> Learned:
    if not others:
        return learned_from(member.readings, member.prior) if member.readings else _as_thought(member.prior)
    middle, spread = _thought(member.prior)
    family = _family(others)
    shared = family[-1].result
    assert isinstance(shared, learning.Belief)
    before = math.hypot(shared.spread, math.sqrt(1 - SHARED))
    prior = replace(member.prior, value=middle + spread * shared.value, spread=spread * before)
    found = learned_from(member.readings, prior) if member.readings else _as_thought(prior)
    return found._replace(weight=1 - (found.spread / spread) ** 2, working=(*family[-1:], *found.working))


def _as_thought(prior: Prior) -> Learned:
    middle, spread = _thought(prior)
    return Learned(middle, spread, 0.0, ())


def _family(others: Sequence[_Said]) -> list[Step]:
    """The shared part by one member after the other, in spreads off what was thought."""
    value, spread, steps = 0.0, math.sqrt(SHARED), list[Step]()
    for each in others:
        step = work(
            learning.normal_posterior, why="what others of its kind say, in spreads off what was thought", prior=value,
            prior_spread=spread, mean=each.off, spread=math.hypot(each.unsure, math.sqrt(1 - SHARED)), count=1.0,
        )  # fmt: skip
        belief = step.result
        assert isinstance(belief, learning.Belief)
        value, spread = belief.value, belief.spread
        steps.append(step)
    return steps
