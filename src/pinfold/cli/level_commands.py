"""The verbs of leveling: `pinfold level`, `level read`, `level jack`, `level done`, `level settle`, `level set-out`."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.sites import Command, progress, tell, with_site

_MOVES = "least moves, goal by goal"
_NEIGHBOR = click.option("--neighbor", default="", help="Which structure on blocks, where there are several.")
_SURVEY = click.option("--survey", default="", help="Which survey: its name or day; the last one unless told.")


_TOLERANCE = click.option(
    "--tolerance", default="", help="Most that two supports may differ in the end, such as '4 mm'.  [default: the "
    "plan's, else 1/4 in]",
)  # fmt: skip


def _asking(command: Command) -> Command:
    return _NEIGHBOR(_SURVEY(_TOLERANCE(command)))


@click.group(invoke_without_command=True)
@with_site
@_asking
@click.pass_context
def level(context: click.Context, /, site: Path, as_json: bool, **typed: str) -> None:  # noqa: FBT001
    """From level readings to jack and shim moves; how it has moved since.

    Without a further word: how the structure lies, what that does to its doors, and the least moves that level it.
    """
    if context.invoked_subcommand is None:
        from pinfold.actions.level import LevelAsked, level_of

        with progress(_MOVES) as told:
            answer = level_of(site, LevelAsked(**typed), told=told)
        tell(answer, as_json=as_json)


@level.command("read")
@click.option("--site", type=click.Path(path_type=Path, file_okay=False), default=Path(), show_default="here",
              help="The site folder.")  # fmt: skip
@click.argument("readings", metavar="MARK=READING …", nargs=-1, required=True)
@click.option("--setup", default="", help="A new word whenever instrument, string or water was moved.  [default: 1]")
@click.option("--instrument", default="", help="water level, laser, string or optical level.")
@click.option("--survey", default="", help="Name of the survey, where one takes more than a day.")
@click.option("--spread", default="", help="Give or take of each reading.  [default: the instrument's]")
@click.option("--who", default="me", show_default=True, help="Who read them.")
def read(site: Path, readings: tuple[str, ...], **typed: str) -> None:
    """Write down a run of READINGS from one setup: from each mark up to the water, the beam of light or the string."""
    from pinfold.actions.level_read import Run, write_run

    for line in write_run(site, Run(lines=readings, **typed)):
        click.echo(line)


@level.command("jack")
@with_site
@_asking
def jack(site: Path, as_json: bool, **typed: str) -> None:  # noqa: FBT001
    """The jacking sheet: every lift in order, loads, crib, jack and ground; cautions first."""
    from pinfold.actions.level import LevelAsked
    from pinfold.actions.level_jack import jack_of

    with progress(_MOVES) as told:
        answer = jack_of(site, LevelAsked(**typed), told=told)
    tell(answer, as_json=as_json)


@level.command("done")
@click.option("--site", type=click.Path(path_type=Path, file_okay=False), default=Path(), show_default="here",
              help="The site folder.")  # fmt: skip
@_asking
@click.argument("marks", metavar="[MARK[=LIFT][:SHIMS]] …", nargs=-1)
@click.option("--who", default="me", show_default=True, help="Who did it.")
def done(site: Path, marks: tuple[str, ...], *, who: str, **typed: str) -> None:
    """Write down what was jacked: all moves as planned, or MARKS with what was lifted and the shims in the stack now.

    For example: pinfold level done S3 'N3=+3/8 in: 1/4 in, 1/8 in'
    """
    from pinfold.actions.level import LevelAsked
    from pinfold.actions.level_done import JackingDone, write_jacking

    for line in write_jacking(site, JackingDone(lines=marks, asked=LevelAsked(**typed), who=who)):
        click.echo(line)


@level.command("settle")
@with_site
@_NEIGHBOR
@click.option(
    "--since", default="", help="Day from which on surveys count.  [default: since it was jacked, as the log has it]"
)
def settle(site: Path, as_json: bool, *, neighbor: str, since: str) -> None:  # noqa: FBT001
    """How it has settled from survey to survey, unevenly or not, and when to look again."""
    from pinfold.actions.level_settle import settle_of

    tell(settle_of(site, neighbor, since), as_json=as_json)


@level.command("set-out")
@with_site
@_SURVEY
@click.option(
    "--string", default="", help="Height of the string over the fixed mark.  [default: 10 cm over the ground]"
)
@click.option("--down", default="", help="From the string down to the bed, or to the foot of the post bases.")
@click.option("--course", default="", help="Height of a course with its joint, such as '8 in'.")
def set_out(site: Path, as_json: bool, **typed: str) -> None:  # noqa: FBT001
    """Cut, fill and string heights at every mark, for post bases or a first course."""
    from pinfold.actions.level_set_out import SetOutAsked, set_out_of

    tell(set_out_of(site, SetOutAsked(**typed)), as_json=as_json)
