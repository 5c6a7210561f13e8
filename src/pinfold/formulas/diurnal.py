"""The air's temperature through a day and night of which only the lowest and highest are known."""

from __future__ import annotations

from typing import Any

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Celsius, Ratio, Second

_HOUR: Second = 3600.0
_DAY: Second = 24 * _HOUR
MAXIMUM_LAG: Second = 1.86 * _HOUR
"""a: the warmest comes so long after noon; air at 1.5 m in Denver."""
NIGHT_DECAY: Ratio = 2.20
"""b: how fast it cools at night."""
MINIMUM_LAG: Second = -0.17 * _HOUR
"""c: the coldest comes so long after sunrise."""


def day_temperature_c(
    *, after_sunrise: Second, day_length: Second, lowest_c: Celsius, highest_c: Celsius,
    maximum_lag: Second = MAXIMUM_LAG, minimum_lag: Second = MINIMUM_LAG,
) -> Celsius:  # fmt: skip
    """Air temperature while the sun is up: T = Tn + (Tx − Tn) sin[π (m − c) / (Y + 2 (a − c))].

    Args:
        after_sunrise: m, since sunrise [s]
        day_length: Y, from sunrise to sunset [s]
        lowest_c: Tn, of the morning [°C]
        highest_c: Tx, of the day [°C]
        maximum_lag: a, of the warmest after noon [s]
        minimum_lag: c, of the coldest after sunrise [s]

    Returns:
        T, at that time [°C]

    Raises:
        OutOfRangeError: Y not above 0 or more than a day, or m before the coldest or after sunset.

    Range:
        0 < Y ≤ 24 h, c ≤ m ≤ Y; refused outside.

    Source:
        PARTON-LOGAN, air at 1.5 m in Denver (read)

    Notes:
        One public package prints the three coefficients in each other's places: 2.20 is the night's decay and −0.17 the
        lag of the coldest. On a year of hours of a desert town they miss by 1.7 K so, by 4.1 K the other way round. The
        symmetric sine runs from the coldest over the warmest, which comes at Y/2 + a.

    Example:
        >>> day_temperature_c(
        ...     after_sunrise=18000.0, day_length=43200.0, lowest_c=10.0, highest_c=30.0, maximum_lag=9324.0,
        ...     minimum_lag=5580.0)
        23.92
    """
    within(day_length, "time from sunrise to sunset in s", above=0.0, high=_DAY)
    within(after_sunrise, "time since sunrise in s", low=np.min(minimum_lag), high=float(np.max(day_length)))
    angle = np.pi * (after_sunrise - minimum_lag) / (day_length + 2 * (maximum_lag - minimum_lag))
    temperature: Celsius = _plain(lowest_c + (highest_c - lowest_c) * np.sin(angle))
    return temperature


def night_temperature_c(
    *, after_sunset: Second, day_length: Second, lowest_c: Celsius, sunset_c: Celsius, decay: Ratio = NIGHT_DECAY,
    minimum_lag: Second = MINIMUM_LAG,
) -> Celsius:  # fmt: skip
    """Air temperature while the sun is down: T = Tn + (Ts − Tn) exp[−b n / (Z + c)].

    Args:
        after_sunset: n, since sunset [s]
        day_length: 24 h − Z, from sunrise to sunset [s]
        lowest_c: Tn, of the next morning [°C]
        sunset_c: Ts, when the sun went down [°C]
        decay: b, how fast it cools [-]
        minimum_lag: c, of the coldest after sunrise [s]

    Returns:
        T, at that time [°C]

    Raises:
        OutOfRangeError: n below 0, the day longer than the time it leaves a night, or b not above 0.

    Range:
        n ≥ 0, night with its lag above 0, b > 0; refused outside.

    Source:
        PARTON-LOGAN, air at 1.5 m in Denver (read)

    Notes:
        The exponential never quite reaches the coldest: a tenth of the way is left at b = 2.2.

    Example:
        >>> night_temperature_c(
        ...     after_sunset=7200.0, day_length=43200.0, lowest_c=10.0, sunset_c=24.485, minimum_lag=5580.0)
        20.47
    """
    within(after_sunset, "time since sunset in s", low=0.0)
    within(decay, "decay of the night", above=0.0)
    night = within(_DAY - day_length + minimum_lag, "length of the night with its lag in s", above=0.0)
    temperature: Celsius = _plain(lowest_c + (sunset_c - lowest_c) * np.exp(-decay * after_sunset / night))
    return temperature


def _plain(value: Any) -> Any:
    return float(value) if np.ndim(value) == 0 else value
