"""How a structure on blocks has settled by its surveys, and when to look again."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.level_site import NO_READINGS, NO_SUPPORTS, SiteLevels, level_site
from pinfold.actions.sites import open_site
from pinfold.errors import InputError
from pinfold.reports.level_settle import Settled, days_of, settle_page
from pinfold.studies.leveling.settling import Ground, settled


def settle_of(folder: Path, neighbor: str = "", since: str = "") -> Answer:
    """What its surveys say together.

    Args:
        folder: of the site
        neighbor: name of the structure; the only one where empty
        since: day from which on surveys count; where empty, since it was jacked last, as the log has it, else all

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
    first = _first(levels, since)
    surveys = tuple(survey for survey in levels.surveys if first is None or survey.at >= first.timestamp())
    jacked = "" if first is None or since.strip() else first.date().isoformat()
    if not surveys:
        return replace(_none(_no_survey(levels, since, jacked), levels.neighbor.name), jacked_on=jacked)
    found = settled(surveys, levels.blocks.leveling.supports, _ground(levels))
    last = datetime.fromtimestamp(surveys[-1].at, UTC).date()
    again = last + timedelta(days=days_of(found.again))
    return Settled(
        neighbor=levels.neighbor.name, settlement=found, again_on=again.isoformat(), jacked_on=jacked,
        since=since.strip(),
    )  # fmt: skip


def _no_survey(levels: SiteLevels, since: str, jacked: str) -> str:
    if not levels.surveys:
        return NO_READINGS
    if jacked:
        return f"It was jacked on {jacked} and not read since: read all supports now; what comes is told against that."
    return f"No survey since {since}."


def _first(levels: SiteLevels, since: str) -> datetime | None:
    """From when on surveys count: the day that is typed, else when it was jacked last."""
    if not since.strip():
        return levels.last_jacked
    try:
        day = date.fromisoformat(since.strip())
    except ValueError:
        told = f"{since.strip()[:20]!r} is no day; write it like 2026-05-03"
        raise InputError(told, place="since") from None
    return datetime(day.year, day.month, day.day, tzinfo=UTC)


def _moment(day: date) -> float:
    return datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()


def _ground(levels: SiteLevels) -> Ground:
    place, blocks = levels.site.plan.place, levels.blocks
    built = blocks.leveling.built
    return Ground(
        latitude=place.latitude, frost_depth=place.frost_depth, pad_below=blocks.pad_below,
        built=_moment(date.fromisoformat(built)) if built else None,
    )  # fmt: skip
