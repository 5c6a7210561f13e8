"""What is wished to be shared, and the account that holds it and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from pinfold.studies.forecasting.records import Spread
from pinfold.units import Meter, Ratio, Second


class Part(StrEnum):
    """What may be shared or left out."""

    HOURS = "hours"
    CRACKS = "cracks"
    LESSONS = "lessons"
    MONEY = "money"
    NAME = "name"
    PLACE = "place"
    COORDINATES = "coordinates"
    PEOPLE = "people"


USUAL = frozenset({Part.HOURS, Part.CRACKS, Part.LESSONS})
"""What is shared where nothing is said: none of it tells where or who."""


class When(StrEnum):
    """How near a day is told."""

    NEVER = "never"
    MONTHS = "months"
    DAYS = "days"


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What the builder chose to share.

    Attributes:
        parts: of the account.
        when: how near days are told.
        photos: numbers of the entries whose photos are shared.
        notes: numbers of the entries whose words are shared, as they were written.
    """

    parts: frozenset[Part] = USUAL
    when: When = When.NEVER
    photos: tuple[int, ...] = ()
    notes: tuple[int, ...] = ()


class SharedWork(NamedTuple):
    """Time of one task.

    Attributes:
        work: which.
        took: all people together.
        share: of all time.
    """

    work: str
    took: Second
    share: Ratio


class SharedCost(NamedTuple):
    """Money of one layer.

    Attributes:
        layer: which.
        share: of all of it.
        coins: in the smallest coin; None where money is left out.
    """

    layer: str
    share: Ratio
    coins: int | None


class CostOfLength(NamedTuple):
    """What goods for a length cost, as shares of what was planned.

    Attributes:
        foreseen: in all, by what was learned.
        planned: coins for a meter; None where money is left out.
    """

    foreseen: Spread
    planned: float | None


class SharedWidth(NamedTuple):
    """One reading of a crack.

    Attributes:
        after: since the first day of the account.
        width: of the crack.
        spread: one standard deviation.
    """

    after: Second
    width: Meter
    spread: Meter


class SharedCrack(NamedTuple):
    """One crack.

    Attributes:
        verdict: whether it moves.
        widths: as read, the oldest first.
    """

    verdict: str
    widths: tuple[SharedWidth, ...]


class Learned(NamedTuple):
    """One figure that came otherwise.

    Attributes:
        topic: what it is about.
        what: of which thing or task, by pinfold's own word for it.
        by: more than thought before, as a share; below 0 for less.
        entries: it rests on.
    """

    topic: str
    what: str
    by: Ratio
    entries: int


class Ahead(NamedTuple):
    """What is still to come.

    Attributes:
        time: of work; None where hours are left out.
        days: of the calendar until it is done; None where it cannot be told.
    """

    time: Spread | None
    days: Spread | None


class SharedWords(NamedTuple):
    """Words out of the log, or those under a photo.

    Attributes:
        when: as far as it is told.
        says: as written; empty for a photo without words.
    """

    when: str
    says: str


@dataclass(frozen=True, kw_only=True)
class Account:
    """What is shared, and nothing else. What was left out is empty or None.

    Attributes:
        name: of the plot.
        place: the plan's words on it.
        coordinates: latitude and longitude in degrees.
        people: who wrote the log.
        when: from when to when.
        length: of the enclosure.
        built: what it is made of, by pinfold's own words.
        posts: how many.
        gates: how many.
        done: share of the work that is done, by the norms' time.
        days: with work in the log.
        lasted: days of the calendar from the first to the last of them.
        took: time in all.
        works: of it, by task.
        spent: whether the costs are what was spent so far; else what is planned.
        currency: of the money; empty where it is left out.
        digits: decimals of it.
        costs: by layer.
        cost_of_length: as planned and as foreseen.
        cracks: by their place in the account.
        learned: what came otherwise.
        ahead: what is still to come; None for what is done.
        photos: words of each photo.
        notes: out of the log.
        missing: what could not be told.
    """

    name: str
    place: str
    coordinates: tuple[float, float] | None
    people: tuple[str, ...]
    when: str
    length: Meter
    built: tuple[str, ...]
    posts: int
    gates: int
    done: Ratio
    days: int
    lasted: int
    took: Second | None
    works: tuple[SharedWork, ...]
    spent: bool
    currency: str
    digits: int
    costs: tuple[SharedCost, ...]
    cost_of_length: CostOfLength | None
    cracks: tuple[SharedCrack, ...]
    learned: tuple[Learned, ...]
    ahead: Ahead | None
    photos: tuple[SharedWords, ...]
    notes: tuple[SharedWords, ...]
    missing: tuple[str, ...]
