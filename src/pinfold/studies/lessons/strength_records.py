"""Strength of a mix at an age with its spread, and what a log says of it, as records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.sources import Standing
from pinfold.studies.lessons.levels import Belief
from pinfold.units import Pascal, Ratio, Second


@dataclass(frozen=True, kw_only=True)
class Strength:
    """How strong a mix is at an age, crushed as the body its family is told in.

    The strength of batches scatters as its logarithm does normally, so that none is below nothing.

    Attributes:
        mix: name of it.
        age: since casting, kept damp and near 20 °C; how warm it truly was is not looked at.
        family: of shelf `strengths` that it is judged by.
        body: that it is told for: cylinder, cube.
        mean: of the logarithms: as many batches lie above as below.
        spread: one standard deviation of a batch, at the mean.
        low: 5 of 100 batches lie below.
        high: 95 of 100 batches lie below.
        sure: the mean itself lies above it with 95 chances of 100.
        doubt: standard deviation of the logarithm of the mean.
        weight: share of the tests in the value, 0 to 1; the rest is what was thought before.
        own: how many tests of this mix it rests on.
        others: how many of other mixes of its family.
        standing: learned, once at least half of it comes from tests.
        says: in one sentence.
        steps: lines of working.
        figures: that went in, where they were not learned.
        before: the same without any test; itself None of what was thought before.
    """

    mix: str
    age: Second
    family: str
    body: str
    mean: Pascal
    spread: Pascal
    low: Pascal
    high: Pascal
    sure: Pascal
    doubt: Ratio
    weight: Ratio
    own: int
    others: int
    standing: Standing
    says: str
    steps: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]
    before: Strength | None


@dataclass(frozen=True, kw_only=True)
class StrengthReading:
    """One body crushed, broken or tried, as told in the body of its family.

    Attributes:
        mix: name of it.
        day: when, ISO date.
        age: of the body.
        body: cube, cylinder, beam and so on; of a hand test what was tried.
        strength: in the body of the family; of a hand test the middle of what it may mean.
        low: of a hand test, the least it may mean; None for none or a crushed body.
        high: likewise the most.
        steps: lines of working, from what it carried to that.
    """

    mix: str
    day: str
    age: Second
    body: str
    strength: Pascal
    low: Pascal | None
    high: Pascal | None
    steps: tuple[Step, ...] = ()

    @property
    def is_exact(self) -> bool:
        """Whether a body was crushed or broken; else one was tried by hand."""
        return self.low is None and self.high is None


@dataclass(frozen=True, kw_only=True)
class StrengthTests:
    """What a log says of strengths.

    Attributes:
        readings: of each mix by name, as they happened.
        beliefs: by name of the family of shelf `strengths`.
        counts: how many readings each family has.
        set_aside: reason and how many entries could not be used.
    """

    readings: Mapping[str, tuple[StrengthReading, ...]] = field(default_factory=dict)
    beliefs: Mapping[str, Belief] = field(default_factory=dict)
    counts: Mapping[str, int] = field(default_factory=dict)
    set_aside: Mapping[str, int] = field(default_factory=dict)
