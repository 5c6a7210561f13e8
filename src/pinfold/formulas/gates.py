"""A gate on two hinges: the couple at the hinges, the pull on its post and the force in its brace."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Radian


def post_moment(*, weight: Newton, reach: Meter) -> NewtonMeter:
    """Moment that a hanging leaf puts on its post: M = W x.

    Args:
        weight: W, weight of the leaf with everything on it [N]
        reach: x, level distance from the post's axis to the leaf's center of gravity [m]

    Returns:
        M, moment on the post, in the plane of the leaf [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        W ≥ 0, x ≥ 0; refused below. Slamming and people riding the gate add to it.

    Source:
        STATICS (derived)

    Example:
        >>> post_moment(weight=300.0, reach=0.9)
        270.0
    """
    return within(weight, "weight of the leaf in N", low=0.0) * within(reach, "reach in m", low=0.0)


def hinge_couple(*, weight: Newton, reach: Meter, spacing: Meter) -> Newton:
    """Level force at each of two hinges: H = W x / s.

    The upper hinge is pulled out of the post, the lower one pushed in, both by H.

    Args:
        weight: W, weight of the leaf [N]
        reach: x, level distance from the hinge line to the center of gravity, half the width of an even leaf [m]
        spacing: s, height between the hinges [m]

    Returns:
        H, level force at each hinge [N]

    Raises:
        OutOfRangeError: weight or reach is below 0, or the hinges are not apart.

    Range:
        W, x ≥ 0, s > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> hinge_couple(weight=300.0, reach=0.9, spacing=1.2)
        225.0
    """
    return post_moment(weight=weight, reach=reach) / within(spacing, "height between hinges in m", above=0.0)


def hinge_force(*, couple: Newton, vertical: Newton) -> Newton:
    """Whole force on a hinge: R = √(H² + V²).

    Args:
        couple: H, level force at the hinge [N]
        vertical: V, weight that this hinge carries; either may carry all of it, so count all on each [N]

    Returns:
        R, force on the hinge [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        H, V ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> hinge_force(couple=225.0, vertical=300.0)
        375.0
    """
    return math.hypot(within(couple, "level force in N", low=0.0), within(vertical, "weight in N", low=0.0))


def brace_force(*, load: Newton, width: Meter, height: Meter) -> Newton:
    """Force along the diagonal that keeps a pin-jointed leaf square: N = P √(w² + h²) / h.

    A strut runs from the lower hinge corner to the upper latch corner and is pressed; a cable runs from the upper
    hinge corner to the lower latch corner and is pulled. Both carry the same force.

    Args:
        load: P, weight hanging at the latch side, half of an even leaf [N]
        width: w, level length of the diagonal [m]
        height: h, height of the diagonal [m]

    Returns:
        N, pressure in the strut or pull in the cable [N]

    Raises:
        OutOfRangeError: the load or the width is below 0, or the height not above 0.

    Range:
        P, w ≥ 0, h > 0; refused outside. The corner joints are taken as hinges: the diagonal does all the work.

    Source:
        STATICS (derived)
        GATE-PAGES, which corner each kind of brace starts from (read)

    Example:
        >>> brace_force(load=150.0, width=1.6, height=1.2)
        250.0
    """
    within(width, "width of the brace in m", low=0.0)
    rise = within(height, "height of the brace in m", above=0.0)
    return within(load, "load in N", low=0.0) * math.hypot(width, rise) / rise


def brace_angle(*, width: Meter, height: Meter) -> Radian:
    """Angle of the brace above level: θ = atan(h / w).

    Args:
        width: w, level length of the diagonal [m]
        height: h, height of the diagonal [m]

    Returns:
        θ, angle above level [rad]

    Raises:
        OutOfRangeError: either length is not above 0.

    Range:
        w, h > 0; refused otherwise. Under about 30 degrees a brace does little.

    Source:
        STATICS (derived)
        PRACTICE, the 30 degrees (practice)

    Example:
        >>> brace_angle(width=1.2, height=1.2)
        0.785
    """
    return math.atan2(within(height, "height in m", above=0.0), within(width, "width in m", above=0.0))


def stayed_push(*, weight: Newton, reach: Meter, spacing: Meter, pull: Newton, arm: Meter, slope: Radian) -> Newton:
    """Level force at the lower hinge of a leaf that a stay wire helps to hold: H = (W x − T a sin α) / s.

    The wire rises from the leaf at the height of its upper hinge to the post above. Moments about the upper hinge.

    Args:
        weight: W, weight of the leaf [N]
        reach: x, level distance from the hinge line to its center of gravity [m]
        spacing: s, height between the hinges [m]
        pull: T, in the wire [N]
        arm: a, level distance from the hinge line to where the wire holds the leaf [m]
        slope: α, of the wire above level [rad]

    Returns:
        H, pushed in where above 0, pulled out where below [N]

    Raises:
        OutOfRangeError: a force or a length is below 0, the hinges not apart, or the slope not 0 to 90°.

    Range:
        W, x, T, a ≥ 0, s > 0, 0 ≤ α ≤ 90°; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> stayed_push(weight=500.0, reach=2.0, spacing=2.0, pull=268.0, arm=4.0, slope=0.5236)
        232.0
    """
    height = within(spacing, "height between hinges in m", above=0.0)
    rising = math.sin(within(slope, "slope in rad", low=0.0, high=math.pi / 2))
    lifted = within(pull, "pull in N", low=0.0) * within(arm, "arm in m", low=0.0) * rising
    return (post_moment(weight=weight, reach=reach) - lifted) / height


def stay_pull(*, weight: Newton, reach: Meter, spacing: Meter, arm: Meter, slope: Radian) -> Newton:
    """Pull in a stay wire that takes all level force off the upper hinge: T = W x / (a sin α + s cos α).

    Args:
        weight: W, weight of the leaf [N]
        reach: x, level distance from the hinge line to its center of gravity [m]
        spacing: s, height between the hinges [m]
        arm: a, level distance from the hinge line to where the wire holds the leaf, at the upper hinge's height [m]
        slope: α, of the wire above level [rad]

    Returns:
        T [N]

    Raises:
        OutOfRangeError: the weight or the reach is below 0, a length not above 0, or the slope not 0 to 90°.

    Range:
        W, x ≥ 0, s, a > 0, 0 ≤ α ≤ 90°; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> stay_pull(weight=500.0, reach=2.0, spacing=2.0, arm=4.0, slope=0.5236)
        267.9
    """
    angle = within(slope, "slope in rad", low=0.0, high=math.pi / 2)
    turning = within(arm, "arm in m", above=0.0) * math.sin(angle)
    turning += within(spacing, "height between hinges in m", above=0.0) * math.cos(angle)
    return post_moment(weight=weight, reach=reach) / turning


def latch_drop(*, change: Meter, width: Meter, height: Meter) -> Meter:
    """How far the latch side sinks where the diagonal gives: δ = ΔL √(w² + h²) / h.

    Args:
        change: ΔL, strut shorter or wire longer by so much [m]
        width: w, level length of the diagonal [m]
        height: h, height of the diagonal [m]

    Returns:
        δ [m]

    Raises:
        OutOfRangeError: the change or the width is below 0, or the height not above 0.

    Range:
        ΔL, w ≥ 0, h > 0; refused outside. Small against the leaf; stiles and rails keep their lengths.

    Source:
        STATICS, from L² = w² + h² (derived)

    Example:
        >>> latch_drop(change=0.003, width=1.6, height=1.2)
        0.005
    """
    rise = within(height, "height of the brace in m", above=0.0)
    level = within(width, "width of the brace in m", low=0.0)
    return within(change, "change of the diagonal in m", low=0.0) * math.hypot(level, rise) / rise


def take_up(*, drop: Meter, width: Meter, height: Meter) -> Meter:
    """How much a turnbuckle must take up to lift the latch side again: ΔL = δ h / √(w² + h²).

    Args:
        drop: δ, by which the latch side sank [m]
        width: w, level length of the wire [m]
        height: h, height of the wire [m]

    Returns:
        ΔL [m]

    Raises:
        OutOfRangeError: the drop or the width is below 0, or the height not above 0.

    Range:
        δ, w ≥ 0, h > 0; refused outside. Small against the leaf.

    Source:
        STATICS, from L² = w² + h² (derived)

    Example:
        >>> take_up(drop=0.005, width=1.6, height=1.2)
        0.003
    """
    rise = within(height, "height of the wire in m", above=0.0)
    level = within(width, "width of the wire in m", low=0.0)
    return within(drop, "drop in m", low=0.0) * rise / math.hypot(level, rise)


def diagonal_gap(*, drop: Meter, width: Meter, height: Meter) -> Meter:
    """By how much the two diagonals of a leaf differ once its latch side has sunk: √(w² + (h + δ)²) − √(w² + (h − δ)²).

    Args:
        drop: δ, by which the latch side sank [m]
        width: w, of the leaf [m]
        height: h, of the leaf [m]

    Returns:
        the longer less the shorter [m]

    Raises:
        OutOfRangeError: the drop is below 0, or width or height not above 0.

    Range:
        δ ≥ 0, w, h > 0; refused outside. Stiles and rails keep their lengths nearly.

    Source:
        STATICS, Pythagoras (derived)

    Example:
        >>> diagonal_gap(drop=0.01, width=1.2, height=0.9)
        0.012
    """
    level, rise = within(width, "width in m", above=0.0), within(height, "height in m", above=0.0)
    sunk = within(drop, "drop in m", low=0.0)
    return math.hypot(level, rise + sunk) - math.hypot(level, rise - sunk)


def skin_screw_force(*, load: Newton, height: Meter, spacing: Meter) -> Newton:
    """Side load on each screw at the edge of a sheet that keeps a leaf square: V = P s / h.

    The sheet carries the weight at the latch side as shear, evenly along all four edges.

    Args:
        load: P, weight hanging at the latch side, half of an even leaf [N]
        height: h, of the sheet [m]
        spacing: s, from screw to screw [m]

    Returns:
        V [N]

    Raises:
        OutOfRangeError: the load is below 0, or a length not above 0.

    Range:
        P ≥ 0, h, s > 0; refused outside. The sheet must not buckle, and needs screws along every edge.

    Source:
        STATICS, even shear flow (derived)

    Example:
        >>> skin_screw_force(load=150.0, height=1.2, spacing=0.3)
        37.5
    """
    flow = within(load, "load in N", low=0.0) / within(height, "height of the sheet in m", above=0.0)
    return flow * within(spacing, "spacing of screws in m", above=0.0)
