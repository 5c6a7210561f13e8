"""A stretch of wall under another action than the wind: the checks that ask the wind, under a name of their own."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache, partial

from pinfold.findings import Finding
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.beds import foot_of_wall
from pinfold.studies.stability.cases import Action, Case, Exposed
from pinfold.studies.stability.left_out import left_out_of
from pinfold.studies.stability.walls import bearing, overturning, sliding

_CHECKS: tuple[tuple[str, Callable[[Case], Finding]], ...] = (
    ("overturning", overturning), ("sliding", sliding), ("bearing", bearing),
    ("bed-joint tension", foot_of_wall),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What acts, and how the findings on it are named.

    Attributes:
        under: what a check is called beside its own name, such as `under a push`.
        left_out: what is not looked at beside what no check of a wall looks at.
        actions: everything that acts in that way, one at a time.
    """

    under: str
    left_out: str
    actions: Callable[[Exposed], Iterable[Action]]


def acted_on(ask: Exposed, asked: Asked) -> tuple[Finding, ...]:
    """Overturning, sliding, the ground and the lowest bed of one stretch: over every step and action the worst."""

    @cache
    def cases() -> tuple[Case, ...]:
        return tuple(case for action in asked.actions(ask) for case in ask.under(action))

    about, left_out = f"stretch {ask.stretch.name}", left_out_of(ask)
    found = [_worst(Question(check=check, subject=about, left_out=left_out), find, cases) for check, find in _CHECKS]
    return tuple(
        replace(each, check=f"{each.check} {asked.under}", left_out=told(asked.left_out, each.left_out))
        for each in found
    )  # fmt: skip


def _worst(question: Question, find: Callable[[Case], Finding], cases: Callable[[], Iterable[Case]]) -> Finding:
    return answered(question, lambda: governing(tried(partial(find, case)) for case in cases()))
