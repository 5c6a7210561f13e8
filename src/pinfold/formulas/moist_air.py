"""Water in the air: how much it can hold, where it drops out, how the air thins with height."""

from __future__ import annotations

from functools import cache
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.formulas.ranges import within
from pinfold.units import Celsius, Meter, Pascal, Ratio

_COLDEST, _HOTTEST, _STEP = -100.0, 200.0, 0.05


class _Saturation(NamedTuple):
    temperatures: NDArray[np.float64]
    logarithms: NDArray[np.float64]


@cache
def _saturation() -> _Saturation:
    """The library's own equation at fine steps, for a year of hours at once; off by 1e-6 at most."""
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    steps = np.linspace(_COLDEST, _HOTTEST, round((_HOTTEST - _COLDEST) / _STEP) + 1)
    temperatures = np.union1d(steps, [psychrolib.TRIPLE_POINT_WATER_SI])  # where ice turns to water it has a bend
    return _Saturation(temperatures, np.log([psychrolib.GetSatVapPres(float(each)) for each in temperatures]))


def saturation_pressure(*, temperature_c: Celsius) -> Pascal:
    """Pressure of the water vapor that air can hold: ln ps = c1/T + c2 + c3 T + c4 T² + c5 T³ + c6 T⁴ + c7 ln T.

    Over ice below the triple point, over water above it; T in kelvin.

    Args:
        temperature_c: t, of the air or of the wet surface [°C]

    Returns:
        ps, over ice below 0.01 °C, over water above [Pa]

    Raises:
        OutOfRangeError: t outside −100 to 200 °C.

    Range:
        −100 ≤ t ≤ 200 °C, refused outside.

    Source:
        ASHRAE-F1, equations 5 and 6, table 3 (read)

    Notes:
        The coefficients are the library's; its equation is looked up at steps of 0.05 K.

    Example:
        >>> saturation_pressure(temperature_c=25.0)
        3169.2
    """
    known = _saturation()
    within(temperature_c, "temperature in °C", low=_COLDEST, high=_HOTTEST)
    pressure: Pascal = _plain(np.exp(np.interp(temperature_c, known.temperatures, known.logarithms)))
    return pressure


def vapor_pressure(*, temperature_c: Celsius, humidity: Ratio) -> Pascal:
    """Pressure of the water vapor in the air: e = r ps(t).

    Args:
        temperature_c: t, of the air [°C]
        humidity: r, relative, as a share [-]

    Returns:
        e, part of the air's pressure that its water has [Pa]

    Raises:
        OutOfRangeError: r outside 0 to 1, or t outside −100 to 200 °C.

    Range:
        0 ≤ r ≤ 1, −100 ≤ t ≤ 200 °C, refused outside.

    Source:
        ASHRAE-F1, equation 12 (read)

    Example:
        >>> vapor_pressure(temperature_c=25.0, humidity=0.5)
        1584.6
    """
    return within(humidity, "humidity", low=0.0, high=1.0) * saturation_pressure(temperature_c=temperature_c)


def dew_point_c(*, temperature_c: Celsius, humidity: Ratio) -> Celsius:
    """Temperature at which water drops out of the air: ps(td) = r ps(t).

    Args:
        temperature_c: t, of the air [°C]
        humidity: r, relative, as a share [-]

    Returns:
        td, dew or frost point [°C]

    Raises:
        OutOfRangeError: r not above 0 or more than 1, or t outside −100 to 200 °C.

    Range:
        0 < r ≤ 1, −100 ≤ t ≤ 200 °C, refused outside; the driest air is held at −100 °C.

    Source:
        ASHRAE-F1, dew point as the inverse of the saturation pressure (read)

    Example:
        >>> dew_point_c(temperature_c=25.0, humidity=0.5)
        13.86
    """
    within(humidity, "humidity", above=0.0)
    known = _saturation()
    pressure = vapor_pressure(temperature_c=temperature_c, humidity=humidity)
    dew_point: Celsius = _plain(np.interp(np.log(pressure), known.logarithms, known.temperatures))
    return dew_point


def humidity_at(*, temperature_c: Celsius, dew_point_c: Celsius) -> Ratio:
    """Relative humidity of air whose dew point is known: r = ps(td) / ps(t).

    Args:
        temperature_c: t, of the air [°C]
        dew_point_c: td, dew or frost point [°C]

    Returns:
        r, as a share [-]

    Raises:
        OutOfRangeError: td above t, or either outside −100 to 200 °C.

    Range:
        −100 ≤ td ≤ t ≤ 200 °C, refused outside.

    Source:
        ASHRAE-F1, equation 12 (read)

    Example:
        >>> humidity_at(temperature_c=25.0, dew_point_c=13.86)
        0.500
    """
    within(temperature_c - dew_point_c, "air temperature over dew point in K", low=0.0)
    return saturation_pressure(temperature_c=dew_point_c) / saturation_pressure(temperature_c=temperature_c)


def wet_bulb_c(*, temperature_c: Celsius, humidity: Ratio, pressure: Pascal) -> Celsius:
    """Coldest that water gets by evaporating into air: W = [(h − k t*) Ws* − cp (t − t*)] / (h + c t − b t*).

    Args:
        temperature_c: t, of the air [°C]
        humidity: r, relative, as a share [-]
        pressure: p, of the air [Pa]

    Returns:
        t*, thermodynamic wet bulb [°C]

    Raises:
        OutOfRangeError: r outside 0 to 1, t outside −60 to 70 °C, or p outside 30 to 120 kPa.

    Range:
        0 ≤ r ≤ 1, −60 ≤ t ≤ 70 °C, 30 ≤ p ≤ 120 kPa, refused outside.

    Source:
        ASHRAE-F1, equations 33 and 35 (read)

    Notes:
        Solved by the library, to 0.001 K; its equation carries kJ/kg, so the constants do.

    Example:
        >>> wet_bulb_c(temperature_c=40.0, humidity=0.14, pressure=101325.0)
        20.01
    """
    import psychrolib

    within(temperature_c, "temperature in °C", low=-60.0, high=70.0)
    within(humidity, "humidity", low=0.0, high=1.0)
    within(pressure, "pressure of the air in Pa", low=30e3, high=120e3)
    psychrolib.SetUnitSystem(psychrolib.SI)
    each = np.vectorize(psychrolib.GetTWetBulbFromRelHum, otypes=[float])
    wet_bulb: Celsius = _plain(each(temperature_c, humidity, pressure))
    return wet_bulb


def air_pressure(*, elevation: Meter) -> Pascal:
    """Pressure of the air by height in the standard atmosphere: p = 101325 (1 − 2.25577e-5 z)^5.2559 Pa.

    Args:
        elevation: z, above the sea [m]

    Returns:
        p, mean pressure at that height [Pa]

    Raises:
        OutOfRangeError: z outside −5000 to 11000 m.

    Range:
        −5000 ≤ z ≤ 11000 m, refused outside. Weather moves it by some 3 % either way.

    Source:
        ASHRAE-F1, equation 3 (read)

    Example:
        >>> air_pressure(elevation=1000.0)
        89875
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    return float(psychrolib.GetStandardAtmPressure(within(elevation, "elevation in m", low=-5000.0, high=11000.0)))


def _plain(value: Any) -> Any:
    """A float out of an array without axes, an array as it is."""
    return float(value) if np.ndim(value) == 0 else value
