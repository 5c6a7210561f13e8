"""Hours out of files: one clock, units, gaps, what follows, what is estimated, what cannot be, which source counts."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from pinfold.errors import InvalidPlan
from pinfold.formulas.sky import sky_emissivity, sky_heat
from pinfold.store.weather.recognize import weather_file
from pinfold.studies.weather.choosing import chosen, from_hour, of_any_year
from pinfold.studies.weather.clouds import cover
from pinfold.studies.weather.nearness import distance
from pinfold.studies.weather.records import Element, WeatherKind
from pinfold.studies.weather.summing import spells
from pinfold.studies.weather.taking import weather_of
from pinfold.units import System
from weathers import DENVER, GREENSBORO, SAND_POINT, aurora, columns, periods, place

AIR, DEW, HUMIDITY = Element.TEMPERATURE, Element.DEW_POINT, Element.HUMIDITY
NOWHERE = place()


def taken(content, where=DENVER, *, year=2026, **asked):
    return weather_of(weather_file(content if isinstance(content, bytes) else content.encode(), name="file"), where,
                      year=year, **asked)  # fmt: skip


def table(*rows, heads="time,air temperature (C)"):
    return "\n".join((heads, *rows)) + "\n"


def hourly(first, count, *, step=60, degrees=lambda at: 10 + at % 5):
    begins = datetime.fromisoformat(first)
    return [f"{begins + timedelta(minutes=step * at)},{degrees(at)}" for at in range(count)]


def told(weather, words):
    return any(words in note for note in weather.notes)


# --- the clock -------------------------------------------------------------------------------------------


def test_times_without_offset_go_by_the_clock_of_the_place():
    summer, winter = (taken(table(f"{day} 12:00,20")) for day in ("2026-07-01", "2026-01-01"))

    assert summer.start == datetime(2026, 7, 1, 18, tzinfo=UTC)
    assert winter.start == datetime(2026, 1, 1, 19, tzinfo=UTC)


def test_the_hour_that_comes_twice_is_taken_in_the_order_of_the_file():
    rows = ["2026-11-01 00:00,1", "2026-11-01 01:00,2", "2026-11-01 01:00,3", "2026-11-01 02:00,4"]
    weather = taken(table(*rows))

    assert weather.of(AIR).tolist() == [1, 2, 3, 4]
    assert told(weather, "Clocks are changed")


def test_the_hour_that_is_left_out_leaves_no_gap():
    rows = ["2026-03-08 00:00,1", "2026-03-08 01:00,2", "2026-03-08 03:00,3", "2026-03-08 04:00,4"]

    assert taken(table(*rows)).of(AIR).tolist() == [1, 2, 3, 4]


def test_a_file_that_runs_through_the_missing_hour_goes_by_standard_time():
    weather = taken(table(*hourly("2026-03-08 00:00", 6, degrees=lambda at: at)))

    assert weather.of(AIR).tolist() == [0, 1, 2, 3, 4, 5]
    assert weather.start == datetime(2026, 3, 8, 7, tzinfo=UTC)
    assert told(weather, "standard time all along")


def test_offsets_count_over_the_clock_of_the_place():
    weather = taken(table("2026-05-03T12:00+02:00,20"))

    assert weather.start == datetime(2026, 5, 3, 10, tzinfo=UTC)
    assert weather.times[0].astimezone(weather.zone).hour == 4


def test_times_without_offset_nor_time_zone_of_the_plan_are_told():
    with pytest.raises(InvalidPlan, match="time_zone"):
        taken(table("2026-05-03 12:00,20"), NOWHERE)


def test_a_file_with_an_offset_is_answered_without_any_place():
    weather = taken(columns(latitude=None, longitude=None, elevation=None), NOWHERE)

    assert weather.zone.utcoffset(None) == timedelta(hours=-6)
    assert told(weather, "the plan gives no latitude and longitude")


def test_hours_spread_over_decades_are_a_mistyped_year():
    with pytest.raises(InvalidPlan, match="mistyped year"):
        taken(table("2026-05-03 12:00,20", "2062-05-03 12:00,20"))


def test_sums_of_the_hour_before_are_laid_on_it_and_values_on_their_own():
    told_by = columns(
        hours=4, temperature_2m=[11, 12, 13, 14], precipitation=[10, 20, 30, 40], first="2026-05-03T00:00"
    )
    weather = taken(told_by)

    assert weather.of(AIR).tolist() == [11, 12, 13]
    assert weather.of(Element.RAIN).tolist() == pytest.approx([0.02, 0.03, 0.04])


# --- a typical year --------------------------------------------------------------------------------------


def test_a_typical_year_is_one_year_by_standard_time():
    weather = taken(aurora())

    assert weather.count == 8760
    assert weather.start == datetime(2026, 1, 1, 7, tzinfo=UTC)
    assert told(weather, "8 years, 1994 to 2005; told in 2026")
    assert not weather.has(Element.RAIN)
    assert told(weather, "rain is NOT SHOWN")
    assert not any(marks.any() for marks in weather.estimated.values())


def test_a_leap_year_gets_its_day_and_it_is_marked():
    weather = taken(aurora(), year=2028)
    february = slice(59 * 24, 60 * 24)

    assert weather.count == 8784
    assert weather.estimated[AIR][february].all()
    assert weather.estimated[AIR].sum() == 24
    assert weather.of(AIR)[february].tolist() == weather.of(AIR)[58 * 24 : 59 * 24].tolist()


def test_the_counts_of_the_year_of_aurora():
    air = taken(aurora()).of(AIR).reshape(365, 24)
    mean = (air.min(axis=1) + air.max(axis=1)) / 2 * 1.8 + 32
    hours = air.ravel()

    assert (air.min(axis=1) < 4.4).sum() == 191
    assert (air.min(axis=1) < 0).sum() == 128
    assert [int(((mean >= low) & (mean < high)).sum()) for low, high in
            ((40, 999), (32, 40), (25, 32), (20, 25), (-99, 20))] == [251, 49, 33, 17, 15]  # fmt: skip
    assert ((hours[:-1] > 0) & (hours[1:] <= 0)).sum() == 134


def test_all_hours_of_aurora_have_the_heat_from_the_sky_that_its_file_prints():
    rows = [line.split(",") for line in aurora().decode().splitlines()[8:]]
    air, dew, printed, opaque = (np.array([float(row[at]) for row in rows]) for at in (6, 7, 12, 23))
    ours = sky_heat(temperature_c=air, emissivity=sky_emissivity(dew_point_c=dew, cloud=opaque / 10))

    assert np.abs(ours - printed).max() < 0.51


@pytest.mark.parametrize("path", [GREENSBORO, SAND_POINT], ids=["Greensboro", "Sand Point"])
def test_both_stations_of_the_library_keep_their_clock_and_agree_with_themselves(path):
    weather = taken(path.read_bytes(), NOWHERE)

    assert not any("NOT SHOWN" in note for note in weather.notes if "rain" not in note and "plan gives" not in note)
    assert not told(weather, "clock")
    assert all(np.isfinite(hours).all() for hours in weather.series.values())


def test_half_a_typical_year_is_half_known():
    weather = taken(aurora()[:500_000])

    assert np.isfinite(weather.of(AIR)[: 90 * 24]).all()
    assert np.isnan(weather.of(AIR)[120 * 24 :]).all()
    assert np.isnan(weather.of(Element.GLOBAL)[120 * 24 :]).all()
    assert told(weather, "the gap is too long to bridge")


# --- gaps and units --------------------------------------------------------------------------------------


def test_short_gaps_are_bridged_and_marked_long_ones_are_not():
    values = {3: "", 4: "", 10: "", 11: "NA", 12: "-", 13: ""}
    rows = hourly("2026-05-03 00:00", 24, degrees=lambda at: values.get(at, at))
    weather = taken(table(*rows))

    assert weather.of(AIR)[[3, 4]] == pytest.approx([3, 4])
    assert weather.estimated[AIR].nonzero()[0].tolist() == [3, 4]
    assert np.isnan(weather.of(AIR)[10:14]).all()
    assert told(weather, "2 missing hours filled by a straight line")
    assert told(weather, "4 missing hours NOT SHOWN")


def test_rain_is_never_drawn_up():
    rows = ["2026-05-03 00:00,5,1", "2026-05-03 01:00,5,", "2026-05-03 02:00,5,1"]
    weather = taken(table(*rows, heads="time,air temperature (C),rain (mm)"))

    assert np.isnan(weather.of(Element.RAIN)[1])


def test_a_gap_in_the_winds_direction_goes_the_shorter_way_round():
    rows = ["2026-05-03 00:00,5,350", "2026-05-03 01:00,5,", "2026-05-03 02:00,5,10"]
    weather = taken(table(*rows, heads="time,air temperature (C),wind direction (deg)"))

    assert math.degrees(weather.of(Element.WIND_FROM)[1]) % 360 == pytest.approx(0.0, abs=1e-6)


def test_every_ten_minutes_make_an_hour_and_every_three_hours_are_bridged():
    fine = taken(table(*hourly("2026-05-03 00:00", 12, step=10, degrees=lambda at: at)))
    coarse = taken(table(*hourly("2026-05-03 00:00", 3, step=180, degrees=lambda at: 3 * at)))

    assert fine.of(AIR).tolist() == [2.5, 8.5]
    assert told(fine, "Several rows stand for each hour")
    assert coarse.of(AIR) == pytest.approx(range(7))
    assert coarse.estimated[AIR].sum() == 4


def test_units_that_are_mixed_are_all_converted():
    rows = ["2026-05-03 00:00,50,30 inHg,10 mph,0.1", "2026-05-03 01:00,10 C,1016 mbar,16 km/h,2.54 mm"]
    weather = taken(
        table(*rows, heads="time,air temperature (F),pressure (hPa),wind (m/s),rain (in)"), NOWHERE_BUT_TIME
    )

    assert weather.of(AIR) == pytest.approx([10, 10])
    assert weather.of(Element.PRESSURE) == pytest.approx([101592, 101600], rel=1e-4)
    assert weather.of(Element.WIND) == pytest.approx([4.4704, 4.4444], rel=1e-3)
    assert weather.of(Element.RAIN) == pytest.approx([0.00254, 0.00254])


NOWHERE_BUT_TIME = place(time_zone="UTC")


# --- what follows and what is estimated ------------------------------------------------------------------


def test_dew_point_and_humidity_follow_from_each_other_without_being_estimated():
    one = taken(columns(only=("time", "temperature_2m", "relative_humidity_2m")))
    other = taken(columns(only=("time", "temperature_2m", "dew_point_2m")))

    assert one.has(DEW)
    assert other.has(HUMIDITY)
    assert not one.estimated[DEW].any()
    assert not other.estimated[HUMIDITY].any()


def test_a_forecast_without_sun_gets_that_of_a_clear_sky_less_its_clouds_all_marked():
    light = taken(periods(shortForecast="Sunny"))
    dark = taken(periods(shortForecast="Rain"))

    for weather in (light, dark):
        assert weather.estimated[Element.GLOBAL].all()
        assert weather.estimated[Element.SKY_HEAT].all()
        assert told(weather, "Clouds are taken from the words")
    assert dark.of(Element.GLOBAL).sum() < 0.3 * light.of(Element.GLOBAL).sum()
    assert dark.of(Element.SKY_HEAT).mean() > light.of(Element.SKY_HEAT).mean()
    assert 5 < light.of(Element.GLOBAL)[:24].sum() / 1000 < 9  # kWh of a day in May


def test_words_count_where_a_column_of_clouds_is_empty():
    heads = "time,air temperature (C),cloud (%),sky"
    worded = taken(table("2026-05-03 14:00,20,,Cloudy", heads=heads))
    given = taken(table("2026-05-03 14:00,20,30,Cloudy", heads=heads))

    assert worded.of(Element.CLOUD)[0] == 1.0
    assert worded.estimated[Element.CLOUD][0]
    assert given.of(Element.CLOUD)[0] == pytest.approx(0.3)
    assert not given.estimated[Element.CLOUD][0]


def test_sun_and_sky_are_together_what_falls_on_the_level():
    weather = taken(periods())
    bright = weather.of(Element.GLOBAL) > 100

    assert (weather.of(Element.BEAM)[bright] > 0).all()
    assert (weather.of(Element.DIFFUSE) <= weather.of(Element.GLOBAL) + 1e-9).all()
    assert (weather.of(Element.GLOBAL)[weather.of(Element.GLOBAL) < 1] < 1).all()


def test_without_a_place_the_sun_is_not_shown_and_all_else_is():
    content = json.loads(periods())
    del content["geometry"]
    weather = taken(json.dumps(content), place(time_zone="America/Denver"))

    assert weather.has(AIR)
    assert not weather.has(Element.GLOBAL)
    assert told(weather, "Sun and sky are NOT SHOWN")


@pytest.mark.parametrize(("words", "share"), [
    ("Sunny", 0.05), ("Mostly Sunny", 0.2), ("Partly Cloudy", 0.45), ("Mostly Cloudy", 0.75), ("Cloudy", 1.0),
    ("Slight Chance Rain Showers", 0.7), ("Rain", 1.0), ("Patchy Fog", 1.0), ("", math.nan),
])  # fmt: skip
def test_words_for_the_sky_stand_for_a_share_of_clouds(words, share):
    assert cover(words) == pytest.approx(share, nan_ok=True)


def test_days_are_shaped_into_hours_that_keep_their_lows_and_highs():
    weather = taken("2026-05-03 5 21 C\n2026-05-04 8 25 C\n2026-05-06 3 14 C\n")
    air = weather.of(AIR).reshape(4, 24)

    assert air[0].max() == pytest.approx(21, abs=0.3)
    assert air[1].min() == pytest.approx(8, abs=1.0)
    assert np.nanmin(air) >= 3
    assert air[1].argmax() in (14, 15)
    assert np.isnan(air[2]).all()
    assert weather.estimated[AIR][np.isfinite(weather.of(AIR))].all()
    assert weather.kind is WeatherKind.DAILY
    assert told(weather, "2 K off")


def test_days_are_shaped_without_a_place_by_a_sun_from_six_to_eighteen_and_in_polar_night_too():
    nowhere, far_north = place(time_zone="UTC"), place(time_zone="UTC", latitude=math.radians(78.0), longitude=0.3)
    for where, why in ((nowhere, "nothing gives latitude"), (far_north, "hardly rises or sets")):
        weather = taken("2026-12-21 -20 -10 C\n2026-12-22 -22 -12 C\n", where)

        assert np.isfinite(weather.of(AIR)).all()
        assert told(weather, "rise at 6 and set at 18")
        assert told(weather, why)


def test_the_shape_of_days_misses_the_hours_of_aurora_by_few_kelvin():
    real = taken(aurora())
    days = real.of(AIR).reshape(365, 24)
    lines = [f"{datetime(2026, 1, 1, tzinfo=UTC) + timedelta(days=at):%Y-%m-%d} {low} {high} C"
             for at, (low, high) in enumerate(zip(days.min(axis=1), days.max(axis=1), strict=True))]  # fmt: skip
    shaped = taken("\n".join(lines), replace(DENVER, time_zone="Etc/GMT+7"))
    off = shaped.of(AIR) - real.of(AIR)

    assert abs(off.mean()) < 1.0
    assert np.sqrt((off**2).mean()) < 3.0


# --- possible years --------------------------------------------------------------------------------------

EPHRATA = """[normals]
place = "Ephrata"
"high (F)" = [32.89, 41.62, 52.60, 62.81, 72.56, 80.58, 88.52, 87.06, 77.76, 62.85, 44.78, 34.63]
"low (F)" = [20.31, 26.55, 32.33, 39.12, 47.69, 55.39, 61.58, 60.31, 51.52, 40.17, 30.33, 22.81]
"rain per wet day (in)" = [0.10, 0.10, 0.11, 0.10, 0.11, 0.14, 0.14, 0.09, 0.10, 0.10, 0.12, 0.12]
"rain deviation (in)" = [0.12, 0.12, 0.11, 0.13, 0.13, 0.18, 0.22, 0.13, 0.13, 0.11, 0.14, 0.13]
"wet after wet" = [0.47, 0.50, 0.39, 0.32, 0.33, 0.30, 0.27, 0.28, 0.40, 0.41, 0.42, 0.48]
"wet after dry" = [0.20, 0.16, 0.15, 0.13, 0.13, 0.11, 0.05, 0.06, 0.08, 0.12, 0.23, 0.23]
"""


def test_possible_years_have_the_means_of_their_normals():
    years = [taken(EPHRATA, seed=seed) for seed in range(1, 9)]
    rain = [year.of(Element.RAIN).reshape(365, 24).sum(axis=1) for year in years]
    air = [year.of(AIR).reshape(365, 24) for year in years]

    assert np.mean([(days > 0).sum() for days in rain]) == pytest.approx(66.5, rel=0.12)
    assert np.mean([days.sum() for days in rain]) == pytest.approx(0.186, rel=0.2)
    assert np.mean([days[181:212].max(axis=1).mean() for days in air]) == pytest.approx((88.52 - 32) / 1.8, abs=1.5)
    assert np.mean([days[:31].max(axis=1).mean() for days in air]) == pytest.approx((32.89 - 32) / 1.8, abs=1.5)
    assert all(year.estimated[each].all() for year in years[:1] for each in year.series)


def test_a_possible_year_is_the_same_by_its_number_and_another_by_another():
    one, again, other = (taken(EPHRATA, seed=seed) for seed in (1, 1, 2))

    assert one.of(AIR).tolist() == again.of(AIR).tolist()
    assert one.of(AIR).tolist() != other.of(AIR).tolist()
    assert told(one, "number 1")


def test_normals_without_rain_give_years_without_it():
    text = "\n".join(line for line in EPHRATA.splitlines() if "rain" not in line and "wet" not in line)
    weather = taken(text)

    assert not weather.has(Element.RAIN)
    assert told(weather, "Rain is NOT SHOWN")


# --- what cannot be --------------------------------------------------------------------------------------


def test_seventy_degrees_in_the_shade_are_not_shown_and_what_is_left_is():
    weather = taken(periods(temperatureUnit="C"))

    assert not weather.has(AIR)
    assert weather.has(DEW)
    assert weather.has(Element.WIND)
    assert told(weather, "Fahrenheit marked Celsius")


def test_a_single_slip_is_left_out_and_bridged():
    rows = hourly("2026-05-03 00:00", 48, degrees=lambda at: 99 if at == 20 else 15)
    weather = taken(table(*rows))

    assert weather.of(AIR)[20] == pytest.approx(15)
    assert weather.estimated[AIR][20]
    assert told(weather, "1 hour like 99 °C left out")


def test_celsius_marked_fahrenheit_shows_by_its_dew_point():
    weather = taken(columns(hourly_units={
        "time": "iso8601", "temperature_2m": "°F", "dew_point_2m": "°C", "relative_humidity_2m": "%", "wind_speed_10m": "m/s",
    }, only=("time", "temperature_2m", "dew_point_2m", "relative_humidity_2m", "wind_speed_10m")))  # fmt: skip

    assert not weather.has(AIR)
    assert not weather.has(HUMIDITY)
    assert weather.has(Element.WIND)
    assert told(weather, "the dew point lies over the air")


def test_figures_that_contradict_each_other_are_not_shown():
    weather = taken(columns(temperature_2m=[50.0] * 48, relative_humidity_2m=[70] * 48))

    assert not weather.has(AIR)
    assert told(weather, "contradict each other")


def test_jumps_are_told_and_kept():
    rows = hourly("2026-05-03 00:00", 24, degrees=lambda at: 5 if at < 12 else 30)
    weather = taken(table(*rows))

    assert told(weather, "jumps by up to 25 K")
    assert weather.of(AIR)[12] == 30


def test_when_nothing_is_left_the_file_is_refused():
    with pytest.raises(InvalidPlan, match="reaches 95 °C"):
        taken(table(*hourly("2026-05-03 00:00", 24, degrees=lambda _: 95)))


def test_a_pressure_reduced_to_the_sea_is_left_out():
    weather = taken(columns(surface_pressure=[1013.0] * 48))

    assert told(weather, "Pressure of 1013 hPa is left out")
    assert weather.of(Element.PRESSURE)[0] == pytest.approx(82501, rel=1e-3)
    assert weather.estimated[Element.PRESSURE].all()


def test_a_wrong_offset_shows_by_the_sun():
    assert not told(taken(columns()), "clock or offset")
    assert told(taken(columns(utc_offset_seconds=0)), "6 hours too early")
    assert told(taken(columns(utc_offset_seconds=-36000)), "4 hours too late")


# --- of the plot -----------------------------------------------------------------------------------------


def test_a_forecast_for_another_place_is_told_with_its_distance_and_height():
    there = replace(DENVER, latitude=math.radians(38.0), elevation=2600.0)
    weather = taken(columns(), there)
    far = taken(columns(), replace(DENVER, latitude=math.radians(20.0)), system=System.US)

    assert told(weather, "a place 191 km from the plot")
    assert told(weather, "900 m higher than its place: reckon with some 6 K colder")
    assert told(far, "for another place")
    assert told(far, "mi from the plot: do not rely on it")


def test_a_quarter_of_the_earth_is_ten_million_meters():
    assert distance((0.0, 0.0), (math.pi / 2, 1.0)) == pytest.approx(1e7, rel=1e-3)
    assert distance((0.3, 0.1), (0.3, 0.1)) == 0.0


# --- which counts ----------------------------------------------------------------------------------------


def test_the_newest_forecast_that_is_not_over_counts():
    new = taken(periods(start=datetime(2026, 5, 3, 6, tzinfo=UTC)))
    old = taken(periods(start=datetime(2026, 5, 2, 6, tzinfo=UTC)))
    over = taken(periods(start=datetime(2026, 4, 20, 6, tzinfo=UTC)))
    found = chosen([old, over, new], now=datetime(2026, 5, 3, 12, 20, tzinfo=UTC))

    assert found.coming is not None
    assert found.coming.written == new.written
    assert found.coming.start == datetime(2026, 5, 3, 12, tzinfo=UTC)
    assert found.coming.count == 42
    assert any("ended on 2026-04-22" in note and "not used" in note for note in found.notes)


def test_last_weeks_forecast_is_not_used():
    found = chosen([taken(periods())], now=datetime(2026, 5, 12, tzinfo=UTC))

    assert found.coming is None
    assert found.year is None
    assert "it is over and not used" in found.notes[0]


def test_a_forecast_of_some_days_ago_is_told_as_old():
    found = chosen([taken(periods(hours=240))], now=datetime(2026, 5, 8, tzinfo=UTC))

    assert found.coming is not None
    assert any("4 days old" in note for note in found.notes)


def test_winter_in_fahrenheit_marked_celsius_shows_beside_a_usual_year():
    days = taken("2026-01-10 20 42 C\n2026-01-11 18 40 C\n")
    found = chosen([days, taken(EPHRATA)], now=datetime(2026, 1, 10, 12, tzinfo=UTC))

    assert any("warmer than" in note and "unit" in note for note in found.notes)


def test_a_typical_year_goes_on_from_any_moment_by_its_place_in_the_year():
    year = taken(aurora())
    turned = of_any_year(year, datetime(2026, 12, 31, 7, tzinfo=UTC), 72)

    assert turned.start == datetime(2026, 12, 31, 7, tzinfo=UTC)
    assert turned.of(AIR)[:24].tolist() == year.of(AIR)[-24:].tolist()
    assert turned.of(AIR)[24:].tolist() == year.of(AIR)[:48].tolist()
    assert from_hour(turned, datetime(2027, 1, 1, 9, 30, tzinfo=UTC)).count == 46


def test_days_and_months_sum_up_what_their_hours_say():
    day, *_ = spells(taken(columns(first="2026-05-03T00:00", hours=49)))
    months = spells(taken(aurora()))

    assert (day.lowest, day.highest) == (pytest.approx(8.0), pytest.approx(24.0))
    assert day.rain == pytest.approx(0.0004)
    assert day.hours == 24
    assert "sun" not in day.estimated
    assert len(months) == 12
    assert sum(month.frost_days for month in months) == 127  # by the clock of the place; 128 by standard time
