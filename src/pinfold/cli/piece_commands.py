"""The verbs of what is cut from the pile and from what the shop sells: `pinfold cut pieces` and its like."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from pinfold.cli.sites import progress, tell, with_site

Command = TypeVar("Command", bound=Callable[..., object])


def _asked(command: Command) -> Command:
    """The saw, and what is worth keeping, over what the plan says."""
    kerf = click.option("--kerf", default="", help="What a cut takes, instead of the plan's.")
    trim = click.option("--trim", default="", help="What comes off a raw end, instead of the plan's.")
    keep = click.option("--keep", default="", help="Shortest offcut worth keeping, instead of the plan's.")
    return kerf(trim(keep(command)))


def _seconds(usual: float) -> Callable[[Command], Command]:
    limits = click.FloatRange(1, 3600)
    return click.option("--seconds", type=limits, default=usual, show_default=True, help="Time for the search.")


@click.command()
@with_site
@click.argument("section", required=False, default="")
@_asked
@_seconds(20.0)
def pieces(site: Path, as_json: bool, **asked: Any) -> None:  # noqa: FBT001
    """Which piece of the pile and which new length gives which parts, with the cuts in their order.

    SECTION is what is cut from, such as pipe-2in; all of them without one.
    """
    from pinfold.actions.cut_pieces import CutAsked, cut_pieces

    with progress("cutting, section by section") as told:
        answer = cut_pieces(site, CutAsked(**asked), told=told)
    tell(answer, as_json=as_json)


@click.command()
@with_site
@_seconds(10.0)
def sheets(site: Path, as_json: bool, *, seconds: float) -> None:  # noqa: FBT001
    """Which sheet or offcut gives which parts, by cuts from edge to edge, in their order."""
    from pinfold.actions.cut_flat import sheets_site

    tell(sheets_site(site, seconds=seconds), as_json=as_json)


@click.command()
@with_site
@_seconds(10.0)
def rolls(site: Path, as_json: bool, *, seconds: float) -> None:  # noqa: FBT001
    """Which roll of mesh goes where, rests first, with as few joints as can be, all of them on posts."""
    from pinfold.actions.cut_flat import rolls_site

    tell(rolls_site(site, seconds=seconds), as_json=as_json)


@click.command()
@with_site
@click.option("--each", is_flag=True, help="A label for each part of a bundle of more than a dozen alike, too.")
def labels(site: Path, as_json: bool, *, each: bool) -> None:  # noqa: FBT001
    """What stands on the labels of all parts and offcuts; they print from their page and in the binder."""
    from pinfold.actions.cut_labels import labels_site

    tell(labels_site(site, each=each), as_json=as_json)


@click.command()
@with_site
@click.argument("code", metavar="[CODE]", required=False, default="")
@click.option("--item", default="", help="What was cut, where no CODE is given.")
@click.option("--length", default="", help="Of each piece, raw ends in it.")
@click.option("--width", default="", help="Of sheets, and the height of rolls.")
@click.option("--count", default="", help="How many pieces were cut so.")
@click.option("--pile", is_flag=True, help="They lay on the pile.")
@click.option("--parts", default="", help="What one piece gave: 'T8, T1, T1'.")
@click.option("--kept", default="", help="What of one piece goes back on the pile: '1 ft 9 in; 2 ft'.")
@click.option("--spoiled", default="", help="Parts that came out wrong and are cut anew: 'T1'.")
def done(site: Path, as_json: bool, code: str, *, pile: bool, **typed: str) -> None:  # noqa: FBT001
    """Write down what was really cut: parts done, pieces off the pile, offcuts back onto it.

    CODE is a piece of 'pinfold cut pieces' as it stands now, such as E5170; what is not told then counts as planned.
    """
    from pinfold.actions.cut_done import Done, cut_done

    tell(cut_done(site, Done(pile="yes" if pile else "", **typed), code=code), as_json=as_json)
