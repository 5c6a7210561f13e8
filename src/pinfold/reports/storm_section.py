"""A wall in many worlds, as part of a page: chances of cracking and of falling, with their spread and standing."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.binder.sources import STANDINGS
from pinfold.reports.pages import Block, Heading, Paragraph, table
from pinfold.sources import weakest
from pinfold.studies.worlds.records import ManyWorlds, Odds

HEADING = "In many worlds"
_RARE = 1e-3


def storm_section(worlds: Sequence[ManyWorlds]) -> tuple[Block, ...]:
    """A table of chances for each build-up with a wall; nothing without one."""
    if not worlds:
        return ()
    left_out = Paragraph(text=f"Left out: {worlds[0].left_out}.")
    return (Heading(text=HEADING), Paragraph(text=_SAYS), *map(_told, worlds), left_out)


_SAYS = (
    "Each build-up, where it stands worst, is built many times over: strength, mass, thickness and plumb scatter, and "
    "each of these walls stands through its own fifty years of storms. In brackets what one plot in twenty does "
    "better and one in twenty worse, as far as wind, mortar and hand are not known better. To compare walls by, not "
    "a promise."
)


def _told(each: ManyWorlds) -> Block:
    if not each.falling:
        return Paragraph(text=f"NOT SHOWN: build-up {each.buildup}: {each.because}.")
    rows = [("falls", *map(_odds, each.falling))]
    if each.cracking:
        rows.insert(0, ("cracks at its foot", *map(_odds, each.cracking)))
    heads = ("", *(f"in {odds.years} year{'s' if odds.years > 1 else ''}" for odds in each.falling))
    weak, _ = STANDINGS[weakest(figure.standing for _, figure in each.figures)]
    because = f"{each.because[:1].upper()}{each.because[1:]}. " if each.because else ""
    return table(
        heads, rows, right=(1, 2, 3), title=f"Build-up {each.buildup}, at stretch {each.stretch}",
        note=f"{because}The weakest of its figures is {weak}.",
    )  # fmt: skip


def _odds(odds: Odds) -> str:
    return f"{_share(odds.chance)} ({_share(odds.low)} to {_share(odds.high)})"


def _share(chance: float) -> str:
    """A chance as a builder says it: in a hundred, or one in so many."""
    if chance < _RARE:
        return "under 0.1%"
    return f"{chance:.1%}" if chance < 0.1 else f"{chance:.0%}"
