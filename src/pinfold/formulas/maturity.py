"""How far a mix has hardened by how warm it was: degree hours, and the age at one warmth that stands for them."""

from __future__ import annotations

from typing import Any

import numpy as np

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import Celsius, KelvinSecond, Second

_ZERO = 273.15
_ACTIVATION = 5000.0
"""Activation energy over the gas constant, in kelvin."""
_COLDEST, _HOTTEST = -60.0, 90.0


def temperature_time_factor(*, temperature_c: Celsius, datum_c: Celsius, time: Second) -> KelvinSecond:
    """Maturity that a mix gains in a time: M = (T − T0) Δt, nothing where T is below T0.

    Args:
        temperature_c: T, mean of the mix in that time [°C]
        datum_c: T0, at which it hardens no more: 0 °C, or −10 °C in older use [°C]
        time: Δt, how long [s]

    Returns:
        M, degrees above the datum times the time [K s]

    Raises:
        OutOfRangeError: T outside −60 to 90 °C, or the time negative.

    Range:
        −60 ≤ T ≤ 90 °C, Δt ≥ 0; refused outside.

    Source:
        ASTM-C1074, equation 1 (read)
        COLD-SLIDES, a step of one hour (read)

    Example:
        >>> temperature_time_factor(temperature_c=15.0, datum_c=-11.0, time=2419200.0)
        62899200
    """
    return _above(temperature_c, datum_c) * within(time, "time in s", low=0.0)


def age_by_nurse_saul(*, temperature_c: Celsius, datum_c: Celsius, reference_c: Celsius, time: Second) -> Second:
    """Age at a reference warmth with the same degree hours: t = (T − T0) Δt / (Tr − T0), 0 where T is below T0.

    Args:
        temperature_c: T, mean of the mix in that time [°C]
        datum_c: T0, at which it hardens no more [°C]
        reference_c: Tr, the warmth its strength is known at [°C]
        time: Δt, how long [s]

    Returns:
        t, so long at the reference warmth hardens it as far [s]

    Raises:
        OutOfRangeError: T outside −60 to 90 °C, the time negative, or the reference not above the datum.

    Range:
        −60 ≤ T ≤ 90 °C, Δt ≥ 0, Tr > T0; refused outside.

    Source:
        ASTM-C1074, equation 1 at two temperatures (derived)

    Example:
        >>> age_by_nurse_saul(temperature_c=10.0, datum_c=0.0, reference_c=20.0, time=86400.0)
        43200
    """
    if reference_c <= datum_c:
        raise OutOfRangeError(f"the reference of {reference_c:g} °C is not above the datum of {datum_c:g} °C")
    return _above(temperature_c, datum_c) * within(time, "time in s", low=0.0) / (reference_c - datum_c)


def age_by_arrhenius(*, temperature_c: Celsius, stops_c: Celsius, reference_c: Celsius, time: Second) -> Second:
    """Age at a reference warmth that hardens a mix as far: t = Δt exp(−Q (1/T − 1/Tr)), T in kelvin, Q 5000 K.

    Args:
        temperature_c: T, mean of the mix in that time [°C]
        stops_c: at this or colder it hardens no more [°C]
        reference_c: Tr, the warmth its strength is known at [°C]
        time: Δt, how long [s]

    Returns:
        t, so long at the reference warmth hardens it as far [s]

    Raises:
        OutOfRangeError: T outside −60 to 90 °C, or the time negative.

    Range:
        −60 ≤ T ≤ 90 °C, Δt ≥ 0; refused outside.

    Source:
        ASTM-C1074, equation 2 (read)
        ASTM-C1074, 5000 K for usual cement without admixture (memory)
        COLD-BOOK, where hydration all but ends (read)

    Example:
        >>> age_by_arrhenius(temperature_c=10.0, stops_c=-4.0, reference_c=23.0, time=86400.0)
        39799
    """
    within(time, "time in s", low=0.0)
    within(temperature_c, "temperature in °C", low=_COLDEST, high=_HOTTEST)
    faster = np.exp(-_ACTIVATION * (1 / (np.asarray(temperature_c) + _ZERO) - 1 / (reference_c + _ZERO)))
    age: Second = _plain(np.where(np.asarray(temperature_c) > stops_c, faster, 0.0) * time)
    return age


def _above(temperature_c: float, datum_c: float) -> float:
    within(temperature_c, "temperature in °C", low=_COLDEST, high=_HOTTEST)
    above: float = _plain(np.maximum(np.asarray(temperature_c) - datum_c, 0.0))
    return above


def _plain(value: Any) -> Any:
    """A float out of an array without axes, an array as it is."""
    return float(value) if np.ndim(value) == 0 else value
