"""Formulas of strength whose constants carry units."""

from __future__ import annotations

EMPIRICAL: dict[str, str] = {
    "bodies.compression_by_aci318": "7.5 times the root of psi",
    "bodies.cube_size_factor": "a table by the side in mm",
    "bodies.hanging_force": "standard gravity",
    "bodies.unit_shape_factor": "a table by height and width in mm",
    "strength_age.age_by_en1992": "28 days in equation 3.2",
    "strength_age.share_by_en1992": "28 days in equation 3.2",
    "strength_mix.strength_by_aci211": "table 5.3.4 in psi",
    "strength_mix.strength_by_dry_density": "a table of MPa by kg/m3",
    "strength_mix.strength_by_kearsley": "39.6 MPa and days",
}
