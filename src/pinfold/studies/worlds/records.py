"""What many worlds give."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.stability.factors import Named
from pinfold.units import Ratio

YEARS = (1, 10, 50)
"""Years for which chances are told where none are asked."""
MOST_YEARS = 50
"""Years of storms that are drawn."""


class Odds(NamedTuple):
    """A chance with its spread.

    Attributes:
        years: within so many years.
        chance: by all worlds together.
        low: a twentieth of the plots that the doubts allow have less.
        high: a twentieth have more.
    """

    years: int
    chance: Ratio
    low: Ratio
    high: Ratio


@dataclass(frozen=True, kw_only=True)
class ManyWorlds:
    """One build-up where it stands worst, built many times over and left to many winds.

    Attributes:
        buildup: its name.
        stretch: where it stands worst.
        cracking: chances that its lowest bed cracks; empty where it pulls nothing from the start, or is not shown.
        falling: chances that it falls; empty where it is not shown.
        worlds: walls built.
        because: why it is not shown, or what the chances rest on.
        figures: of the scatter, for their standing.
        left_out: what is not looked at.
    """

    buildup: str
    stretch: str
    cracking: tuple[Odds, ...]
    falling: tuple[Odds, ...]
    worlds: int
    because: str
    figures: Named
    left_out: str
