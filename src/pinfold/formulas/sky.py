"""What clouds take from the sun and give back in heat."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Celsius, Ratio, WattPerSquareMeter

_STEFAN_BOLTZMANN: float = 5.6697e-8
"""W/(m2 K4), with the digits that the typical years were made with."""
_KELVIN = 273.15


def share_of_clear_sun(*, cloud: Ratio) -> Ratio:
    """Sun and sky on the level under clouds, over that under a clear sky: G/G0 = 1 − 0.75 N^3.4.

    Args:
        cloud: N, share of the sky that is clouded [-]

    Returns:
        G/G0, mean over many skies of that cover [-]

    Raises:
        OutOfRangeError: N outside 0 to 1.

    Range:
        0 ≤ N ≤ 1, refused outside; a single hour may lie far off.

    Source:
        KASTEN-CZEPLAK, means of ten years in Hamburg (memory)

    Example:
        >>> share_of_clear_sun(cloud=1.0)
        0.25
    """
    share: float = 1.0 - 0.75 * within(cloud, "share of the sky clouded", low=0.0, high=1.0) ** 3.4
    return share


def sky_emissivity(*, dew_point_c: Celsius, cloud: Ratio) -> Ratio:
    """How black the sky is for heat: ε = [0.787 + 0.764 ln(Td/273.15)] [1 + 0.0224 n − 0.0035 n² + 0.00028 n³].

    Args:
        dew_point_c: Td, of the air by the ground; in kelvin in the equation [°C]
        cloud: n/10, share of the sky clouded; tenths in the equation [-]

    Returns:
        ε, of the whole sky [-]

    Raises:
        OutOfRangeError: the share outside 0 to 1, or Td outside −70 to 40 °C.

    Range:
        0 ≤ n ≤ 10, −70 ≤ Td ≤ 40 °C, refused outside.

    Source:
        SKY-HEAT, the equation itself (memory)
        SKY-HEAT, 8,760 hours of a typical year, all of which it gives to the watt (read)

    Example:
        >>> sky_emissivity(dew_point_c=-8.0, cloud=0.8)
        0.840
    """
    within(dew_point_c, "dew point in °C", low=-70.0, high=40.0)
    tenths = 10 * within(cloud, "share of the sky clouded", low=0.0, high=1.0)
    clear: Ratio = 0.787 + 0.764 * np.log((dew_point_c + _KELVIN) / _KELVIN)
    return clear * (1 + 0.0224 * tenths - 0.0035 * tenths**2 + 0.00028 * tenths**3)


def sky_heat(*, temperature_c: Celsius, emissivity: Ratio) -> WattPerSquareMeter:
    """Long-wave heat that comes from the sky onto the level: L = ε σ T⁴.

    Args:
        temperature_c: T, of the air by the ground; in kelvin in the equation [°C]
        emissivity: ε, of the sky [-]

    Returns:
        L, on the level [W/m2]

    Raises:
        OutOfRangeError: ε outside 0 to 1.2, or T outside −90 to 70 °C.

    Range:
        0 ≤ ε ≤ 1.2, −90 ≤ T ≤ 70 °C, refused outside.

    Source:
        SKY-HEAT, 8,760 hours of a typical year, all of which it gives to the watt (read)

    Example:
        >>> sky_heat(temperature_c=3.0, emissivity=0.84)
        277
    """
    within(temperature_c, "temperature in °C", low=-90.0, high=70.0)
    within(emissivity, "emissivity of the sky", low=0.0, high=1.2)
    return emissivity * _STEFAN_BOLTZMANN * (temperature_c + _KELVIN) ** 4
