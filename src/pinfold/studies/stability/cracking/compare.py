"""Cracks side by side: what each build-up's longest panel opens, and the same stuff poured against cured blocks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.studies.stability.answers import in_words
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.cracking.checks import longest_panel
from pinfold.studies.stability.cracking.holding import Panel, least_steel, steel_of, width_with
from pinfold.studies.stability.cracking.shrinking import DAY, left_when_laid
from pinfold.studies.stability.ends import has_wall
from pinfold.units import Meter, Ratio, Second, SquareMeterPerMeter

AGES: tuple[Second, ...] = (7 * DAY, 28 * DAY, 90 * DAY)
"""At which blocks are shown as laid."""


@dataclass(frozen=True, kw_only=True)
class PouredRow:
    """The same stuff, poured in place or laid as cured blocks.

    Attributes:
        way: poured, or blocks of an age.
        shortens_by: drying still to come and cooling, per length.
        crack: that opens in the panel as planned, without steel.
        longest: panel that does not crack; None where every length holds.
    """

    way: str
    shortens_by: Ratio
    crack: Meter
    longest: Meter | None


@dataclass(frozen=True, kw_only=True)
class CrackComparison:
    """A build-up at its longest panel.

    Attributes:
        buildup: its name.
        stretch: where that panel is.
        panel: its length.
        shortens_by: by drying and cooling, per length, if nothing held it.
        held_back: share of it that the footing holds back, halfway up.
        crack: that opens without steel; 0 where it stays whole.
        steel: in its beds, per height of wall.
        least_steel: that would make fine cracks of one wide one.
        crack_with_steel: with so much.
        longest: panel that does not crack; None where every length holds.
        poured: the same stuff poured and laid; empty where blocks are not cast of it.
        missing: why nothing is shown; empty otherwise.
    """

    buildup: str
    stretch: str
    panel: Meter = 0.0
    shortens_by: Ratio = 0.0
    held_back: Ratio = 0.0
    crack: Meter = 0.0
    steel: SquareMeterPerMeter = 0.0
    least_steel: SquareMeterPerMeter = 0.0
    crack_with_steel: Meter = 0.0
    longest: Meter | None = None
    poured: tuple[PouredRow, ...] = ()
    missing: str = ""


def compare_cracking(standings: Mapping[str, Exposed]) -> tuple[CrackComparison, ...]:
    """One comparison for each build-up with a wall that is not laid dry."""
    by_buildup: dict[str, list[Exposed]] = {}
    for ask in standings.values():
        wall = ask.stretch.buildup.wall
        if wall is not None and has_wall(ask.stretch) and wall.kind.word("make") != "stone":
            by_buildup.setdefault(ask.stretch.buildup.name, []).append(ask)
    return tuple(_compared(name, asks) for name, asks in by_buildup.items())


def _compared(name: str, asks: list[Exposed]) -> CrackComparison:
    try:
        panels = [(longest_panel(ask), ask.stretch.name) for ask in asks]
        panel, stretch = max(panels, key=lambda each: _width(each[0]) + each[0].length * 1e-9)
        return _of_panel(name, stretch, panel)
    except NotFoundError as missing:
        return CrackComparison(buildup=name, stretch=asks[0].stretch.name, missing=str(missing))
    except OutOfRangeError as outside:
        return CrackComparison(buildup=name, stretch=asks[0].stretch.name, missing=in_words(outside))


def _width(panel: Panel) -> Meter:
    return panel.strains()[1].number * panel.length


def _of_panel(name: str, stretch: str, panel: Panel) -> CrackComparison:
    restrained, _, (held, yields) = panel.strains()
    least = least_steel(panel).number
    return CrackComparison(
        buildup=name, stretch=stretch, panel=panel.length, shortens_by=panel.shortens.strain,
        held_back=held.number * yields.number, crack=_width(panel), steel=steel_of(panel.wall), least_steel=least,
        crack_with_steel=width_with(panel, least, restrained.number)[-1].number if _width(panel) > 0 else 0.0,
        longest=_longest(panel), poured=tuple(_poured(panel)),
    )  # fmt: skip


def _longest(panel: Panel) -> Meter | None:
    longest = panel.longest()
    return longest if longest < LONGEST else None


LONGEST: Meter = 1000.0


def _poured(panel: Panel) -> Iterator[PouredRow]:
    """Poured in place, then as blocks of several ages, in a panel as planned."""
    kind = panel.wall.kind
    if kind.word("material") not in ("foamed", "concrete") or not kind.word("mix"):
        return
    whole = kind.value("shrinkage") if kind.word("make") == "units" else panel.shortens.drying
    cooling = panel.shortens.strain - panel.shortens.drying
    yield _row("poured in place", panel, whole + cooling)
    for age in AGES:
        left = left_when_laid(whole, kind, age).number
        yield _row(f"blocks {age / DAY:.0f} days old when laid", panel, left + cooling)


def _row(way: str, panel: Panel, strain: Ratio) -> PouredRow:
    changed = Panel(
        buildup=panel.buildup, wall=panel.wall, length=panel.length, height=panel.height,
        shortens=panel.shortens._replace(strain=strain),
    )  # fmt: skip
    return PouredRow(way=way, shortens_by=strain, crack=_width(changed), longest=_longest(changed))
