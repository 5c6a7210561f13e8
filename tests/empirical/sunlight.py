"""Formulas of sunlight whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "sunlight.daylight_by_fao56": "a day of 86400 s",
    "sunlight.sun_outside_by_fao56": "the solar constant in W/m2",
    "sunlight.sol_air_temperature_c": "°C is not scaled, the gain of light is",
}
