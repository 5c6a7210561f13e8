"""Worlds drawn by chance: storms of every year, strength, mass, thickness and plumb of every wall."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from pinfold.formulas import storms, wind_en
from pinfold.plan.place import Family
from pinfold.studies.worlds.replay import Array, on_arrays
from pinfold.tables.shelf import Kind, kind

PLOTS = 20
"""Plots that the doubts allow; in each of them many walls are built."""
WALLS = 1000
"""Walls built in each."""
LONGEST = 50
"""Years each of them stands."""
SEED = 20_110
"""The same plan gives the same answer each time it is asked."""


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """What was drawn; walls of one plot lie next to each other.

    Attributes:
        pressure: wind pressure of every year beside that of the basic wind, (walls, years).
        tension: of the lowest bed beside the figure of the checks, (walls, 1).
        density: beside the figure, (walls, 1).
        thickness: more than the plan's, (walls, 1).
        lean: out of plumb, to leeward positive, (walls, 1).
        steel: yield of the bars beside their grade, (walls, 1).
    """

    pressure: Array
    tension: Array
    density: Array
    thickness: Array
    lean: Array
    steel: Array


@lru_cache(maxsize=2)  # the same worlds for every wall
def drawn(family: Family, *, cast: bool, plots: int = PLOTS, walls: int = WALLS, years: int = LONGEST) -> Drawn:
    """Draw worlds.

    Args:
        family: whose basic wind and strength figures the checks use
        cast: whether the wall is cast or of stone, not laid of sized units
        plots: how many plots
        walls: how many walls in each
        years: how many years each stands
    """
    chance = np.random.default_rng(SEED)
    shape = (plots * walls, 1)

    def share(row: Kind) -> Array:
        """A lognormal share, its doubt the same within a plot."""
        spread = chance.standard_normal(shape) * _log_spread(row, "spread")
        doubt = chance.standard_normal((plots, 1)) * _log_spread(row, "doubt")
        return row.value("mean") * np.exp(spread + np.repeat(doubt, walls, axis=0))

    last = "-cast" if cast else ""
    storm = kind("scatter", "storms")
    gusts = chance.random((plots * walls, years))
    return Drawn(
        pressure=share(storm) * _beside_basic(family, storm, np.clip(gusts, 1e-12, 1 - 1e-9)) ** 2,
        tension=share(kind("scatter", f"bed-tension-{family.value}")),
        density=share(kind("scatter", f"density{last}")),
        thickness=chance.standard_normal(shape) * kind("scatter", f"thickness{last}").value("spread"),
        lean=np.clip(chance.standard_normal(shape) * kind("scatter", "plumb").value("spread"), -0.05, 0.05),
        steel=share(kind("scatter", "yield")),
    )


def _log_spread(row: Kind, name: str) -> float:
    """Standard deviation of the logarithm of a share that scatters so much."""
    return float(np.sqrt(np.log1p(row.value(name) ** 2))) if row.has(name) else 0.0


def _beside_basic(family: Family, storm: Kind, chance: Array) -> Array:
    """Highest wind of a year beside the basic wind of the standard."""
    if family is Family.EU:
        return _yearly_mean(return_period=1 / chance)
    return _yearly_gust(chance=chance) / storms.gust_factor_by_asce7(chance=1 / storm.value("return_period_us"))


_yearly_gust = on_arrays(storms.gust_factor_by_asce7)
_yearly_mean = on_arrays(wind_en.return_period_factor)
