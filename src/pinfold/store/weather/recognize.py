"""Reading any weather file: what it is shows from what stands in it."""

from __future__ import annotations

from dataclasses import replace

from pinfold.errors import InputError, InvalidPlan
from pinfold.plan.weather_file import HourFile, WeatherFile
from pinfold.store.weather.epw import epw_of, is_epw
from pinfold.store.weather.forecast_columns import columns_of, is_columns
from pinfold.store.weather.forecast_periods import is_periods, periods_of
from pinfold.store.weather.json_text import json_of
from pinfold.store.weather.texts import text_of

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
    if text.lstrip()[:1] in ("{", "["):
        return _forecast(text, name)
    raise InvalidPlan(name, [InputError(f"this is no weather file that pinfold knows: {_KNOWN}")])


def _forecast(text: str, name: str) -> HourFile:
    found = json_of(text, name=name)
    if is_periods(found):
        return periods_of(found, name=name)
    if is_columns(found):
        return columns_of(found, name=name)
    raise InvalidPlan(name, [InputError(f"JSON, but no forecast in a layout that pinfold knows: {_KNOWN}")])
