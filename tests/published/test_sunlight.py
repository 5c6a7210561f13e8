"""Where the sun stands, how it meets a plane, how long the day is, against printed values."""

from __future__ import annotations

import math
from datetime import date, datetime, timedelta, timezone

import pytest

from pinfold.formulas import sunlight
from pinfold.studies.sun.positions import sun_at, sun_day
from pinfold.studies.sun.records import Standpoint
from published import Printed
from rows import Row

DEG = math.radians(1)
MJ_PER_DAY = 0.0864


def row(what, digits, ours, *, source, where, table, formula="", note="", method_error=0.0):
    return Row(
        what=what, printed=Printed(digits, source, where), ours=ours, table=table, formula=formula, note=note,
        method_error=method_error,
    )  # fmt: skip


# ---- the worked moment of the solar position algorithm

GOLDEN = Standpoint(latitude=39.742476 * DEG, longitude=-105.1786 * DEG, elevation=1830.14)
SEVEN = timezone(timedelta(hours=-7))
MOMENT = datetime(2003, 10, 17, 12, 30, 30, tzinfo=SEVEN)


def golden():
    return sun_at(GOLDEN, [MOMENT], pressure=82000.0, air_c=11.0)


def spa(what, digits, ours, formula="", note=""):
    return row(what, digits, ours, source="SPA", where="appendix A.5, results", table="SPA worked example",
               formula=formula, note=note)  # fmt: skip


MOMENTS = [
    spa("zenith distance of the sun, degrees", "50.11162202", lambda: 90 - float(golden().altitude[0]) / DEG),
    spa("azimuth of the sun, degrees", "194.34024051", lambda: float(golden().azimuth[0]) / DEG),
    spa("incidence on a plane tilted 30 degrees, looking 170 degrees", "25.18700020",
        lambda: math.acos(sunlight.cosine_of_incidence(
            altitude=(90 - 50.11162202) * DEG, azimuth=194.34024051 * DEG, tilt=30 * DEG, facing=170 * DEG)) / DEG,
        formula="sunlight.cosine_of_incidence"),
    spa("sunrise, seconds past 06:12", "43", lambda: sun_day(GOLDEN, date(2003, 10, 17), SEVEN).rise.second),
    spa("sunset, seconds past 17:20", "19", lambda: sun_day(GOLDEN, date(2003, 10, 17), SEVEN).set.second),
]  # fmt: skip

# ---- a clear day on a slope

SLOPE = {"altitude": 25.2 * DEG, "azimuth": 228.3 * DEG, "tilt": 40 * DEG, "facing": 180 * DEG}


def clear(what, digits, ours, formula, **more):
    return row(what, digits, ours, source="ASHRAE-CLEAR-DAY", where="21 February, slope of 40 degrees to the south",
               table="clear-day example", formula=formula, **more)  # fmt: skip


CLEAR_DAY = [
    clear("cosine of incidence", "0.7131", lambda: sunlight.cosine_of_incidence(**SLOPE),
          "sunlight.cosine_of_incidence"),
    clear("incidence, degrees", "44.5", lambda: math.acos(sunlight.cosine_of_incidence(**SLOPE)) / DEG,
          "sunlight.cosine_of_incidence"),
    clear("sun straight on, W/m2", "833.46",
          lambda: sunlight.beam_by_ashrae(apparent=1187.0, extinction=0.142, clearness=0.98, altitude=25.2 * DEG),
          "sunlight.beam_by_ashrae", method_error=2e-4, note="the altitude is printed to a tenth of a degree"),
    clear("sun on the slope, W/m2", "594.3", lambda: sunlight.beam_on_plane(beam=833.46, cosine=0.7131, lit=1.0),
          "sunlight.beam_on_plane"),
]  # fmt: skip


def by_hour_angle(*, latitude, day, hour, tilt, facing):
    """Incidence where hour angle and declination are given: the sun's place by the textbook."""
    declination = 23.45 * DEG * math.sin(2 * math.pi * (284 + day) / 365)
    turned = (hour - 12) * 15 * DEG
    altitude = math.asin(
        math.sin(latitude) * math.sin(declination) + math.cos(latitude) * math.cos(declination) * math.cos(turned)
    )
    off_south = math.acos(
        (math.sin(altitude) * math.sin(latitude) - math.sin(declination)) / (math.cos(altitude) * math.cos(latitude))
    )
    azimuth = math.pi + math.copysign(off_south, turned)
    return math.acos(
        sunlight.cosine_of_incidence(altitude=altitude, azimuth=azimuth, tilt=tilt, facing=facing)
    )  # fmt: skip


TEXTBOOK = [
    row("incidence at latitude 38.54, 13 February 10:30, tilt 45, 15 degrees west of south", "33.7",
        lambda: by_hour_angle(latitude=38.54 * DEG, day=44, hour=10.5, tilt=45 * DEG, facing=195 * DEG) / DEG,
        source="INCIDENCE-PROBLEM", where="answer, degrees", table="textbook problem of incidence",
        formula="sunlight.cosine_of_incidence"),
]  # fmt: skip

# ---- days

SOUTH = -20 * DEG


def fao(what, digits, ours, formula, where="example 8, 3 September at 20 degrees south"):
    return row(what, digits, ours, source="FAO-56", where=where, table="FAO-56 examples 8 and 9",
               formula=f"sunlight.{formula}")  # fmt: skip


DAYS = [
    fao("distance factor", "0.985", lambda: sunlight.distance_factor_by_fao56(day=246.0), "distance_factor_by_fao56"),
    fao("declination, rad", "0.120", lambda: sunlight.declination_by_fao56(day=246.0), "declination_by_fao56"),
    fao("hour angle of sunset, rad", "1.527", lambda: sunlight.sunset_hour_angle(latitude=SOUTH, declination=0.120),
        "sunset_hour_angle"),
    fao("sun outside the air, MJ/m2 in the day", "32.2",
        lambda: MJ_PER_DAY * sunlight.sun_outside_by_fao56(latitude=SOUTH, day=246.0), "sun_outside_by_fao56"),
    fao("daylight, hours", "11.7", lambda: sunlight.daylight_by_fao56(latitude=SOUTH, day=246.0) / 3600,
        "daylight_by_fao56", where="example 9, the same day"),
    row("daylight at 20 degrees south on day 246, hours", "11.66559",
        lambda: sunlight.daylight_by_fao56(latitude=SOUTH, day=246.0) / 3600, source="DAYLIGHT-NCL",
        where="example 1", table="day lengths", formula="sunlight.daylight_by_fao56"),
    row("daylight at 30 degrees north on day 105, hours", "12.7",
        lambda: sunlight.daylight_by_fao56(latitude=30 * DEG, day=105.0) / 3600, source="DAYLIGHT-USGS",
        where="page 60", table="day lengths", formula="sunlight.daylight_by_fao56"),
    row("daylight at 41.42 degrees north on day 135, hours", "14.3",
        lambda: sunlight.daylight_by_fao56(latitude=41.42 * DEG, day=135.0) / 3600, source="DAYLIGHT-TESTS",
        where="its one station", table="day lengths", formula="sunlight.daylight_by_fao56"),
]  # fmt: skip
ALICE = -23.7951 * DEG


def alice(what, digits, ours, formula):
    return row(what, digits, ours, source="SUN-ALICE-SPRINGS", where="20 July 1980, day 202",
               table="a winter day in Australia", formula=f"sunlight.{formula}")  # fmt: skip


AUSTRALIA = [
    alice("distance factor", "0.9688", lambda: sunlight.distance_factor_by_fao56(day=202.0), "distance_factor_by_fao56"),
    alice("declination, rad", "0.3557", lambda: sunlight.declination_by_fao56(day=202.0), "declination_by_fao56"),
    alice("hour angle of sunset, rad", "1.4063",
          lambda: sunlight.sunset_hour_angle(latitude=ALICE, declination=sunlight.declination_by_fao56(day=202.0)),
          "sunset_hour_angle"),
    alice("daylight, hours", "10.7431", lambda: sunlight.daylight_by_fao56(latitude=ALICE, day=202.0) / 3600,
          "daylight_by_fao56"),
    alice("sun outside the air, MJ/m2 in the day", "23.6182",
          lambda: MJ_PER_DAY * sunlight.sun_outside_by_fao56(latitude=ALICE, day=202.0), "sun_outside_by_fao56"),
]  # fmt: skip

# ---- sol-air

FILM, LOSS = 3.0 * 5.678263, 20.0 * 3.154591  # Btu/(h ft2 °F), Btu/(h ft2)
SOL_AIR = [
    row("how far a level face is colder than the air under a clear sky, °F", "7",
        lambda: -1.8 * sunlight.sol_air_temperature_c(air_c=0.0, absorptance=0.0, light=0.0, to_sky=LOSS, film=FILM),
        source="SOL-AIR", where="correction of level surfaces", table="sol-air constants",
        formula="sunlight.sol_air_temperature_c"),
]  # fmt: skip

ROWS = [*MOMENTS, *CLEAR_DAY, *TEXTBOOK, *DAYS, *AUSTRALIA, *SOL_AIR]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row):
    assert row.printed.fits(row.ours(), method_error=row.method_error), f"{row}: {row.ours()} for {row.printed.digits}"
