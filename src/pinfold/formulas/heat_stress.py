"""What heat does to people at work: how hot it feels, how long to work in an hour, what a body bears."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.tables.heat import POWER, SUN, WORKED, Effort, Sun, humidity_added
from pinfold.units import Celsius, Ratio, Second

_F = 5 / 9
_MINUTE: Second = 60.0


def heat_index_c(*, temperature_c: Celsius, humidity: Ratio) -> Celsius:
    """How hot air feels in the shade: HI = −42.379 + 2.04901523 T + 10.14333127 R − 0.22475541 T R − ….

    T in °F, R in %, nine terms in all. Where 0.5 (T + 61 + 1.2 (T − 68) + 0.094 R) is under 80 °F, that is the index.
    In dry heat (R < 13 %, 80 to 112 °F) it is less by (13 − R)/4 √((17 − |T − 95|)/17), in damp warmth (R > 85 %, 80
    to 87 °F) more by (R − 85)/10 (87 − T)/5.

    Args:
        temperature_c: T, of the air in the shade [°C]
        humidity: R, relative, as a share [-]

    Returns:
        HI, as a temperature [°C]

    Raises:
        OutOfRangeError: T outside −60 to 60 °C, or R outside 0 to 1.

    Range:
        −60 ≤ T ≤ 60 °C, 0 ≤ R ≤ 1; refused outside. Light wind and shade are meant; the regression rests on tables that
        end where nobody lives.

    Source:
        NWS-HEAT-INDEX, equations and both adjustments (read)

    Notes:
        The page speaks of averaging the simple value with the temperature: as printed it is that average already.

    Example:
        >>> heat_index_c(temperature_c=32.222, humidity=0.6)
        37.6
    """
    warm = within(temperature_c, "temperature in °C", low=-60.0, high=60.0) / _F + 32.0
    damp = within(humidity, "humidity", low=0.0, high=1.0) * 100.0
    simple = 0.5 * (warm + 61.0 + (warm - 68.0) * 1.2 + damp * 0.094)
    felt = np.where(simple < 80.0, simple, _regression(warm, damp) + _adjustment(np.asarray(warm), np.asarray(damp)))
    index: Celsius = _plain((felt - 32.0) * _F)
    return index


def _regression(t: float, r: float) -> float:
    """The nine terms."""
    return (
        -42.379 + 2.04901523 * t + 10.14333127 * r - 0.22475541 * t * r - 0.00683783 * t * t - 0.05481717 * r * r
        + 0.00122874 * t * t * r + 0.00085282 * t * r * r - 0.00000199 * t * t * r * r
    )  # fmt: skip


def _adjustment(t: Any, r: Any) -> Any:
    dry = -(13.0 - r) / 4.0 * np.sqrt(np.maximum(17.0 - np.abs(t - 95.0), 0.0) / 17.0)
    wet = (r - 85.0) / 10.0 * (87.0 - t) / 5.0
    return np.where((r < 13.0) & (t >= 80.0) & (t <= 112.0), dry,
                    np.where((r > 85.0) & (t >= 80.0) & (t <= 87.0), wet, 0.0))  # fmt: skip


def adjusted_temperature_c(*, temperature_c: Celsius, humidity: Ratio, sun: Sun) -> Celsius:
    """Temperature by which work and rest are told: T + a(R) + s, a by humidity, s by the sun.

    a is −8, −4, 0, 3, 6, 9 °F at 10 to 60 %, straight between and held beyond; s is 13 °F in full sun, 7 °F under some
    cloud, nothing in shade or at night.

    Args:
        temperature_c: T, of the air in the shade [°C]
        humidity: R, relative, as a share [-]
        sun: full without clouds, part under some cloud, or shade

    Returns:
        adjusted temperature [°C]

    Raises:
        OutOfRangeError: T outside −60 to 60 °C, or R outside 0 to 1.

    Range:
        −60 ≤ T ≤ 60 °C, 0 ≤ R ≤ 1; refused outside. Humidity beyond 10 and 60 % is held there.

    Source:
        NIOSH-2016-106, footnote of table 6-2 (read)

    Example:
        >>> adjusted_temperature_c(temperature_c=35.0, humidity=0.3, sun="full")
        42.2
    """
    within(temperature_c, "temperature in °C", low=-60.0, high=60.0)
    within(humidity, "humidity", low=0.0, high=1.0)
    adjusted: Celsius = _plain(np.asarray(temperature_c) + (humidity_added(humidity) + SUN[sun]) * _F)
    return adjusted


def work_in_hour(*, adjusted_c: Celsius, effort: Effort) -> Second:
    """How long to work in an hour, the rest being rest in shade: t of NIOSH's table by adjusted temperature and effort.

    Args:
        adjusted_c: adjusted temperature [°C]
        effort: light, moderate or heavy

    Returns:
        t, work in the hour; an hour where no rest is set, 0 where the table says extreme caution [s]

    Raises:
        OutOfRangeError: the temperature is no number.

    Range:
        Any temperature; between two whole °F of the table the warmer row counts.

    Source:
        NIOSH-WORK-REST, the table (read)

    Notes:
        For people under 40, fit, rested and fully watered, at 30 % humidity with air that moves.

    Example:
        >>> work_in_hour(adjusted_c=40.0, effort="heavy")
        1200
    """
    within(adjusted_c, "adjusted temperature in °C", low=-100.0, high=100.0)
    row = np.ceil(np.asarray(adjusted_c) / _F + 32.0 - 1e-6)
    first, minutes = WORKED[effort]
    places = np.clip(row - first + 1, 0, len(minutes) + 1).astype(int)
    work: Second = _plain(np.array([60, *minutes, 0], dtype=float)[places] * _MINUTE)
    return work


def wbgt_limit_c(*, effort: Effort, used_to_it: bool) -> Celsius:
    """Wet-bulb globe temperature that a healthy body bears: REL = 56.7 − 11.5 lg M, RAL = 59.9 − 14.1 lg M.

    REL for a body used to heat, RAL for one that is not.

    Args:
        effort: light, moderate or heavy: M is 180, 300, 415 W
        used_to_it: whether the body is used to work in heat

    Returns:
        the limit, mean of an hour [°C]

    Raises:
        OutOfRangeError: never.

    Range:
        The three efforts.

    Source:
        NIOSH-2016-106, section 8.1, both equations, and powers of the efforts (read)

    Example:
        >>> wbgt_limit_c(effort="moderate", used_to_it=True)
        28.2
    """
    power = math.log10(POWER[effort])
    return 56.7 - 11.5 * power if used_to_it else 59.9 - 14.1 * power


def unused_margin_c(*, effort: Effort) -> Celsius:
    """How much warmer the same work is for a body not used to heat: REL − RAL = 2.6 lg M − 3.2.

    Args:
        effort: light, moderate or heavy

    Returns:
        the margin, in degrees to add [°C]

    Raises:
        OutOfRangeError: never.

    Range:
        The three efforts.

    Source:
        NIOSH-2016-106, section 8.1, difference of both equations (derived)

    Notes:
        It is a margin of wet-bulb globe temperature; added to the air's it is on the low side.

    Example:
        >>> unused_margin_c(effort="heavy")
        3.6
    """
    return wbgt_limit_c(effort=effort, used_to_it=True) - wbgt_limit_c(effort=effort, used_to_it=False)


def _plain(value: Any) -> Any:
    """A float out of an array without axes, an array as it is."""
    return float(value) if np.ndim(value) == 0 else value
