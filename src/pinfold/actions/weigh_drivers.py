"""What a plan's cost, hours and strength to spare hang on."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_options import own_pace, subject_of
from pinfold.actions.weigh_trade import money_of
from pinfold.reports.weigh_drivers import drivers_page
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.drivers import Driven, Planned, drivers_of
from pinfold.studies.weighing.strength_curves import Told


@dataclass(frozen=True, kw_only=True)
class DriversFound:
    """What was found.

    Attributes:
        driven: criterion by criterion.
    """

    driven: tuple[Driven, ...]


def drivers_at(folder: Path, told: Told | None = None) -> Answer:
    """What the plan as it stands hangs on.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    found = _found(site, _Telling(told))
    page = drivers_page(site.plan.name, found.driven, site.plan.units, money_of(site))
    return answer_from(site, found, page)


def drivers_title(folder: Path) -> str:
    """Title of the page, before anything is worked out.

    Raises:
        As `drivers_at`.
    """
    return f"{open_site(folder).plan.name}: what it hangs on"


@dataclass(frozen=True)
class _Telling:
    """Whom to tell of the progress; all alike, so that what was found once is not sought again."""

    told: Told | None = field(compare=False)


@lru_cache(maxsize=4)
def _found(site: Site, telling: _Telling) -> DriversFound:
    subject, counted = subject_of(site, own_pace(site)), reckon_all(site)
    planned = Planned(
        plan=site.lessons.plan, gathered=counted.gathered, prices=site.lessons.prices, job=subject.job,
        lessons=site.lessons.lessons, missing=counted.costs.missing,
    )  # fmt: skip
    return DriversFound(driven=drivers_of(planned, lambda plan: assess(lay_out(plan)), telling.told))
