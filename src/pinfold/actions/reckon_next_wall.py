"""The next wall: weighing again with what the log taught."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.days_laid import work_logged
from pinfold.actions.sites import Site, entries_now, open_site
from pinfold.actions.weigh_options import weighed_at
from pinfold.logbook.carried import NOTHING
from pinfold.reports.pages import Block, Heading, Paragraph
from pinfold.reports.reckon_next_wall import next_wall_page, title_of
from pinfold.studies.weighing.next_wall import next_wall
from pinfold.studies.weighing.subject import Asked

Told = Callable[[int, int], None]


def next_wall_of(folder: Path, names: tuple[str, ...] = (), told: Told | None = None) -> Answer:
    """Build-ups weighed with shipped figures and with what the log taught, side by side.

    Args:
        folder: of the site
        names: of build-ups beside the plan's own; all of them when there are none
        told: told after each that is weighed

    Raises:
        NotFoundError: there is no such build-up.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    entries_now(folder)  # what the log taught is not told without the log
    found = next_wall(weighed_at(_as_shipped(site), names, Asked(), told), weighed_at(site, names, Asked(), told))
    return answer_from(site, found, next_wall_page(site.plan.name, found, site.prices, site.plan.units))


def next_wall_part(site: Site) -> tuple[Block, ...]:
    """The same for the binder; where nothing was logged and nothing carried, as learned is as shipped."""
    learned = weighed_at(site, (), Asked())
    is_taught = bool(site.entries or work_logged(site)) or site.carried != NOTHING
    shipped = weighed_at(_as_shipped(site), (), Asked()) if is_taught else learned
    page = next_wall_page(site.plan.name, next_wall(shipped, learned), site.prices, site.plan.units)
    return Heading(text="The next wall"), *page.blocks, Heading(text="For others"), Paragraph(text=_ACCOUNT)


_ACCOUNT = (
    "What was built, how long it took and what was learned can be handed to others as a page or a file of its own, "
    "with nothing in it but what you choose: 'pinfold reckon account', or the page under reckon."
)


def next_wall_title(folder: Path) -> str:
    """What stands over it, before anything is weighed.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return title_of(open_site(folder).plan.name)


@lru_cache(maxsize=4)  # so that what was weighed with it is not weighed again
def _as_shipped(site: Site) -> Site:
    """A site as if nothing had been written down and nothing carried there."""
    return replace(site, entries=(), carried=NOTHING, log_told="left out, to weigh as shipped")
