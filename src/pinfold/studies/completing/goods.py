"""Goods still to come: what is left of each layer, at what the log taught of amounts and prices, with a spread."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.records import CoinsAgainst
from pinfold.studies.costing import shares_of
from pinfold.studies.forecasting.records import Spread
from pinfold.studies.gathering.records import Gathered
from pinfold.tables.shelf import kind

TENTH = 1.2815515655446004
"""Standard deviations beyond which a tenth of a normal distribution lies."""
_MIXED = frozenset({"footing", "mortar", "grout", "collars", "coat", "coping", "wall"})


def goods_to_come(done: Done, taught: Gathered, coins: Sequence[CoinsAgainst]) -> tuple[float, float]:
    """Cost of the goods still to go in, and one standard deviation.

    Args:
        done: how far the job is
        taught: the buying list of the whole job with what the log taught
        coins: goods beside the plan, for the share that is done
    """
    shares = {(row.layer, row.run): row.done for row in coins}
    layers: dict[str, float] = defaultdict(float)
    for use, cost in shares_of(taught.lines):
        group = use.layer, done.run(use.place)
        layers[use.layer] += cost * (1.0 - shares.get(group, done.of_layer(*group)))
    row = kind("job_rules", "goods")
    whole = math.fsum(layers.values())
    apart = math.hypot(*(cost * row.value("mix" if layer in _MIXED else "other") for layer, cost in layers.items()))
    return whole, math.hypot(row.value("price") * whole, apart)


def around(value: float, spread: float, *, least: float = 0.0) -> Spread:
    """A normal number as low, likely and high, none below the least."""
    return Spread(*(max(least, value + side * TENTH * spread) for side in (-1, 0, 1)))
