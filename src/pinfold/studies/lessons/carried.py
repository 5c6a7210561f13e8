"""Lessons carried here from other plots: what each of them says by its own log, and what is thought here by it.

The same thing lies at each place off what was thought by a part that all places share and a part of its own, as alike
things of one family do. So what is carried moves what is thought here and leaves it less sure than it was there. Each
place is told by itself and stays so however often it is carried on: nothing is counted twice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import carrying, learning
from pinfold.logbook.carried import Carried, CarriedFigure, CarriedSite, mark_of
from pinfold.sources import Standing
from pinfold.studies.lessons.belief import Learned
from pinfold.studies.lessons.records import Alone, Lesson, Prior, Topic
from pinfold.studies.lessons.telling import entries, with_spread
from pinfold.units import Ratio, System


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
    return sum(each.count for each in site.figures) + sum(each.count for each in site.prices)


def beside_own(carried: Carried, ids: Iterable[str]) -> Carried:
    """What was carried without what this log holds itself.

    Args:
        carried: as the file has it
        ids: of the entries of this log
    """
    if not carried.sites:
        return carried
    own = {mark_of(each) for each in ids}
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
    belief, steps = _thought(prior, [Alone(each.value, each.spread) for _, each in voices], carried.alike)
    figure = Figure(
        value=belief.value, unit=prior.unit, standing=Standing.LEARNED, source="LOG", where=_where(voices),
        printed=with_spread(belief.value, belief.spread, prior.unit, system),
    )  # fmt: skip
    return replace(
        prior, value=belief.value, spread=belief.spread, figure=figure, says=_where(voices), shipped=prior,
        working=steps,
    )  # fmt: skip


def _where(voices: Sequence[tuple[CarriedSite, CarriedFigure]]) -> str:
    each = [f"learned at {site.name}, {entries(of.count)}, {_span(of)}" for site, of in voices]
    return f"{'; '.join(each)}; spread widened"


def _span(of: CarriedFigure) -> str:
    return of.since if of.since == of.last else f"{of.since} to {of.last}"


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
