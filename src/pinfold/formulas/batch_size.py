"""How large a batch may be: by the drum, by what is lifted into it, by the time before it sets."""

from __future__ import annotations

import math
from functools import cache
from itertools import pairwise

from pinfold.formulas.ranges import within
from pinfold.tables.shelf import shelf
from pinfold.units import Celsius, CubicMeter, CubicMeterPerSecond, Kilogram, Ratio, Second

_ORDINARY = 21.0 + 1 / 9  # 70 °F, at which the usual times of use are meant


def drum_batch(*, drum: CubicMeter, share: Ratio) -> CubicMeter:
    """Finished mix that a drum turns well: V = s D; a fuller one spills and does not fold the mix over.

    Args:
        drum: D, volume of the drum, filled to the brim where it stands upright [m3]
        share: s, about 0.6 [-]

    Returns:
        V, finished mix [m3]

    Raises:
        OutOfRangeError: the drum is not above 0, or the share not above 0 and at most 0.8.

    Range:
        D > 0, 0 < s ≤ 0.8; makers' own figures lie from 0.5 to 0.8.

    Source:
        DRUM-SHARE, p. 59 (read)

    Example:
        >>> drum_batch(drum=0.12, share=0.6)
        0.072
    """
    return within(drum, "volume of the drum in m3", above=0.0) * within(share, "share of the drum", high=0.8, above=0.0)


def charge_by_lifts(*, lift: Kilogram, share: Ratio, pace: Ratio, minutes: Ratio) -> Kilogram:
    """Mass that one person lifts into a mixer before the charging takes too long: M = s L n t.

    Args:
        lift: L, most that one lifts now and then [kg]
        share: s, what is left of it when it is lifted again and again [-]
        pace: n, lifts in a minute [-]
        minutes: t, minutes that charging may take [-]

    Returns:
        M, mass of a charge [kg]

    Raises:
        OutOfRangeError: a value lies outside its range.

    Range:
        0 < L ≤ 60 kg, 0 < s ≤ 1, 0 < n ≤ 12, t > 0.

    Source:
        HSE-LIFTING, 30 % less once or twice a minute (read); the minutes are common practice (practice)

    Example:
        >>> charge_by_lifts(lift=20.0, share=0.7, pace=2.0, minutes=10.0)
        280.0
    """
    within(lift, "most that one lifts in kg", above=0.0, high=60.0)
    within(share, "share of it again and again", above=0.0, high=1.0)
    often = within(pace, "lifts in a minute", above=0.0, high=12.0) * within(minutes, "minutes of charging", above=0.0)
    return lift * share * often


def setting_time(*, temperature: Celsius) -> Second:
    """Time that concrete takes to set: log-linear between the rows of the published table.

    Above its last row the slope between the two last ones goes on (common practice): sun and hot sand pass it.

    Args:
        temperature: of the mix and of the air alike [°C]

    Returns:
        time from the first water [s]

    Raises:
        OutOfRangeError: colder than the table, or above 50 °C.

    Range:
        4.4 to 37.8 °C in the table, its lowest two rows from memory; followed to 50 °C.

    Source:
        SET-TIMES, table (read)

    Example:
        >>> setting_time(temperature=35.0)
        7589.5
    """
    rows = _setting_rows()
    within(temperature, "temperature in °C", low=rows[0][0] - 1e-9, high=50.0)
    below, above = next((pair for pair in pairwise(rows) if temperature <= pair[1][0]), rows[-2:])
    along = (temperature - below[0]) / (above[0] - below[0])
    return float(below[1] * math.pow(above[1] / below[1], along))


@cache
def _setting_rows() -> tuple[tuple[float, float], ...]:
    return tuple(sorted((row.value("temperature"), row.value("time")) for row in shelf("setting").values()))


def workable_time(*, usual: Second, temperature: Celsius) -> Second:
    """Time that a mix can be used when it is warm: T = T_0 t_s(θ) / t_s(21 °C), never more than T_0.

    The cold makes setting slower, yet nobody may use a mix for longer than its standard says.

    Args:
        usual: T_0, time from the first water at ordinary temperatures [s]
        temperature: θ, of the mix and of the air alike [°C]

    Returns:
        T, time from the first water to the last of it in its place [s]

    Raises:
        OutOfRangeError: the usual time is not above 0, or it is hotter than 50 °C.

    Range:
        T_0 > 0, θ ≤ 50 °C.

    Source:
        SET-TIMES, scaled on the usual time (practice)

    Example:
        >>> workable_time(usual=9000.0, temperature=32.0)
        4065.4
    """
    within(usual, "usual time in s", above=0.0)
    if temperature <= _ORDINARY:
        return usual
    return usual * setting_time(temperature=temperature) / setting_time(temperature=_ORDINARY)


def batch_before_set(*, workable: Second, turning: Second, rate: CubicMeterPerSecond) -> CubicMeter:
    """Largest batch that is used up before it sets: V = q (T − t).

    Args:
        workable: T, from the first water to the last of it in its place [s]
        turning: t, from the first water until the mix is beside the work [s]
        rate: q, finished mix put into its place in a second [m3/s]

    Returns:
        V, finished mix [m3]

    Raises:
        OutOfRangeError: the mixing takes as long as the mix can be used, or a value is not above 0.

    Range:
        T > t ≥ 0, q > 0; refused outside.

    Source:
        PRACTICE, what is made is what is used up (derived)

    Example:
        >>> batch_before_set(workable=5400.0, turning=600.0, rate=0.00001)
        0.048
    """
    left = within(workable, "time it can be used in s", above=within(turning, "time of mixing in s", low=0.0)) - turning
    return within(rate, "rate of use in m3/s", above=0.0) * left
