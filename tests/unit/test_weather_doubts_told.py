"""What speaks against relying on a weather file is told with every answer of the days, not with the file alone."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, timedelta

import pytest

from pinfold.actions.answers import told
from pinfold.actions.days_faces import days_faces
from pinfold.actions.days_job import days_now, job_in_days
from pinfold.actions.days_laid import JobAsked
from pinfold.actions.days_ripe import days_ripe
from pinfold.actions.days_season import days_season
from pinfold.actions.days_sheet import day_sheet
from pinfold.actions.days_weather import weather_in
from pinfold.actions.days_wet import WetAsked, days_wet
from pinfold.store.planfile import NAME
from pinfold.store.starting import from_sample

FIRST = date(2026, 5, 4)
NOW = datetime(2026, 5, 4, 14, tzinfo=UTC)


def forecast(folder, *, start=FIRST, hours=72, **changes):
    """A site whose only weather is a saved forecast."""
    from_sample(folder, "seed-garden", today=FIRST)
    for file in (folder / "weather").iterdir():
        file.unlink()
    times = [(datetime(start.year, start.month, start.day) + timedelta(hours=hour)).isoformat()  # noqa: DTZ001 - local
             for hour in range(hours)]  # fmt: skip
    whole = {
        "latitude": 38.9, "longitude": -103.6, "elevation": 1609.0, "utc_offset_seconds": -21600,
        "timezone": "America/Denver", "hourly_units": {"time": "iso8601", "temperature_2m": "°F", "wind_speed_10m": "mp/h",
                                                       "relative_humidity_2m": "%"},
        "hourly": {"time": times, "temperature_2m": [75 - abs(14 - hour % 24) for hour in range(hours)],
                   "wind_speed_10m": [6] * hours, "relative_humidity_2m": [35] * hours},
    }  # fmt: skip
    (folder / "weather" / "saved.json").write_text(json.dumps({**whole, **changes}), encoding="utf-8")
    return folder


def answers(folder):
    yield days_now(folder, now=NOW)
    yield job_in_days(folder, JobAsked(), now=NOW)
    yield day_sheet(folder, "today", now=NOW)
    yield days_season(folder, now=NOW)
    yield days_faces(folder, now=NOW)
    yield days_wet(folder, WetAsked(), now=NOW)


def words(answer):
    return " ".join(told(answer, as_json=False, width=80).split())


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"latitude": 45.0, "longitude": -70.0}, "It is for another place"),
        ({"elevation": 50.0}, "higher than its place: reckon with some"),
    ],
)
def test_a_forecast_for_another_place_is_doubted_in_every_answer(tmp_path, changes, said):
    folder = forecast(tmp_path / "site", **changes)

    assert all(said in words(answer) for answer in answers(folder))


def test_fahrenheit_marked_celsius_is_told_and_not_used_in_any_answer(tmp_path):
    units = {"time": "iso8601", "temperature_2m": "°C", "wind_speed_10m": "mp/h", "relative_humidity_2m": "%"}
    folder = forecast(tmp_path / "site", hourly_units=units)

    for answer in answers(folder):
        text = words(answer)
        assert "Is it Fahrenheit marked Celsius? Mend the unit." in text
        assert "is not used: it has no air temperature" in text or answer.record.__class__.__name__ == "SheetTold"
        assert "NOT SHOWN.." not in text


def test_a_file_cut_in_half_is_named_where_today_is_told(tmp_path):
    folder = forecast(tmp_path / "site")
    file = folder / "weather" / "saved.json"
    file.write_text(file.read_text(encoding="utf-8")[:600], encoding="utf-8")

    assert "saved.json" in words(days_now(folder, now=NOW))
    assert "the file ends in the middle" in words(days_now(folder, now=NOW))


def test_last_weeks_forecast_is_told_to_be_over_when_it_is_looked_at(tmp_path):
    folder = forecast(tmp_path / "site", start=FIRST - timedelta(days=9))
    text = words(weather_in(folder, folder / "weather" / "saved.json", now=NOW))

    assert "saved.json ended on 2026-04-28 00:00: it is over and not used." in text
    assert "it is over" in words(days_now(folder, now=NOW))


def changed(folder, *pairs):
    text = (folder / NAME).read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    (folder / NAME).write_text(text, encoding="utf-8")
    return folder


def test_where_the_sun_sets_after_midnight_days_typed_are_read_and_it_is_told(tmp_path):
    from_sample(tmp_path / "far", "quinta", today=FIRST)
    folder = changed(
        tmp_path / "far", ('latitude = "37.6 deg"', 'latitude = "69.6 deg"'),
        ('longitude = "-7.9 deg"', 'longitude = "18.9 deg"'), ("Europe/Lisbon", "Europe/Oslo"),
    )  # fmt: skip
    answer = weather_in(folder, folder / "weather" / "invented-normals.toml", now=NOW)

    assert "the sun hardly rises or sets, or not at all" in words(answer)
    assert days_now(folder, now=NOW).record.works


def test_without_a_time_zone_a_time_is_typed_by_the_clock_of_the_weather(tmp_path):
    folder = forecast(tmp_path / "site")
    changed(folder, ('time_zone = "America/Denver"', ""))

    assert "Mon 05-04 15:00" in words(days_ripe(folder, "footing", "2026-05-04T15:00", now=NOW))
