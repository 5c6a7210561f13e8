"""The verb of searching: `pinfold weigh search`."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.sites import Command, counting, tell, with_site

_AXES = {
    "wall": "Kinds of wall, such as foamed,block.", "wall-height": "Heights of the wall, such as '40 cm..80 cm'.",
    "footing": "Footings, by words in them.", "coats": "Sets of coats, such as lime.",
    "fence-height": "Heights of the mesh.", "posts": "Kinds of post.", "spacing": "From post to post.",
    "embed": "How deep posts stand.", "rails": "Rails and wires.", "mesh": "Kinds of mesh.",
}  # fmt: skip


def _with_axes(command: Command) -> Command:
    for key, says in reversed(_AXES.items()):
        command = click.option(f"--{key}", default="", metavar="CHOICES", help=says)(command)
    return with_site(command)


@click.command(short_help="All build-ups that stand, and what no other betters.")
@_with_axes
@click.option(
    "--limits", default="", metavar="WORDS", help="Such as 'cash under 900, hours under 60 h, rabbits out, must hold'."
)
@click.option("--on", "by", default="", metavar="LIST", help="What to trade off, such as cash_now,trips,tightness.  "
              "[default: cash_now,hours,margin]")  # fmt: skip
@click.option("--buildup", default="", metavar="NAME", help="The build-up that is varied.  [default: the longest]")
@click.option(
    "--every", is_flag=True, help="Every choice of every axis that nothing is asked of; takes about a minute."
)
def search(
    site: Path, as_json: bool, *, limits: str, by: str, buildup: str, every: bool, **axes: str  # noqa: FBT001
) -> None:  # fmt: skip
    """All build-ups that walls, heights, footings, coats, posts, rails and meshes make: each checked and priced."""
    from pinfold.actions.weigh_search import SearchAsked, search_site

    wanted = tuple((key.replace("_", "-"), text) for key, text in axes.items() if text)
    asked = SearchAsked(buildup=buildup, limits=limits, by=by, axes=wanted, every=every)
    with counting("searching; laid out, checked and counted") as told:
        answer = search_site(site, asked, told)
    tell(answer, as_json=as_json)
