"""What the rules of the season are asked and what they answer, as records."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.ripening.wanting import Placing
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, MeterPerSecond

Marks = NDArray[np.bool_]
"""One yes or no for each hour."""


class May(IntEnum):
    """Whether a work may be done in an hour, the best first."""

    YES = 0
    MEASURES = 1  # with measures
    NOT_SHOWN = 2  # what a rule asks of the weather is not known
    NO = 3

    @property
    def says(self) -> str:
        """In words."""
        return ("may be done", "may be done with measures", "NOT SHOWN", "not")[self]


@dataclass(frozen=True, kw_only=True, eq=False)
class SeasonWork:
    """A work that the season's rules are asked about.

    Attributes:
        layer: of the build-up, a word of the take-off.
        says: what it is, in words.
        trades: which rules it falls under: concrete, grout, masonry, plaster, lime, foamed, earth, fence, green.
        placing: what is placed; None where nothing hardens.
        dimension: the least one of what is placed; None where nobody asks.
        green_speed: hourly wind 10 m up to which its green wall stands by its weight alone; None where it is not shown.
        places: where it is, in order around the plot.
    """

    layer: str
    says: str
    trades: tuple[str, ...]
    placing: Placing | None = None
    dimension: Meter | None = None
    green_speed: MeterPerSecond | None = None
    places: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class SeasonHours:
    """Which hours a work may be begun and done in.

    Attributes:
        work: asked about.
        start: the beginning of the first hour, in UTC.
        verdicts: a `May` for each hour.
        rules: of shelf `season_rules` that fall on the work, in the order of the table.
        fires: for each rule by name, the hours in which it holds something against it.
        unseen: for each rule by name, the hours in which the weather does not say enough.
        left_out: rules that are not looked at, and why, in words.
    """

    work: SeasonWork
    start: datetime
    verdicts: NDArray[np.int8]
    rules: tuple[Kind, ...]
    fires: Mapping[str, Marks]
    unseen: Mapping[str, Marks]
    left_out: tuple[str, ...]

    def fired(self, hour: int) -> tuple[Kind, ...]:
        """The rules that hold something against an hour."""
        return tuple(rule for rule in self.rules if self.fires[rule.name][hour])

    def not_shown(self, hour: int) -> tuple[Kind, ...]:
        """The rules that the weather of an hour does not say enough for."""
        return tuple(rule for rule in self.rules if self.unseen[rule.name][hour])
