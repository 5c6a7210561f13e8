"""A site's enclosure in several build-ups: each written into the plan, laid out, counted, judged."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import lru_cache

from pinfold.actions.days_laid import work_logged
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, changed_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.plan.changes import Change
from pinfold.store import planfile
from pinfold.store.writing import read_text
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.records import Job
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.forecasting.hands import elsewhere, hands_of
from pinfold.studies.forecasting.rest import at_own_pace, rest_of
from pinfold.studies.forecasting.timed import timed
from pinfold.studies.lessons.records import Topic
from pinfold.studies.stability.assess import inquiry_into
from pinfold.studies.weighing.catalog import chosen, options_of
from pinfold.studies.weighing.judging import judged, not_built
from pinfold.studies.weighing.records import Option, Weighed
from pinfold.studies.weighing.sizing import leanest
from pinfold.studies.weighing.subject import Asked, Subject

Pacing = Callable[[Job], Job]
Told = Callable[[int, int], None]
"""Told after each option: how many are weighed, of how many."""


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was weighed once is not weighed again."""

    told: Told | None = field(compare=False)


def options_at(site: Site) -> tuple[Option, ...]:
    """All there is to choose from for a site.

    Raises:
        NotFoundError, StoreError, InvalidPlan: as reading the plan file tells.
    """
    return options_of(site.plan, listed_sides(plan_table(site)))


def listed_sides(table: Mapping[str, object]) -> tuple[str, ...]:
    """Names of sides whose file lists their runs, be it only one."""
    sides = table.get("side", [])
    if not isinstance(sides, list):
        return ()
    return tuple(str(side.get("name")) for side in sides if isinstance(side, Mapping) and "runs" in side)


def plan_table(site: Site) -> dict[str, object]:
    """The plan file of a site as a table."""
    return tomllib.loads(read_text(site.folder / planfile.NAME))


def weighed_at(site: Site, names: tuple[str, ...], asked: Asked, told: Told | None = None) -> tuple[Weighed, ...]:
    """The options of some names judged, the plan as it stands first; all of them where none is named.

    Raises:
        NotFoundError: there is none of a name.
        StoreError, InvalidPlan: as reading the plan file tells.
    """
    return _weighed(site, names, asked, _Telling(told))


@lru_cache(maxsize=8)  # a page sorts the same table again and again
def _weighed(site: Site, names: tuple[str, ...], asked: Asked, telling: _Telling) -> tuple[Weighed, ...]:
    options, pace = chosen(options_at(site), names), own_pace(site)
    found = []
    for number, option in enumerate(options, start=1):
        at_size = sized(site, option)
        found.append(judged_if_built(lambda change: subject_of(site_with(site, change), pace), at_size, asked))
        if telling.told is not None:
            telling.told(number, len(options))
    return tuple(found)


@lru_cache(maxsize=64)  # a table sorted anew, a choice and what is supposed ask again
def sized(site: Site, option: Option) -> Option:
    """An option at the leanest of its sizes that holds at a site as it is."""
    return leanest(option, lambda change: inquiry_into(site_with(site, change).layout))


@lru_cache(maxsize=8)  # what holds is counted right after
def site_with(site: Site, change: Change) -> Site:
    """The site with a change put into its plan.

    Raises:
        InputError, InvalidPlan: it makes no plan.
    """
    return changed_site(site, plan_table(site), change)


def judged_if_built(subject: Callable[[Change], Subject], option: Option, asked: Asked) -> Weighed:
    """An option judged; one that cannot be built here says why."""
    try:
        return judged(option, subject(option.change), asked)
    except InvalidPlan as refused:
        return not_built(option, "; ".join(str(problem) for problem in refused.problems))
    except (InputError, NotFoundError, OutOfRangeError) as refused:
        return not_built(option, str(refused))


def subject_of(site: Site, pace: Pacing) -> Subject:
    """A site's plan ready to be judged."""
    counted = reckon_all(site)
    return Subject(
        layout=site.layout, gathered=counted.gathered, costs=counted.costs, job=pace(_norms(site)),
        people=site.plan.people,
    )  # fmt: skip


def _norms(site: Site) -> Job:
    """The whole job at the times of the trade."""
    counted = reckon_all(site)
    missing = Counted(counted.quantities, counted.cards).missing
    return job_of(tasks_of(site.layout, counted.quantities, counted.cards), site.plan.people, missing)


def own_pace(site: Site) -> Pacing:
    """Brings a whole job from the norms' times to the crew's own pace, as far as the log of the plan tells."""
    planned = _norms(site)
    found, practice = timed(planned, work_logged(site))
    hands = hands_of(found, elsewhere(planned, site.lessons.about(Topic.PACE)))
    now = datetime.now(UTC)
    return lambda norms: at_own_pace(rest_of(norms, {}, hands, practice, now))[0]
