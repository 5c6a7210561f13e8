"""Walls while they are green: no tension anywhere, held by their own weight alone, or by braces."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterPerSecond, NewtonPerMeter, Pascal, Ratio


def season_speed(*, speed: MeterPerSecond, share: Ratio) -> MeterPerSecond:
    """Wind to reckon with while building: v = s V.

    Args:
        speed: V, the speed the finished wall is reckoned with [m/s]
        share: s, share of it for so short a time [-]

    Returns:
        v, speed while building [m/s]

    Raises:
        OutOfRangeError: the speed is below 0, or the share below 0 or above 1.

    Range:
        V ≥ 0, 0 ≤ s ≤ 1; refused outside.

    Source:
        ASCE-37, factors of 0.75 to 1 by the length of the work (memory)
        EN1991-1-4, eq. 4.2, with the return periods of EN 1991-1-6 (memory)

    Example:
        >>> season_speed(speed=40.0, share=0.75)
        30.0
    """
    return within(speed, "wind speed in m/s", low=0.0) * within(share, "share of the speed", low=0.0, high=1.0)


def unbraced_height(*, weight: Pascal, thickness: Meter, pressure: Pascal, arm_share: Ratio, safety: Ratio) -> Meter:
    """Height to which a wall stands in the wind by its weight alone: h = w t / (2 a p s).

    Moments about the toe of the lowest bed: s p h (a h) = w h t / 2. Nothing is bonded and nothing is braced.

    Args:
        weight: w, weight of the wall per area of its face [Pa]
        thickness: t, thickness of the lowest bed [m]
        pressure: p, net wind pressure on the face [Pa]
        arm_share: a, height of the wind's resultant as a share of h [-]
        safety: s, weight's moment wanted over the wind's [-]

    Returns:
        h, height at which the balance is just the one wanted [m]

    Raises:
        OutOfRangeError: weight or thickness below 0, or another not above 0.

    Range:
        w, t ≥ 0; p, a, s > 0; refused outside. The ground yields under a toe: keep the safety well over 1.

    Source:
        STATICS (derived)
        BRICK-WALL-RULE, p. 305, whose h = 0.75 t² in inches it is for 10 psf, 120 lb/ft3 and a safety of 4/3 (read)

    Example:
        >>> unbraced_height(weight=3000.0, thickness=0.2, pressure=200.0, arm_share=0.5, safety=1.5)
        2.0
    """
    within(weight, "weight per face in Pa", low=0.0)
    within(thickness, "thickness in m", low=0.0)
    turned = 2 * within(arm_share, "height of the resultant as a share of the wall", above=0.0, high=1.0)
    turned *= within(pressure, "wind pressure in Pa", above=0.0) * within(safety, "safety", above=0.0)
    return weight * thickness / turned


def standing_speed(*, speed: MeterPerSecond, unbraced: Meter, height: Meter) -> MeterPerSecond:
    """Wind up to which a wall of some height stands by its weight alone: v = V √(h0 / h).

    Args:
        speed: V, the wind it was reckoned with [m/s]
        unbraced: h0, height that stands by itself in that wind [m]
        height: h, of the wall [m]

    Returns:
        v, wind of the same kind in which just this height stands [m/s]

    Raises:
        OutOfRangeError: speed or unbraced height below 0, or the height not above 0.

    Range:
        V, h0 ≥ 0, h > 0; refused outside. The pressure goes with the square of the wind.

    Source:
        STATICS (derived)

    Example:
        >>> standing_speed(speed=20.0, unbraced=0.5, height=2.0)
        10.0
    """
    within(speed, "wind speed in m/s", low=0.0)
    share = within(unbraced, "unbraced height in m", low=0.0) / within(height, "height in m", above=0.0)
    return speed * math.sqrt(share)


def brace_reaction(*, pressure: Pascal, height: Meter, arm_share: Ratio, brace_height: Meter) -> NewtonPerMeter:
    """Level force that braces must take along a wall that only stands on its bed: R = p h (a h) / y.

    Args:
        pressure: p, net wind pressure on the face [Pa]
        height: h, height of the wall [m]
        arm_share: a, height of the wind's resultant as a share of h [-]
        brace_height: y, height at which the braces hold the wall [m]

    Returns:
        R, level force per length of wall, on one side or the other [N/m]

    Raises:
        OutOfRangeError: pressure or height below 0, or the braces not above the bed or above the top.

    Range:
        p, h ≥ 0; 0 < y ≤ h; refused outside. The wall's own weight is not counted.

    Source:
        STATICS (derived)

    Example:
        >>> brace_reaction(pressure=400.0, height=2.0, arm_share=0.5, brace_height=1.0)
        800.0
    """
    within(height, "height in m", low=0.0)
    within(brace_height, "height of the braces in m", above=0.0, high=height)
    moment = (
        within(pressure, "wind pressure in Pa", low=0.0) * height * within(arm_share, "arm", low=0.0, high=1.0) * height
    )
    return moment / brace_height


def keep_out_width(*, height: Meter, more: Meter) -> Meter:
    """Width of the strip along a green wall that nobody enters, all its length: b = h + c.

    Args:
        height: h, of the wall as it will be [m]
        more: c, added to it [m]

    Returns:
        b, width of the strip [m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        h, c ≥ 0; refused below.

    Source:
        OSHA-1926-706, height and 4 ft, the entire length (read)

    Example:
        >>> keep_out_width(height=2.0, more=1.2)
        3.2
    """
    return within(height, "height in m", low=0.0) + within(more, "strip beyond the height in m", low=0.0)
