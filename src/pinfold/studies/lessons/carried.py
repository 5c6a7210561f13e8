"""Lessons carried here from other plots: what each of them says by its own log, and what is thought here by it.

The same thing lies at each place off what was thought by a part that all places share and a part of its own, as alike
things of one family do. So what is carried moves what is thought here and leaves it less sure than it was there. Each
place is told by itself and stays so however often it is carried on: nothing is counted twice.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import carrying, learning
from pinfold.plan.stock import Price
from pinfold.sources import Standing
from pinfold.studies.lessons.belief import Learned
from pinfold.studies.lessons.records import Alone, Lesson, Prior, Topic
from pinfold.studies.lessons.telling import entries, with_spread
from pinfold.units import Ratio, System

ALIKE: Ratio = 0.5
"""Share of the variance that a thing has in common at all places, unless told: our own judgment."""
MARKS = 400
"""So many of the lowest marks of entries stand for a log."""


@dataclass(frozen=True, kw_only=True)
class CarriedFigure:
    """What the log of one place says of one thing.

    Attributes:
        topic: what it is about.
        subject: of which thing.
        per: what one value is for: `m`, `m2`, or empty.
        said: by its readings alone.
        count: how many entries it rests on.
        since: day of the first, ISO.
        last: day of the last.
    """

    topic: Topic
    subject: str
    per: str
    said: Alone
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

    def about(self, topic: Topic, subject: str, per: str = "") -> tuple[tuple[CarriedSite, CarriedFigure], ...]:
        """What each place says of one thing."""
        wanted = (topic, subject, per)
        return tuple(
            (site, each) for site in self.sites if self.alike > 0 for each in site.figures
            if (each.topic, each.subject, each.per) == wanted
        )  # fmt: skip

    def subjects(self, topic: Topic) -> tuple[tuple[str, str], ...]:
        """Subject and what one is for of everything carried about a topic, each once."""
        found = (each for site in self.sites if self.alike > 0 for each in site.figures if each.topic is topic)
        return tuple(dict.fromkeys((each.subject, each.per) for each in found))


NOTHING = Carried()


def marks_of(ids: Iterable[str]) -> tuple[str, ...]:
    """Marks of entries: they tell which entries are the same, and nothing of what is in them.

    Args:
        ids: of the entries
    """
    marks = {hashlib.blake2b(each.encode(), digest_size=6).hexdigest() for each in ids}
    return tuple(sorted(marks)[:MARKS])


def each_once(sites: Iterable[CarriedSite]) -> tuple[tuple[CarriedSite, ...], tuple[str, ...]]:
    """Places of which no two share an entry, and what was left out: of two that do the one with more entries stays.

    Args:
        sites: in any order
    """
    kept: list[CarriedSite] = []
    told: list[str] = []
    for site in sorted(sites, key=lambda each: (-_entries(each), each.name, each.marks)):
        other = next((each for each in kept if not set(each.marks).isdisjoint(site.marks)), None)
        if other is None:
            kept.append(site)
        elif site != other:
            told.append(f"{site.name} ({_entries(site)} entries) shares entries with {other.name}: only that counts")
    return tuple(sorted(kept, key=lambda each: (each.name, each.marks))), tuple(told)


def _entries(site: CarriedSite) -> int:
    return sum(each.count for each in (*site.figures, *site.prices))


def beside_own(carried: Carried, ids: Iterable[str]) -> Carried:
    """What was carried without what this log holds itself.

    Args:
        carried: as the file has it
        ids: of the entries of this log
    """
    if not carried.sites:
        return carried
    own = {hashlib.blake2b(each.encode(), digest_size=6).hexdigest() for each in ids}
    sites, told = each_once(carried.sites)
    here = [site for site in sites if not own.isdisjoint(site.marks)]
    told += tuple(f"{site.name} is left out: entries of it are in this log too" for site in here)
    return replace(carried, sites=tuple(site for site in sites if site not in here), told=(*carried.told, *told))


def prior_here(prior: Prior, topic: Topic, subject: str, carried: Carried, *, per: str = "", system: System) -> Prior:
    """What is thought here with what was carried; the prior itself where nothing was.

    Args:
        prior: as shipped
        topic: what it is about
        subject: of which thing
        carried: from other places
        per: what one value is for
        system: of the plan
    """
    voices = carried.about(topic, subject, per)
    if not voices:
        return prior
    belief, steps = _thought(prior, [each.said for _, each in voices], carried.alike)
    figure = Figure(
        value=belief.value, unit=prior.unit, standing=Standing.LEARNED, source="LOG", where=_where(voices),
        printed=with_spread(belief.value, belief.spread, prior.unit, system),
    )  # fmt: skip
    return replace(
        prior, value=belief.value, spread=belief.spread, figure=figure, says=_where(voices), shipped=prior,
        working=steps,
    )  # fmt: skip


def _where(voices: Sequence[tuple[CarriedSite, CarriedFigure]]) -> str:
    each = [f"learned at {site.name}, {entries(of.count)}, {of.since} to {of.last}" for site, of in voices]
    return f"{'; '.join(each)}; spread widened"


def _thought(prior: Prior, voices: Sequence[Alone], alike: Ratio) -> tuple[learning.Belief, tuple[Step, ...]]:
    """The part all places share by one place after the other, and the place's own part put on top."""
    if prior.value is None or prior.spread is None:
        middle, shared = 0.0, math.inf
        own = work(carrying.places_apart, why="how far places lie apart", within_one=prior.within, alike=alike)
    else:
        middle = prior.value
        shared = work(carrying.part_shared, why="shared", spread=prior.spread, alike=alike).number
        own = work(carrying.part_of_its_own, why="each place's own part", spread=prior.spread, alike=alike)
    belief, steps = learning.Belief(value=middle, spread=shared, weight=0.0), [own]
    for voice in sorted(voices):
        step = work(
            learning.normal_posterior, why="by what another place says", prior=belief.value, prior_spread=belief.spread,
            mean=voice.value, spread=math.hypot(voice.spread, own.number), count=1.0,
        )  # fmt: skip
        assert isinstance(step.result, learning.Belief)
        belief = step.result
        steps.append(step)
    return replace(belief, spread=math.hypot(belief.spread, own.number)), tuple(steps)


def carried_lesson(
    learned: Learned, prior: Prior, topic: Topic, subject: str, carried: Carried, *, told: str, used: str, per: str = ""
) -> Lesson:  # fmt: skip
    """A lesson on something carried of which nothing was read here.

    Args:
        learned: what is believed of it
        prior: with what was carried
        topic: what it is about
        subject: of which thing
        carried: from other places
        told: in one sentence
        used: where it is used
        per: what one value is for
    """
    voices = carried.about(topic, subject, per)
    return Lesson(
        topic=topic, subject=subject, prior=prior, value=learned.value, spread=learned.spread, count=0,
        weight=learned.weight, per=per, told=f"{told}, {prior.says}; nothing was read of it here.", used=used,
        since=min(each.since for _, each in voices), last=max(each.last for _, each in voices),
        standing=Standing.LEARNED, working=(*prior.working, *learned.working),
    )  # fmt: skip
