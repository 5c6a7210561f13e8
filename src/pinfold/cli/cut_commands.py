"""The verbs of cutting: `pinfold cut`, `pinfold cut gate` and so on."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.piece_commands import done, labels, pieces, rolls, sheets
from pinfold.cli.sites import tell, with_site


@click.group(invoke_without_command=True)
@with_site
@click.pass_context
def cut(context: click.Context, /, site: Path, as_json: bool) -> None:  # noqa: FBT001
    """What to cut, and how.

    Without a further word the part list: every piece to cut, with its mark, length and place.
    """
    if context.invoked_subcommand is None:
        from pinfold.actions.cutting import cut_site

        tell(cut_site(site), as_json=as_json)


@cut.command()
@with_site
@click.argument("name", metavar="NAME")
@click.option("--leaf", default="", metavar="WIDTH", help="A leaf on hand, such as '2 ft 10 in', tried in the opening.")
@click.option("--working", is_flag=True, help="Show the lines of working.")
def gate(site: Path, as_json: bool, name: str, leaf: str, *, working: bool) -> None:  # noqa: FBT001
    """One gate to build: pieces with laps and angles, swing, hinges, latch, sag in years, who passes its gaps."""
    from pinfold.actions.cut_gate import cut_gate

    tell(cut_gate(site, name, leaf=leaf, working=working), as_json=as_json)


for _command in (pieces, sheets, rolls, labels, done):
    cut.add_command(_command)
