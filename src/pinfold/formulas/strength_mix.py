"""Strength of a mix by what is in it: concrete by its water, mortar by its paste, foamed by its density."""

from __future__ import annotations

import math
from typing import Literal

from pinfold.errors import OutOfRangeError
from pinfold.formulas.concrete_mix import Air
from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.units import KgPerCubicMeter, Pascal, Ratio, Second

_DAY = 86400.0


def strength_by_aci211(*, water_cement: Ratio, air: Air) -> Pascal:
    """Average strength of concrete at 28 days by its water over cement, on straight lines between the table's rows.

    Args:
        water_cement: w/c, mass of water over mass of cement [-]
        air: plain or entrained

    Returns:
        f, average strength of cylinders at 28 days [Pa]

    Raises:
        OutOfRangeError: the ratio lies outside the table.

    Range:
        w/c 0.34 to 0.82 plain, 0.33 to 0.74 with entrained air; refused outside.

    Source:
        ACI-211, table 5.3.4, read backwards (read)

    Example:
        >>> strength_by_aci211(water_cement=0.57, air="plain")
        2.758e7
    """
    table = grid(f"ratio-{air}")
    ratios, strengths = table.rows[0], table.across
    within(water_cement, "water over cement", low=ratios[-1] - 1e-9, high=ratios[0] + 1e-9)
    for (wet, weak), (dry, strong) in zip(
        zip(ratios, strengths, strict=True), zip(ratios[1:], strengths[1:], strict=True), strict=False
    ):
        if water_cement >= dry:
            return weak + (wet - water_cement) / (wet - dry) * (strong - weak)
    return strengths[-1]


def strength_by_abrams(*, water_cement: Ratio, base: Pascal, divisor: Ratio) -> Pascal:
    """Strength by water over cement, as a curve without ends: f = A / B^(w/c).

    Args:
        water_cement: w/c, mass of water over mass of cement [-]
        base: A, what the curve would give without water [Pa]
        divisor: B, by how many times strength falls for one more w/c [-]

    Returns:
        f, average strength at the age A and B are for [Pa]

    Raises:
        OutOfRangeError: a value is not above 0, or the divisor not above 1.

    Range:
        w/c > 0, A > 0, B > 1; refused outside. It speaks for paste that fills all gaps.

    Source:
        ABRAMS, the law of water over cement (memory)

    Example:
        >>> strength_by_abrams(water_cement=0.5, base=100e6, divisor=16.0)
        2.5e7
    """
    within(water_cement, "water over cement", above=0.0)
    within(base, "strength without water in Pa", above=0.0)
    return float(base / within(divisor, "divisor", above=1.0) ** water_cement)


def strength_by_feret(*, cement: Ratio, water: Ratio, air: Ratio, full: Pascal, exponent: Ratio) -> Pascal:
    """Strength by the share of cement in its paste with water and air: f = K (c / (c + w + a))^n.

    Args:
        cement: c, absolute volume of cement in any volume of the mix [-]
        water: w, volume of water in the same [-]
        air: a, volume of air in the same [-]
        full: K, what the curve gives for cement alone [Pa]
        exponent: n, 2 in the old law [-]

    Returns:
        f, average strength at the age K is for [Pa]

    Raises:
        OutOfRangeError: cement, K or n is not above 0, or water or air below.

    Range:
        c > 0, w ≥ 0, a ≥ 0, K > 0, n > 0; refused outside.

    Source:
        FERET, the law of the paste (memory)

    Example:
        >>> strength_by_feret(cement=0.10, water=0.25, air=0.05, full=160e6, exponent=2.0)
        1.0e7
    """
    paste = within(cement, "volume of cement", above=0.0) + within(water, "volume of water", low=0.0)
    paste += within(air, "volume of air", low=0.0)
    within(full, "strength of cement alone in Pa", above=0.0)
    return float(full * (cement / paste) ** within(exponent, "exponent", above=0.0))


def strength_by_cement_share(*, share: Ratio, usual: Pascal, usual_share: Ratio) -> Pascal:
    """Strength of earth with a little cement, in proportion to it: f = f_0 c / c_0.

    Args:
        share: c, mass of cement over dry mass of all [-]
        usual: f_0, strength at the usual share [Pa]
        usual_share: c_0, for which f_0 holds [-]

    Returns:
        f, strength at 28 days, wet [Pa]

    Raises:
        OutOfRangeError: the share is not from 3 to 15 %, or a value not above 0.

    Range:
        3 % ≤ c ≤ 15 %, refused outside: with less it may hold nothing when wet, with more it is a lean mortar.

    Source:
        PRACTICE, in proportion within the usual range (practice)

    Example:
        >>> strength_by_cement_share(share=0.06, usual=3.5e6, usual_share=0.05)
        4.2e6
    """
    within(share, "cement over dry mass", low=0.03, high=0.15)
    return within(usual, "usual strength in Pa", above=0.0) * share / within(usual_share, "usual share", above=0.0)


def strength_by_dry_density(*, dry_density: KgPerCubicMeter, end: Literal["low", "high"]) -> Pascal:
    """Strength of foamed concrete at 7 days by its dry density, on straight lines between the table's rows.

    Args:
        dry_density: ρ, of the dried body [kg/m3]
        end: low or high end of the range printed for a density

    Returns:
        f, strength of cubes at 7 days [Pa]

    Raises:
        OutOfRangeError: the density lies outside the table.

    Range:
        400 to 1600 kg/m3, refused outside. Only the two ends were seen confirmed in a copy.

    Source:
        FOAM-BCA, table by dry density (memory)

    Example:
        >>> strength_by_dry_density(dry_density=600.0, end="low")
        1.0e6
    """
    return grid(f"foamed-{end}", of="strengths").at(dry_density)


def strength_by_kearsley(*, age: Second, porosity: Ratio) -> Pascal:
    """Strength of foamed concrete by age and porosity: f = 39.6 (ln t)^1.174 (1 − p)^3.6, MPa and days.

    Args:
        age: t, time since casting [s]
        porosity: p, all air and pores over the whole volume [-]

    Returns:
        f, strength of cubes [Pa]

    Raises:
        OutOfRangeError: the age is not above one day, or the porosity not from 0 to 1.

    Range:
        t > 1 day, 0 ≤ p < 1; refused outside. Found for ages up to a year.

    Source:
        KEARSLEY-WAINWRIGHT, strength by porosity and age (memory)

    Example:
        >>> strength_by_kearsley(age=2419200.0, porosity=0.6)
        6.01e6
    """
    days = within(age / _DAY, "age in days", above=1.0)
    if not 0 <= porosity < 1:
        raise OutOfRangeError(f"porosity is {porosity:.6g}; the method wants it at least 0 and below 1")
    return float(39.6e6 * math.log(days) ** 1.174 * (1 - porosity) ** 3.6)


def porosity(*, dry_density: KgPerCubicMeter, solid_density: KgPerCubicMeter) -> Ratio:
    """Share of a dry body that is pores: p = 1 − ρ / ρ_s.

    Args:
        dry_density: ρ, of the dried body [kg/m3]
        solid_density: ρ_s, of what is between the pores [kg/m3]

    Returns:
        p, pores over the whole volume [-]

    Raises:
        OutOfRangeError: the body is heavier than what it is made of, or a density not above 0.

    Range:
        0 < ρ ≤ ρ_s, refused outside.

    Source:
        STATICS, absolute volumes (derived)

    Example:
        >>> porosity(dry_density=600.0, solid_density=2400.0)
        0.75
    """
    within(solid_density, "density of the solids in kg/m3", above=0.0)
    return 1 - within(dry_density, "dry density in kg/m3", above=0.0, high=solid_density) / solid_density


def strength_off_middle(*, middle: Pascal, spread: Ratio, steps: Ratio) -> Pascal:
    """Strength so many spreads off the middle, where its logarithm scatters normally: f = m e^(z s).

    Args:
        middle: m, as many lie above as below [Pa]
        spread: s, standard deviation of the natural logarithm [-]
        steps: z, how many standard deviations off; −1.645 for what 5 of 100 lie below [-]

    Returns:
        f, never below nothing [Pa]

    Raises:
        OutOfRangeError: the middle is negative, or another value no number.

    Range:
        m ≥ 0, refused below.

    Source:
        STATISTICS, the lognormal distribution (derived)

    Example:
        >>> strength_off_middle(middle=20e6, spread=0.2, steps=-1.645)
        1.439e7
    """
    off = within(spread, "spread of the logarithm") * within(steps, "standard deviations off the middle")
    return within(middle, "middle in Pa", low=0.0) * math.exp(off)
