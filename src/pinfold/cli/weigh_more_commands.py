"""Further verbs of weighing: `pinfold weigh trade-off`, `drivers`, `what-if`, `choose` and `plans`."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.sites import progress, tell, with_site


@click.command("trade-off", short_help="Within your limits, what nothing betters.")
@with_site
@click.argument("limits", nargs=-1)
@click.option("--on", "keys", default="", metavar="LIST", help="What to trade off, such as 'cash now, trips, cracks'.  "
              "[default: cash now, hours, to spare]")  # fmt: skip
@click.option("--of", "names", multiple=True, metavar="NAME", help="Only these build-ups, beside the plan.")
def trade_off(site: Path, as_json: bool, *, limits: tuple[str, ...], keys: str, names: tuple[str, ...]) -> None:  # noqa: FBT001
    """Build-ups that keep to LIMITS and that nothing betters, and what is given up for what between them.

    LIMITS in plain words: 'cash under 900' 'no more than two trips' 'rabbits out' 'must hold'. Where none keeps to
    them, the nearest miss is told.
    """
    from pinfold.actions.weigh_trade import TradeAsked, trade_site

    criteria = tuple(key.strip() for key in keys.split(",") if key.strip())
    with progress("weighing build-ups") as told:
        answer = trade_site(site, TradeAsked(limits="; ".join(limits), criteria=criteria, names=names), told=told)
    tell(answer, as_json=as_json)


@click.command(short_help="What cost, hours and strength hang on.")
@with_site
@click.option("--of", "name", default="", metavar="NAME", help="Of this build-up, not of the plan as it stands.")
def drivers(site: Path, as_json: bool, *, name: str) -> None:  # noqa: FBT001
    """Which unsure figure cost, hours and strength to spare of the plan, or of one build-up, hang on most.

    Prices, trips, yields and waste; pace; wind, ground, mass and strength: each with its share of the variance.
    """
    from pinfold.actions.weigh_drivers import drivers_at

    with progress("checking plans") as told:
        answer = drivers_at(site, told, name=name)
    tell(answer, as_json=as_json)


@click.command("what-if", short_help="Prices, wind, ways or people otherwise.")
@with_site
@click.argument("changes", nargs=-1)
@click.option("--of", "names", multiple=True, metavar="NAME", help="Also these build-ups, beside the plan.")
def what_if(site: Path, as_json: bool, *, changes: tuple[str, ...], names: tuple[str, ...]) -> None:  # noqa: FBT001
    """The plan before and after CHANGES, each by itself and all together.

    CHANGES in plain words: 'cement +20 %' 'wind one up' 'sand twice as far' 'a helper less' 'posts half off the pile'.
    """
    from pinfold.actions.weigh_what_if import what_if as supposed

    tell(supposed(site, changes, names), as_json=as_json)


@click.command(short_help="Write a build-up into the plan.")
@click.option("--site", type=click.Path(path_type=Path, file_okay=False), default=Path(), show_default="here",
              help="The site folder.")  # fmt: skip
@click.argument("name", required=False, default="")
@click.option("--undo", "undone", is_flag=True, help="Bring the plan back that the last choice was written over.")
def choose(site: Path, *, name: str, undone: bool) -> None:
    """Write the build-up NAME, or a row of a search by its code, into plan.toml.

    Its comments stay, and what was there stays as a build-up of its own.
    """
    from pinfold.actions.weigh_choose import choose as chosen
    from pinfold.actions.weigh_choose import undo
    from pinfold.errors import InputError

    if undone == bool(name):
        raise InputError(
            "name one build-up to choose, such as 'pinfold weigh' lists or a code of 'pinfold weigh search', or write "
            "--undo by itself"
        )
    click.echo(undo(site) if undone else chosen(site, name))


@click.command(short_help="This plan beside another.")
@with_site
@click.argument("other", type=click.Path(path_type=Path))
def plans(site: Path, as_json: bool, *, other: Path) -> None:  # noqa: FBT001
    """This plan and OTHER, a site folder or a plan file, on everything build-ups are weighed on."""
    from pinfold.actions.weigh_plans import compare_plans

    tell(compare_plans(site, other), as_json=as_json)
