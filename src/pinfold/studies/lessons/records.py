"""What the log teaches, as records: what was thought before, what is believed now, and everything it changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.place import Mixing
from pinfold.plan.stock import PilePiece, Prices
from pinfold.sources import Standing
from pinfold.studies.lessons.strength_records import StrengthTests
from pinfold.units import Unit


class Topic(StrEnum):
    """What a lesson is about."""

    MEASURE = "what a measure holds"
    SCALE = "scale"
    BUCKET_WEIGHT = "bucket weight"
    MOISTURE = "moisture"
    YIELD = "yield"
    FOAM = "foam that collapses"
    COVERAGE = "coverage"
    STRENGTH = "strength"
    PACE = "pace"
    PRICE = "price"


class Reading(NamedTuple):
    """One number that an entry gives.

    Attributes:
        value: in SI of what is read.
        day: when it happened, ISO date.
        weight: how much it counts for its age; 1 for what does not age.
    """

    value: float
    day: str
    weight: float = 1.0


@dataclass(frozen=True, kw_only=True)
class Prior:
    """What was thought before anything was read.

    Attributes:
        value: in SI of the unit; None where nothing was thought.
        spread: one standard deviation; None where nothing was thought.
        within: scatter of one reading, as long as the readings do not tell better.
        unit: SI unit of all three.
        figure: the figure behind it, shipped or carried here; None where there is none.
        says: where it comes from, in plain words.
        shipped: what was thought before anything was carried here; None where nothing was.
        working: lines of working, from the shipped one to the one with what was carried.
    """

    value: float | None
    spread: float | None
    within: float
    unit: Unit
    figure: Figure | None
    says: str
    shipped: Prior | None = None
    working: tuple[Step, ...] = ()

    @property
    def first(self) -> Prior:
        """What was thought before anything was carried or read."""
        return self.shipped or self


class Alone(NamedTuple):
    """What the readings of one place say by themselves, with what was thought before taken out again.

    Attributes:
        value: most likely.
        spread: one standard deviation.
    """

    value: float
    spread: float


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One thing the log teaches.

    Attributes:
        topic: what it is about.
        subject: of which thing, such as `sand, bucket`.
        prior: what was thought before.
        value: what is believed now, in SI of the prior's unit; of a price whole coins.
        spread: one standard deviation of it; of a price the scatter of what was paid; None for a single payment.
        count: how many entries it rests on.
        weight: share of the log in the value, 0 to 1; the rest is the prior.
        per: what one value is for: `m`, `m2`, the pack of a price, or empty.
        told: the lesson in one sentence.
        used: where it is used; empty where it is only told.
        since: day of the first entry, ISO.
        last: day of the last.
        standing: how far it can be trusted: learned, once at least half of it comes from the log.
        working: lines of working.
        alone: what the entries say by themselves, as it is carried elsewhere; None where nothing is to be carried.
    """

    topic: Topic
    subject: str
    prior: Prior
    value: float
    spread: float | None
    count: int
    weight: float
    per: str
    told: str
    used: str
    since: str
    last: str
    standing: Standing
    working: tuple[Step, ...] = ()
    alone: Alone | None = None


class Override(NamedTuple):
    """A figure of a kind that the log puts in place of the shipped one.

    Attributes:
        shelf: of the kind.
        kind: its name.
        name: of the figure.
        figure: as learned.
        says: a note for whoever uses it.
    """

    shelf: str
    kind: str
    name: str
    figure: Figure
    says: str


@dataclass(frozen=True, kw_only=True, eq=False)
class Lessons:
    """All that the log teaches, and what plan, prices and pile become by it; equal to itself alone, as a site is.

    Attributes:
        plan: with what was learned where the plan itself says nothing; the plan itself where nothing was learned.
        prices: with what was last paid.
        pile: with what went onto and off it.
        figures: put in place of shipped ones.
        lessons: by topic, then as the things first come.
        pile_told: what changed on the pile, in plain words.
        set_aside: entries that could not be used, with the reason.
        strengths: what was crushed, broken and tried by hand.
        carried_told: lessons of other places that do not count here, with the reason.
        pile_first: the pile before the first entry that tells of it.
        pile_whole: the list of the pile with all that came onto it, what was left over aside, and nothing taken off.
    """

    plan: Enclosure
    prices: Prices
    pile: tuple[PilePiece, ...]
    figures: tuple[Override, ...] = ()
    lessons: tuple[Lesson, ...] = ()
    pile_told: tuple[str, ...] = ()
    set_aside: tuple[str, ...] = ()
    strengths: StrengthTests = field(default_factory=StrengthTests)
    carried_told: tuple[str, ...] = ()
    pile_first: tuple[PilePiece, ...] = ()
    pile_whole: tuple[PilePiece, ...] = ()

    @property
    def mixing(self) -> Mixing:
        """What is mixed with, as learned."""
        return self.plan.mixing

    @property
    def is_empty(self) -> bool:
        """Whether the log taught nothing and has nothing to tell."""
        return not (self.lessons or self.pile_told or self.set_aside or self.carried_told)

    def about(self, topic: Topic) -> tuple[Lesson, ...]:
        """The lessons of one topic."""
        return tuple(lesson for lesson in self.lessons if lesson.topic is topic)


@dataclass(frozen=True, kw_only=True)
class Taught:
    """What one topic gives.

    Attributes:
        lessons: of it.
        figures: it puts in place of shipped ones.
        set_aside: reason and how many entries could not be used for it.
    """

    lessons: tuple[Lesson, ...] = ()
    figures: tuple[Override, ...] = ()
    set_aside: Mapping[str, int] = field(default_factory=dict)
