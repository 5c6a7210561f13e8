"""Sand counted in the measure that the builder chooses, as finely as that one can be filled."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.findings import Step, work
from pinfold.formulas import counts
from pinfold.plan.measures import SiteMeasure
from pinfold.plan.place import Mixing
from pinfold.units import CubicMeter, Ratio

PARTS_OF = {"bucket": 4, "pail": 4, "shovel": 2, "barrow": 4}
"""Into how many parts one can be told by eye: a shovel full or half, all else by quarters (common practice)."""
NEAR_ENOUGH: Ratio = 0.05
"""A count may miss what the mix wants by this share (common practice)."""


class Counted(NamedTuple):
    """An amount in a measure.

    Attributes:
        measure: what is filled.
        exact: how many, not rounded.
        number: how many, as it can be filled.
        working: how many were found.
    """

    measure: SiteMeasure
    exact: Ratio
    number: Ratio
    working: Step

    @property
    def misses(self) -> Ratio:
        """How much more the rounded count is than wanted, as a share; below 0 less."""
        return self.number / self.exact - 1 if self.exact else 0.0


def counted(loose: CubicMeter, measure: SiteMeasure) -> Counted:
    """A loose volume in a measure of the site.

    Args:
        loose: volume to measure, as it lies
        measure: what is filled
    """
    step = work(counts.pails, why=f"in {measure.name}s", volume=loose, pail=measure.holds)
    parts = PARTS_OF[measure.name]
    return Counted(measure, step.number, round(step.number * parts) / parts, step)


def counted_in(part: str, mixing: Mixing) -> SiteMeasure | None:
    """The measure that a part is counted in; None where that is the bucket, as it is for all but sand."""
    return mixing.measure(mixing.sand_by) if part == "sand" and mixing.sand_by not in ("", "bucket") else None
