"""How long the work takes: one person's time for a meter or a square meter of each layer."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from pinfold.formulas import learning
from pinfold.logbook.entries import Entry
from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.habits import PACE_WITHIN
from pinfold.studies.lessons.records import Lesson, Prior, Reading, Taught, Topic
from pinfold.studies.lessons.telling import entries, for_one, lesson_of, with_spread
from pinfold.units import SECOND, System

_DONE = (("done_length", "m"), ("done_area", "m2"))


def pace(worked: Sequence[Entry], system: System) -> Taught:
    """Working time for one meter or square meter by layer; no time is shipped, so the log alone tells.

    Args:
        worked: entries of hours; those that do not say what was done are left alone
        system: of the plan
    """
    groups: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for entry in worked:
        time = entry.number("time")
        for key, per in _DONE:
            done = entry.number(key)
            if time and done:
                each = learning.time_each(time=time, people=entry.number("people") or 1.0, done=done)
                layer = " ".join(entry.text("layer").split()) or "all work"
                groups[layer, per].append(Reading(each, entry.when.date().isoformat()))
    return Taught(lessons=tuple(_lesson(layer, per, found, system) for (layer, per), found in groups.items()))


def _lesson(layer: str, per: str, readings: Sequence[Reading], system: System) -> Lesson:
    middle = float(np.median([reading.value for reading in readings]))
    prior = Prior(
        value=None, spread=None, within=PACE_WITHIN * middle, unit=SECOND, figure=None, says="no time is shipped"
    )
    learned = learned_from(readings, prior)
    (value, one), (spread, _) = for_one(learned.value, per, system), for_one(learned.spread, per, system)
    told = f"{layer} takes one person {with_spread(value, spread, SECOND, system)} for 1 {one}, "
    told += f"by {entries(len(readings))}."
    return lesson_of(learned, prior, readings, topic=Topic.PACE, subject=layer, told=told, used="", per=per)
