"""What cost, hours and strength to spare of a plan, or of a build-up in it, hang on."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_options import options_at, own_pace, site_with, sized, subject_of
from pinfold.actions.weigh_trade import money_of
from pinfold.reports.weigh_drivers import drivers_page
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.catalog import AS_PLANNED, chosen
from pinfold.studies.weighing.drivers import Driven, Planned, drivers_of
from pinfold.studies.weighing.strength_curves import Told


@dataclass(frozen=True, kw_only=True)
class DriversFound:
    """What was found.

    Attributes:
        driven: criterion by criterion.
    """

    driven: tuple[Driven, ...]


def drivers_at(folder: Path, told: Told | None = None, *, name: str = "") -> Answer:
    """What the plan as it stands, or a build-up in its place, hangs on.

    Args:
        folder: site folder
        told: of the progress
        name: of the build-up; empty for the plan as it stands

    Raises:
        NotFoundError: there is no build-up of that name.
        InputError, InvalidPlan: it cannot be built here.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = _found(site, name, _Telling(told))
    page = drivers_page(_called(site, name), found.driven, site.plan.units, money_of(site))
    return answer_from(site, found, page)


def drivers_title(folder: Path, name: str = "") -> tuple[str, tuple[str, ...]]:
    """Title of the page, before anything is worked out, and the build-ups there are.

    Raises:
        As `drivers_at`.
    """
    site = open_site(folder)
    options = options_at(site)
    chosen(options, (name,) if name else ())
    return f"{_called(site, name)}: what it hangs on", tuple(each.name for each in options)


def _called(site: Site, name: str) -> str:
    return f"{site.plan.name}, {name}" if name else site.plan.name


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was found once is not sought again."""

    told: Told | None = field(compare=False)


@lru_cache(maxsize=4)
def _found(planned_site: Site, name: str, telling: _Telling) -> DriversFound:
    site = _with(planned_site, name)
    subject, counted = subject_of(site, own_pace(planned_site)), reckon_all(site)
    planned = Planned(
        plan=site.lessons.plan, gathered=counted.gathered, prices=site.lessons.prices, job=subject.job,
        lessons=site.lessons.lessons, missing=counted.costs.missing,
    )  # fmt: skip
    return DriversFound(driven=drivers_of(planned, lambda plan: assess(lay_out(plan)), telling.told))


def _with(site: Site, name: str) -> Site:
    """The site with a build-up in it, at the leanest of its sizes that holds."""
    option = chosen(options_at(site), (name or AS_PLANNED,))[-1]
    return site_with(site, sized(site, option).change) if option.change else site
