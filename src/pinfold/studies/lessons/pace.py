"""How long the work takes: one person's time for a meter, a square meter or a piece of each layer."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from pinfold.formulas import learning
from pinfold.logbook.carried import Carried
from pinfold.logbook.entries import Entry
from pinfold.logbook.works import PER, named_works, one_word
from pinfold.studies.lessons.belief import Learned, learned_from
from pinfold.studies.lessons.carried import carried_lesson, prior_here
from pinfold.studies.lessons.habits import PACE_WITHIN
from pinfold.studies.lessons.records import Lesson, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, for_one, lesson_of, with_spread
from pinfold.units import SECOND, System


def pace(worked: Sequence[Entry], carried: Carried, system: System) -> Taught:
    """Working time for one meter, square meter or piece by layer; no time is shipped, so logs alone tell.

    Args:
        worked: entries of hours; those that do not say what was done are left alone
        carried: lessons of other places
        system: of the plan
    """
    groups: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for entry in worked:
        time = entry.number("time")
        for key, per in PER:
            done = entry.number(key)
            if time and done:
                each = learning.time_each(time=time, people=entry.number("people") or 1.0, done=done)
                layer = one_word(entry.text("layer")) or "all work"
                groups[layer, per].append(Reading(each, entry.when.date().isoformat()))
    for of in carried.subjects(Topic.PACE):
        groups.setdefault(of, [])
    found = (_lesson(layer, per, readings, carried, system) for (layer, per), readings in groups.items())
    return Taught(lessons=tuple(found))


def _lesson(layer: str, per: str, readings: Sequence[Reading], carried: Carried, system: System) -> Lesson:
    prior = prior_here(_prior(layer, per, readings, carried), Topic.PACE, layer, carried, per=per, system=system)
    if not readings:
        assert prior.value is not None
        assert prior.spread is not None
        thought = Learned(prior.value, prior.spread, 0.0, ())
        told = _told(layer, per, thought, system)
        return carried_lesson(thought, prior, Topic.PACE, layer, carried, told=told, used=_used(layer), per=per)
    learned = learned_from(readings, prior)
    told = f"{_told(layer, per, learned, system)}, by {entries(len(readings))}."
    return lesson_of(learned, prior, readings, topic=Topic.PACE, subject=layer, told=told, used=_used(layer), per=per)


def _used(layer: str) -> str:
    """Hours that are told of work that pinfold knows make the crew's pace."""
    return "finish and hours to come" if named_works(layer) else ""


def _prior(layer: str, per: str, readings: Sequence[Reading], carried: Carried) -> Prior:
    values = [reading.value for reading in readings]
    middle = float(np.median(values or [each.value for _, each in carried.about(Topic.PACE, layer, per)]))
    return Prior(
        value=None, spread=None, within=PACE_WITHIN * middle, unit=SECOND, figure=None, says="no time is shipped"
    )


def _told(layer: str, per: str, learned: Learned, system: System) -> str:
    (value, one), (spread, _) = for_one(learned.value, per, system), for_one(learned.spread, per, system)
    return f"{layer} takes one person {with_spread(value, spread, SECOND, system)} for 1 {one}"
