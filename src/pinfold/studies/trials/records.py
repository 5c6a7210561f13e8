"""What trials show: factors in their ranges, a table of trials, the best so far, what is known, what to try next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.findings import Step
from pinfold.logbook.entries import Amount
from pinfold.sources import Standing
from pinfold.studies.batching.records import Charge
from pinfold.tables.shelf import Kind
from pinfold.units import Ratio, Unit


@dataclass(frozen=True, kw_only=True)
class Factor:
    """One thing that trials change.

    Attributes:
        key: its word: sand, lime, water, thickness.
        says: what it counts, in plain words.
        unit: SI unit of its values.
        low: least that is proposed.
        high: most that is proposed.
        step: the finest it can be measured to.
        usual: of the mix as it ships; None where it says nothing.
        source: publication of the range.
        standing: how far the range can be trusted.
        where: what it is the range of.
    """

    key: str
    says: str
    unit: Unit
    low: float
    high: float
    step: float
    usual: float | None
    source: str
    standing: Standing
    where: str

    def share(self, value: float) -> float:
        """Where a value lies in the range, 0 at its low end and 1 at the high one."""
        return (value - self.low) / (self.high - self.low)

    def holds(self, value: float) -> bool:
        """Whether a value lies inside the range, to a hair."""
        slack = 1e-9 * max(abs(self.low), abs(self.high))
        return self.low - slack <= value <= self.high + slack


@dataclass(frozen=True, kw_only=True)
class Trial:
    """One trial of the log.

    Attributes:
        seq: its place in the log.
        id: of its entry.
        day: when it was made, ISO date.
        values: by factor, in SI; only what can be told from what was written down.
        score: all in all, 0 worst to 10 best; None where none can be told.
        scores: what the builder said of it, by field, as words.
        conditions: what else was written down, by field, as words.
        lacking: why a factor cannot be told, by factor.
    """

    seq: int
    id: str
    day: str
    values: Mapping[str, float]
    score: Ratio | None
    scores: Mapping[str, str]
    conditions: Mapping[str, str]
    lacking: Mapping[str, str]


@dataclass(frozen=True, kw_only=True)
class Best:
    """The best trial so far.

    Attributes:
        trial: which.
        mean: its score as all trials together say.
        spread: how unsure that is, one standard deviation; None where too few trials are there to tell.
        inside: whether it lies inside the ranges.
    """

    trial: Trial
    mean: Ratio
    spread: Ratio | None
    inside: bool


@dataclass(frozen=True, kw_only=True)
class ResponsePoint:
    """The score expected at one value of a factor, all others as in the best trial.

    Attributes:
        value: of the factor, in its unit.
        mean: score.
        spread: how unsure it is.
        known: whether the trials say more of it than was thought before any.
    """

    value: float
    mean: Ratio
    spread: Ratio
    known: bool


@dataclass(frozen=True, kw_only=True)
class Response:
    """How the score goes along one factor.

    Attributes:
        factor: which.
        share: of all that the factors change of the score, this one's part.
        points: along its range, all other factors as in the best trial.
        others: those factors with their values.
    """

    factor: Factor
    share: Ratio
    points: tuple[ResponsePoint, ...]
    others: tuple[tuple[Factor, float], ...]


@dataclass(frozen=True, kw_only=True)
class Contradiction:
    """Two trials alike in all factors whose scores lie further apart than alike trials do.

    Attributes:
        higher: the one that scored more.
        lower: the other one.
        apart: how far their scores lie apart.
        allowed: how far alike trials lie apart at the most, nineteen times of twenty.
        differed: what else was not the same, as (what, at the higher, at the lower).
    """

    higher: Trial
    lower: Trial
    apart: Ratio
    allowed: Ratio
    differed: tuple[tuple[str, str, str], ...]


class Expected(NamedTuple):
    """What is expected of a trial not yet made.

    Attributes:
        mean: its score.
        spread: how unsure that is, one standard deviation.
        gain: how much better than the best it is expected to be, what is worse counted as none.
        chance: that it is better than the best.
    """

    mean: Ratio
    spread: Ratio
    gain: Ratio
    chance: Ratio


@dataclass(frozen=True, kw_only=True)
class NextTrial:
    """A trial worth making.

    Attributes:
        values: by factor, as measured out; held ones too.
        why: fill, gain or repeat.
        expected: of it; None while the ranges are only filled.
        charge: the batch it is measured out of.
        amounts: what goes in, rounded to what can be measured, as the log takes it.
        outside: factors outside their published range, where that was asked for.
        working: lines of working of gain and chance.
    """

    values: Mapping[str, float]
    why: str
    expected: Expected | None
    charge: Charge
    amounts: tuple[Amount, ...]
    outside: tuple[str, ...] = ()
    working: tuple[Step, ...] = ()


@dataclass(frozen=True, kw_only=True)
class TrialsTold:
    """All that the trials of one mix show.

    Attributes:
        mix: they began from.
        trials: in the order they were made, those that could be used.
        factors: that are looked at.
        all_factors: that could be, with the ranges as published.
        held: values of what else goes in, kept as it was in the trials.
        weights: what each of the builder's scores counts.
        noise: how far scores of alike trials lie apart, one standard deviation.
        repeats: how many repeats say so; the rest is usual.
        best: None without trials.
        responses: along each factor, the one that matters most first; empty with too few trials.
        unknown: share of the ranges that the trials say nothing of; None with too few trials.
        contradictions: trials that are alike and came out otherwise.
        next: trials worth making, the most first.
        filling: whether the ranges are only filled, for too few trials.
        notes: what was assumed, and what to mind.
        set_aside: trials that could not be used, with the reason.
    """

    mix: Kind
    trials: tuple[Trial, ...]
    factors: tuple[Factor, ...]
    all_factors: tuple[Factor, ...]
    held: Mapping[str, float]
    weights: Mapping[str, float]
    noise: Ratio
    repeats: int
    best: Best | None
    responses: tuple[Response, ...]
    unknown: Ratio | None
    contradictions: tuple[Contradiction, ...]
    next: tuple[NextTrial, ...]
    filling: bool
    notes: tuple[str, ...]
    set_aside: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What the builder wants looked at.

    Attributes:
        factors: keys; chosen by what varies when empty.
        weights: what each score counts; the usual ones when empty.
        outside: whether proposals may leave the published ranges.
        many: how many trials are proposed.
    """

    factors: tuple[str, ...] = ()
    weights: tuple[tuple[str, float], ...] = ()
    outside: bool = False
    many: int = 3
