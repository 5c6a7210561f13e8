"""Sand that swells when damp: the jar test and what it does to a batch by volume."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Meter, Ratio


def bulking(*, moist_height: Meter, flooded_height: Meter) -> Ratio:
    """Swelling of damp sand by the jar test: b = (h − h_0) / h_0.

    Args:
        moist_height: h, height of the damp sand poured loose into a straight jar [m]
        flooded_height: h_0, height of the same sand stirred under water and settled [m]

    Returns:
        b, swelling over the true volume [-]

    Raises:
        OutOfRangeError: the flooded height is not above 0, or the damp sand stands lower than the flooded.

    Range:
        0 < h_0 ≤ h, refused outside.

    Source:
        BULKING-TEST (read)

    Example:
        >>> bulking(moist_height=0.15, flooded_height=0.12)
        0.25
    """
    within(flooded_height, "height of flooded sand in m", above=0.0)
    if moist_height < flooded_height:
        raise OutOfRangeError("the damp sand stands lower than the flooded sand: pour it loose and repeat the test")
    return (moist_height - flooded_height) / flooded_height


def true_volume(*, measured: CubicMeter, bulking: Ratio) -> CubicMeter:
    """Sand truly in a loose damp volume: V_0 = V / (1 + b).

    Args:
        measured: V, volume as measured, damp and loose [m3]
        bulking: b, swelling by the jar test [-]

    Returns:
        V_0, volume the same sand has dry or flooded [m3]

    Raises:
        OutOfRangeError: the volume is negative or the swelling not from 0 to 1.

    Range:
        V ≥ 0, 0 ≤ b ≤ 1; refused outside.

    Source:
        BULKING-BATCH (read)

    Example:
        >>> true_volume(measured=2.0, bulking=0.3)
        1.54
    """
    return within(measured, "measured volume in m3", low=0.0) / (1 + within(bulking, "bulking", low=0.0, high=1.0))


def measured_volume(*, wanted: CubicMeter, bulking: Ratio) -> CubicMeter:
    """Damp sand to measure for a volume specified dry: V = V_0 (1 + b).

    Args:
        wanted: V_0, volume specified for dry sand [m3]
        bulking: b, swelling by the jar test [-]

    Returns:
        V, volume to measure, damp and loose [m3]

    Raises:
        OutOfRangeError: the volume is negative or the swelling not from 0 to 1.

    Range:
        V_0 ≥ 0, 0 ≤ b ≤ 1; refused outside.

    Source:
        BULKING-BATCH (read)

    Example:
        >>> measured_volume(wanted=2.0, bulking=0.3)
        2.60
    """
    return within(wanted, "volume wanted in m3", low=0.0) * (1 + within(bulking, "bulking", low=0.0, high=1.0))


def shortfall(*, bulking: Ratio) -> Ratio:
    """Share of the sand a batch lacks when its swelling is not allowed for: d = b / (1 + b).

    Args:
        bulking: b, swelling by the jar test [-]

    Returns:
        d, missing sand over specified sand [-]

    Raises:
        OutOfRangeError: the swelling is not from 0 to 1.

    Range:
        0 ≤ b ≤ 1, refused outside.

    Source:
        BULKING-BATCH (read)

    Example:
        >>> shortfall(bulking=0.3)
        0.231
    """
    return within(bulking, "bulking", low=0.0, high=1.0) / (1 + bulking)


def dry_mass(*, measured: CubicMeter, bulking: Ratio, dry_bulk_density: KgPerCubicMeter) -> Kilogram:
    """Dry mass in a damp loose volume of sand: m = ρ_0 V / (1 + b).

    Args:
        measured: V, volume as measured, damp and loose [m3]
        bulking: b, swelling by the jar test [-]
        dry_bulk_density: ρ_0, mass per volume of the dry loose sand [kg/m3]

    Returns:
        m, dry mass [kg]

    Raises:
        OutOfRangeError: a value is negative, or the swelling above 1.

    Range:
        V ≥ 0, 0 ≤ b ≤ 1, ρ_0 > 0; refused outside.

    Source:
        BULKING-BATCH, true volume times density (derived)

    Example:
        >>> dry_mass(measured=1.25, bulking=0.25, dry_bulk_density=1600.0)
        1600.0
    """
    within(dry_bulk_density, "bulk density of dry sand in kg/m3", above=0.0)
    return dry_bulk_density * true_volume(measured=measured, bulking=bulking)
