"""Stiffness and tension by strength: formulas whose constants carry units."""

EMPIRICAL = {
    "stiffness.modulus_by_aci318": "33 w^1.5 √f with w in lb/ft3 and f in psi",
    "stiffness.modulus_by_en1992": "22 (f/10)^0.3 GPa with f in MPa",
    "stiffness.tension_by_aci318": "6.7 √f in psi",
    "stiffness.tension_by_en1992": "0.30 f^(2/3) in MPa",
}
