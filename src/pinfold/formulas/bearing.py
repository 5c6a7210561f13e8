"""Ground under a strip: eccentricity, kern and the pressure at its edges."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import Meter, NewtonMeterPerMeter, NewtonPerMeter, Pascal


@dataclass(frozen=True, kw_only=True)
class BasePressure:
    """Pressure at the two edges of a strip and the width that still touches the ground."""

    toe: Pascal
    heel: Pascal
    contact: Meter


def eccentricity(*, moment: NewtonMeterPerMeter, load: NewtonPerMeter) -> Meter:
    """Distance of the resultant from the middle of the base: e = M / N.

    Args:
        moment: M, moment about the middle of the base, per length of wall [N m/m]
        load: N, downward load on the base, per length of wall [N/m]

    Returns:
        e, distance from the middle towards the toe [m]

    Raises:
        OutOfRangeError: the load is not above 0.

    Range:
        load > 0, refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> eccentricity(moment=500.0, load=5000.0)
        0.1
    """
    return moment / within(load, "downward load in N/m", above=0.0)


def base_pressure(*, load: NewtonPerMeter, width: Meter, eccentricity: Meter) -> BasePressure:
    """Pressure under a strip that cannot pull on the ground: q = N/B (1 ± 6e/B) in the kern, 2N / 3(B/2 − e) past it.

    The ground is taken as pressing in a straight line; no pull between base and ground.

    Args:
        load: N, downward load per length [N/m]
        width: B, width of the base [m]
        eccentricity: e, distance of the resultant from the middle, 0 or more [m]

    Returns:
        pressure at toe and heel, width in contact (see BasePressure)

    Raises:
        OutOfRangeError: the resultant lies at or beyond the edge: there is no pressure that balances it.

    Range:
        0 ≤ e < B/2, B > 0, N ≥ 0; refused outside.

    Source:
        STATICS, straight-line pressure with the no-tension branch (derived)

    Example:
        >>> base_pressure(load=12000.0, width=0.6, eccentricity=0.1)
        BasePressure(toe=40000.0, heel=0.0, contact=0.6)
    """
    within(load, "downward load in N/m", low=0.0)
    within(width, "width of the base in m", above=0.0)
    if not 0 <= eccentricity < width / 2:
        share = abs(eccentricity) / width
        raise OutOfRangeError(f"the load stands {share:.0%} of the base's width off its middle; at half it tips over")
    if eccentricity <= width / 6:
        tilt, mean = 6 * eccentricity / width, load / width
        return BasePressure(toe=mean * (1 + tilt), heel=mean * (1 - tilt), contact=width)
    contact = 3 * (width / 2 - eccentricity)
    return BasePressure(toe=2 * load / contact, heel=0.0, contact=contact)
