"""People and beasts that push: how hard, and along how much of a wall it spreads."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.formulas.walls import GRAVITY
from pinfold.units import Kilogram, Meter, Newton, NewtonMeter, NewtonPerMeter, Ratio


def foothold_push(*, mass: Kilogram, grip: Ratio) -> Newton:
    """Hardest steady push of someone on their feet, past which the feet slide: P = μ m g.

    Args:
        mass: m, of the person or beast [kg]
        grip: μ, level push over weight that the feet hold [-]

    Returns:
        P, level push [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        m, μ ≥ 0; refused below. A steady push: a charge, a fall or a kick is a blow and is not in it.

    Source:
        STATICS, standard gravity 9.80665 m/s2 (derived)

    Example:
        >>> foothold_push(mass=600.0, grip=0.5)
        2942.0
    """
    return within(grip, "grip of the feet", low=0.0) * within(mass, "mass in kg", low=0.0) * GRAVITY


def spread_push(*, force: Newton, arm: Meter, length: Meter) -> NewtonPerMeter:
    """Level load per length of wall of a push at one point, spread down at 45° to one side: q = P / min(L, a).

    The push stands at the end of a panel between joints, which is the worst place; the panel is taken as stiff.

    Args:
        force: P, level push [N]
        arm: a, height of the push above the level of interest [m]
        length: L, of the panel, from joint to joint [m]

    Returns:
        q, load per length at the level of interest [N/m]

    Raises:
        OutOfRangeError: the force is below 0, or a length not above 0.

    Range:
        P ≥ 0; a, L > 0; refused outside.

    Source:
        PRACTICE, a spread of 45° (practice)
        STATICS (derived)

    Notes:
        While the panel is longer than the push is high, the moment per length is the push itself, whatever its height.

    Example:
        >>> spread_push(force=900.0, arm=1.5, length=6.0)
        600.0
    """
    along: Meter = np.minimum(within(length, "length of the panel in m", above=0.0), within(arm, "arm in m", above=0.0))
    return within(force, "push in N", low=0.0) / along


def post_push(*, line_load: NewtonPerMeter, share: Meter) -> Newton:
    """What a push along the top of a fence brings to one post: P = q s.

    Args:
        line_load: q, level load per length of fence [N/m]
        share: s, length of fence that hangs on the post [m]

    Returns:
        P, level push on the post [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        q, s ≥ 0; refused below. The rail or mesh must carry it to the posts.

    Source:
        STATICS (derived)

    Example:
        >>> post_push(line_load=500.0, share=2.4)
        1200.0
    """
    return within(line_load, "load in N/m", low=0.0) * within(share, "share of the post in m", low=0.0)


def push_moment(*, force: Newton, arm: Meter) -> NewtonMeter:
    """Moment of a push on a post where the post is held: M = P a.

    Args:
        force: P, level push [N]
        arm: a, height of the push above where the post is held [m]

    Returns:
        M [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        P, a ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> push_moment(force=890.0, arm=1.0)
        890.0
    """
    return within(force, "push in N", low=0.0) * within(arm, "arm in m", low=0.0)


def rail_share(*, height: Meter, rail: Meter, other: Meter) -> Ratio:
    """Share of a push between two rails that one of them takes, as the levers have it: k = (h − o) / (r − o).

    Args:
        height: h, of the push [m]
        rail: r, height of the rail asked about [m]
        other: o, height of the other one, or of the wall that holds the mesh's foot [m]

    Returns:
        k, 0 to 1 [-]

    Raises:
        OutOfRangeError: the push is not between them, or both are at one height.

    Range:
        h between r and o, r ≠ o; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> rail_share(height=1.0, rail=1.25, other=0.25)
        0.75
    """
    apart = within(abs(rail - other), "distance of the rails in m", above=0.0)
    from_other = (height - other) if rail > other else (other - height)
    return within(from_other / apart, "push over the distance of the rails", low=0.0, high=1.0)


def rail_push_moment(*, force: Newton, span: Meter) -> NewtonMeter:
    """Moment of a push in the middle of a rail between two posts: M = P L / 4.

    Args:
        force: P, level push on the rail [N]
        span: L, between posts [m]

    Returns:
        M, at the middle of the span [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        P, L ≥ 0; refused below. Jointed on the posts: a rail that runs through over many posts bends less.

    Source:
        STATICS (derived)

    Example:
        >>> rail_push_moment(force=890.0, span=2.0)
        445.0
    """
    return within(force, "push in N", low=0.0) * within(span, "span in m", low=0.0) / 4
