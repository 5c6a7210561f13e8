"""Correcting a concrete at the mixer: damp sand, measured density, yield, air and paste."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Ratio


@dataclass(frozen=True, kw_only=True)
class MoistMass:
    """What to weigh of a moist aggregate, and the water it brings."""

    batch: Kilogram
    free_water: Kilogram


def moist_mass(*, surface_dry: Kilogram, moisture: Ratio, absorption: Ratio) -> MoistMass:
    """Mass of moist sand or stone to weigh, and the free water in it: B = S (1 + M) / (1 + A), F = B − S.

    Args:
        surface_dry: S, mass wanted, saturated but surface dry [kg]
        moisture: M, all water in the grains and on them, over dry mass [-]
        absorption: A, water the grains soak up, over dry mass [-]

    Returns:
        mass to weigh and free water, negative where the grains will drink (see MoistMass)

    Raises:
        OutOfRangeError: a value is negative, or moisture or absorption above 0.5.

    Range:
        S ≥ 0, 0 ≤ M ≤ 0.5, 0 ≤ A ≤ 0.5; refused outside.

    Source:
        ACI-211, section 9.2.8 (read)

    Example:
        >>> moist_mass(surface_dry=100.7, moisture=0.06, absorption=0.007)
        MoistMass(batch=106.0, free_water=5.3)
    """
    within(surface_dry, "mass wanted in kg", low=0.0)
    within(moisture, "moisture", low=0.0, high=0.5)
    batch = surface_dry * (1 + moisture) / (1 + within(absorption, "absorption", low=0.0, high=0.5))
    return MoistMass(batch=batch, free_water=batch - surface_dry)


def free_water(*, moist: Kilogram, moisture: Ratio, absorption: Ratio) -> Kilogram:
    """Free water in a mass of moist sand or stone already weighed: F = B (M − A) / (1 + M).

    Args:
        moist: B, mass as weighed [kg]
        moisture: M, all water in the grains and on them, over dry mass [-]
        absorption: A, water the grains soak up, over dry mass [-]

    Returns:
        F, free water, negative where the grains will drink [kg]

    Raises:
        OutOfRangeError: a value is negative, or moisture or absorption above 0.5.

    Range:
        B ≥ 0, 0 ≤ M ≤ 0.5, 0 ≤ A ≤ 0.5; refused outside.

    Source:
        ACI-211, section 9.2.9 (read)

    Example:
        >>> free_water(moist=106.0, moisture=0.06, absorption=0.007)
        5.3
    """
    within(moist, "mass as weighed in kg", low=0.0)
    within(absorption, "absorption", low=0.0, high=0.5)
    return moist * (moisture - absorption) / (1 + within(moisture, "moisture", low=0.0, high=0.5))


def yield_volume(*, batch: Kilogram, density: KgPerCubicMeter) -> CubicMeter:
    """Volume a batch truly made: V = m / ρ.

    Args:
        batch: m, mass of everything that went in, water too [kg]
        density: ρ, measured density of the fresh mix [kg/m3]

    Returns:
        V, volume made [m3]

    Raises:
        OutOfRangeError: the mass is negative or the density not above 0.

    Range:
        m ≥ 0, ρ > 0, refused otherwise.

    Source:
        ASTM-C138 (memory)
        STATICS (derived)

    Notes:
        ACI PRC-211.1-22 sections 9.2.9.2 and 9.3.9 print the quotient the other way up (26.75 and 27.19 ft3 where mass
        over density gives 27.43 and 26.82). A batch lighter than designed makes more, so the print is not followed.

    Example:
        >>> yield_volume(batch=2400.0, density=2300.0)
        1.043
    """
    return within(batch, "mass of the batch in kg", low=0.0) / within(density, "density in kg/m3", above=0.0)


def air_free_density(*, density: KgPerCubicMeter, air: Ratio) -> KgPerCubicMeter:
    """Density the fresh mix would have without its air: ρ_0 = ρ / (1 − a).

    Args:
        density: ρ, density with its air [kg/m3]
        air: a, share of air [-]

    Returns:
        ρ_0, density without air [kg/m3]

    Raises:
        OutOfRangeError: the density is not above 0 or the air not from 0 to 0.9.

    Range:
        ρ > 0, 0 ≤ a ≤ 0.9; refused outside.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> air_free_density(density=2376.0, air=0.01)
        2400.0
    """
    return within(density, "density in kg/m3", above=0.0) / (1 - within(air, "share of air", low=0.0, high=0.9))


def air_by_density(*, air_free: KgPerCubicMeter, measured: KgPerCubicMeter) -> Ratio:
    """Air in the fresh mix by its density: a = (ρ_0 − ρ) / ρ_0.

    Args:
        air_free: ρ_0, density without air [kg/m3]
        measured: ρ, density as measured [kg/m3]

    Returns:
        a, share of air [-]

    Raises:
        OutOfRangeError: a density is not above 0, or the measured one is the larger.

    Range:
        0 < ρ ≤ ρ_0, refused outside.

    Source:
        ACI-211, section 9.2.9 (read)

    Example:
        >>> air_by_density(air_free=2400.0, measured=2352.0)
        0.02
    """
    within(air_free, "density without air in kg/m3", above=0.0)
    return (air_free - within(measured, "measured density in kg/m3", above=0.0, high=air_free)) / air_free


def paste_volume(*, cement: Ratio, water: Ratio) -> Ratio:
    """Share of the concrete that is paste, air left out: p = v_c + v_w.

    Args:
        cement: v_c, absolute volume of all that binds, per volume of concrete [-]
        water: v_w, absolute volume of water, per volume of concrete [-]

    Returns:
        p, paste per volume of concrete [-]

    Raises:
        OutOfRangeError: a share is not from 0 to 1.

    Range:
        0 ≤ v_c ≤ 1, 0 ≤ v_w ≤ 1; refused outside.

    Source:
        ACI-211, section 9.5 (read)

    Example:
        >>> paste_volume(cement=0.14, water=0.17)
        0.31
    """
    return within(cement, "share of cement", low=0.0, high=1.0) + within(water, "share of water", low=0.0, high=1.0)


def cement_for_paste(
    *,
    paste: Ratio,
    water_cement: Ratio,
    replaced: Ratio,
    water_density: KgPerCubicMeter,
    cement_density: KgPerCubicMeter,
    other_density: KgPerCubicMeter,
) -> KgPerCubicMeter:
    """Cement for a wanted share of paste: C = p (1 − s) / (w/ρ_w + (1 − s)/ρ_c + s/ρ_s).

    Args:
        paste: p, paste per volume of concrete [-]
        water_cement: w, mass of water over mass of all that binds [-]
        replaced: s, share of the binder's mass that is slag, ash or another [-]
        water_density: ρ_w, density of water [kg/m3]
        cement_density: ρ_c, density of cement grains [kg/m3]
        other_density: ρ_s, density of the grains that replace it [kg/m3]

    Returns:
        C, cement per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: a value lies outside the range.

    Range:
        0 ≤ p ≤ 1, w > 0, 0 ≤ s ≤ 1, densities > 0; refused outside.

    Source:
        ACI-211, section 9.5 (read)

    Example:
        >>> cement_for_paste(paste=0.25, water_cement=0.4, replaced=0.5, water_density=1000.0, cement_density=3150.0,
        ...     other_density=2900.0)
        171.0
    """
    within(paste, "share of paste", low=0.0, high=1.0)
    within(replaced, "share replaced", low=0.0, high=1.0)
    space = (
        within(water_cement, "water over cement", above=0.0) / within(water_density, "density of water", above=0.0)
        + (1 - replaced) / within(cement_density, "density of cement", above=0.0)
        + replaced / within(other_density, "density of the other binder", above=0.0)
    )
    return paste * (1 - replaced) / space
