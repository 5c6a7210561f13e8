"""Wood: the factors that turn a stress of the tables into one to design with, and nails drawn out of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, NewtonPerMeter, Pascal, Ratio

_PSI = 0.45359237 * 9.80665 / 0.0254**2
_INCH = 0.0254
_POUND_PER_INCH = 0.45359237 * 9.80665 / 0.0254
TWELVE_INCHES = 12 * 0.0254
DRY_ENOUGH = 1150 * _PSI
"""Bending stress with its size factor up to which wet service takes nothing off sawn lumber, Pa."""


@dataclass(frozen=True, kw_only=True)
class Stability:
    """Whether a slender member buckles before its wood gives in.

    Attributes:
        slenderness: of the member.
        buckling: stress at which it would buckle.
        factor: share of the stress that is left.
    """

    slenderness: Ratio
    buckling: Pascal
    factor: Ratio


def timber_size_factor(*, depth: Meter) -> Ratio:
    """Size factor of a deep timber: CF = (12 in / d)^(1/9), 1 up to 12 in.

    Args:
        depth: d, of the section the way it bends [m]

    Returns:
        CF [-]

    Raises:
        OutOfRangeError: the depth is not above 0.

    Range:
        d > 0, refused otherwise. Timbers 5 in and thicker and round ones; lumber 2 to 4 in thick has its own table.

    Source:
        NDS, 4.3.6 (memory)

    Example:
        >>> timber_size_factor(depth=0.6096)
        0.926
    """
    return min(1.0, math.pow(TWELVE_INCHES / within(depth, "depth in m", above=0.0), 1 / 9))


def wet_factor(*, bending: Pascal) -> Ratio:
    """Factor of wet service on the bending stress of sawn lumber: CM = 0.85, 1 up to 1150 psi.

    Args:
        bending: Fb CF, stress of the table times its size factor [Pa]

    Returns:
        CM [-]

    Raises:
        OutOfRangeError: the stress is below 0.

    Range:
        Fb CF ≥ 0, refused below. Lumber 2 to 4 in thick; timbers and round posts lose nothing in bending.

    Source:
        NDS, table 4A (memory)
        NDS-COURSE, an example with 0.85 above and 1.0 up to 1150 psi (read)

    Example:
        >>> wet_factor(bending=7.95e6)
        0.85
    """
    return 0.85 if within(bending, "bending stress in Pa", low=0.0) > DRY_ENOUGH else 1.0


def adjusted_stress(
    *, reference: Pascal, duration: Ratio, wet: Ratio, size: Ratio = 1.0, stability: Ratio = 1.0, incised: Ratio = 1.0
) -> Pascal:
    """Stress that wood may be designed with: F' = F CD CM CF CL Ci.

    Args:
        reference: F, stress of the table for wood and grade [Pa]
        duration: CD, 1.6 for wind, 0.9 for what pulls for good [-]
        wet: CM, wet service [-]
        size: CF, size [-]
        stability: CL or CP, 1 for a square or round post in bending [-]
        incised: Ci, 0.8 for wood cut so that the treatment goes in [-]

    Returns:
        F' [Pa]

    Raises:
        OutOfRangeError: a factor is not above 0 or over 2, or the stress below 0.

    Range:
        F ≥ 0, 0 < each factor ≤ 2; refused outside. Usual warmth.

    Source:
        NDS, table 4.3.1 (memory)
        NDS-COURSE, the product in an example (read)

    Example:
        >>> adjusted_stress(reference=10e6, duration=1.6, wet=0.85, incised=0.8)
        10880000
    """
    product = within(reference, "stress of the table in Pa", low=0.0)
    for name, factor in {"CD": duration, "CM": wet, "CF": size, "CL": stability, "Ci": incised}.items():
        product *= within(factor, name, above=0.0, high=2.0)
    return product


def beam_stability(
    *, width: Meter, depth: Meter, effective_length: Meter, least_modulus: Pascal, stress: Pascal
) -> Stability:
    """Whether a deep rail or beam rolls over: RB = √(le d / b²), FbE = 1.2 Emin / RB², CL from F = FbE / Fb*.

    CL = (1 + F) / 1.9 − √(((1 + F) / 1.9)² − F / 0.95).

    Args:
        width: b, breadth of the section [m]
        depth: d, of the section the way it bends [m]
        effective_length: le, between places where it is held upright, made longer by the kind of load [m]
        least_modulus: Emin, modulus for stability [Pa]
        stress: Fb*, bending stress with all other factors [Pa]

    Returns:
        RB, FbE and CL (see Stability)

    Raises:
        OutOfRangeError: an argument is not above 0, or RB is over 50.

    Range:
        all > 0, RB ≤ 50; refused outside.

    Source:
        NDS, 3.3.3 (memory)
        AWC-EXAMPLES, E1.2a (read)

    Example:
        >>> beam_stability(
        ...     width=0.0889, depth=0.38735, effective_length=9.5136, least_modulus=4757330000.0, stress=10342136.0
        ... )
        Stability(slenderness=21.6, buckling=12230000, factor=0.8753)
    """
    reach = within(effective_length, "effective length in m", above=0.0) * within(depth, "depth in m", above=0.0)
    slender = math.sqrt(reach) / within(width, "width in m", above=0.0)
    within(slender, "slenderness RB", high=50.0)
    buckling = 1.2 * within(least_modulus, "least modulus in Pa", above=0.0) / slender**2
    share = buckling / within(stress, "bending stress in Pa", above=0.0)
    return Stability(slenderness=slender, buckling=buckling, factor=_factor(share, 0.95))


def column_stability(
    *, side: Meter, effective_length: Meter, least_modulus: Pascal, stress: Pascal, straightness: Ratio = 0.8
) -> Stability:
    """Whether a pressed post or rail buckles: FcE = 0.822 Emin / (le / d)², CP from F = FcE / Fc*.

    CP = (1 + F) / 2c − √(((1 + F) / 2c)² − F / c).

    Args:
        side: d, least side of the section; of a round one the side of a square of its area [m]
        effective_length: le, between places where it is held [m]
        least_modulus: Emin, modulus for stability [Pa]
        stress: Fc*, stress along the grain with all other factors [Pa]
        straightness: c, 0.8 for sawn lumber, 0.85 for round timbers [-]

    Returns:
        le / d, FcE and CP (see Stability)

    Raises:
        OutOfRangeError: an argument is not above 0, c is over 1, or le / d over 50.

    Range:
        all > 0, c ≤ 1, le / d ≤ 50; refused outside.

    Source:
        NDS, 3.7.1 (memory)
        HUD-RSDG, example 5.6 (read)

    Example:
        >>> column_stability(
        ...     side=0.0889, effective_length=2.22504, least_modulus=3516330000.0, stress=9118310.0
        ... )
        Stability(slenderness=25.03, buckling=4614000, factor=0.4378)
    """
    slender = within(effective_length, "effective length in m", above=0.0) / within(side, "side in m", above=0.0)
    within(slender, "slenderness le / d", high=50.0)
    buckling = 0.822 * within(least_modulus, "least modulus in Pa", above=0.0) / slender**2
    share = buckling / within(stress, "stress in Pa", above=0.0)
    c = within(straightness, "c", above=0.0, high=1.0)
    return Stability(slenderness=slender, buckling=buckling, factor=_factor(share, c))


def _factor(share: Ratio, c: Ratio) -> Ratio:
    half = (1 + share) / (2 * c)
    return half - math.sqrt(half**2 - share / c)


def nail_withdrawal(*, diameter: Meter, gravity: Ratio) -> NewtonPerMeter:
    """Pull that a smooth nail holds in the side of the grain: W = 1380 G^2.5 D, in pounds and inches.

    Args:
        diameter: D, of the nail, or of one leg of a staple [m]
        gravity: G, specific gravity of the wood [-]

    Returns:
        W, allowable pull per length of nail in the wood [N/m]

    Raises:
        OutOfRangeError: the diameter is not above 0, or G outside 0 to 1.

    Range:
        D > 0, 0 < G ≤ 1; refused outside. Ten years of load, dry wood; a quarter of it where wet wood dries out later.

    Source:
        NDS, 12.2.3 (read)

    Example:
        >>> nail_withdrawal(diameter=0.0033274, gravity=0.42)
        3619
    """
    pounds = 1380 * math.pow(within(gravity, "specific gravity", above=0.0, high=1.0), 2.5)
    return pounds * within(diameter, "diameter in m", above=0.0) / _INCH * _POUND_PER_INCH
