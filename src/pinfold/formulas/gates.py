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
