"""Small structures on piers of blocks: the load on a pier, and the wind that tips and shifts the whole."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Pascal, Ratio, SquareMeter


def pier_load(*, load: Newton, count: Ratio) -> Newton:
    """Load on the pier that carries most, of two equal rows: P = W / (n − 2), W / n up to four.

    Between the ends of a row a pier carries a whole bay, at the ends half of one.

    Args:
        load: W, of the structure and what is on it [N]
        count: n, of piers in both rows together [-]

    Returns:
        P, load on one pier [N]

    Raises:
        OutOfRangeError: the load is below 0, or there is no pier.

    Range:
        W ≥ 0, n ≥ 1; refused outside. Beams that give way a little over each pier; a load spread evenly.

    Source:
        STATICS (derived)

    Example:
        >>> pier_load(load=12000.0, count=6.0)
        3000.0
    """
    whole = within(load, "load in N", low=0.0)
    piers = within(count, "number of piers", low=1.0)
    carried: Newton = whole / np.maximum(piers - 2 * (np.asarray(piers) > 4), 1.0)
    return carried


def wind_on_box(*, pressure: Pascal, length: Meter, height: Meter) -> Newton:
    """Level force of the wind on one side: F = p L h.

    Args:
        pressure: p, net pressure of windward and leeward side together [Pa]
        length: L, of the side [m]
        height: h, of the side [m]

    Returns:
        F [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        STATICS (derived)

    Example:
        >>> wind_on_box(pressure=500.0, length=4.0, height=2.5)
        5000.0
    """
    face: SquareMeter = within(length, "length in m", low=0.0) * within(height, "height in m", low=0.0)
    return within(pressure, "pressure in Pa", low=0.0) * face


def lift_on_roof(*, pressure: Pascal, area: SquareMeter) -> Newton:
    """Pull of the wind on a roof: U = p A.

    Args:
        pressure: p, net pull per plan area [Pa]
        area: A, of the roof in plan [m2]

    Returns:
        U, upward [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        p, A ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> lift_on_roof(pressure=300.0, area=10.0)
        3000.0
    """
    return within(pressure, "pressure in Pa", low=0.0) * within(area, "area in m2", low=0.0)


def tipping_moment(*, force: Newton, height: Meter, raised: Meter, lift: Newton, width: Meter) -> NewtonMeter:
    """Moment of the wind about the leeward row of piers: M = F (h/2 + s) + U b / 2.

    Args:
        force: F, on the side [N]
        height: h, of the side [m]
        raised: s, height of its foot above the pads [m]
        lift: U, on the roof [N]
        width: b, between the two rows [m]

    Returns:
        M [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        STATICS (derived)

    Example:
        >>> tipping_moment(force=5000.0, height=2.0, raised=0.5, lift=1000.0, width=2.0)
        8500.0
    """
    arm = within(height, "height in m", low=0.0) / 2 + within(raised, "height of the stack in m", low=0.0)
    lifted = within(lift, "lift in N", low=0.0) * within(width, "width in m", low=0.0) / 2
    return within(force, "force in N", low=0.0) * arm + lifted


def holding_moment(*, weight: Newton, ties: Newton, width: Meter) -> NewtonMeter:
    """Moment that holds a box on its piers: M = (W / 2 + T) b.

    Args:
        weight: W, that can be counted on [N]
        ties: T, upright pull of all ties on the windward side [N]
        width: b, between the two rows [m]

    Returns:
        M [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        STATICS (derived)

    Example:
        >>> holding_moment(weight=6000.0, ties=1000.0, width=2.0)
        8000.0
    """
    held = within(weight, "weight in N", low=0.0) / 2 + within(ties, "pull of the ties in N", low=0.0)
    return held * within(width, "width in m", low=0.0)


def grip_on_blocks(*, weight: Newton, lift: Newton, friction: Ratio, ties: Newton) -> Newton:
    """What holds a box against sliding off its piers: R = μ max(W − U, 0) + T.

    Args:
        weight: W, that can be counted on [N]
        lift: U, on the roof [N]
        friction: μ, between structure and blocks [-]
        ties: T, level pull of all ties on the windward side [N]

    Returns:
        R [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        STATICS (derived)

    Example:
        >>> grip_on_blocks(weight=6000.0, lift=1000.0, friction=0.4, ties=500.0)
        2500.0
    """
    down = np.maximum(within(weight, "weight in N", low=0.0) - within(lift, "lift in N", low=0.0), 0.0)
    held: Newton = within(friction, "friction", low=0.0) * down + within(ties, "pull of the ties in N", low=0.0)
    return held
