"""What leveling knows: readings, heights out of them, what stands out, and what nothing can be told of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.findings import Step
from pinfold.units import Meter, Ratio


class LevelReading(NamedTuple):
    """One reading at one mark.

    Attributes:
        mark: of the place.
        setup: of the instrument, the water or the string; empty for a height over the fixed mark.
        value: from the mark up to the line of the setup; of a height, the height itself.
        spread: standard deviation of it.
        number: its place in the log, to find it again; 0 where there is none.
    """

    mark: str
    setup: str
    value: Meter
    spread: Meter
    number: int = 0


@dataclass(frozen=True, kw_only=True)
class SetAside:
    """Readings that do not fit the others and are left out.

    Attributes:
        readings: one; or several of which one is wrong, where nothing tells which.
        off: by how much it is off, above zero where the mark came out too high.
        spreads: of its own it stands off.
        says: what is wrong and what mends it, in the builder's words.
        step: the line of working.
    """

    readings: tuple[LevelReading, ...]
    off: Meter
    spreads: Ratio
    says: str
    step: Step


class MarkHeight(NamedTuple):
    """Height of a mark as all readings give it.

    Attributes:
        mark: of the place.
        height: over the datum.
        spread: standard deviation of it against the datum.
        readings: how many count.
    """

    mark: str
    height: Meter
    spread: Meter
    readings: int


@dataclass(frozen=True, kw_only=True)
class Survey:
    """Heights of one survey.

    Attributes:
        name: of the survey, mostly its day.
        at: its middle, in seconds since the epoch.
        datum: mark at height 0; empty where heights were written down over a mark that was not read.
        steady: whether the datum stands away from the structure, so that settlement shows on it.
        heights: by mark, in the order they were read first.
        covariance: of the heights, row by row in that order [m2].
        aside: readings left out.
        spare: readings beyond what is needed; 0 means that nothing checks them.
        scatter: how much wider readings scatter than they say themselves, at least 1.
        notes: what is to be known of it.
        missing: marks that were read and have no height, each with the reason.
    """

    name: str
    at: float
    datum: str
    steady: bool
    heights: tuple[MarkHeight, ...]
    covariance: tuple[tuple[float, ...], ...]
    aside: tuple[SetAside, ...]
    spare: int
    scatter: float
    notes: tuple[str, ...]
    missing: tuple[tuple[str, str], ...] = ()

    def height(self, mark: str) -> MarkHeight | None:
        """Height of a mark; None where it has none."""
        return next((each for each in self.heights if each.mark == mark), None)

    def spread_between(self, one: str, other: str) -> Meter:
        """Standard deviation of the difference of two heights."""
        marks = [each.mark for each in self.heights]
        i, j = marks.index(one), marks.index(other)
        variance = self.covariance[i][i] + self.covariance[j][j] - 2 * self.covariance[i][j]
        return float(max(variance, 0.0) ** 0.5)
