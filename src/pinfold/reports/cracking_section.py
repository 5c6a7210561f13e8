"""Cracks before they happen, as part of a page: one table of all build-ups, one for each that may be poured or laid."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.reports.pages import Block, Heading, Paragraph, table
from pinfold.studies.stability.cracking.compare import CrackComparison
from pinfold.units import METER, SQUARE_METER_PER_METER, Meter, System, show

HEADING = "Cracks before they happen"
_SAYS = (
    "The longest panel of each build-up between joints: how much it would shorten, what the footing holds back halfway "
    "up, and the crack that opens. The last column is the longest panel that stays whole. Published rules for joints "
    "go before it where they are stricter."
)
_HEADS = (
    "build-up", "longest panel", "would shorten, millionths", "held back", "crack without steel",
    "steel in the beds", "steel for fine cracks", "cracks with it", "whole up to",
)  # fmt: skip
_POURED_HEADS = ("the same stuff", "would shorten, millionths", "crack in this panel", "whole up to")


def cracking_section(comparisons: Sequence[CrackComparison], system: System) -> tuple[Block, ...]:
    """A table of all, then poured against laid; nothing where there is no wall."""
    if not comparisons:
        return ()
    shown = [each for each in comparisons if not each.missing]
    rows = [_cells(each, system) for each in shown]
    main = (table(_HEADS, rows, right=tuple(range(1, 9))),) if rows else ()
    return (Heading(text=HEADING), Paragraph(text=_SAYS), *main, *_rest(comparisons, system))


def _cells(each: CrackComparison, system: System) -> tuple[str, ...]:
    steel, least = (
        show(value, SQUARE_METER_PER_METER, system, in_unit="in2/ft" if system is System.US else "mm2/m")
        for value in (each.steel, each.least_steel)
    )
    return (
        each.buildup, show(each.panel, METER, system), f"{each.shortens_by * 1e6:.0f}", f"{each.held_back:.0%}",
        _crack(each.crack, system), steel, least, _with_steel(each, system), _whole(each.longest, system),
    )  # fmt: skip


def _rest(comparisons: Sequence[CrackComparison], system: System) -> Iterator[Block]:
    for each in comparisons:
        if each.missing:
            yield Paragraph(text=f"{each.buildup}: NOT SHOWN: {each.missing}.")
        elif each.poured:
            rows = [
                (row.way, f"{row.shortens_by * 1e6:.0f}", _crack(row.crack, system), _whole(row.longest, system))
                for row in each.poured
            ]
            title = f"{each.buildup}: poured against cured blocks, in a panel of {show(each.panel, METER, system)}"
            yield table(_POURED_HEADS, rows, right=(1, 2, 3), title=title, note=_NOTE)


_NOTE = "Drying by a curve made for dense concrete; foamed stuff dries sooner, so blocks have less left than shown."


def _with_steel(each: CrackComparison, system: System) -> str:
    """In a panel too short for a second crack the steel makes the one crack no finer."""
    finer = each.crack_with_steel < each.crack or each.crack <= 0
    return _crack(each.crack_with_steel, system) if finer else "no finer"


def _crack(width: Meter, system: System) -> str:
    if width <= 0:
        return "none"
    return show(width, METER, system, in_unit="in" if system is System.US else "mm")


def _whole(longest: Meter | None, system: System) -> str:
    return "any length" if longest is None else show(longest, METER, system)
