"""What was carried here from the logs of other plots, as records."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from pinfold.plan.stock import Price
from pinfold.units import Ratio

ALIKE: Ratio = 0.5
"""Share of the variance that a thing has in common at all places, unless told: our own judgment."""
MARKS = 400
"""So many of the lowest marks of entries stand for a log."""


@dataclass(frozen=True, kw_only=True)
class CarriedFigure:
    """What the log of one place says of one thing.

    Attributes:
        topic: what it is about, by the words of the lessons.
        subject: of which thing.
        per: what one value is for: `m`, `m2`, or empty.
        value: most likely, by its readings alone.
        spread: one standard deviation of it.
        count: how many entries it rests on.
        since: day of the first, ISO.
        last: day of the last.
    """

    topic: str
    subject: str
    per: str
    value: float
    spread: float
    count: int
    since: str
    last: str


@dataclass(frozen=True, kw_only=True)
class CarriedPrice:
    """What was last paid at one place.

    Attributes:
        price: for one pack.
        last: day of the payment, ISO.
        count: how many payments it rests on.
    """

    price: Price
    last: str
    count: int


@dataclass(frozen=True, kw_only=True)
class CarriedSite:
    """One place that lessons come from.

    Attributes:
        name: what the plot is called.
        marks: of its log's entries, by which the same entry is known again wherever it turns up.
        figures: what its log says.
        currency: of its prices.
        digits: decimals of that currency.
        prices: last paid there.
    """

    name: str
    marks: tuple[str, ...]
    figures: tuple[CarriedFigure, ...] = ()
    currency: str = ""
    digits: int = 2
    prices: tuple[CarriedPrice, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Carried:
    """All that was carried here.

    Attributes:
        alike: share of the variance that a thing has in common here and there; 0 where nothing of it counts.
        sites: each once, whichever way it came.
        told: what was left out because it is in this log, or in another's, already.
    """

    alike: Ratio = ALIKE
    sites: tuple[CarriedSite, ...] = ()
    told: tuple[str, ...] = ()

    def about(self, topic: str, subject: str, per: str = "") -> tuple[tuple[CarriedSite, CarriedFigure], ...]:
        """What each place says of one thing."""
        wanted = (topic, subject, per)
        return tuple(
            (site, each) for site in self.sites if self.alike > 0 for each in site.figures
            if (each.topic, each.subject, each.per) == wanted
        )  # fmt: skip

    def subjects(self, topic: str) -> tuple[tuple[str, str], ...]:
        """Subject and what one is for of everything carried about a topic, each once."""
        found = (each for site in self.sites if self.alike > 0 for each in site.figures if each.topic == topic)
        return tuple(dict.fromkeys((each.subject, each.per) for each in found))


NOTHING = Carried()


def mark_of(name: str) -> str:
    """The mark of one entry, by its id."""
    return hashlib.blake2b(name.encode(), digest_size=6).hexdigest()


def marks_of(ids: Iterable[str]) -> tuple[str, ...]:
    """The lowest marks of entries: they tell which entries are the same, and nothing of what is in them.

    Args:
        ids: of the entries
    """
    return tuple(sorted({mark_of(each) for each in ids})[:MARKS])
