"""Weather files made up for tests, in the public layouts; and the real ones, where they lie."""

from __future__ import annotations

import importlib.util
import json
import math
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from pinfold.plan.place import Place

_BESIDE = Path(__file__).parents[2] / "shared" / "reference" / "weather"
AURORA = _BESIDE / "USA_CO_Aurora-Buckley.Field.ANGB.724695_TMY3.epw"
STATIONS = Path(str(importlib.util.find_spec("pvlib").origin)).parent / "data"
GREENSBORO, SAND_POINT = STATIONS / "723170TYA.CSV", STATIONS / "703165TY.csv"


def aurora() -> bytes:
    """The year beside the project; the test is skipped where it does not lie there."""
    if not AURORA.exists():
        pytest.skip("the weather file of Aurora does not lie beside the project")
    return AURORA.read_bytes()


def place(**changed: object) -> Place:
    """A place that says nothing but what is asked for."""
    nothing = dict.fromkeys(
        ("latitude", "longitude", "elevation", "wind_speed", "exposure", "topography", "frost_depth", "soil")
    )
    return Place(**{**nothing, "says": "", "north": 0.0, "wind_edition": "", "time_zone": None, **changed})


DENVER = place(
    latitude=math.radians(39.72), longitude=math.radians(-104.75), elevation=1700.0, time_zone="America/Denver"
)


def periods(*, hours: int = 48, start: datetime = datetime(2026, 5, 3, 6, tzinfo=UTC), **changed: object) -> bytes:
    """A saved hourly forecast laid out in periods; `changed` goes into each period."""
    rows = []
    for hour in range(hours):
        begins = start + timedelta(hours=hour)
        there = begins.astimezone(timezone(timedelta(hours=-6)))
        rows.append({
            "number": hour + 1, "name": "", "startTime": there.isoformat(),
            "endTime": (there + timedelta(hours=1)).isoformat(), "isDaytime": 6 <= there.hour < 18,
            "temperature": round(60 + 15 * math.sin((there.hour - 9) / 24 * 2 * math.pi)), "temperatureUnit": "F",
            "temperatureTrend": None,
            "probabilityOfPrecipitation": {"unitCode": "wmoUnit:percent", "value": None if hour % 5 == 4 else 10},
            "dewpoint": {"unitCode": "wmoUnit:degC", "value": 2.5},
            "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 40},
            "windSpeed": "5 to 10 mph" if hour % 3 else "5 mph", "windDirection": "NNE", "icon": "",
            "shortForecast": "Partly Sunny", "detailedForecast": "", **changed,
        })  # fmt: skip
    return json.dumps({
        "type": "Feature",
        "geometry": {"type": "Polygon", "coordinates": [[[-104.8, 39.7], [-104.8, 39.74], [-104.7, 39.74],
                                                         [-104.7, 39.7], [-104.8, 39.7]]]},
        "properties": {"units": "us", "forecastGenerator": "HourlyForecastGenerator",
                       "generatedAt": (start - timedelta(hours=1)).isoformat(), "updateTime": start.isoformat(),
                       "elevation": {"unitCode": "wmoUnit:m", "value": 1698.3}, "periods": rows},
    }).encode()  # fmt: skip


UNITS = {
    "time": "iso8601", "temperature_2m": "°C", "relative_humidity_2m": "%", "dew_point_2m": "°C", "precipitation": "mm",
    "precipitation_probability": "%", "cloud_cover": "%", "surface_pressure": "hPa", "wind_speed_10m": "km/h",
    "wind_direction_10m": "°", "shortwave_radiation": "W/m²", "direct_normal_irradiance": "W/m²",
    "diffuse_radiation": "W/m²",
}  # fmt: skip


def columns(
    *, hours: int = 48, first: str = "2026-05-03T00:00", only: tuple[str, ...] = tuple(UNITS), **changed
) -> bytes:
    """A saved hourly forecast laid out in columns; `changed` replaces or adds columns of `hourly`."""
    begins = datetime.fromisoformat(first)
    hourly = {
        "time": [(begins + timedelta(hours=hour)).isoformat(timespec="minutes") for hour in range(hours)],
        "temperature_2m": [16 + 8 * math.sin((hour % 24 - 9) / 24 * 2 * math.pi) for hour in range(hours)],
        "relative_humidity_2m": [40] * hours, "dew_point_2m": [2.5] * hours,
        "precipitation": [0.4 if hour % 24 == 17 else 0.0 for hour in range(hours)],
        "precipitation_probability": [10] * hours, "cloud_cover": [50] * hours, "surface_pressure": [830.0] * hours,
        "wind_speed_10m": [18.0] * hours, "wind_direction_10m": [(350 + 20 * (hour % 2)) % 360 for hour in range(hours)],
        "shortwave_radiation": [max(0.0, 700 * math.sin((hour % 24 - 7.5) / 12 * math.pi)) for hour in range(hours)],
        "direct_normal_irradiance": [max(0.0, 600 * math.sin((hour % 24 - 7.5) / 12 * math.pi)) for hour in range(hours)],
        "diffuse_radiation": [max(0.0, 150 * math.sin((hour % 24 - 7.5) / 12 * math.pi)) for hour in range(hours)],
    }  # fmt: skip
    hourly = {key: hourly[key] for key in only} | {key: value for key, value in changed.items() if key not in TOP}
    whole = {
        "latitude": 39.72, "longitude": -104.75, "generationtime_ms": 0.2, "utc_offset_seconds": -21600,
        "timezone": "America/Denver", "timezone_abbreviation": "MDT", "elevation": 1700.0,
        "hourly_units": {key: UNITS.get(key, "") for key in hourly}, "hourly": hourly,
    }  # fmt: skip
    return json.dumps({**whole, **{key: value for key, value in changed.items() if key in TOP}}).encode()


TOP = frozenset({"hourly_units", "utc_offset_seconds", "latitude", "longitude", "elevation"})
