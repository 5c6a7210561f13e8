"""What a check answers: HOLDS, FAILS or NOT SHOWN, with its working."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.sources import Standing, weakest
from pinfold.units import RATIO, Unit

ROUNDING = 1e-6
"""Share by which a demand may pass a capacity through the rounding of lengths and still hold."""


class Verdict(StrEnum):
    """The three answers; missing information is never a pass."""

    HOLDS = "HOLDS"
    FAILS = "FAILS"
    NOT_SHOWN = "NOT SHOWN"


class Step(NamedTuple):
    """One line of working: a formula with the figures put in and what it gave.

    A named tuple and not a dataclass like the other records: some thousands are made while a corner is dragged.

    Attributes:
        formula: its name as `pinfold formula` knows it, such as `wind.velocity_pressure`.
        inputs: argument name and value in SI, in the order given; text for a choice such as an exposure.
        result: what the formula gave; a number or a record of its own.
        why: what this line is for, in the builder's words; may be empty.
    """

    formula: str
    inputs: tuple[tuple[str, object], ...]
    result: object
    why: str = ""

    @property
    def number(self) -> float:
        """The result where it is one number."""
        return float(self.result)  # type: ignore[arg-type]


def work(formula: Callable[..., object], *, why: str = "", **inputs: object) -> Step:
    """Call a formula and keep the line of working.

    Raises:
        OutOfRangeError: whatever the formula refuses.
    """
    return Step(_name_of(formula), tuple(inputs.items()), formula(**inputs), why)


@cache
def _name_of(formula: Callable[..., object]) -> str:
    return f"{formula.__module__.rpartition('.')[2]}.{formula.__name__}"


@dataclass(frozen=True, kw_only=True)
class Finding:
    """The answer to one check on one thing.

    Attributes:
        check: what was asked, such as `overturning`; a word of docs/words.md.
        subject: what was checked, such as `stretch south/2` or `gate cart`.
        demand: what acts, in SI; None when it could not be found.
        capacity: what resists, in SI; None when it could not be found. The check holds while demand ≤ capacity.
        unit: of both.
        because: why it is not shown, or what the verdict rests on, in plain words.
        working: the lines that lead to demand and capacity.
        figures: the figures that went in, for their standing.
        mend: what would mend it, empty where it holds or nothing is known.
        left_out: what the check does not look at.
        caution: the usual warning where work can hurt someone.
    """

    check: str
    subject: str
    demand: float | None = None
    capacity: float | None = None
    unit: Unit = RATIO
    because: str = ""
    working: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()
    mend: str = ""
    left_out: str = ""
    caution: str = ""

    @property
    def verdict(self) -> Verdict:
        """HOLDS, FAILS, or NOT SHOWN when either side is missing or is no number, or what resists has no end."""
        if self.demand is None or self.capacity is None or math.isnan(self.demand) or not math.isfinite(self.capacity):
            return Verdict.NOT_SHOWN
        if self.demand == -math.inf:
            return Verdict.NOT_SHOWN
        return Verdict.HOLDS if keeps_to(self.demand, self.capacity) else Verdict.FAILS

    @property
    def use(self) -> float | None:
        """Demand over capacity: how much of the strength is used; None when not shown, infinite for no capacity."""
        if self.verdict is Verdict.NOT_SHOWN or self.demand is None or self.capacity is None:
            return None
        if self.capacity <= 0:
            return math.inf if self.demand > 0 else 0.0
        return self.demand / self.capacity

    @property
    def standing(self) -> Standing:
        """The weakest standing among the figures that went in."""
        return weakest(figure.standing for _, figure in self.figures)


def keeps_to(demand: float, capacity: float) -> bool:
    """Whether a demand keeps to a capacity, but for the rounding of lengths; both in one unit."""
    return demand <= capacity + abs(capacity) * ROUNDING


def overall(findings: Iterable[Finding]) -> Verdict:
    """HOLDS only if every finding holds and there is at least one; FAILS if any fails."""
    verdicts = {finding.verdict for finding in findings}
    if Verdict.FAILS in verdicts:
        return Verdict.FAILS
    return Verdict.HOLDS if verdicts == {Verdict.HOLDS} else Verdict.NOT_SHOWN


def by_urgency(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What fails first, then what is not shown, then what holds, the most used first."""
    return tuple(sorted(findings, key=urgency))


def urgency(finding: Finding) -> tuple[int, float, str, str]:
    """What findings are put in order by: the lowest first."""
    return _ORDER[finding.verdict], -(finding.use or 0.0), finding.check, finding.subject


_ORDER = {Verdict.FAILS: 0, Verdict.NOT_SHOWN: 1, Verdict.HOLDS: 2}
