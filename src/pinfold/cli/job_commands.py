"""The verbs of the job in days: `pinfold days job`, `pinfold days sheet`, `pinfold days calendar`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from pinfold.cli.sites import FOLDER, progress, tell, with_site

Command = TypeVar("Command", bound=Callable[..., object])


def _asked(command: Command) -> Command:
    """Who works and from when."""
    first = click.option("--from", "first", default="", metavar="DATE", help="Day to begin on.  [default: now]")
    people = click.option("--people", default="", help="How many work, instead of the plan's.")
    hours = click.option("--hours", default="", help="Of a day, each of them, instead of the plan's.")
    return first(people(hours(command)))


@click.command()
@with_site
@_asked
def job(site: Path, as_json: bool, **asked: Any) -> None:  # noqa: FBT001
    """The whole job in days: what next and why, when it will be done, by what the log says is done.

    A week is laid out hour by hour by weather, sun and what must harden; the days after it are estimated.
    """
    from pinfold.actions.days_job import job_in_days
    from pinfold.actions.days_laid import JobAsked

    with progress("doing the job over") as told:
        answer = job_in_days(site, JobAsked(**asked), told=told)
    tell(answer, as_json=as_json)


@click.command()
@with_site
@click.argument("day", metavar="[DATE]", required=False, default="today")
@_asked
def sheet(site: Path, as_json: bool, day: str, **asked: Any) -> None:  # noqa: FBT001
    """One day on a page: do this, here, from when to when, batches, water, wetting, covers, cautions.

    DATE is a day such as 2026-05-03, today or tomorrow.
    """
    from pinfold.actions.days_laid import JobAsked
    from pinfold.actions.days_sheet import day_sheet

    tell(day_sheet(site, day, JobAsked(**asked)), as_json=as_json)


@click.command()
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--site", type=FOLDER, default=Path(), show_default="here", help="The site folder.")
@_asked
def calendar(file: Path, site: Path, **asked: Any) -> None:
    """Write the job to FILE for a calendar (iCalendar); taken again later, it moves what it brought before."""
    from pinfold.actions.days_job import write_calendar
    from pinfold.actions.days_laid import JobAsked

    count = write_calendar(site, JobAsked(**asked), file)
    click.echo(f"pinfold: {count} pieces of work written to {file}")
