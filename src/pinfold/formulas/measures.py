"""Measures of a site: what a bucket holds, what its filling weighs, and what a scale that is off truly means."""

from __future__ import annotations

import math

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Meter, Ratio


def cone_volume(*, height: Meter, bottom: Meter, top: Meter) -> CubicMeter:
    """What a round bucket wider at the rim holds to the brim: V = π h (D² + D d + d²) / 12.

    Args:
        height: h, inside, from bottom to rim [m]
        bottom: d, inside width at the bottom [m]
        top: D, inside width at the rim [m]

    Returns:
        V, volume to the brim [m3]

    Raises:
        OutOfRangeError: a measure is not above 0.

    Range:
        h > 0, d > 0, D > 0; refused outside. A straight bucket has D = d.

    Source:
        CONE-BUCKET (read)

    Example:
        >>> cone_volume(height=0.35, bottom=0.24, top=0.44)
        0.0327
    """
    within(height, "height of the bucket in m", above=0.0)
    within(bottom, "width at the bottom in m", above=0.0)
    within(top, "width at the rim in m", above=0.0)
    return math.pi * height * (top * top + top * bottom + bottom * bottom) / 12


def filled_share(*, height: Meter, bottom: Meter, top: Meter, below: Meter) -> Ratio:
    """Share of a round bucket that is filled when its filling ends below the rim: s = V(h − z) / V(h).

    Args:
        height: h, inside, from bottom to rim [m]
        bottom: d, inside width at the bottom [m]
        top: D, inside width at the rim [m]
        below: z, how far below the rim the filling ends [m]

    Returns:
        s, filling over what it holds to the brim [-]

    Raises:
        OutOfRangeError: a measure is not above 0, or the filling would end outside the bucket.

    Range:
        h > 0, d > 0, D > 0, 0 ≤ z < h; refused outside. Above the rim is a heap: give it as a share instead.

    Source:
        CONE-BUCKET, the volume of two cones compared (derived)

    Example:
        >>> filled_share(height=0.30, bottom=0.25, top=0.25, below=0.03)
        0.9
    """
    whole = cone_volume(height=height, bottom=bottom, top=top)
    if within(below, "how far below the rim in m", low=0.0) >= height:
        raise OutOfRangeError("the filling ends below the bucket's bottom; measure down from the rim once more")
    width = bottom + (top - bottom) * (height - below) / height
    return cone_volume(height=height - below, bottom=bottom, top=width) / whole


def volume_by_water(*, mass: Kilogram, water_density: KgPerCubicMeter) -> CubicMeter:
    """What a measure holds by the water that fills it: V = m / ρ_w.

    Args:
        mass: m, of the water, the empty measure taken off [kg]
        water_density: ρ_w, density of water [kg/m3]

    Returns:
        V, volume to the brim [m3]

    Raises:
        OutOfRangeError: a value is not above 0.

    Range:
        m > 0, ρ_w > 0; refused outside.

    Source:
        ASTM-C29, calibration of the measure (read)

    Example:
        >>> volume_by_water(mass=18.9, water_density=998.0)
        0.01894
    """
    return within(mass, "mass of water in kg", above=0.0) / within(water_density, "density of water", above=0.0)


def volume_by_filling(
    *, mass: Kilogram, density: KgPerCubicMeter, moisture: Ratio, swelling: Ratio, usual_swelling: Ratio
) -> CubicMeter:
    """What a shovel or barrow carries by what its filling weighs: V = m (1 + b) / (ρ (1 + w) (1 + b_u)).

    Args:
        mass: m, of the filling, its water in it [kg]
        density: ρ, dry mass in a loose volume at the usual swelling [kg/m3]
        moisture: w, water over dry mass; 0 for what is dry [-]
        swelling: b, how much it is swollen, over its dry volume; 0 for what does not swell [-]
        usual_swelling: b_u, swelling that the density counts on [-]

    Returns:
        V, loose volume carried [m3]

    Raises:
        OutOfRangeError: mass or density is not above 0, or a share is not from 0 to 1.

    Range:
        m > 0, ρ > 0, 0 ≤ w ≤ 1, 0 ≤ b ≤ 1, 0 ≤ b_u ≤ 1; refused outside.

    Source:
        STATICS, mass over density (derived)

    Example:
        >>> volume_by_filling(mass=8.4, density=1280.0, moisture=0.05, swelling=0.25, usual_swelling=0.25)
        0.00625
    """
    within(mass, "mass in kg", above=0.0)
    dry = mass / (1 + within(moisture, "moisture", low=0.0, high=1.0))
    packed = (1 + within(swelling, "swelling", low=0.0, high=1.0)) / (
        1 + within(usual_swelling, "usual swelling", low=0.0, high=1.0)
    )
    return dry * packed / within(density, "loose density in kg/m3", above=0.0)


def contents_mass(*, gross: Kilogram, empty: Kilogram) -> Kilogram:
    """Mass in a measure: m = G − T.

    Args:
        gross: G, mass of the measure with what is in it [kg]
        empty: T, mass of the measure alone [kg]

    Returns:
        m, mass of what is in it [kg]

    Raises:
        OutOfRangeError: the full measure is not heavier than the empty one.

    Range:
        G > T ≥ 0, refused outside.

    Source:
        ASTM-C29, net mass (read)

    Example:
        >>> contents_mass(gross=22.4, empty=0.9)
        21.5
    """
    if gross <= within(empty, "mass of the empty measure in kg", low=0.0):
        raise OutOfRangeError("the full measure is no heavier than the empty one; are the two weights swapped?")
    return gross - empty


def bulk_density(*, mass: Kilogram, volume: CubicMeter) -> KgPerCubicMeter:
    """Mass of stuff in a volume with the gaps between its grains, loose or rodded as it was filled: ρ_b = m / V.

    Args:
        mass: m, of what fills the measure [kg]
        volume: V, what the measure holds [m3]

    Returns:
        ρ_b, bulk density [kg/m3]

    Raises:
        OutOfRangeError: a value is not above 0.

    Range:
        m > 0, V > 0; refused outside.

    Source:
        ASTM-C29, bulk density (read)

    Example:
        >>> bulk_density(mass=21.0, volume=0.014)
        1500.0
    """
    return within(mass, "mass in kg", above=0.0) / within(volume, "volume in m3", above=0.0)


def voids(*, bulk: KgPerCubicMeter, grains: KgPerCubicMeter) -> Ratio:
    """Share of gaps between the grains: e = 1 − ρ_b / ρ.

    Args:
        bulk: ρ_b, bulk density, dry [kg/m3]
        grains: ρ, density of the grains themselves [kg/m3]

    Returns:
        e, gaps over the whole volume [-]

    Raises:
        OutOfRangeError: a density is not above 0, or the bulk density is above that of the grains.

    Range:
        0 < ρ_b ≤ ρ, refused outside.

    Source:
        ASTM-C29, void content (read)

    Example:
        >>> voids(bulk=1590.0, grains=2650.0)
        0.4
    """
    within(grains, "density of the grains in kg/m3", above=0.0)
    return 1 - within(bulk, "bulk density in kg/m3", above=0.0, high=grains) / grains


def scale_factor(*, shown: Kilogram, zero: Kilogram, known: Kilogram) -> Ratio:
    """What a scale makes of a kilogram, by a mass that is known: f = (s − z) / m.

    Args:
        shown: s, what it shows with the known mass on it [kg]
        zero: z, what it shows with nothing on it [kg]
        known: m, the known mass, such as an unopened bag or so many liters of water [kg]

    Returns:
        f, 1 for a true scale, above 1 for one that shows too much [-]

    Raises:
        OutOfRangeError: the known mass is not above 0, or the scale showed no more than with nothing on it.

    Range:
        m > 0, s > z; refused outside.

    Source:
        STATICS, a line through two points (derived)

    Example:
        >>> scale_factor(shown=26.5, zero=0.5, known=25.0)
        1.04
    """
    if shown <= zero:
        raise OutOfRangeError("the scale shows no more with the known mass on it than with nothing; try it again")
    return (shown - zero) / within(known, "known mass in kg", above=0.0)


def true_mass(*, shown: Kilogram, zero: Kilogram, factor: Ratio) -> Kilogram:
    """Mass that a scale which is off means: m = (s − z) / f.

    Args:
        shown: s, what it shows [kg]
        zero: z, what it shows with nothing on it; 0 for a difference of two readings [kg]
        factor: f, what it makes of a kilogram [-]

    Returns:
        m, true mass [kg]

    Raises:
        OutOfRangeError: the factor is not above 0.

    Range:
        f > 0, refused outside.

    Source:
        STATICS, a line through two points (derived)

    Example:
        >>> true_mass(shown=26.5, zero=0.5, factor=1.04)
        25.0
    """
    return (shown - zero) / within(factor, "factor of the scale", above=0.0)
