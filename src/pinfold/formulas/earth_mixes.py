"""Earth plaster, adobe and stabilized earth: what a test bar and a jar of soil say about sand and cement."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.tables.shelf import kind
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Meter, Ratio


def linear_shrinkage(*, wet_length: Meter, gap: Meter) -> Ratio:
    """Shrinkage of a bar of wet soil that dried in a box, pushed to one end: s = g / L.

    Args:
        wet_length: L, length of the box inside [m]
        gap: g, all gaps and cracks pushed together at one end [m]

    Returns:
        s, linear shrinkage [-]

    Raises:
        OutOfRangeError: the box has no length, or the gap is not from 0 to the length of the box.

    Range:
        L > 0, 0 ≤ g ≤ L; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> linear_shrinkage(wet_length=0.6, gap=0.024)
        0.040
    """
    within(wet_length, "length of the box in m", above=0.0)
    return within(gap, "gap in m", low=0.0, high=wet_length) / wet_length


def sand_against_shrinkage(*, tried_sand: Ratio, shrinkage: Ratio, allowed: Ratio) -> Ratio:
    """Sand that brings a clay mix down to a shrinkage: n = (1 + n_0) s / s_a − 1, never less than was tried.

    Only the clay soil shrinks; the shrinkage is taken to go with its share of the mix.

    Args:
        tried_sand: n_0, parts of sand to one of clay soil in the bar that was dried [-]
        shrinkage: s, linear shrinkage of that bar [-]
        allowed: s_a, shrinkage that is still good [-]

    Returns:
        n, parts of sand to one of clay soil to try next [-]

    Raises:
        OutOfRangeError: the sand is negative, the shrinkage not from 0 to 0.5, or none is allowed.

    Range:
        n_0 ≥ 0, 0 ≤ s ≤ 0.5, s_a > 0; refused outside. A start for the next test bar, not a promise.

    Source:
        PRACTICE (practice)

    Example:
        >>> sand_against_shrinkage(tried_sand=2.0, shrinkage=0.03, allowed=0.02)
        3.50
    """
    within(tried_sand, "parts of sand tried", low=0.0)
    within(shrinkage, "linear shrinkage", low=0.0, high=0.5)
    wanted = (1 + tried_sand) * shrinkage / within(allowed, "shrinkage allowed", above=0.0) - 1
    return max(wanted, tried_sand)


def sand_to_thin_clay(*, clay: Ratio, wanted: Ratio) -> Ratio:
    """Sand that thins the clay of a soil to a share: m = c / c_w − 1 by mass, none where the soil has no more.

    Args:
        clay: c, share of clay in the soil by the jar test [-]
        wanted: c_w, share of clay wanted in the mix [-]

    Returns:
        m, mass of clean sand over mass of soil [-]

    Raises:
        OutOfRangeError: the clay is not from 0 to 1 or the share wanted not above 0 and at most 1.

    Range:
        0 ≤ c ≤ 1, 0 < c_w ≤ 1; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> sand_to_thin_clay(clay=0.5, wanted=0.25)
        1.00
    """
    within(clay, "share of clay", low=0.0, high=1.0)
    return max(clay / within(wanted, "share of clay wanted", above=0.0, high=1.0) - 1, 0.0)


def soil_per_cement(*, gap: Meter) -> Ratio:
    """Parts of soil to one of cement by loose volume, from the gap in a shrinkage box 600 mm long.

    Args:
        gap: g, all gaps and cracks of the dried bar pushed together [m]

    Returns:
        n, parts of soil to one of cement [-]

    Raises:
        OutOfRangeError: the gap is negative or wider than the table goes.

    Range:
        0 ≤ g ≤ 50 mm; refused outside: such a soil wants sand first. The source's classes leave hairs between them
        (24 to 25 mm, 39 to 40 mm); each is taken up to the start of the next.

    Source:
        SOIL-BLOCK-TESTS, table of the box test (read)

    Example:
        >>> soil_per_cement(gap=0.02)
        16.0
    """
    within(gap, "gap in the shrinkage box in m", low=0.0)
    table = kind("proportions", "soil-by-box")
    for step in ("first", "second", "third", "fourth"):
        if gap < table.value(f"{step}_gap") or (step == "fourth" and gap == table.value("fourth_gap")):
            return table.value(f"{step}_soil")
    raise OutOfRangeError(
        f"the bar shrank {gap * 1000:.0f} mm in 600; past 50 mm the soil wants sand before it wants cement"
    )


def soil_for_cement_share(*, share: Ratio, cement_bulk: KgPerCubicMeter, soil_bulk: KgPerCubicMeter) -> Ratio:
    """Parts of soil to one of cement by loose volume for a share by dry mass: n = ρ_c / (p ρ_s).

    Args:
        share: p, mass of cement over mass of dry soil [-]
        cement_bulk: ρ_c, bulk density of cement [kg/m3]
        soil_bulk: ρ_s, bulk density of the dry, crumbled soil [kg/m3]

    Returns:
        n, parts of soil to one of cement [-]

    Raises:
        OutOfRangeError: a value is not above 0.

    Range:
        p, ρ_c, ρ_s > 0; refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> soil_for_cement_share(share=0.06, cement_bulk=1500.0, soil_bulk=1250.0)
        20.0
    """
    within(share, "cement over dry soil", above=0.0)
    within(soil_bulk, "bulk density of soil in kg/m3", above=0.0)
    return within(cement_bulk, "bulk density of cement in kg/m3", above=0.0) / (share * soil_bulk)


def cement_in_block(*, block: Kilogram, soil_parts: Ratio) -> Kilogram:
    """Cement in a block of a mix by weight: m_c = m / (1 + n).

    Args:
        block: m, mass of the block [kg]
        soil_parts: n, mass of soil to one of cement [-]

    Returns:
        m_c, mass of cement [kg]

    Raises:
        OutOfRangeError: the mass or the parts are negative.

    Range:
        m ≥ 0, n ≥ 0; refused below. Water that dries out is left aside.

    Source:
        BLOCK-PRESS-ANSWERS (read)

    Example:
        >>> cement_in_block(block=8.0, soil_parts=7.0)
        1.0
    """
    return within(block, "mass of a block in kg", low=0.0) / (1 + within(soil_parts, "parts of soil", low=0.0))


def units_made(*, mix: CubicMeter, length: Meter, width: Meter, height: Meter) -> Ratio:
    """Blocks, bricks or molds a volume of mix fills: N = V / (l b h).

    Args:
        mix: V, volume of the mix as it lies in the mold or press [m3]
        length: l, of the mold [m]
        width: b, of the mold [m]
        height: h, of the mold [m]

    Returns:
        N, how many, not rounded [-]

    Raises:
        OutOfRangeError: the volume is negative or a side not above 0.

    Range:
        V ≥ 0; l, b, h > 0; refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> units_made(mix=1.0, length=0.25, width=0.2, height=0.1)
        200.0
    """
    within(mix, "volume of mix in m3", low=0.0)
    size = within(length, "length in m", above=0.0) * within(width, "width in m", above=0.0)
    return mix / (size * within(height, "height in m", above=0.0))
