"""Formulas of heat whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "heat_stress.work_in_hour": "minutes of a table",
}
