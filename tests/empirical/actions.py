"""Pushes and earthquakes: formulas whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "pushes.foothold_push": "P = μ m g with standard gravity 9.80665 m/s2",
}
