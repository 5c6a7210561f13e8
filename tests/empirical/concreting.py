"""Formulas of concrete by strength whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "concrete_is.target_strength_by_is10262": "margins in MPa by grade",
    "concrete_is.water_cement_by_is10262": "figure 1 by strength",
    "concrete_is.mixing_water_by_is10262": "table 4 by size, 3 % per 25 mm",
    "concrete_is.air_by_is10262": "table 3 by size",
    "concrete_is.coarse_share_by_is10262": "table 5 by size",
    "concrete_small.small_job_parts": "figure 3-3 by size",
    "concrete_small.small_job_masses": "figure 3-3 in mass per volume by size",
    "concrete_small.sand_as_it_lies": "2 and 4 lb per ft3",
}
