"""Formulas of mixes, concrete, plaster and counts whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "batch_size.setting_time": "a table of setting times",
    "concrete_mix.target_strength": "margins of 1000 and 1200 psi",
    "concrete_mix.target_strength_by_records": "the 500 psi of the second condition",
    "concrete_mix.water_cement_ratio": "table 5.3.4 by strength",
    "concrete_mix.mixing_water": "table 5.3.3 by slump and size",
    "concrete_mix.air_content": "table 5.3.3 by size",
    "concrete_mix.coarse_bulk_volume": "table 5.3.6 by size",
    "concrete_mix.small_job": "table A.7.1 in mass per volume by size",
    "counts.blocks_by_area": "112.5 blocks per 100 ft2",
    "counts.bricks_by_area": "675 brick per 100 ft2",
    "counts.blocks_per_course": "three blocks in four feet",
    "counts.courses": "three courses in two feet",
    "counts.chasing_the_bond": "three blocks in four feet, three courses in two",
    "counts.mortar_by_area": "volume of mortar per face",
    "counts.mortar_bags": "mass of sand per unit",
    "counts.grout_all_cells": "0.28 ft3 in a block",
    "counts.bed_reinforcement": "1.34 ft of a block",
    "counts.bag_yield": "0.15 ft3 per 20 lb",
    "counts.bags_of_mix": "0.15 ft3 per 20 lb",
    "counts.stone_by_face": "45 ft2 per short ton",
    "counts.dry_stone_mass": "1 t per m2",
    "plaster.nominal_thickness": "a table of thicknesses",
    "plaster.coat_thickness": "a table of thicknesses",
}
