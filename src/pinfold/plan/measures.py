"""Measures of a site: what the builder fills, how full, and what it then holds."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.measures import filled_share
from pinfold.sources import Standing
from pinfold.tables.shelf import kind
from pinfold.units import CubicMeter, Meter, Ratio

USUAL = {"pail": "pail-5-gal", "shovel": "shovel", "barrow": "wheelbarrow"}
"""What is shipped for a measure that the plan does not name, by its kind of shelf `materials`."""
USUAL_SPREAD: Ratio = 0.30
"""A bucket that nobody told of may be off the usual one by so much: our own judgment, one standard deviation."""
GIVEN_SPREAD: Ratio = 0.03
"""What a plan says that a measure holds may be off by so much: our own judgment, one standard deviation."""


@dataclass(frozen=True, kw_only=True)
class SiteMeasure:
    """One measure.

    Attributes:
        name: bucket, pail, shovel, barrow.
        brim: what it holds filled level with its rim; of a shovel the heap that it carries.
        filled: share of that which the builder fills; above 1 where heaped.
        height: inside, from bottom to rim; None when not given.
        bottom: inside width at the bottom, likewise.
        top: inside width at the rim, likewise.
        standing: how it is known what it holds.
        spread: one standard deviation of what it holds, as a share.
    """

    name: str
    brim: CubicMeter
    filled: Ratio = 1.0
    height: Meter | None = None
    bottom: Meter | None = None
    top: Meter | None = None
    standing: Standing = Standing.GIVEN
    spread: Ratio = GIVEN_SPREAD

    @property
    def holds(self) -> CubicMeter:
        """As the builder fills it."""
        return self.brim * self.filled

    def share_below(self, below: Meter) -> Ratio | None:
        """Share of it that is filled where its filling ends so far below the rim; None without its height.

        A measure without widths is taken as straight.

        Raises:
            OutOfRangeError: the filling would end below the bottom.
        """
        if self.height is None:
            return None
        bottom, top = (self.bottom, self.top) if self.bottom and self.top else (1.0, 1.0)
        return filled_share(height=self.height, bottom=bottom, top=top, below=below)


def usual_measure(name: str) -> SiteMeasure:
    """A measure as it is shipped, for a site that does not say.

    Raises:
        KeyError: none is shipped.
    """
    shipped = kind("materials", USUAL[name])
    volume = shipped.figure("volume")
    return SiteMeasure(name=name, brim=volume.value, standing=volume.standing, spread=shipped.value("spread"))
