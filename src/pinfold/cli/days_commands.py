"""The verbs of the days: `pinfold days`, `pinfold days weather` and so on."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.sites import tell, with_site

_FILE = click.Path(path_type=Path, dir_okay=False)


@click.group(invoke_without_command=True)
@click.pass_context
def days(context: click.Context) -> None:
    """When to pour, lay, coat, wet, cover and load, and which face first, by the weather."""
    if context.invoked_subcommand is None:
        click.echo(context.get_help())


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
