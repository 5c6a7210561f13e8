"""Reading any weather file: what it is shows from what stands in it."""

from __future__ import annotations

from dataclasses import replace

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import HourFile, WeatherFile
from pinfold.store.weather.csv_hours import has_hours, hours_of
from pinfold.store.weather.days_typed import are_days, days_of, days_typed, has_days
from pinfold.store.weather.epw import epw_of, is_epw
from pinfold.store.weather.forecast_columns import columns_of, is_columns
from pinfold.store.weather.forecast_periods import is_periods, periods_of
from pinfold.store.weather.json_text import json_of
from pinfold.store.weather.normals import are_normals, has_months, months_of, normals_of
from pinfold.store.weather.sheet import sheet_of
from pinfold.store.weather.texts import text_of
from pinfold.store.weather.tmy3 import is_tmy3, tmy3_of

_KNOWN = (
    "EPW and TMY3 files, CSV with a time or date column, saved hourly forecasts (JSON with properties.periods or "
    "hourly), lines like '2026-05-03 41 78 F', and twelve monthly normals are read"
)


def weather_file(content: bytes, *, name: str) -> WeatherFile:
    """A weather file out of its bytes.

    Args:
        content: all of it
        name: of the file, for complaints; it says nothing about what the file is

    Raises:
        InvalidPlan: with every complaint.
    """
    text, notes = text_of(content, name=name)
    found = _read(text, name)
    return replace(found, source=replace(found.source, notes=(*notes, *found.source.notes)))


def _read(text: str, name: str) -> WeatherFile:
    if is_epw(text):
        return epw_of(text, name=name)
    if is_tmy3(text):
        return tmy3_of(text, name=name)
    if are_normals(text):
        return normals_of(text, name=name)
    if text.lstrip()[:1] in ("{", "["):
        return _forecast(text, name)
    if are_days(text):
        return days_typed(text, name=name)
    return _table(text, name)


def _table(text: str, name: str) -> WeatherFile:
    sheet = sheet_of(text, name=name)
    if has_months(sheet):
        return months_of(sheet, name=name)
    if has_days(sheet):
        return days_of(sheet, name=name)
    if has_hours(sheet):
        return hours_of(sheet, name=name)
    raise InvalidPlan(name, [InputError(f"this is no weather file that pinfold knows: {_KNOWN}")])


def _forecast(text: str, name: str) -> HourFile:
    found = json_of(text, name=name)
    if is_periods(found):
        return periods_of(found, name=name)
    if is_columns(found):
        return columns_of(found, name=name)
    raise InvalidPlan(name, [InputError(f"JSON, but no forecast in a layout that pinfold knows: {_KNOWN}")])
