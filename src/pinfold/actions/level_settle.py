"""How a structure on blocks has settled by its surveys, and when to look again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.level_site import NO_READINGS, NO_SUPPORTS, SiteLevels, level_site
from pinfold.actions.sites import open_site
from pinfold.errors import InputError
from pinfold.reports.level_settle import Settled, days_of, settle_page
from pinfold.studies.leveling.records import Survey
from pinfold.studies.leveling.settling import Ground, settled


def settle_of(folder: Path, neighbor: str = "", since: str = "") -> Answer:
    """What its surveys say together.

    Args:
        folder: of the site
        neighbor: name of the structure; the only one where empty
        since: day from which on surveys count, such as the one after it was jacked; all where empty

    Raises:
        NotFoundError: no such structure.
        InputError: the day is none.
        StoreError, NewerFileError, InvalidPlan: as reading the site and its log tell.
    """
    levels = level_site(folder, neighbor)
    site = open_site(folder) if levels is None else levels.site
    found = _none(NO_SUPPORTS) if levels is None else settling(levels, since)
    return answer_from(site, found, settle_page(found, site.plan.units))


def _none(why: str, neighbor: str = "") -> Settled:
    return Settled(neighbor=neighbor, settlement=None, again_on="", because=(why,))


def settling(levels: SiteLevels, since: str = "") -> Settled:
    """The same of a site that was read.

    Raises:
        InputError: the day is none.
    """
    surveys = _since(levels.surveys, since)
    if not surveys:
        return _none(NO_READINGS if not levels.surveys else f"No survey since {since}.", levels.neighbor.name)
    found = settled(surveys, levels.blocks.leveling.supports, _ground(levels))
    last = datetime.fromtimestamp(surveys[-1].at, UTC).date()
    again = last + timedelta(days=days_of(found.again))
    return Settled(neighbor=levels.neighbor.name, settlement=found, again_on=again.isoformat())


def _since(surveys: Sequence[Survey], since: str) -> tuple[Survey, ...]:
    if not since.strip():
        return tuple(surveys)
    try:
        first = _moment(date.fromisoformat(since.strip()))
    except ValueError:
        told = f"{since.strip()[:20]!r} is no day; write it like 2026-05-03"
        raise InputError(told, place="since") from None
    return tuple(survey for survey in surveys if survey.at >= first)


def _moment(day: date) -> float:
    return datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()


def _ground(levels: SiteLevels) -> Ground:
    place, blocks = levels.site.plan.place, levels.blocks
    built = blocks.leveling.built
    return Ground(
        latitude=place.latitude, frost_depth=place.frost_depth, pad_below=blocks.pad_below,
        built=_moment(date.fromisoformat(built)) if built else None,
    )  # fmt: skip
