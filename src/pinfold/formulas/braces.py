"""Braces of end, corner and gate posts: a rail and a slanting wire between two posts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton


@dataclass(frozen=True, kw_only=True)
class BraceForces:
    """Forces in a corner brace: pressure in the rail, pull in the diagonal wire, lift of the corner post."""

    rail: Newton
    diagonal: Newton
    uplift: Newton


def corner_brace(*, pull: Newton, pull_height: Meter, rail_height: Meter, rail_length: Meter) -> BraceForces:
    """Forces in a corner brace of two posts, rail and diagonal wire: C = T a / b, N = C √(L² + b²) / L, U = C b / L.

    Args:
        pull: T, pull of all wires together [N]
        pull_height: a, height of their resultant above the ground [m]
        rail_height: b, height of the rail above the ground [m]
        rail_length: L, length of the rail from post to post [m]

    Returns:
        pressure in the rail, pull in the diagonal wire, lift of the corner post (see BraceForces)

    Raises:
        OutOfRangeError: pull or its height is below 0, or rail height or length not above 0.

    Range:
        T, a ≥ 0; b, L > 0; refused outside. The corner post turns about the ground: its own hold there is not counted.

    Source:
        STATICS (derived)

    Notes:
        A longer rail lowers the lift; 2 to 2.5 times the height is usual.

    Example:
        >>> corner_brace(pull=4000.0, pull_height=0.6, rail_height=0.9, rail_length=2.4)
        BraceForces(rail=2666.7, diagonal=2848.0, uplift=1000.0)
    """
    held = within(rail_height, "rail height in m", above=0.0)
    length = within(rail_length, "rail length in m", above=0.0)
    rail = within(pull, "pull in N", low=0.0) * within(pull_height, "height of the pull in m", low=0.0) / held
    return BraceForces(rail=rail, diagonal=rail * math.hypot(length, held) / length, uplift=rail * held / length)
