"""Pads under posts and piers."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import Newton, Pascal, SquareMeter


def pad_area(*, load: Newton, bearing: Pascal, smallest: SquareMeter) -> SquareMeter:
    """Area of a pad under a post or pier: A = max(P / q, Amin).

    Args:
        load: P, downward load, the pad's own weight included [N]
        bearing: q, allowable pressure on the ground [Pa]
        smallest: Amin, least area, 1 ft2 in the rule read [m2]

    Returns:
        A [m2]

    Raises:
        OutOfRangeError: the load or Amin is below 0, or q not above 0.

    Range:
        P, Amin ≥ 0, q > 0; refused outside. Load in the middle of a stiff pad.

    Source:
        IL-870, table B (read)

    Example:
        >>> pad_area(load=15000.0, bearing=75000.0, smallest=0.093)
        0.2
    """
    wanted = within(load, "load in N", low=0.0) / within(bearing, "allowable pressure in Pa", above=0.0)
    return max(wanted, within(smallest, "least area in m2", low=0.0))
