"""Earth that stands against a wall: how hard it pushes, with what stands on it and with water in it."""

from __future__ import annotations

import math

import numpy as np

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.formulas.walls import GRAVITY
from pinfold.units import KgPerCubicMeter, Meter, NewtonPerMeter, Pascal, Radian, Ratio

_WATER: KgPerCubicMeter = 1000.0
_STEEPEST: Radian = math.radians(50)


def active_pressure_by_rankine(*, friction_angle: Radian, slope: Radian) -> Ratio:
    """Share of the earth's weight that pushes on a smooth wall: K = cos β (cos β − r) / (cos β + r).

    r = √(cos² β − cos² φ). The wall is upright and gives way a little, as a free wall does; the push is parallel to the
    surface. Level ground gives (1 − sin φ) / (1 + sin φ).

    Args:
        friction_angle: φ, of the earth, drained, without cohesion [rad]
        slope: β, of its surface, rising away from the wall [rad]

    Returns:
        K, coefficient of active earth pressure [-]

    Raises:
        OutOfRangeError: φ outside 0 to 50 degrees, or the surface steeper than φ: it would slide by itself.

    Range:
        0 < φ ≤ 50°, 0 ≤ β ≤ φ; refused outside.

    Source:
        RANKINE, sloping surface (read)

    Example:
        >>> active_pressure_by_rankine(friction_angle=math.radians(30.0), slope=0.0)
        0.33333
    """
    _angles(friction_angle, slope)
    across = np.cos(slope)
    root = np.sqrt(np.maximum(across**2 - np.cos(friction_angle) ** 2, 0.0))
    pushed: Ratio = across * (across - root) / (across + root)
    return pushed


def active_pressure_by_coulomb(*, friction_angle: Radian, wall_friction: Radian, slope: Radian) -> Ratio:
    """Share of the earth's weight that pushes on a rough upright wall: K = cos² φ / (cos δ (1 + r)²).

    r = √(sin(φ + δ) sin(φ − β) / (cos δ cos β)). A wedge that slides on a plane; the push leans downward by δ.

    Args:
        friction_angle: φ, of the earth, drained, without cohesion [rad]
        wall_friction: δ, angle at which the earth hangs on the wall, 0 for a smooth one [rad]
        slope: β, of the surface, rising away from the wall [rad]

    Returns:
        K, coefficient of active earth pressure [-]

    Raises:
        OutOfRangeError: φ outside 0 to 50 degrees, δ or β below 0 or above φ.

    Range:
        0 < φ ≤ 50°, 0 ≤ δ ≤ φ, 0 ≤ β ≤ φ; refused outside.

    Source:
        COULOMB, upright back (read)

    Notes:
        With level ground and a smooth wall it is Rankine's. With a sloping surface and δ = β as well.

    Example:
        >>> active_pressure_by_coulomb(friction_angle=math.radians(30.0), wall_friction=0.0, slope=0.0)
        0.33333
    """
    _angles(friction_angle, slope)
    within(wall_friction, "friction on the wall in rad", low=0.0)
    if not bool(np.all(np.asarray(wall_friction) <= np.asarray(friction_angle) + 1e-12)):
        raise OutOfRangeError("the friction on the wall is more than the earth's own")
    rough = np.cos(wall_friction)
    inner = np.sin(friction_angle + wall_friction) * np.maximum(np.sin(friction_angle - slope), 0.0)
    pushed: Ratio = np.cos(friction_angle) ** 2 / (rough * (1 + np.sqrt(inner / (rough * np.cos(slope)))) ** 2)
    return pushed


def passive_pressure_by_rankine(*, friction_angle: Radian) -> Ratio:
    """Share of the earth's weight that holds against being pushed aside: K = (1 + sin φ) / (1 − sin φ).

    Args:
        friction_angle: φ, of the earth in front, its surface level [rad]

    Returns:
        K, coefficient of passive earth pressure [-]

    Raises:
        OutOfRangeError: φ outside 0 to 50 degrees.

    Range:
        0 < φ ≤ 50°, refused outside. The wall must move a good deal before all of it acts: half is counted by habit.

    Source:
        RANKINE, level surface (read)

    Example:
        >>> passive_pressure_by_rankine(friction_angle=math.radians(30.0))
        3.0
    """
    _angles(friction_angle, 0.0)
    held: Ratio = (1 + np.sin(friction_angle)) / (1 - np.sin(friction_angle))
    return held


def earth_thrust(*, coefficient: Ratio, density: KgPerCubicMeter, height: Meter) -> NewtonPerMeter:
    """Push of earth on a length of wall: P = K ρ g H² / 2, a third of the height up.

    Args:
        coefficient: K, of earth pressure [-]
        density: ρ, of the earth in place; less the water's where it is soaked [kg/m3]
        height: H, of the earth above the level asked for [m]

    Returns:
        P, thrust per length of wall [N/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below.

    Source:
        RANKINE, pressure in a straight line with depth (read)

    Example:
        >>> earth_thrust(coefficient=0.5, density=2000.0, height=1.0)
        4903.325
    """
    within(density, "density in kg/m3", low=0.0)
    return within(coefficient, "coefficient of earth pressure", low=0.0) * density * GRAVITY * _up(height) ** 2 / 2


def surcharge_thrust(*, coefficient: Ratio, surcharge: Pascal, height: Meter) -> NewtonPerMeter:
    """Push of what stands on the earth: P = K q H, half the height up.

    Args:
        coefficient: K, of earth pressure [-]
        surcharge: q, even load on the surface [Pa]
        height: H, of the earth above the level asked for [m]

    Returns:
        P, thrust per length of wall [N/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0, refused below. An even load that reaches far back; a wheel or post near the wall presses otherwise.

    Source:
        RANKINE, even load on the surface (read)

    Example:
        >>> surcharge_thrust(coefficient=0.5, surcharge=5000.0, height=1.0)
        2500.0
    """
    within(surcharge, "surcharge in Pa", low=0.0)
    return within(coefficient, "coefficient of earth pressure", low=0.0) * surcharge * _up(height)


def water_thrust(*, height: Meter) -> NewtonPerMeter:
    """Push of water that stands behind a wall: P = ρw g H² / 2, a third of the height up.

    Args:
        height: H, of the water above the level asked for [m]

    Returns:
        P, thrust per length of wall [N/m]

    Raises:
        OutOfRangeError: the height is below 0.

    Range:
        H ≥ 0, refused below. Still water of 1000 kg/m3, none in front.

    Source:
        STATICS (derived)

    Example:
        >>> water_thrust(height=1.0)
        4903.325
    """
    return _WATER * GRAVITY * _up(height) ** 2 / 2


def soaked_density(*, density: KgPerCubicMeter) -> KgPerCubicMeter:
    """What earth under water still weighs by itself: ρ' = ρ − ρw.

    Args:
        density: ρ, of the soaked earth [kg/m3]

    Returns:
        ρ', density less the water's [kg/m3]

    Raises:
        OutOfRangeError: the density is not above the water's.

    Range:
        ρ > 1000 kg/m3, refused otherwise: such earth floats.

    Source:
        STATICS (derived)

    Example:
        >>> soaked_density(density=1900.0)
        900.0
    """
    return within(density, "density of the soaked earth in kg/m3", above=_WATER) - _WATER


def level_part(*, thrust: NewtonPerMeter, lean: Radian) -> NewtonPerMeter:
    """Level part of a push that leans: Ph = P cos α.

    Args:
        thrust: P, per length of wall [N/m]
        lean: α, from level: the surface's slope (Rankine) or the friction on the wall (Coulomb) [rad]

    Returns:
        Ph, per length of wall [N/m]

    Raises:
        OutOfRangeError: the thrust is below 0 or the lean outside 0 to 50 degrees.

    Range:
        P ≥ 0, 0 ≤ α ≤ 50°; refused outside. The part that presses down is left out here: it would help.

    Source:
        STATICS (derived)

    Example:
        >>> level_part(thrust=1000.0, lean=0.0)
        1000.0
    """
    level: NewtonPerMeter = within(thrust, "thrust in N/m", low=0.0) * np.cos(_leans(lean))
    return level


def _angles(friction_angle: Radian, slope: Radian) -> None:
    within(friction_angle, "friction angle in rad", above=0.0, high=_STEEPEST)
    within(slope, "slope in rad", low=0.0)
    if not bool(np.all(np.asarray(slope) <= np.asarray(friction_angle) + 1e-12)):
        raise OutOfRangeError("the surface is steeper than the earth's friction angle: it slides by itself")


def _leans(lean: Radian) -> Radian:
    return within(lean, "lean in rad", low=0.0, high=_STEEPEST)


def _up(height: Meter) -> Meter:
    return within(height, "height in m", low=0.0)
