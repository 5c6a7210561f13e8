"""What acts on fence posts: wind on the mesh, strained wires, and how their arrows add up."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Pascal, Radian


def mesh_force(*, pressure: Pascal, spacing: Meter, bottom: Meter, top: Meter) -> Newton:
    """Wind that mesh brings to one post: F = p s (z2 − z1).

    Args:
        pressure: p, wind force per area of mesh, solidity and force coefficient included [Pa]
        spacing: s, length of mesh that hangs on the post [m]
        bottom: z1, lower edge of the mesh above the ground [m]
        top: z2, upper edge [m]

    Returns:
        F, level force on the post, acting at (z1 + z2) / 2 [N]

    Raises:
        OutOfRangeError: an argument is below 0 or the top lies under the bottom.

    Range:
        p, s, z1 ≥ 0, z2 ≥ z1; refused outside. Inner posts only when the mesh is even on both sides.

    Source:
        STATICS (derived)

    Example:
        >>> mesh_force(pressure=50.0, spacing=3.0, bottom=0.5, top=1.5)
        150.0
    """
    foot = within(bottom, "lower edge of the mesh in m", low=0.0)
    area = within(spacing, "spacing in m", low=0.0) * (within(top, "upper edge of the mesh in m", low=foot) - foot)
    return within(pressure, "pressure in Pa", low=0.0) * area


def mesh_moment(*, pressure: Pascal, spacing: Meter, bottom: Meter, top: Meter) -> NewtonMeter:
    """Moment at the ground of the wind that mesh brings to one post: M = p s (z2² − z1²) / 2.

    Args:
        pressure: p, wind force per area of mesh, solidity and force coefficient included [Pa]
        spacing: s, length of mesh that hangs on the post [m]
        bottom: z1, lower edge of the mesh above the ground [m]
        top: z2, upper edge [m]

    Returns:
        M, moment at the ground [N m]

    Raises:
        OutOfRangeError: an argument is below 0 or the top lies under the bottom.

    Range:
        p, s, z1 ≥ 0, z2 ≥ z1; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> mesh_moment(pressure=50.0, spacing=3.0, bottom=0.5, top=1.5)
        150.0
    """
    return mesh_force(pressure=pressure, spacing=spacing, bottom=bottom, top=top) * (bottom + top) / 2


def wire_moment(*, tension: Newton, height: Meter) -> NewtonMeter:
    """Moment of a strained wire on the post where it ends: M = T h.

    Args:
        tension: T, pull of the wire [N]
        height: h, height of the wire above the level where the post is held [m]

    Returns:
        M, moment on the post, along the fence [N m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        T, h ≥ 0; refused below. A brace to the next post takes most of it; none is counted.

    Source:
        STATICS (derived)

    Example:
        >>> wire_moment(tension=200.0, height=1.5)
        300.0
    """
    return within(tension, "pull of the wire in N", low=0.0) * within(height, "height of the wire in m", low=0.0)


def force_together(*, first: Newton, second: Newton, angle: Radian) -> Newton:
    """Two level forces on one post, added as arrows: F = √(A² + B² + 2 A B cos θ).

    Args:
        first: A [N]
        second: B [N]
        angle: θ, between the ways they pull: 0 the same way, a quarter turn square to each other [rad]

    Returns:
        F [N]

    Raises:
        OutOfRangeError: a force is below 0.

    Range:
        A, B ≥ 0; refused below.

    Source:
        STATICS, law of cosines (derived)

    Example:
        >>> force_together(first=300.0, second=400.0, angle=1.5707963)
        500.0
    """
    return _together(within(first, "force in N", low=0.0), within(second, "force in N", low=0.0), angle)


def moment_together(*, first: NewtonMeter, second: NewtonMeter, angle: Radian) -> NewtonMeter:
    """Moments of two level pulls on one post, added as arrows: M = √(A² + B² + 2 A B cos θ).

    Args:
        first: A [N m]
        second: B [N m]
        angle: θ, between the ways they pull: 0 the same way, a quarter turn square to each other [rad]

    Returns:
        M [N m]

    Raises:
        OutOfRangeError: a moment is below 0.

    Range:
        A, B ≥ 0; refused below.

    Source:
        STATICS, law of cosines (derived)

    Example:
        >>> moment_together(first=300.0, second=400.0, angle=0.0)
        700.0
    """
    return _together(within(first, "moment in N m", low=0.0), within(second, "moment in N m", low=0.0), angle)


def _together(first: float, second: float, angle: Radian) -> float:
    """By half the angle, so that opposite ones take each other away without rounding under a root."""
    return math.hypot((first + second) * math.cos(angle / 2), (first - second) * math.sin(angle / 2))
