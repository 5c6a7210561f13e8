"""Bars in masonry and concrete: area, mass, laps, and the force of held-back warmth."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    KgPerCubicMeter,
    KgPerMeter,
    Meter,
    Newton,
    Pascal,
    Ratio,
    SquareMeter,
    SquareMeterPerMeter,
)

_INCH = 0.0254
_PSI = 0.45359237 * 9.80665 / _INCH**2
TWELVE_INCHES = 12 * _INCH
SIX_INCHES = 6 * _INCH


def bar_area(*, diameter: Meter) -> SquareMeter:
    """Area of a round bar: A = π d² / 4.

    Args:
        diameter: d, nominal diameter [m]

    Returns:
        A, area [m2]

    Raises:
        OutOfRangeError: the diameter is not above 0.

    Range:
        d > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> bar_area(diameter=0.012)
        0.0001131
    """
    return math.pi * within(diameter, "diameter in m", above=0.0) ** 2 / 4


def bar_mass(*, area: SquareMeter, density: KgPerCubicMeter) -> KgPerMeter:
    """Mass of a bar per length: m = ρ A.

    Args:
        area: A, nominal area [m2]
        density: ρ, density of steel, 7850 kg/m3 or 490 lb/ft3 [kg/m3]

    Returns:
        m, mass per length [kg/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        A, ρ ≥ 0; refused below.

    Source:
        STATICS (derived)
        BAR-TABLE, which it meets to 0.2 % from the nominal diameter (read)

    Example:
        >>> bar_mass(area=0.0001, density=7850.0)
        0.785
    """
    return within(area, "area in m2", low=0.0) * within(density, "density in kg/m3", low=0.0)


def steel_per_length(*, area: SquareMeter, spacing: Meter) -> SquareMeterPerMeter:
    """Area of evenly spaced bars per length of wall: a = A / s.

    Args:
        area: A, area of one bar [m2]
        spacing: s, distance from bar to bar [m]

    Returns:
        a, area per length [m2/m]

    Raises:
        OutOfRangeError: the area is below 0 or the spacing not above 0.

    Range:
        A ≥ 0, s > 0; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> steel_per_length(area=0.0001, spacing=0.4)
        0.00025
    """
    return within(area, "area in m2", low=0.0) / within(spacing, "spacing in m", above=0.0)


def lap_by_allowable_stress(*, diameter: Meter, stress: Pascal) -> Meter:
    """Lap of bars in tension in masonry by allowable stress: l = 0.002 d fs, not under 12 in.

    Args:
        diameter: d, bar diameter [m]
        stress: fs, stress the bar is worked at, 24 ksi for usual bars; put in psi, so 0.002 stands per psi [Pa]

    Returns:
        l, length of the lap [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        d, fs > 0; refused otherwise. Uncoated bars, not bundled.

    Source:
        MASONRY-LAP-ARTICLE, 48 d at 24 ksi (read)
        MSJC-05, the least lap of 12 in (memory)

    Example:
        >>> lap_by_allowable_stress(diameter=0.0127, stress=165474000.0)
        0.6096
    """
    within(diameter, "bar diameter in m", above=0.0)
    return max(0.002 * diameter * within(stress, "steel stress in Pa", above=0.0) / _PSI, TWELVE_INCHES)


def lap_clear(*, diameter: Meter, cover: Meter, spacing: Meter) -> Meter:
    """Masonry around a lapped bar that counts in the 2005 lap equation: K = least of cover, spacing and 5 d.

    Args:
        diameter: d, bar diameter [m]
        cover: least masonry cover of the bar [m]
        spacing: clear distance to the next bar or lap [m]

    Returns:
        K [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        all > 0, refused otherwise.

    Source:
        MSJC-05, cap of 5 d; the 2016 edition caps at 9 d (read)

    Example:
        >>> lap_clear(diameter=0.0127, cover=0.09, spacing=0.4)
        0.0635
    """
    within(cover, "cover in m", above=0.0)
    within(spacing, "clear spacing in m", above=0.0)
    return min(cover, spacing, 5 * within(diameter, "bar diameter in m", above=0.0))


def lap_by_msjc05(
    *, diameter: Meter, clear: Meter, yield_stress: Pascal, masonry_strength: Pascal, size_factor: Ratio
) -> Meter:
    """Lap of bars in tension in masonry by the 2005 equation: l = 0.13 d² fy γ / (K √f'm), not under 12 in.

    Args:
        diameter: d, bar diameter [m]
        clear: K, from lap_clear [m]
        yield_stress: fy, yield stress of the bar; put in psi [Pa]
        masonry_strength: f'm, strength of the masonry; put in psi [Pa]
        size_factor: γ, 1.0 for #3 to #5, 1.3 for #6 and #7, 1.5 from #8; sources disagree on 1.3, see Notes [-]

    Returns:
        l, length of the lap [m]

    Raises:
        OutOfRangeError: an argument is not above 0, or γ is below 1.

    Range:
        all > 0 and γ ≥ 1, refused otherwise.

    Source:
        MSJC-05, equation with K, fy and f'm (read)
        MSJC-05, the factors 1.0, 1.3 and 1.5 by bar size and the least lap of 12 in (memory)

    Notes:
        1.3 for #6 and #7 is what the printed table of laps comes out with; another source prints 1.4 for the same
        bars, which gives 8 % more. The building code IBC 2107.2 replaces the equation altogether: 48 d at 24 ksi.

    Example:
        >>> lap_by_msjc05(
        ...     diameter=0.0254, clear=0.127, yield_stress=413685000.0, masonry_strength=10342100.0, size_factor=1.5
        ... )
        1.5346
    """
    within(clear, "masonry around the bar in m", above=0.0)
    strength = within(masonry_strength, "strength of the masonry in Pa", above=0.0) / _PSI
    stress = within(yield_stress, "yield stress in Pa", above=0.0) / _PSI
    bar = within(diameter, "bar diameter in m", above=0.0)
    factor = within(size_factor, "factor by bar size", low=1.0)
    return max(0.13 * bar**2 * stress * factor / (clear * math.sqrt(strength)), TWELVE_INCHES)


def lap_in_compression(*, diameter: Meter, shortest: Meter = TWELVE_INCHES) -> Meter:
    """Lap of bars that are pressed: l = 30 d, not under 12 in.

    Args:
        diameter: d, bar diameter [m]
        shortest: least lap, 12 in unless the code says otherwise [m]

    Returns:
        l, length of the lap [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        d, shortest > 0; refused otherwise.

    Source:
        COMPRESSION-LAP-TABLE (read)

    Notes:
        The printed table rounds #7 down to 26 in although 30 d is 26.25 in; nothing is rounded here.

    Example:
        >>> lap_in_compression(diameter=0.016)
        0.48
    """
    return max(30 * within(diameter, "bar diameter in m", above=0.0), within(shortest, "least lap in m", above=0.0))


def hook_length(*, diameter: Meter, stress: Pascal, concrete_strength: Pascal, cover_factor: Ratio) -> Meter:
    """Depth in which a bar with a standard hook is held in concrete: l = 0.02 ψ fs d / √f'c, not under 8 d nor 6 in.

    Args:
        diameter: d, bar diameter [m]
        stress: fs, stress the hook must hold, the yield stress or the share of it that is used; put in psi [Pa]
        concrete_strength: f'c, strength of the concrete; put in psi [Pa]
        cover_factor: ψ, 0.7 with 2 1/2 in of concrete beside the hook and 2 in beyond its end, else 1.0 [-]

    Returns:
        l, from where the bar enters the concrete to the outside of its hook [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        all > 0, refused otherwise. Uncoated bars up to #11 in concrete of normal weight.

    Source:
        ACI-318, section 25.4.3.1 of the 2014 edition, and 25.4.10 for the share that is used (memory)

    Notes:
        The root of f'c comes in psi, so that 0.02 carries a unit. The 2019 edition has another equation.

    Example:
        >>> hook_length(
        ...     diameter=0.0127, stress=413685000.0, concrete_strength=17236900.0, cover_factor=1.0
        ... )
        0.3048
    """
    bar = within(diameter, "bar diameter in m", above=0.0)
    worked = within(stress, "steel stress in Pa", above=0.0) / _PSI
    strength = within(concrete_strength, "strength of the concrete in Pa", above=0.0) / _PSI
    needed = 0.02 * within(cover_factor, "cover factor", above=0.0) * worked * bar / math.sqrt(strength)
    return max(needed, 8 * bar, SIX_INCHES)


def thermal_force(*, modulus: Pascal, area: SquareMeter, expansion: Ratio, change_c: Celsius) -> Newton:
    """Force in a straight bar or wire whose ends are held while it warms or cools: N = E A α ΔT.

    Args:
        modulus: E, modulus of elasticity, about 200 GPa for steel [Pa]
        area: A, area of the bar or wire [m2]
        expansion: α, expansion per °C, about 0.000012 for steel [-]
        change_c: ΔT, change of temperature; falling is below 0 [°C]

    Returns:
        N, pressing force; below 0 it pulls [N]

    Raises:
        OutOfRangeError: modulus, area or expansion is below 0.

    Range:
        E, A, α ≥ 0; refused below. Elastic, nothing gives at the ends.

    Source:
        STATICS (derived)

    Example:
        >>> thermal_force(modulus=200e9, area=5e-6, expansion=12e-6, change_c=-30.0)
        -360.0
    """
    stiffness = within(modulus, "modulus in Pa", low=0.0) * within(area, "area in m2", low=0.0)
    return stiffness * within(expansion, "expansion per °C", low=0.0) * change_c
