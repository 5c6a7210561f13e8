"""Every form of weather file as people have them: whole, odd, cut, hostile."""

from __future__ import annotations

import json
import math
from datetime import UTC, date, datetime, timedelta

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.weather_file import DayFile, Element, HourFile, MonthFile, Normal, WeatherKind
from pinfold.store.weather.folder import weather_files
from pinfold.store.weather.recognize import weather_file
from pinfold.store.weather.texts import MOST_BYTES
from weathers import GREENSBORO, SAND_POINT, aurora, columns, periods

EPW_HEAD = (
    "LOCATION,Nowhere,-,XXX,made up,000000,40.0,-105.0,-7.0,1600.0\nDESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\n"
    "GROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,-\nCOMMENTS 2,-\n"
    "DATA PERIODS,1,1,Data,Sunday,1/1,12/31\n"
)


def epw_row(hour, *, year=2001, month=1, day=1, air="3.0", **changed):
    cells = [str(year), str(month), str(day), str(hour), "0", "?9", air, "-8.0", "41", "81100", "0", "0", "277", "0",
             "0", "0", "0", "0", "0", "0", "190", "3.6", "9", "8", "40.2", "7500", "9", "999999999", "60", "0.041", "0",
             "88", "0.22", "999.0", "99.0"]  # fmt: skip
    for place, text in changed.items():
        cells[int(place.removeprefix("at"))] = text
    return ",".join(cells)


def epw(*rows, head=EPW_HEAD):
    return (head + "\n".join(rows) + "\n").encode()


def clock(text):
    """A time by the file's own clock."""
    return datetime.fromisoformat(text)


def read(content, name="any.name"):
    return weather_file(content if isinstance(content, bytes) else content.encode(), name=name)


def complaints(content):
    with pytest.raises(InvalidPlan) as refused:
        read(content)
    return str(refused.value)


# --- typical years ---------------------------------------------------------------------------------------


def test_an_epw_row_is_the_hour_that_ends_at_its_stamp():
    file = read(epw(epw_row(1), epw_row(24)))

    assert isinstance(file, HourFile)
    assert file.ending
    assert file.stamps == (clock("2001-01-01T01:00"), clock("2001-01-02T00:00"))
    assert file.source.kind is WeatherKind.TYPICAL
    assert file.zone is not None
    assert file.zone.utcoffset(None) == timedelta(hours=-7)
    assert file.columns[Element.CLOUD].values[0] == 90
    assert Element.RAIN not in file.columns
    assert any("rain" in note for note in file.source.notes)


@pytest.mark.parametrize(("place", "marker", "element"), [
    (6, "99.9", Element.TEMPERATURE), (8, "999", Element.HUMIDITY), (9, "999999", Element.PRESSURE),
    (13, "9999", Element.GLOBAL), (21, "999", Element.WIND), (7, "", Element.DEW_POINT),
])  # fmt: skip
def test_missing_markers_of_an_epw_file_are_no_values(place, marker, element):
    file = read(epw(epw_row(1, **{f"at{place}": marker}), epw_row(2)))

    assert math.isnan(file.columns[element].values[0])
    assert math.isfinite(file.columns[element].values[1])


def test_an_epw_file_cut_in_half_is_read_up_to_there_and_told():
    whole = epw(*(epw_row(hour) for hour in range(1, 25)))
    file = read(whole[: len(whole) - 60])

    assert len(file.stamps) == 23
    assert any("ends in the middle of line 32" in note for note in file.source.notes)


def test_an_epw_file_cut_in_its_heads_is_told():
    assert "the file is cut" in complaints(EPW_HEAD[:200])


def test_all_complaints_about_an_epw_file_come_at_once_with_their_lines():
    told = complaints(epw(epw_row(1, air="abc"), epw_row(25), epw_row(3, air="abc"), epw_row(4, at21="x")))

    assert "4 complaints" not in told
    assert "lines 9, 11: 'abc' found; a number is wanted for air temperature" in told
    assert "line 10: '2001,1,1,25' found; year, month, day and hour from 1 to 24 are wanted" in told
    assert "line 12: 'x' found; a number is wanted for wind" in told


def test_an_epw_file_of_quarter_hours_or_a_place_off_the_earth_is_told():
    assert "rows an hour" in complaints(epw(epw_row(1), head=EPW_HEAD.replace("DATA PERIODS,1,1", "DATA PERIODS,1,4")))
    assert "latitude" in complaints(epw(epw_row(1), head=EPW_HEAD.replace("40.0,-105.0", "140.0,-105.0")))


def test_latin_letters_and_a_byte_order_mark_are_read():
    head = EPW_HEAD.replace("Nowhere", "Granáda")

    assert "Granáda" in read(epw(epw_row(1), head=head).decode().encode("latin-1")).source.says
    assert any("Latin-1" in note for note in read(epw(epw_row(1), head=head).decode().encode("latin-1")).source.notes)
    assert read(b"\xef\xbb\xbf" + epw(epw_row(1), head=head)).source.says.startswith("Granáda")
    assert read(epw(epw_row(1)).decode().encode("utf-16")).source.form == "EPW"


@pytest.mark.parametrize(("path", "zone", "warmest"), [(GREENSBORO, -5, 35.6), (SAND_POINT, -9, 19.4)])
def test_both_stations_of_the_library_are_read_whole(path, zone, warmest):
    file = read(path.read_bytes())

    assert file.source.form == "TMY3"
    assert len(file.stamps) == 8760
    assert file.zone.utcoffset(None) == timedelta(hours=zone)
    assert max(file.columns[Element.TEMPERATURE].values) == warmest
    assert set(file.columns[Element.PRESSURE].units) == {"hPa"}
    assert 99 < max(file.columns[Element.CLOUD].values) <= 100
    assert Element.RAIN not in file.columns


def test_the_year_of_aurora_is_read_whole():
    file = read(aurora())

    assert len(file.stamps) == 8760
    assert (min(file.columns[Element.TEMPERATURE].values), max(file.columns[Element.TEMPERATURE].values)) == (
        -23.0,
        39.4,
    )


# --- saved forecasts -------------------------------------------------------------------------------------


def test_a_forecast_in_periods_keeps_each_columns_own_unit():
    file = read(periods())

    assert set(file.columns[Element.TEMPERATURE].units) == {"°F"}
    assert set(file.columns[Element.DEW_POINT].units) == {"°C"}
    assert file.columns[Element.WIND].values[:2] == (5.0, 10.0)
    assert set(file.columns[Element.WIND].units) == {"mph"}
    assert file.columns[Element.WIND_FROM].values[0] == 22.5
    assert math.isnan(file.columns[Element.RAIN_CHANCE].values[4])
    assert file.source.written == datetime(2026, 5, 3, 6, tzinfo=UTC)
    assert math.degrees(file.source.latitude) == pytest.approx(39.72)
    assert file.source.elevation == pytest.approx(1698.3)


@pytest.mark.parametrize(("speed", "value"), [
    ("5 mph", 5.0), ("5 to 10 mph", 10.0), ("12 km/h", 12.0), ("calm", 0.0), ({"unitCode": "wmoUnit:km_h-1", "value": 14.8}, 14.8),
    (None, math.nan), ({"unitCode": "wmoUnit:km_h-1", "value": None}, math.nan),
])  # fmt: skip
def test_winds_are_told_in_many_ways(speed, value):
    assert read(periods(hours=2, windSpeed=speed)).columns[Element.WIND].values[0] == pytest.approx(value, nan_ok=True)


def test_wrong_cells_of_periods_are_told_by_period_all_at_once():
    told = complaints(periods(hours=3, windSpeed="a breeze", temperatureUnit="K", startTime="2026-05-03 06:00"))

    assert "periods 1 to 3" in told
    assert "'a breeze' is no speed" in told
    assert "the unit 'K' is not known" in told
    assert "startTime with its offset" in told


def test_other_answers_of_the_same_service_lead_to_the_right_one():
    points = json.dumps({"properties": {"forecastHourly": "https://weather.example/forecast/hourly", "gridX": 1}})

    assert "save what stands at https://weather.example/forecast/hourly" in complaints(points)
    assert "hourly forecast" in complaints(periods(hours=2, endTime="2026-05-03T18:00:00-06:00"))


def test_a_forecast_in_columns_says_its_units_and_its_offset():
    file = read(columns())

    assert file.zone.utcoffset(None) == timedelta(hours=-6)
    assert set(file.columns[Element.WIND].units) == {"km/h"}
    assert file.columns[Element.GLOBAL].before
    assert not file.columns[Element.TEMPERATURE].before


def test_older_spellings_other_units_and_clock_numbers_are_read():
    told = {
        "time": [1777788000 + 3600 * hour for hour in range(3)], "temperature_2m": [50, None, 52],
        "relativehumidity_2m": [40, 41, 42], "windspeed_10m": [5, 6, 7],
    }  # fmt: skip
    units = {"time": "unixtime", "temperature_2m": "°F", "relativehumidity_2m": "%", "windspeed_10m": "mp/h"}
    file = read(columns(only=(), hourly_units=units, **told))

    assert file.stamps[0] == datetime.fromtimestamp(1777788000, UTC)
    assert set(file.columns[Element.WIND].units) == {"mph"}
    assert math.isnan(file.columns[Element.TEMPERATURE].values[1])


def test_what_is_wrong_with_columns_is_told():
    assert "utc_offset_seconds is wanted" in complaints(columns(utc_offset_seconds="x"))
    assert "temperature_2m is not among its columns" in complaints(columns(only=("time", "cloud_cover")))
    assert "names no known unit for temperature_2m" in complaints(columns(hourly_units={"time": "iso8601"}))
    assert "2 values beside 48 times" in complaints(columns(temperature_2m=[1, 2]))
    assert "'abc' found; a number or null is wanted" in complaints(columns(temperature_2m=["abc"] * 48))
    assert "a refusal, no forecast: too many" in complaints('{"error": true, "reason": "too many"}')
    assert "2 places stand in it" in complaints(json.dumps([json.loads(columns()), json.loads(columns())]))


def test_a_forecast_cut_in_half_is_told_as_cut():
    whole = periods()

    for part in (0.2, 0.5, 0.9, 0.999):
        assert "ends in the middle; save it again" in complaints(whole[: int(len(whole) * part)])


# --- tables and typed days -------------------------------------------------------------------------------


def test_a_table_of_hours_has_its_units_in_the_heads_and_may_mix_them():
    file = read(
        "# from the neighbor's station\ntime;air temperature (F);rh (%);wind (mph);wind direction;rain (in);sky;mood\n"
        "2026-05-03 14:00;70;35;5 to 10;NNE;0;Partly Sunny;fine\n2026-05-03T15:00;21 C;;7-9 km/h;200;0.1;;\n"
        "2026-05-03 24:00;-9999;NA;-;;0;;\n"
    )

    assert file.columns[Element.TEMPERATURE].units[:2] == ("°F", "°C")
    assert file.columns[Element.WIND].values[:2] == (10.0, 9.0)
    assert file.columns[Element.WIND].units[:2] == ("mph", "km/h")
    assert math.isnan(file.columns[Element.TEMPERATURE].values[2])
    assert file.stamps[2] == clock("2026-05-04")
    assert file.lines == (3, 4, 5)
    assert any("mood" in note for note in file.source.notes)
    assert file.source.kind is WeatherKind.FORECAST
    assert read("time,air temperature (C)\n2026-05-03 14:00,20\n").source.kind is WeatherKind.MEASURED
    assert any("°C and °F" in note for note in file.source.notes)


def test_times_with_offset_dates_beside_hours_and_hour_endings_are_read():
    assert read("time,air temperature (C)\n2026-05-03T14:00-06:00,20\n").stamps[0].utcoffset() == timedelta(hours=-6)
    assert read("date,hour,air temperature (C)\n2026-05-03,7,20\n").stamps[0] == clock("2026-05-03T07:00")
    assert read("date,time,air temperature (C)\n2026-05-03,07:30,20\n").stamps[0] == clock("2026-05-03T07:30")
    assert read("hour ending,air temperature (C)\n2026-05-03 07:00,20\n").ending


def test_complaints_about_a_table_come_all_at_once_with_their_lines():
    told = complaints(
        "time,air temperature,wind (K),rain (mm)\n2026-05-03 14:00,70,1,abc\nyesterday,1,1,1,5\nnoon,1,1,1\n"
    )
    assert "other than 4 cells" in told
    told = complaints("time,air temperature,wind (C),rain (mm)\n2026-05-03 14:00,70,1,abc\nnoon,1,1,10 mph\n")

    assert "the head of air temperature names no unit; write it like 'air temperature (C)'" in told
    assert "the head of wind names °C" in told
    assert "line 2: 'abc' found; rain: is no number" in told
    assert "line 3: '10 mph' found; rain is not measured so" in told
    assert "line 3: 'noon' found; a time is wanted" in told


def test_a_decimal_comma_is_told_as_such():
    assert "has a comma" in complaints("time;air temperature (C)\n2026-05-03 14:00;20,5\n")


@pytest.mark.parametrize("text", [
    "2026-05-03 41 78 F\n2026-05-04 40 80 F cloudy\n", "2026-05-03, 41 F, 78 F\n2026-05-04, 40F, 80F, cloudy\n",
    "# mine\n\n2026-5-3 41/78 °F\n2026-05-04 40 to 80 F   cloudy", "date,low (F),high (F),sky\n2026-05-03,41,78,\n2026-05-04,40,80,cloudy",
    "day;min (F);max (F);sky\r\n2026-05-03;41;78;\r\n2026-05-04;40;80;cloudy\r\n",
])  # fmt: skip
def test_days_are_typed_in_many_ways(text):
    file = read(text)

    assert isinstance(file, DayFile)
    assert file.days == (date(2026, 5, 3), date(2026, 5, 4))
    assert file.lows.values == (41.0, 40.0)
    assert file.highs.values == (78.0, 80.0)
    assert set(file.lows.units) | set(file.highs.units) == {"°F"}
    assert file.sky == ("", "cloudy")


def test_wrong_days_are_told_all_at_once():
    told = complaints(
        "2026-05-03 41 78 F\n2026-05-04 80 41 F\n2026-13-05 41 78 F\n2026-05-03 1 2 F\n2026-05-06 41 78\nrain\n"
    )

    assert "line 2: '80 41' found; the low is above the high" in told
    assert "line 3: '2026-13-05' found; a day is wanted" in told
    assert "line 4: '2026-05-03' found; this day stands there twice" in told
    assert "lines 5 to 6" in told


def test_normals_are_read_from_toml_and_from_a_table_in_any_order():
    values = ", ".join(str(20 + month) for month in range(12))
    toml = read(
        f'[normals]\nplace = "a station"\n"high (F)" = [{values}]\n"low (F)" = [{values}]\n"wet days" = [{values}]\n'
    )
    rows = [f"{name},{20 + at},{20 + at}" for at, name in enumerate(
        ("Jan", "feb", "March", "4", "may", "june", "7", "Aug", "9", "October", "11", "dec"))]  # fmt: skip
    table = read("month,high (F),low (F)\n" + "\n".join(reversed(rows)))

    for file in (toml, table):
        assert isinstance(file, MonthFile)
        assert file.normals[Normal.HIGH].values == tuple(float(20 + month) for month in range(12))
    assert toml.source.says == "a station"


def test_wrong_normals_are_told():
    assert "wants twelve values" in complaints('[normals]\n"high (F)" = [1, 2]\n"low (F)" = [1]')
    assert "low is wanted for each month" in complaints(f'[normals]\n"high (F)" = {list(range(12))}')
    assert "each of the twelve is wanted once" in complaints("month,high (F),low (F)\n1,2,3\n")
    assert "no normal is called so" in complaints(f'[normals]\n"hgih (F)" = {list(range(12))}')
    assert "not readable as TOML" in complaints("[normals]\nhigh (F) = [1]\n")


# --- hostile ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("content", [
    b"", b" \n\t", b"\x00" * 400, b"PK\x03\x04" + bytes(range(256)) * 20, b"hello", b"a,b\n1,2\n", b"[" * 200_000, b"{" * 50_000,
    b'{"a":' * 3000 + b"1" + b"}" * 3000, b'{"hourly": {"time": [NaN]}}', b'{"hourly": 1, "hourly": 2}', b"{}", b"[]", b"null", b"1",
    b'{"properties": {"periods": [1, 2]}}', b'{"properties": {"periods": []}}', b'{"hourly": {"time": []}}',
    b'{"hourly": {"time": [1e999]}, "utc_offset_seconds": 0}', b'{"hourly": {"time": [' + b"9" * 5000 + b"]}}",
    b"\xff\xfe\x00", b'time,air temperature (C)\n"2026', b"time,time,air temperature (C)\n1,2,3\n", b"time,air temperature (C)\n",
    b"LOCATION,", b"LOCATION,a,b,c,d,e,1,2,3,4", b"[normals]\n", b"2026-05-03 41 78 F" + b" x" * 100_000 + b"\n2026-99-99 1 2 F",
    b"time,air temperature (C)\n9999-12-31 23:00,1\n0001-01-01 00:00,1\n", b"," * 100_000,
    b"time,air temperature (C)\n" + b"2026-05-03 14:00,1e308\n",
])  # fmt: skip
def test_what_is_no_weather_is_refused_in_words(content):
    with pytest.raises(InvalidPlan) as refused:
        read(content)

    assert refused.value.problems
    assert all(len(str(problem)) < 700 for problem in refused.value.problems)


def test_a_file_too_large_is_refused():
    assert "larger than 12 MB" in complaints(b" " * (MOST_BYTES + 1))


def test_the_folder_is_read_file_by_file_and_again_when_one_changes(tmp_path):
    folder = tmp_path / "weather"
    assert weather_files(tmp_path) == ()
    folder.mkdir()
    (folder / ".hidden").write_text("no")
    (folder / "a.bin").write_bytes(columns())
    (folder / "b.json").write_text("no")
    one, other = weather_files(tmp_path)

    assert one.file is not None
    assert one.file.source.name == "a.bin"
    assert other.file is None
    assert "pinfold knows" in str(other.wrong)
    assert weather_files(tmp_path)[0].file is one.file
    (folder / "a.bin").write_bytes(periods())
    assert weather_files(tmp_path)[0].file is not one.file
