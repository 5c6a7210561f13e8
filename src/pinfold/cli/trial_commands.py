"""The verbs of trials: `pinfold mix trials` and `pinfold mix next`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from pinfold.cli.sites import Command, tell, with_site


def _with_trials(command: Command) -> Command:
    """What `trials` and `next` ask alike."""
    for option in reversed((
        click.argument("name", metavar="[MIX]", default=""),
        click.option("--factor", "factors", multiple=True, help="Look at this factor, such as sand; may be repeated."),
        click.option("--weight", "weights", multiple=True, help="What a score counts, such as cracks=3; repeat it."),
        click.option("--outside", is_flag=True, help="Proposals may leave the published ranges."),
        click.option("--many", type=click.IntRange(1, 3), default=3, show_default=True, help="Trials to propose."),
        click.option("--batch", default="", help="Size of batch instead of the plan's, such as '20 L' or '1 ft3'."),
        click.option("--code", "drawn", is_flag=True, help="Draw the square codes that open the trials in the log."),
    )):  # fmt: skip
        command = option(command)
    return with_site(command)


@click.command(short_help="What the trials of a mix show.")
@_with_trials
def trials(site: Path, as_json: bool, *, name: str, **asked: Any) -> None:  # noqa: FBT001
    """What the trials of a MIX show: the best so far, which factor matters, what is not known, what to try next."""
    from pinfold.actions.mix_trials import TrialsAsked, mix_trials

    tell(mix_trials(site, TrialsAsked(mix=name, **asked)), as_json=as_json)


@click.command(name="next", short_help="The next trials worth making.")
@_with_trials
def next_(site: Path, as_json: bool, *, name: str, **asked: Any) -> None:  # noqa: FBT001
    """The next one to three trials of a MIX worth making, by bag, bucket and scale."""
    from pinfold.actions.mix_trials import TrialsAsked, mix_next

    tell(mix_next(site, TrialsAsked(mix=name, **asked)), as_json=as_json)
