"""All that is told of what a log taught, as one record."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.logbook.carried import CarriedSite
from pinfold.studies.lessons.batch_changes import BatchChange, ChangeEffect
from pinfold.studies.lessons.put_back import Wrong
from pinfold.studies.lessons.records import Lesson, Override


@dataclass(frozen=True, kw_only=True)
class LessonsTold:
    """What the log taught.

    Attributes:
        lessons: by topic.
        figures: put in place of shipped ones.
        pile: what changed on it, in plain words.
        set_aside: entries that could not be used, with the reason.
        carried: places that lessons were carried here from.
        alike: share of the variance that things there and here have in common.
        carried_told: what was carried and does not count, with the reason.
        wrong: what was thought and was most wrong first, with what that changes.
        changes: each batch and trial against the one before it.
        effects: what each change did, all times it was made alone.
    """

    lessons: tuple[Lesson, ...]
    figures: tuple[Override, ...]
    pile: tuple[str, ...]
    set_aside: tuple[str, ...]
    carried: tuple[CarriedSite, ...]
    alike: float
    carried_told: tuple[str, ...]
    wrong: tuple[Wrong, ...]
    changes: tuple[BatchChange, ...]
    effects: tuple[ChangeEffect, ...]
