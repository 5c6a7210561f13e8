"""Formulas of maturity whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "maturity.temperature_time_factor": "degrees Celsius above a datum are kelvin",
}
