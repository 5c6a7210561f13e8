"""The verbs of weighing: `pinfold weigh`, `pinfold weigh NAME …` and its further words."""

from __future__ import annotations

from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click
from click.core import ParameterSource

from pinfold.cli.sites import Command, progress, tell, with_site
from pinfold.cli.weigh_more_commands import choose, drivers, plans, trade_off, what_if
from pinfold.cli.weigh_search_commands import search

_NAMES, _SHOWN = "names", "NAME …"


def _asking(command: Command) -> Command:
    by = click.option("--by", default="", metavar="CRITERION", help="Sort by one of them, such as hours or 'cash now'.")
    animals = click.option(
        "--animals", default="", metavar="LIST", help="Whom to keep out, such as 'rabbit, goat'; none for nobody.  "
        "[default: rabbit, fox, small-dog, goat, deer]",
    )  # fmt: skip
    years = click.option("--years", default="", metavar="YEARS", help="Years of upkeep to look over.  [default: 20]")
    working = click.option("--working", is_flag=True, help="Each with what its scores rest on, and the working.")
    return with_site(by(animals(years(working(command)))))


class _Weighing(click.Group):
    """What stands where a further word could stand and is none is the name of a build-up."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:  # fmt: skip
        if args and args[0] not in self.commands:
            return _SHOWN, self.commands[_NAMES], args
        return super().resolve_command(ctx, args)


@click.group(cls=_Weighing, invoke_without_command=True, subcommand_metavar=f"[{_SHOWN} | COMMAND]")
@_asking
@click.pass_context
def weigh(ctx: click.Context, /, **typed: Any) -> None:
    """Which build-up to choose: the same enclosure in all of them, or in those named, side by side."""
    if ctx.invoked_subcommand is None:
        _weigh((), **typed)


@weigh.command(_NAMES, hidden=True)
@_asking
@click.argument("names", nargs=-1, metavar="")
@click.pass_context
def names_(ctx: click.Context, /, names: tuple[str, ...], **typed: Any) -> None:
    """The build-ups of these names, beside the plan as it stands; 'pinfold weigh' lists them."""
    from pinfold.errors import NotFoundError

    before = ctx.parent.params if ctx.parent is not None else {}
    own = {key: value for key, value in typed.items() if ctx.get_parameter_source(key) is ParameterSource.COMMANDLINE}
    try:
        _weigh(names, **{**typed, **before, **own})
    except NotFoundError as unknown:
        raise NotFoundError(f"{_verb_meant(names, str(unknown))}{unknown}") from None


def _verb_meant(names: tuple[str, ...], told: str) -> str:
    """Which further word the first name may stand for, where there is no such build-up."""
    verbs = [name for name, command in weigh.commands.items() if not command.hidden]
    near = get_close_matches(names[0], verbs, n=1) if names and repr(names[0]) in told else []
    return f"did you mean 'pinfold weigh {near[0]}'? " if near else ""


def _weigh(names: tuple[str, ...], *, site: Path, as_json: bool, working: bool, **typed: str) -> None:
    from pinfold.actions.weigh_side import WeighAsked, weigh_site

    with progress("weighing build-ups") as told:
        answer = weigh_site(site, WeighAsked(names=names, **typed), working=working, told=told)
    tell(answer, as_json=as_json)


for _command in (search, trade_off, drivers, what_if, choose, plans):
    weigh.add_command(_command)
