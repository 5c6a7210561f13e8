"""Choosing a concrete by ACI 211.1: strength to aim for, water, cement, stone and sand per volume."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.units import KgPerCubicMeter, Meter, Pascal, Ratio

Air = Literal["plain", "entrained"]

_PSI = 6894.757293168


@dataclass(frozen=True, kw_only=True)
class SmallJob:
    """Masses per volume of concrete for a small job, sand dry."""

    cement: KgPerCubicMeter
    sand: KgPerCubicMeter
    gravel: KgPerCubicMeter


def target_strength(*, specified: Pascal) -> Pascal:
    """Average strength to aim for when there are no records: f_cr = f_c + 1000 psi below 3000 psi, + 1200 psi above.

    Args:
        specified: f_c, strength the concrete must have [Pa]

    Returns:
        f_cr, strength to choose the mix by [Pa]

    Raises:
        OutOfRangeError: the strength is not above 0 or above 5000 psi (34.5 MPa).

    Range:
        0 < f_c ≤ 34.5 MPa, refused outside. The source shows the steps at 2500 and 3500 psi; that the second holds from
        3000 to 5000 psi is from memory.

    Source:
        ACI-211, examples of chapter 9 (read)
        ACI-211, the second step over all of 3000 to 5000 psi (memory)

    Example:
        >>> target_strength(specified=17.24e6)
        2.413e7
    """
    within(specified, "specified strength in Pa", above=0.0, high=5000.5 * _PSI)
    return specified + (1000 if specified < 3000 * _PSI * (1 - 1e-9) else 1200) * _PSI


def target_strength_by_records(*, specified: Pascal, deviation: Pascal) -> Pascal:
    """Average strength to aim for by own tests: f_cr = max(f_c + 1.34 s, f_c + 2.33 s − 500 psi).

    Args:
        specified: f_c, strength the concrete must have [Pa]
        deviation: s, standard deviation of own tests [Pa]

    Returns:
        f_cr, strength to choose the mix by [Pa]

    Raises:
        OutOfRangeError: the strength is not above 0 or above 5000 psi, or the deviation negative.

    Range:
        0 < f_c ≤ 34.5 MPa, s ≥ 0; refused outside.

    Source:
        ACI-211, on strength with records (read)

    Example:
        >>> target_strength_by_records(specified=20e6, deviation=4e6)
        2.587e7
    """
    within(specified, "specified strength in Pa", above=0.0, high=5000.5 * _PSI)
    within(deviation, "standard deviation in Pa", low=0.0)
    return max(specified + 1.34 * deviation, specified + 2.33 * deviation - 500 * _PSI)


def water_cement_ratio(*, strength: Pascal, air: Air) -> Ratio:
    """Water over cement by mass for an average strength at 28 days, on straight lines between the table's rows.

    Args:
        strength: f_cr, average strength to aim for [Pa]
        air: plain or entrained

    Returns:
        w/c, mass of water over mass of cement [-]

    Raises:
        OutOfRangeError: the strength lies outside the table.

    Range:
        13.8 to 48.3 MPa plain, to 41.4 MPa with entrained air; refused outside. Exact lines give 0.625 at 3500 psi; the
        source prints 0.62.

    Source:
        ACI-211, table 5.3.4 (read)

    Example:
        >>> water_cement_ratio(strength=24.1317e6, air="plain")
        0.625
    """
    return grid(f"ratio-{air}").at(strength)


def mixing_water(*, slump: Meter, size: Meter, air: Air) -> KgPerCubicMeter:
    """Water per volume of concrete for a slump and a stone size, on straight lines between the table's cells.

    Args:
        slump: how far the fresh concrete sinks out of its cone [m]
        size: largest nominal stone [m]
        air: plain or entrained

    Returns:
        W, mass of water per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: slump or size lies outside the table.

    Range:
        Slump 1 to 7 in, stone 3/8 to 3 in; refused outside. Rows printed for a range hold over it; the last (6 to 7 in)
        is reached at 7 in.

    Source:
        ACI-211, table 5.3.3 (read)

    Example:
        >>> mixing_water(slump=0.0889, size=0.0381, air="plain")
        178.0
    """
    return grid(f"water-{air}").at(size, slump)


def adjusted_water(*, water: KgPerCubicMeter, change: Ratio) -> KgPerCubicMeter:
    """Mixing water after the changes for stone, sand and admixtures: W = W_0 (1 + Σc).

    Args:
        water: W_0, water by the table [kg/m3]
        change: Σc, changes added up, such as −0.08 for rounded stone (kinds `water-changes`) [-]

    Returns:
        W, water to start with [kg/m3]

    Raises:
        OutOfRangeError: the water is negative or the change not between −0.5 and 0.5.

    Range:
        W_0 ≥ 0, −0.5 ≤ Σc ≤ 0.5; refused outside.

    Source:
        ACI-211, table 5.3.3.1 (read)

    Example:
        >>> adjusted_water(water=200.0, change=-0.08)
        184.0
    """
    return within(water, "water in kg/m3", low=0.0) * (1 + within(change, "change of water", low=-0.5, high=0.5))


def air_content(*, size: Meter, exposure: Literal["entrapped", "f1", "f2"]) -> Ratio:
    """Air in the concrete by stone size: what is trapped without trying, or what frost asks for.

    Args:
        size: largest nominal stone [m]
        exposure: entrapped (nothing added), f1 (some frost), f2 (frost in wet concrete)

    Returns:
        a, share of the finished volume [-]

    Raises:
        OutOfRangeError: the size lies outside the table.

    Range:
        Stone 3/8 to 3 in, refused outside. Mixing by hand cannot entrain air properly.

    Source:
        ACI-211, table 5.3.3 (read)
        MASONRY-AND-CONCRETE, p. 59, on mixing by hand (read)

    Example:
        >>> air_content(size=0.0381, exposure="entrapped")
        0.010
    """
    return grid(f"air-{exposure}").at(size)


def coarse_bulk_volume(*, size: Meter, fineness: Ratio) -> Ratio:
    """Dry-rodded volume of stone per volume of concrete, on straight lines between the table's cells.

    Args:
        size: largest nominal stone [m]
        fineness: FM, fineness modulus of the sand [-]

    Returns:
        b, dry-rodded volume per volume of concrete [-]

    Raises:
        OutOfRangeError: size or fineness lies outside the table.

    Range:
        Stone 3/8 to 3 in, FM 2.4 to 3.0; refused outside.

    Source:
        ACI-211, table 5.3.6 (read)

    Example:
        >>> coarse_bulk_volume(size=0.0381, fineness=2.8)
        0.71
    """
    return grid("coarse-volume").at(fineness, size)


def coarse_mass(*, bulk_volume: Ratio, dry_rodded: KgPerCubicMeter, absorption: Ratio) -> KgPerCubicMeter:
    """Stone per volume of concrete, saturated but surface dry: G = b ρ_r (1 + A).

    Args:
        bulk_volume: b, dry-rodded volume per volume of concrete [-]
        dry_rodded: ρ_r, mass per dry-rodded volume [kg/m3]
        absorption: A, water the grains soak up over dry mass; 0 gives the dry mass [-]

    Returns:
        G, mass of stone per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: a value lies outside the range.

    Range:
        0 ≤ b ≤ 1, ρ_r > 0, 0 ≤ A ≤ 0.5; refused outside.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> coarse_mass(bulk_volume=0.71, dry_rodded=1600.0, absorption=0.0)
        1136.0
    """
    within(bulk_volume, "bulk volume of stone", low=0.0, high=1.0)
    within(absorption, "absorption", low=0.0, high=0.5)
    return bulk_volume * within(dry_rodded, "dry-rodded density in kg/m3", above=0.0) * (1 + absorption)


def cement_mass(*, water: KgPerCubicMeter, water_cement: Ratio) -> KgPerCubicMeter:
    """Cement per volume of concrete: C = W / (w/c).

    Args:
        water: W, water per volume [kg/m3]
        water_cement: w/c, mass of water over mass of cement [-]

    Returns:
        C, cement per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: the water is negative or the ratio not above 0.

    Range:
        W ≥ 0, w/c > 0, refused otherwise.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> cement_mass(water=180.0, water_cement=0.5)
        360.0
    """
    return within(water, "water in kg/m3", low=0.0) / within(water_cement, "water over cement", above=0.0)


def sand_volume(*, water: Ratio, cement: Ratio, coarse: Ratio, air: Ratio) -> Ratio:
    """Space left for sand in a volume of concrete: v = 1 − (v_w + v_c + v_g + a).

    Args:
        water: v_w, absolute volume of water per volume of concrete [-]
        cement: v_c, absolute volume of cement [-]
        coarse: v_g, absolute volume of stone [-]
        air: a, air [-]

    Returns:
        v, absolute volume of sand per volume of concrete [-]

    Raises:
        OutOfRangeError: a share is negative, or the others leave no room for sand.

    Range:
        Each share ≥ 0 and their sum below 1; refused otherwise.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> sand_volume(water=0.18, cement=0.09, coarse=0.42, air=0.01)
        0.30
    """
    shares = {"water": water, "cement": cement, "stone": coarse, "air": air}
    left = 1 - sum(within(share, f"share of {name}", low=0.0) for name, share in shares.items())
    if left <= 0:
        raise OutOfRangeError(f"water, cement, stone and air fill {1 - left:.3f} of the concrete: no room for sand")
    return left


def sand_mass(*, volume: Ratio, density: KgPerCubicMeter) -> KgPerCubicMeter:
    """Sand per volume of concrete, saturated but surface dry: S = v ρ.

    Args:
        volume: v, absolute volume of sand per volume of concrete [-]
        density: ρ, density of the grains, saturated but surface dry [kg/m3]

    Returns:
        S, mass of sand per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: the share is not from 0 to 1, or the density not above 0.

    Range:
        0 ≤ v ≤ 1, ρ > 0; refused outside.

    Source:
        ACI-211, section 9.2 (read)

    Example:
        >>> sand_mass(volume=0.3, density=2640.0)
        792.0
    """
    within(volume, "share of sand", low=0.0, high=1.0)
    return volume * within(density, "density of sand in kg/m3", above=0.0)


def small_job(*, size: Meter, air: Air, mix: Literal["A", "B", "C"]) -> SmallJob:
    """Masses for a small job from the table: begin with B; too much sand in it asks for C, too little for A.

    Args:
        size: largest nominal stone [m]
        air: plain or entrained
        mix: A, B or C

    Returns:
        cement, dry sand and gravel per volume of concrete (see SmallJob)

    Raises:
        OutOfRangeError: the size lies outside the table.

    Range:
        Stone 1/2 to 2 in, refused outside. Water by feel: the mix slides off a shovel and does not run.

    Source:
        ACI-211, table A.7.1 (read)

    Example:
        >>> small_job(size=0.01905, air="plain", mix="B")
        SmallJob(cement=368.4, sand=752.9, gravel=1025.2)
    """
    line = float("ABC".index(mix) + 1)
    cement, sand, gravel = (grid(f"small-{name}").at(size, line) for name in ("cement", f"sand-{air}", "gravel"))
    return SmallJob(cement=cement, sand=sand, gravel=gravel)


def largest_stone(*, form_width: Meter, slab_depth: Meter, bar_gap: Meter) -> Meter:
    """Largest stone that still finds its way: d = min(width / 5, slab / 3, 3/4 gap).

    Args:
        form_width: narrowest width between the sides of the form [m]
        slab_depth: depth of a slab, infinite where there is none [m]
        bar_gap: clear gap between bars, infinite where there are none [m]

    Returns:
        d, largest nominal stone [m]

    Raises:
        OutOfRangeError: a length is not above 0.

    Range:
        All above 0, refused otherwise.

    Source:
        ACI-211, on the size of stone (read)

    Example:
        >>> largest_stone(form_width=0.2, slab_depth=0.15, bar_gap=0.08)
        0.040
    """
    return min(
        within(form_width, "width of the form in m", above=0.0) / 5,
        within(slab_depth, "depth of the slab in m", above=0.0) / 3,
        within(bar_gap, "gap between bars in m", above=0.0) * 0.75,
    )
