"""Walls as masonry: formulas whose constants carry units."""

EMPIRICAL = {
    "bed_shear.shear_by_tms402": "least of 1.5 √f'm, 120 psi and 37 or 60 psi with 0.45 of the pressure, in psi",
    "bed_shear.shear_by_strength": "√f'm and 50 psi, in psi",
}
