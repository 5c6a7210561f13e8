"""What all verbs of the days start from: hours joined out of all files, at the place's clock, and worked out once."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from pinfold.actions.days_site import NO_PLACE, NO_WEATHER, days_site
from pinfold.actions.taking import take_entries
from pinfold.errors import InputError
from pinfold.plan.weather_file import Element
from pinfold.store.planfile import NAME
from pinfold.store.starting import SAMPLES, from_sample
from pinfold.store.weather.recognize import weather_file
from pinfold.studies.weather.joining import joined
from pinfold.studies.weather.taking import weather_of
from weathers import DENVER, columns

NOON = datetime(2026, 5, 3, 18, tzinfo=UTC)  # 12:00 in Denver
HOUR = timedelta(hours=1)


def of(content, name="made.json", at=DENVER):
    return weather_of(weather_file(content, name=name), at, year=2026)


def steady(degrees, hours, **changed):
    """A forecast of so many hours, all equally warm."""
    told = {"temperature_2m": [degrees] * hours, **changed}
    return of(columns(hours=hours, only=("time", "temperature_2m", "cloud_cover"), **told))


def measured(start, hours, degrees):
    rows = [f"{start + hour * HOUR:%Y-%m-%dT%H:%M}+00:00,{degrees}" for hour in range(hours)]
    return "\n".join(["time,air temperature (C)", *rows]).encode()


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "garden"
    from_sample(folder, "seed-garden")
    (folder / "weather").mkdir(exist_ok=True)
    for path in (folder / "weather").iterdir():
        path.unlink()
    return folder


def put(folder, content, name="forecast.json"):
    (folder / "weather" / name).write_bytes(content)


def test_every_hour_is_of_the_best_source_that_knows_it():
    year = steady(1.0, 24)
    forecast = steady(20.0, 12)
    station = of(measured(datetime(2026, 5, 3, 6), 3, 30), "station.csv")  # noqa: DTZ001 - the offset is in the text
    start = datetime(2026, 5, 3, 0, tzinfo=UTC)
    found = joined((forecast, station), year, start=start, count=24)
    air = found.weather.of(Element.TEMPERATURE)
    assert list(air[6:9]) == [30.0] * 3  # 00:00 there is 06:00 UTC
    assert list(air[9:17]) == [20.0] * 8
    assert set(air[18:]) == {1.0}
    assert found.foreseen[6:17].all()
    assert not found.foreseen[:6].any()


def test_hours_that_stand_for_any_year_count_as_estimated():
    year, forecast = of(columns(hours=24)), of(columns(hours=12))
    found = joined((forecast,), year, start=datetime(2026, 5, 3, 6, tzinfo=UTC), count=20)
    marks = found.weather.estimated[Element.TEMPERATURE]
    assert (marks == ~found.foreseen).all()


def test_a_newer_forecast_goes_over_an_older_one():
    older = steady(5.0, 48)
    newer = steady(9.0, 24, first="2026-05-03T12:00")
    for order in ((older, newer), (newer, older)):
        air = joined(order, None, start=older.start, count=48).weather.of(Element.TEMPERATURE)
        assert set(air[:12]) == {5.0}
        assert set(air[12:35]) == {9.0}


def test_wind_and_dew_point_that_a_forecast_does_not_tell_are_lent_by_the_year_and_marked():
    year = steady(28.0, 24, wind_speed_10m=[36.0] * 24, dew_point_2m=[25.0] * 24)
    bare = steady(10.0, 24)
    found = joined((bare,), year, start=bare.start, count=20).weather
    assert found.of(Element.WIND) == pytest.approx(np.full(20, 10.0))
    assert found.estimated[Element.WIND].all()
    assert (found.of(Element.DEW_POINT) <= found.of(Element.TEMPERATURE)).all()
    assert any("says none itself" in note for note in found.notes)


def test_nothing_is_known_where_no_source_reaches():
    assert joined((of(columns()),), None, start=datetime(2027, 1, 1, tzinfo=UTC), count=5) is None


def test_days_begin_at_midnight_by_the_clock_of_the_place(site):
    put(site, columns(hours=48))
    days = days_site(site, now=NOON)
    assert days.now.hour == 12
    assert days.today.isoformat() == "2026-05-03T00:00:00-06:00"
    assert days.hours.start == datetime(2026, 5, 3, 6, tzinfo=UTC)


def test_hours_and_light_are_the_same_ones_again_until_a_file_changes(site):
    put(site, columns(hours=48))
    first, again = days_site(site, now=NOON), days_site(site, now=NOON + HOUR)
    assert again.hours is first.hours
    assert again.light is first.light
    put(site, columns(hours=40))
    assert days_site(site, now=NOON).hours is not first.hours


def test_a_new_entry_does_not_have_the_sun_looked_at_again(site):
    put(site, columns(hours=48))
    first = days_site(site, now=NOON)
    light = first.light
    fields = {"item": "portland-cement", "packs": "1", "cost": "40.00"}
    entry = {"id": "bought-00001", "kind": "purchase", "at": "2026-05-03T08:00+02:00", "who": "Ana", "device": "phone",
             "fields": fields}  # fmt: skip
    assert take_entries(site, [entry])[0].state == "new"
    later = days_site(site, now=NOON)
    assert later.site is not first.site
    assert later.light is light


def test_without_weather_sun_and_shade_are_those_of_a_clear_sky_and_it_is_told(site):
    days = days_site(site, now=NOON)
    assert days.hours is None
    assert NO_WEATHER in days.told
    assert days.light.total.max() > 400


def test_a_forecast_long_past_is_told_and_not_used(site):
    put(site, columns(hours=48))
    days = days_site(site, now=NOON + timedelta(days=30))
    assert days.hours is None
    assert any("is over and not used" in line for line in days.told)


def test_without_a_place_the_sun_is_not_shown(site):
    path = site / NAME
    text = path.read_text(encoding="utf-8")
    path.write_text("\n".join(line for line in text.split("\n") if not line.startswith(("latitude", "longitude"))),
                    encoding="utf-8")  # fmt: skip
    days = days_site(site, now=NOON)
    assert days.light is None
    assert NO_PLACE in days.told


def test_a_file_that_cannot_be_read_is_told_and_the_others_are_used(site):
    put(site, columns(hours=48))
    put(site, b"{", "broken.json")
    days = days_site(site, now=NOON)
    assert days.hours is not None
    assert any("broken.json" in line for line in days.told)


def test_a_place_without_a_clock_goes_by_that_of_the_weather_and_says_so(site):
    path = site / NAME
    text = path.read_text(encoding="utf-8")
    path.write_text("\n".join(line for line in text.split("\n") if not line.startswith("time_zone")), encoding="utf-8")
    put(site, columns(hours=48))
    days = days_site(site, now=NOON)
    assert days.now.utcoffset() == timedelta(hours=-6)
    assert any("no time_zone" in line for line in days.told)


@pytest.mark.parametrize("sample", SAMPLES)
def test_a_sample_started_today_has_a_forecast_from_today_on(sample, tmp_path):
    from_sample(tmp_path / sample, sample, today=date(2027, 1, 30))
    days = days_site(tmp_path / sample, now=datetime(2027, 1, 30, 15, tzinfo=UTC))
    assert days.weather.wrong == ()
    assert days.coming.foreseen[:24].all()  # from midnight on, in winter too
    assert days.coming.foreseen.sum() > 7 * 24
    assert days.hours.has(Element.RAIN_CHANCE)
    assert any("invented" in line for line in days.told)


@pytest.mark.parametrize("sample", SAMPLES)
def test_a_samples_forecast_long_past_is_told_and_normals_stand_for_it(sample, tmp_path):
    from_sample(tmp_path / sample, sample, today=date(2027, 1, 30))
    days = days_site(tmp_path / sample, now=datetime(2027, 3, 30, 15, tzinfo=UTC))
    assert not days.coming.foreseen.any()
    assert days.hours.estimated[Element.TEMPERATURE].all()
    assert any("over and not used" in line for line in days.told)
    assert any("stands for every day" in line for line in days.told)


@pytest.mark.parametrize("sample", SAMPLES)
def test_only_the_days_of_a_samples_forecast_are_moved(sample, tmp_path):
    shipped, moved = tmp_path / "shipped", tmp_path / "moved"
    names = [path.relative_to(shipped) for path in from_sample(shipped, sample)]
    from_sample(moved, sample, today=date(2027, 1, 30))
    changed = [str(name) for name in names if (shipped / name).read_bytes() != (moved / name).read_bytes()]
    assert changed == ["weather/invented-forecast.json"]


def test_the_faces_dry_in_the_same_hours_and_once(site):
    put(site, columns(hours=48))
    first, again = days_site(site, now=NOON), days_site(site, now=NOON + HOUR)
    assert again.drying is first.drying
    assert first.drying.surface_temperature.shape == (len(first.faces), first.hours.count)


def test_without_weather_nothing_dries(site):
    assert days_site(site, now=NOON).drying is None


def test_a_day_is_typed_as_it_is_said_or_by_its_date(site):
    days = days_site(site, now=NOON)
    typed = ("", "today", "Tomorrow", "2026-06-21")
    assert [str(days.day_of(text)) for text in typed] == ["2026-05-03", "2026-05-03", "2026-05-04", "2026-06-21"]
    with pytest.raises(InputError, match="is no day"):
        days.day_of("next week")
