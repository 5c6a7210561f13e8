"""Sand tried on site: water in it by pan, can or pail, swelling by pail, silt by jar."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import KgPerCubicMeter, Kilogram, Meter, Ratio


def moisture_by_pan(*, wet: Kilogram, dry: Kilogram, pan: Kilogram) -> Ratio:
    """Water in sand by drying it in a pan: w = (W − D) / (D − P).

    Args:
        wet: W, pan with the damp sand [kg]
        dry: D, pan with the same sand dried until it loses no more [kg]
        pan: P, the pan alone; 0 where it was taken off [kg]

    Returns:
        w, all water in the grains and on them, over dry mass [-]

    Raises:
        OutOfRangeError: the dried sand weighs nothing, or more than the damp.

    Range:
        W ≥ D > P ≥ 0, refused outside. Every reading may be off by the same factor and offset: they cancel.

    Source:
        SOIL-CANS, ASTM D2216 as worked there (read)

    Example:
        >>> moisture_by_pan(wet=0.04352, dry=0.03986, pan=0.01731)
        0.162
    """
    if dry <= within(pan, "mass of the pan in kg", low=0.0):
        raise OutOfRangeError("the pan with the dried sand is no heavier than the pan alone")
    if wet < dry:
        raise OutOfRangeError("the damp sand is lighter than the dried; are the two weights swapped?")
    return (wet - dry) / (dry - pan)


def free_moisture(*, moisture: Ratio, absorption: Ratio) -> Ratio:
    """Water on the grains, over dry mass: f = w − a; below 0 where the grains will drink.

    Args:
        moisture: w, all water in the grains and on them, over dry mass [-]
        absorption: a, water the grains soak up, over dry mass [-]

    Returns:
        f, water that goes into the mix, over dry mass [-]

    Raises:
        OutOfRangeError: a share is not from 0 to 0.5.

    Range:
        0 ≤ w ≤ 0.5, 0 ≤ a ≤ 0.5; refused outside.

    Source:
        ACI-211, section 9.2.8 (read)

    Example:
        >>> free_moisture(moisture=0.06, absorption=0.007)
        0.053
    """
    within(moisture, "moisture", low=0.0, high=0.5)
    return moisture - within(absorption, "absorption", low=0.0, high=0.5)


def grains_by_can(
    *, dry: Kilogram, can_with_sand: Kilogram, can_of_water: Kilogram, water_density: KgPerCubicMeter
) -> KgPerCubicMeter:
    """Density of dry sand's grains by a can of water: ρ = ρ_w m / (m − (F − C)).

    Args:
        dry: m, dry sand put into the can [kg]
        can_with_sand: F, the can with that sand, filled up with water and stirred [kg]
        can_of_water: C, the same can full of water alone [kg]
        water_density: ρ_w, density of water [kg/m3]

    Returns:
        ρ, density of the grains [kg/m3]

    Raises:
        OutOfRangeError: the sand weighs nothing, or pushes out no water.

    Range:
        m > 0, 0 < F − C < m; refused outside.

    Source:
        PYCNOMETER, density of the grains (read)

    Example:
        >>> grains_by_can(dry=0.375, can_with_sand=0.850, can_of_water=0.625, water_density=1000.0)
        2500.0
    """
    pushed = _pushed_out(dry, can_with_sand, can_of_water)
    return within(water_density, "density of water", above=0.0) * dry / pushed


def moisture_by_can(
    *,
    sample: Kilogram,
    can_with_sand: Kilogram,
    can_of_water: Kilogram,
    grains: KgPerCubicMeter,
    water_density: KgPerCubicMeter,
) -> Ratio:
    """Water in sand by flooding it in a can: w = m (ρ − ρ_w) / (ρ (F − C)) − 1.

    Args:
        sample: m, damp sand put into the can [kg]
        can_with_sand: F, the can with that sand, filled up with water and stirred free of air [kg]
        can_of_water: C, the same can full of water alone [kg]
        grains: ρ, density of the grains [kg/m3]
        water_density: ρ_w, density of water [kg/m3]

    Returns:
        w, all water in the grains and on them, over dry mass [-]

    Raises:
        OutOfRangeError: the sand weighs nothing or pushes out no water, or is lighter than dry sand of such grains.

    Range:
        m > 0, 0 < F − C < m, ρ > ρ_w, w ≥ 0 but for 0.005 that weighing loses; refused outside. A grain density off by
        1 % shifts w by 0.006.

    Source:
        PYCNOMETER, water content (read)

    Example:
        >>> moisture_by_can(sample=0.4, can_with_sand=2.15, can_of_water=1.95, grains=2500.0, water_density=1000.0)
        0.2
    """
    _pushed_out(sample, can_with_sand, can_of_water)
    within(grains, "density of the grains in kg/m3", above=within(water_density, "density of water", above=0.0))
    moisture = sample * (grains - water_density) / (grains * (can_with_sand - can_of_water)) - 1
    if moisture < -_LOST:
        raise OutOfRangeError(
            "by the can the sand holds less than no water: weigh again, and stir until no air bubble comes"
        )
    return max(moisture, 0.0)


_LOST: Ratio = 0.005
"""So little below nothing is the weighing's, not the sand's."""


def _pushed_out(sand: Kilogram, can_with_sand: Kilogram, can_of_water: Kilogram) -> Kilogram:
    """Water that the sand pushed out of the can."""
    within(sand, "mass of the sand in kg", above=0.0)
    if can_with_sand <= can_of_water:
        raise OutOfRangeError("the can with sand is no heavier than full of water; are the two weights swapped?")
    pushed = sand - (can_with_sand - can_of_water)
    if pushed <= 0:
        raise OutOfRangeError("the sand pushed no water out of the can; fill it to the same mark both times")
    return pushed


def bulking_by_pail(*, moist: KgPerCubicMeter, dry: KgPerCubicMeter, moisture: Ratio) -> Ratio:
    """Swelling of damp sand by what it weighs in a pail beside dry: b = ρ_0 (1 + w) / ρ − 1.

    Args:
        moist: ρ, loose density of the damp sand, its water in it [kg/m3]
        dry: ρ_0, loose density of the same sand dried, filled alike [kg/m3]
        moisture: w, water over dry mass [-]

    Returns:
        b, swelling over the dry volume [-]

    Raises:
        OutOfRangeError: a density is not above 0, the moisture not from 0 to 0.5, or the damp sand lies denser.

    Range:
        ρ > 0, ρ_0 > 0, 0 ≤ w ≤ 0.5; b from 0 on but for 0.02 that filling differs. For one and the same pail the masses
        may stand for the densities.

    Source:
        STATICS, dry mass in a volume compared (derived)

    Example:
        >>> bulking_by_pail(moist=1260.0, dry=1500.0, moisture=0.05)
        0.25
    """
    within(moisture, "moisture", low=0.0, high=0.5)
    swelling = within(dry, "loose density of dry sand", above=0.0) * (1 + moisture)
    swelling = swelling / within(moist, "loose density of damp sand", above=0.0) - 1
    if swelling < -_FILLING:
        raise OutOfRangeError(
            "the damp sand lies denser than the dry: pour both loose and strike them off level, or are the two swapped?"
        )
    return max(swelling, 0.0)


_FILLING: Ratio = 0.02
"""Two fillings of one pail differ by so much."""


def moisture_by_pail(*, moist: KgPerCubicMeter, dry: KgPerCubicMeter, bulking: Ratio) -> Ratio:
    """Water in sand by what it weighs in a pail beside dry, its swelling known: w = ρ (1 + b) / ρ_0 − 1.

    Args:
        moist: ρ, loose density of the damp sand, its water in it [kg/m3]
        dry: ρ_0, loose density of the same sand dried, filled alike [kg/m3]
        bulking: b, swelling, such as by the jar [-]

    Returns:
        w, water over dry mass [-]

    Raises:
        OutOfRangeError: a density is not above 0, the swelling not from 0 to 1, or no water would be left.

    Range:
        ρ > 0, ρ_0 > 0, 0 ≤ b ≤ 1, w from 0 on but for 0.02 that filling differs; refused outside.

    Source:
        STATICS, dry mass in a volume compared (derived)

    Example:
        >>> moisture_by_pail(moist=1260.0, dry=1500.0, bulking=0.25)
        0.05
    """
    within(bulking, "bulking", low=0.0, high=1.0)
    moisture = within(moist, "loose density of damp sand", above=0.0) * (1 + bulking)
    moisture = moisture / within(dry, "loose density of dry sand", above=0.0) - 1
    if moisture < -_FILLING:
        raise OutOfRangeError(
            "by the pail the sand holds less than no water: pour both loose and level them; or are the two swapped?"
        )
    return max(moisture, 0.0)


def silt_share(*, silt_height: Meter, sand_height: Meter) -> Ratio:
    """Silt by the jar: s = h_s / h_0, the layer that settles last over the sand beneath it.

    Args:
        silt_height: h_s, thickness of the silt on top after hours of settling [m]
        sand_height: h_0, height of the settled sand beneath it [m]

    Returns:
        s, silt over sand, by height [-]

    Raises:
        OutOfRangeError: the sand has no height, or the silt stands higher than the sand.

    Range:
        h_0 > 0, 0 ≤ h_s ≤ h_0; refused outside.

    Source:
        SILT-TEST (read)

    Example:
        >>> silt_share(silt_height=0.003, sand_height=0.052)
        0.0577
    """
    within(sand_height, "height of settled sand in m", above=0.0)
    if within(silt_height, "thickness of silt in m", low=0.0) > sand_height:
        raise OutOfRangeError("the silt stands higher than the sand under it; are the two heights swapped?")
    return silt_height / sand_height
