"""A wall at a level above its foot: the wind that turns what stands above it, its thickness, and its pressed edge."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import Meter, NewtonMeterPerMeter, NewtonPerMeter, Pascal, Ratio


def moment_above(*, pressure: Pascal, height: Meter, arm_share: Ratio, level: Meter) -> NewtonMeterPerMeter:
    """Moment of the wind on what stands above a level: M = p (h − z) [(h − z) / 2 + (a − ½) h].

    Args:
        pressure: p, net wind pressure on the face, force coefficient included [Pa]
        height: h, height of the face above ground [m]
        arm_share: a, height of the resultant on the whole face as a share of h, ½ or more [-]
        level: z, of interest, above the foot of the face [m]

    Returns:
        M, moment per length of wall [N m/m]

    Raises:
        OutOfRangeError: a pressure or level below 0, a level above the top, or a resultant outside ½ to 1.

    Range:
        p ≥ 0, 0 ≤ z ≤ h, ½ ≤ a ≤ 1; refused outside.

    Source:
        STATICS, even pressure, the resultant of the part lifted as much as that of the whole (derived)

    Notes:
        The standard that lifts the resultant does not say how the pressure is spread. With a straight-line spread that
        gives the same resultant the moment differs by less than 2 % of that at the foot.

    Example:
        >>> moment_above(pressure=1000.0, height=1.0, arm_share=0.55, level=0.2)
        360.0
    """
    within(level, "level in m", low=0.0)
    part = within(height - level, "height above the level in m", low=0.0)
    lifted = within(arm_share, "height of the resultant as a share of the wall", low=0.5, high=1.0) - 0.5
    return within(pressure, "wind pressure in Pa", low=0.0) * part * (part / 2 + lifted * height)


def thickness_at(*, foot: Meter, top: Meter, height: Meter, level: Meter) -> Meter:
    """Thickness of a wall whose faces lean in evenly: t = t0 − (t0 − t1) z / h.

    Args:
        foot: t0, thickness at the lowest bed [m]
        top: t1, thickness at the top [m]
        height: h, from bed to top [m]
        level: z, above the bed [m]

    Returns:
        t [m]

    Raises:
        OutOfRangeError: a thickness or height not above 0, or a level outside the wall.

    Range:
        t0, t1, h > 0; 0 ≤ z ≤ h; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> thickness_at(foot=0.6, top=0.4, height=1.0, level=0.5)
        0.5
    """
    within(level, "level in m", low=0.0)
    within(height - level, "height above the level in m", low=0.0)
    lean = within(foot, "thickness at the foot in m", above=0.0) - within(top, "thickness at the top in m", above=0.0)
    return foot - lean * level / within(height, "height in m", above=0.0)


def crushing_load(*, strength: Pascal, thickness: Meter, eccentricity: Meter) -> NewtonPerMeter:
    """Load that a joint bears off its middle before its edge crushes: N = f (t − 2 e).

    Args:
        strength: f, design pressing strength of the masonry [Pa]
        thickness: t, of the wall [m]
        eccentricity: e, of the load from the middle [m]

    Returns:
        N, per length of wall; below 0 never, 0 where the load stands on the edge [N/m]

    Raises:
        OutOfRangeError: an argument below 0, or a load off the wall.

    Range:
        f ≥ 0, 0 ≤ e ≤ t / 2; refused outside. The pressed part is as wide as balances the load; the rest gapes.

    Source:
        EN-1996-1-1, 6.1.2, reduction 1 − 2 e / t (memory)
        STATICS (derived)

    Example:
        >>> crushing_load(strength=1e6, thickness=0.4, eccentricity=0.15)
        100000
    """
    within(eccentricity, "eccentricity in m", low=0.0)
    pressed = within(thickness - 2 * eccentricity, "width that is pressed in m", low=0.0)
    return within(strength, "strength in Pa", low=0.0) * pressed
