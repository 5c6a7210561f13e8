"""What the log taught the plan."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import entries_now, open_site
from pinfold.reports.lessons_page import lessons_page
from pinfold.studies.lessons.records import Lesson, Override


@dataclass(frozen=True, kw_only=True)
class LessonsAnswer:
    """What the log taught.

    Attributes:
        lessons: by topic.
        figures: put in place of shipped ones.
        pile: what changed on it, in plain words.
        set_aside: entries that could not be used, with the reason.
    """

    lessons: tuple[Lesson, ...]
    figures: tuple[Override, ...]
    pile: tuple[str, ...]
    set_aside: tuple[str, ...]


def lessons_of(folder: Path) -> Answer:
    """What a site's log taught, beside what was thought before.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    entries_now(folder)  # what the log taught is not told without the log
    taught = site.lessons
    record = LessonsAnswer(
        lessons=taught.lessons, figures=taught.figures, pile=taught.pile_told, set_aside=taught.set_aside
    )
    return answer_from(site, record, lessons_page(site.plan.name, taught))
