"""The air, its weather and its year, against what their sources print."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest

from pinfold.formulas import diurnal, moist_air, sky, weather_year, wind_profile
from published import Printed
from rows import Row

COEFFICIENTS = "the library's coefficients are older than the table; its own tests allow 3e-4"
HOUR = 3600.0


def row(source, where, formula, what, digits, ours, *, note="", method_error=0.0):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}",
               formula=formula, note=note, method_error=method_error)  # fmt: skip


def held(temperature, printed):
    """Saturation pressure by table 3."""
    return row("ASHRAE-F1", "table 3", "moist_air.saturation_pressure",
               f"water vapor that air of {temperature} °C holds, Pa", printed,
               lambda: moist_air.saturation_pressure(temperature_c=float(temperature)), method_error=3e-4,
               note=COEFFICIENTS)  # fmt: skip


def thin(elevation, printed):
    """Pressure by height."""
    return row("ASHRAE-F1", "standard atmosphere", "moist_air.air_pressure", f"pressure at {elevation} m, Pa", printed,
               lambda: moist_air.air_pressure(elevation=float(elevation)))  # fmt: skip


def shaped(time, printed):
    """A day from 6 to 18 h, 10 to 30 °C, by the coefficients of five sites in North Carolina."""
    lags = {"minimum_lag": 1.55 * HOUR}

    def day(hour):
        return diurnal.day_temperature_c(after_sunrise=(hour - 6) * HOUR, day_length=12 * HOUR, lowest_c=10.0,
                                         highest_c=30.0, maximum_lag=2.59 * HOUR, **lags)  # fmt: skip

    def night(hour):
        return diurnal.night_temperature_c(after_sunset=(hour - 18) % 24 * HOUR, day_length=12 * HOUR, lowest_c=10.0,
                                           sunset_c=day(18), decay=2.2, **lags)  # fmt: skip

    name = "day" if 6 <= time < 18 else "night"
    return row("PARTON-LOGAN", "test vectors, sine and exponential", f"diurnal.{name}_temperature_c",
               f"air at {time} h between 10 and 30 °C, °C", printed,
               lambda: day(time) if name == "day" else night(time))  # fmt: skip


def glowing(when, air, dew, tenths, printed):
    """Heat from the sky of an hour of a typical year."""
    return row("SKY-HEAT", "hours of a typical year of Aurora", "sky.sky_heat" if tenths % 2 else "sky.sky_emissivity",
               f"heat from the sky, {when}: {air} °C, dew point {dew} °C, {tenths} tenths, W/m²", printed,
               lambda: sky.sky_heat(temperature_c=air, emissivity=sky.sky_emissivity(
                   dew_point_c=dew, cloud=tenths / 10)))  # fmt: skip


def matrices():
    """A and B, read off the formula by asking it for one thing at a time."""
    zero = dict.fromkeys(("high_before", "low_before", "sun_before", "high_chance", "low_chance", "sun_chance"), 0.0)
    answers = {key: weather_year.departures(**{**zero, key: 1.0}) for key in zero}
    table = {key: np.array([each.high, each.low, each.sun]) for key, each in answers.items()}
    left = np.column_stack([table[f"{name}_before"] for name in ("high", "low", "sun")])
    adds = np.column_stack([table[f"{name}_chance"] for name in ("high", "low", "sun")])
    return left, adds


def covariance():
    """What the departures vary together in the long run: M = A M A' + B B'."""
    left, adds = matrices()
    found = np.eye(3)
    for _ in range(500):
        found = left @ found @ left.T + adds @ adds.T
    return found


def varies(place, name):
    return row("WGEN", "matrices A and B", "weather_year.departures", f"variance of the departures of {name}", "1.00",
               lambda: float(covariance()[place, place]))  # fmt: skip


ROWS: list[Row] = [
    *(held(*each) for each in ((-20, "103.24"), (-5, "401.74"), (5, "872.6"), (25, "3169.7"), (50, "12351.3"),
                               (100, "101418.0"))),
    *(thin(*each) for each in ((0, "101325"), (500, "95461"), (1000, "89875"), (4000, "61640"))),
    row("ASHRAE-F1", "example 1", "moist_air.wet_bulb_c", "wet bulb of 40 °C and 14 %, °C", "20",
        lambda: moist_air.wet_bulb_c(temperature_c=40.0, humidity=0.14, pressure=101325.0)),
    row("ASHRAE-F1", "example 1", "moist_air.dew_point_c", "dew point of 40 °C and 14 %, °C", "7",
        lambda: moist_air.dew_point_c(temperature_c=40.0, humidity=0.14)),
    row("ASHRAE-F1", "example 1", "moist_air.humidity_at", "humidity of 40 °C, dew point 7 °C, percent", "14",
        lambda: 100 * moist_air.humidity_at(temperature_c=40.0, dew_point_c=7.0)),
    row("FAO-56", "example 3", "moist_air.saturation_pressure", "mean of what 24.5 and 15 °C hold, kPa", "2.39",
        lambda: sum(moist_air.saturation_pressure(temperature_c=each) for each in (24.5, 15.0)) / 2000),
    row("FAO-56", "example 5", "moist_air.vapor_pressure", "mean of 18 °C at 82 % and 25 °C at 54 %, kPa", "1.70",
        lambda: (moist_air.vapor_pressure(temperature_c=18.0, humidity=0.82)
                 + moist_air.vapor_pressure(temperature_c=25.0, humidity=0.54)) / 2000),
    row("FAO-56", "example 14", "wind_profile.wind_at_two_meters", "3.2 m/s at 10 m, at 2 m, m/s", "2.4",
        lambda: wind_profile.wind_at_two_meters(speed=3.2, height=10.0)),
    row("FAO-56", "equation 47 in a program's example", "wind_profile.wind_at_two_meters", "5 m/s at 10 m, at 2 m, m/s",
        "3.74", lambda: wind_profile.wind_at_two_meters(speed=5.0, height=10.0)),
    row("WIND-PROFILE", "example from 10 to 80 m", "wind_profile.share_of_wind", "10 m/s at 10 m, at 80 m, m/s",
        "13.58", lambda: 10 * wind_profile.share_of_wind(height=80.0, told_at=10.0, roughness=0.03)),
    *(shaped(*each) for each in ((11, "23.91954"), (20, "20.46866"), (3, "13.35971"))),
    *(glowing(*each) for each in (
        ("1 January, 15 h", 5.8, -4.6, 2, "274"), ("7 February, 4 h", -7.0, -14.0, 0, "212"),
        ("15 March, 17 h", 17.0, -13.0, 5, "319"), ("21 April, 6 h", 5.0, 2.0, 5, "285"),
        ("27 May, 19 h", 10.9, 6.2, 4, "312"), ("3 July, 8 h", 13.0, 5.0, 9, "342"),
        ("8 August, 21 h", 20.0, 9.0, 2, "351"), ("14 September, 10 h", 24.4, 3.3, 1, "361"),
        ("20 October, 23 h", 8.0, -11.0, 9, "300"), ("26 November, 12 h", 4.0, 4.0, 7, "289"))),
    *(varies(*each) for each in ((0, "highs"), (1, "lows"), (2, "sun"))),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_is_what_is_printed(row):
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed.digits)


def test_no_table_counts_for_more_than_ten():
    assert max(Counter(row.table for row in ROWS).values()) <= 10


def test_the_misprints_in_circulation_would_be_noticed():
    left, adds = matrices()
    adds[0, 0], adds[2, 1] = 0.718, -0.314
    found = np.eye(3)
    for _ in range(500):
        found = left @ found @ left.T + adds @ adds.T

    assert np.diag(found) == pytest.approx([0.852, 0.966, 0.980], abs=2e-3)
