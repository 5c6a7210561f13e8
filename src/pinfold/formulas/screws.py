"""Screws and lag screws in wood: pulled out, pushed sideways by the yield modes, and both at once."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonPerMeter, Pascal, Radian, Ratio

_INCH = 0.0254
_POUND = 0.45359237 * 9.80665
_POUND_PER_INCH = _POUND / _INCH
_PSI = _POUND / _INCH**2
QUARTER_INCH: Meter = 0.25 * _INCH
"""From this diameter on the wood's grain counts where a dowel presses on it."""


@dataclass(frozen=True, kw_only=True)
class Yielding:
    """Side load that one dowel may carry, mode by mode; the least of them counts.

    Attributes:
        main_crushed: Im, the wood behind crushes.
        side_crushed: Is, the side piece crushes.
        turned: II, the dowel turns as a whole.
        main_hinge: IIIm, it bends in the wood behind.
        side_hinge: IIIs, it bends in the side piece.
        two_hinges: IV, it bends in both.
    """

    main_crushed: Newton
    side_crushed: Newton
    turned: Newton
    main_hinge: Newton
    side_hinge: Newton
    two_hinges: Newton

    @property
    def least(self) -> Newton:
        """Z, the least of them."""
        return min(float(load) for load in vars(self).values())


def screw_withdrawal(*, diameter: Meter, gravity: Ratio) -> NewtonPerMeter:
    """Pull that a wood screw holds in the side of the grain: W = 2850 G² D, in pounds and inches.

    Args:
        diameter: D, of the screw outside its thread [m]
        gravity: G, specific gravity of the wood, oven dry [-]

    Returns:
        W, allowable pull per length of thread in the wood [N/m]

    Raises:
        OutOfRangeError: the diameter is not above 0, or G outside 0 to 1.

    Range:
        D > 0, 0 < G ≤ 1; refused outside. Ten years of load, wood that stays dry; nothing in the end of the grain.

    Source:
        NDS, 12.2-2 (memory)
        SCREW-PAGE, the same with an example (read)

    Example:
        >>> screw_withdrawal(diameter=0.004826, gravity=0.45)
        19203
    """
    pounds = 2850 * within(gravity, "specific gravity", above=0.0, high=1.0) ** 2
    return pounds * within(diameter, "diameter in m", above=0.0) / _INCH * _POUND_PER_INCH


def lag_withdrawal(*, diameter: Meter, gravity: Ratio) -> NewtonPerMeter:
    """Pull that a lag screw holds in the side of the grain: W = 1800 G^1.5 D^0.75, in pounds and inches.

    Args:
        diameter: D, of the unthreaded shank [m]
        gravity: G, specific gravity of the wood, oven dry [-]

    Returns:
        W, allowable pull per length of thread in the wood, without its point [N/m]

    Raises:
        OutOfRangeError: the diameter is not above 0, or G outside 0 to 1.

    Range:
        D > 0, 0 < G ≤ 1; refused outside. Ten years of load, dry wood; three quarters of it in the end of the grain.

    Source:
        NDS-TABLES, 12.2-1 and table 12.2A (read)

    Example:
        >>> lag_withdrawal(diameter=0.0127, gravity=0.55)
        76453
    """
    pounds = 1800 * math.pow(within(gravity, "specific gravity", above=0.0, high=1.0), 1.5)
    return pounds * math.pow(within(diameter, "diameter in m", above=0.0) / _INCH, 0.75) * _POUND_PER_INCH


def wood_bearing(*, diameter: Meter, gravity: Ratio, angle: Radian) -> Pascal:
    """Pressure under a dowel at which wood yields: Fe = 16600 G^1.84 of thin ones; stout ones go by the grain.

    From a quarter inch on: along the grain 11200 G, across it 6100 G^1.45 / √D, in psi and inches; between them by
    Hankinson, F₁ F₂ / (F₁ sin²θ + F₂ cos²θ).

    Args:
        diameter: D, outside the thread [m]
        gravity: G, specific gravity of the wood, oven dry [-]
        angle: θ, between load and grain; all one for thin dowels [rad]

    Returns:
        Fe [Pa]

    Raises:
        OutOfRangeError: the diameter is not above 0 or over 1.5 in, G outside 0 to 1, or the angle outside 0 to 90°.

    Range:
        0 < D ≤ 1.5 in, 0 < G ≤ 1, 0 ≤ θ ≤ 90°; refused outside. The tables round to 50 psi; this does not.

    Source:
        NDS, table 12.3.3 (memory)
        NDS-TABLES, all cells read of table 12K come out with it (read)

    Example:
        >>> wood_bearing(diameter=0.00635, gravity=0.50, angle=0.0)
        38610641
    """
    within(angle, "angle between load and grain in rad", low=0.0, high=math.pi / 2 + 1e-9)
    across = within(diameter, "diameter in m", above=0.0, high=1.5 * _INCH) / _INCH
    dense = within(gravity, "specific gravity", above=0.0, high=1.0)
    if across < QUARTER_INCH / _INCH - 1e-9:
        return 16600 * math.pow(dense, 1.84) * _PSI
    along, square = 11200 * dense, 6100 * math.pow(dense, 1.45) / math.sqrt(across)
    return along * square / (along * math.sin(angle) ** 2 + square * math.cos(angle) ** 2) * _PSI


def single_shear(
    *, root: Meter, main_length: Meter, side_length: Meter, main_bearing: Pascal, side_bearing: Pascal,
    yield_stress: Pascal, angle: Radian,
) -> Yielding:  # fmt: skip
    """Side load on a screw through a side piece into wood, by the yield modes of a dowel.

    With Re = Fem / Fes, Rt = lm / ls and Rd by the root diameter and the grain.

    Args:
        root: D, diameter at the root of the thread where it lies in the shear plane, else of the shank [m]
        main_length: lm, length in the wood behind, without the point [m]
        side_length: ls, thickness of the side piece [m]
        main_bearing: Fem, pressure at which the wood behind yields [Pa]
        side_bearing: Fes, likewise of the side piece [Pa]
        yield_stress: Fyb, stress at which the screw bends [Pa]
        angle: θ, largest angle between the load and the grain of either piece; 0 for thin screws [rad]

    Returns:
        Im, Is, II, IIIm, IIIs and IV (see Yielding)

    Raises:
        OutOfRangeError: a length or a stress is not above 0, or the angle outside 0 to 90°.

    Range:
        D, lm, ls, Fem, Fes, Fyb > 0, 0 ≤ θ ≤ 90°; refused outside. Ten years of load, dry wood, a screw in the side
        of the grain and as far from ends and edges as the standard asks.

    Source:
        NDS, table 12.3.1A and 12.3.1B (memory)
        NDS-TABLES, table 12K, 180 cells of three gauges of side plate come out with it (read)

    Example:
        >>> single_shear(
        ...     root=0.0043942, main_length=0.0508, side_length=0.0026670, main_bearing=38610000.0,
        ...     side_bearing=426440000.0, yield_stress=482630000.0, angle=0.0,
        ... )
        Yielding(main_crushed=3865, side_crushed=2241, turned=1564, main_hinge=1641, side_hinge=723.0, two_hinges=924.2)
    """
    lm, ls = (
        within(main_length, "length in the wood in m", above=0.0),
        within(side_length, "side piece in m", above=0.0),
    )
    fem, fes = within(main_bearing, "Fem in Pa", above=0.0), within(side_bearing, "Fes in Pa", above=0.0)
    d, fyb = within(root, "root diameter in m", above=0.0), within(yield_stress, "Fyb in Pa", above=0.0)
    re, rt = fem / fes, lm / ls
    k1 = (math.sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = math.sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fem * lm**2)) - 1
    k3 = math.sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fem * ls**2)) - 1
    crushed, turned, bent = _reductions(d, angle)
    return Yielding(
        main_crushed=d * lm * fem / crushed, side_crushed=d * ls * fes / crushed, turned=k1 * d * ls * fes / turned,
        main_hinge=k2 * d * lm * fem / ((1 + 2 * re) * bent), side_hinge=k3 * d * ls * fem / ((2 + re) * bent),
        two_hinges=d**2 / bent * math.sqrt(2 * fem * fyb / (3 * (1 + re))),
    )  # fmt: skip


def _reductions(root: Meter, angle: Radian) -> tuple[Ratio, Ratio, Ratio]:
    """Rd of crushing, of turning and of bending."""
    within(angle, "angle between load and grain in rad", low=0.0, high=math.pi / 2 + 1e-9)
    grain = 1 + 0.25 * angle / (math.pi / 2)
    inches = root / _INCH
    if inches >= QUARTER_INCH / _INCH:
        return 4 * grain, 3.6 * grain, 3.2 * grain
    thin = grain * (2.2 if inches <= 0.17 else 10 * inches + 0.5)
    return thin, thin, thin


def pulled_and_pushed(*, pull: Newton, push: Newton, withdrawal: Newton, lateral: Newton) -> Ratio:
    """Share used of a screw that is pulled and pushed at once: u = T / W + V / Z.

    Hankinson's form for the resultant R at α to the wood, R (W cos²α + Z sin²α) / (W Z), is this very sum times cos α
    or sin α; the plain sum is never less.

    Args:
        pull: T, along the screw [N]
        push: V, square to it [N]
        withdrawal: W, what it may be pulled [N]
        lateral: Z, what it may be pushed [N]

    Returns:
        u, 1 where it is used up [-]

    Raises:
        OutOfRangeError: a load is below 0, or what it may carry not above 0.

    Range:
        T, V ≥ 0, W, Z > 0; refused outside.

    Source:
        STATICS, a straight line between both (derived)
        NDS, 12.4.1, which it stays on the safe side of (memory)

    Example:
        >>> pulled_and_pushed(pull=200.0, push=300.0, withdrawal=800.0, lateral=600.0)
        0.75
    """
    along = within(pull, "pull in N", low=0.0) / within(withdrawal, "withdrawal in N", above=0.0)
    return along + within(push, "push in N", low=0.0) / within(lateral, "lateral in N", above=0.0)
