"""The verbs of the days: `pinfold days`, `pinfold days weather` and so on."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.job_commands import calendar, job, sheet
from pinfold.cli.sites import tell, with_site

_FILE = click.Path(path_type=Path, dir_okay=False)


@click.group(invoke_without_command=True)
@with_site
@click.pass_context
def days(context: click.Context, /, site: Path, as_json: bool) -> None:  # noqa: FBT001
    """When to pour, lay, coat, wet, cover and load, and which face first, by the weather.

    Without a further word: the work of today and tomorrow in short.
    """
    if context.invoked_subcommand is None:
        from pinfold.actions.days_job import days_now

        tell(days_now(site), as_json=as_json)


for _command in (job, sheet, calendar):
    days.add_command(_command)


@days.command()
@with_site
@click.argument("file", required=False, type=_FILE)
@click.option("--take", is_flag=True, help="Copy FILE into the site's folder 'weather', once it can be read.")
def weather(site: Path, as_json: bool, file: Path | None, take: bool) -> None:  # noqa: FBT001
    """What FILE says day by day, what was mended, what is estimated; all files of the site without one."""
    from pinfold.actions.days_weather import days_weather, take_weather, weather_in

    if file is None:
        if take:
            raise click.UsageError("--take wants a FILE")
        tell(days_weather(site), as_json=as_json)
        return
    tell(weather_in(site, file), as_json=as_json)
    if take:
        click.echo(f"pinfold: taken into {take_weather(site, file)}", err=True)


@days.command()
@with_site
@click.argument("name", metavar="[PLACE|LAYER]", required=False, default="")
@click.option("--placed", default="", metavar="WHEN", help="As if it were placed then, such as 2026-05-03T14:00.")
def ripe(site: Path, as_json: bool, name: str, placed: str) -> None:  # noqa: FBT001
    """When what was placed is strong enough: to strip, coat, lay on, grout, load, hang the gate, stand a frost.

    Tells what the log says of batches and coats at PLACE or of LAYER (a mix or coat will do too), of all without one;
    with --placed as if it were placed then.
    """
    from pinfold.actions.days_ripe import days_ripe

    tell(days_ripe(site, name, placed), as_json=as_json)


@days.command()
@with_site
@click.argument("date", required=False, default="")
def faces(site: Path, as_json: bool, date: str) -> None:  # noqa: FBT001
    """Sun and shade on every face and coping hour by hour on DATE, today without one: which is first in the sun."""
    from pinfold.actions.days_faces import days_faces

    tell(days_faces(site, date), as_json=as_json)


@days.command()
@with_site
@click.argument("date", required=False, default="")
def season(site: Path, as_json: bool, date: str) -> None:  # noqa: FBT001
    """What may be done on DATE or the next days, work by work, with which measures; and people's heat."""
    from pinfold.actions.days_season import days_season

    tell(days_season(site, date), as_json=as_json)


@days.command()
@with_site
@click.argument("words", metavar="[FACE] [DATE]", nargs=-1)
@click.option("--wind-share", default="", help="Wind at the faces over that at 10 m, such as 0.3.  [default: 0.48]")
@click.option("--cover", default="", help="What hangs before them: shade-cloth, sheet or wet-cloth.")
def wet(site: Path, as_json: bool, *, words: tuple[str, ...], **typed: str) -> None:  # noqa: FBT001
    """When to wet which FACE with how much water on DATE so that it stays damp, and when it is too hot to coat.

    FACE is a name such as 'south/1a outer' or the beginning of one; all faces without one, today without DATE.
    """
    from pinfold.actions.days_wet import asked_in_words, days_wet

    tell(days_wet(site, asked_in_words(words, **typed)), as_json=as_json)
