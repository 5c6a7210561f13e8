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


@click.command()
@_with_trials
def trials(site: Path, as_json: bool, *, name: str, **asked: Any) -> None:  # noqa: FBT001
    """What the trials of a MIX show: the best so far, which factor matters, what is not known, what to try next."""
    from pinfold.actions.mix_trials import TrialsAsked, mix_trials

    tell(mix_trials(site, TrialsAsked(mix=name, **asked)), as_json=as_json)


@click.command(name="next")
@_with_trials
def next_(site: Path, as_json: bool, *, name: str, **asked: Any) -> None:  # noqa: FBT001
    """The next one to three trials of a MIX worth making, by bag, bucket and scale."""
    from pinfold.actions.mix_trials import TrialsAsked, mix_next

    tell(mix_next(site, TrialsAsked(mix=name, **asked)), as_json=as_json)


@click.command()
@with_site
@click.argument("name", metavar="[MIX]", required=False, default="")
@click.option("--at", default="", help="Age, such as '7 d'.  [default: 28 d]")
def strength(site: Path, as_json: bool, name: str, at: str) -> None:  # noqa: FBT001
    """How strong MIX is at an age, as published and as your own tests say; all of the plan without one.

    Tests are written down by 'pinfold log add strength' (a body crushed or broken) and 'pinfold log add hardness' (a
    nail, a drop).
    """
    from pinfold.actions.mix_strength import mix_strength

    tell(mix_strength(site, name, at), as_json=as_json)


@click.command()
@with_site
@click.argument("name")
@click.option("--from", "low", default="", help="The richest to show, such as 1:2; of a foamed mix the lightest.")
@click.option("--to", "high", default="", help="The leanest to show, such as 1:8; of a foamed mix the heaviest.")
@click.option("--strength", default="", help="A strength to hold, such as '500 psi': the cheapest that does is told.")
@click.option("--buildup", default="", help="Whose coat it is, where several build-ups have it.")
def richer(site: Path, as_json: bool, name: str, **typed: str) -> None:  # noqa: FBT001
    """What a richer or leaner mix does to a mix, coat or layer NAME: strength, shrinkage, cracks, stuff, cost."""
    from pinfold.actions.mix_richer import RicherAsked, mix_richer

    tell(mix_richer(site, RicherAsked(name=name, **typed)), as_json=as_json)
