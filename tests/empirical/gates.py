"""Screws in wood and the slip of joints: formulas whose constants carry units."""

EMPIRICAL = {
    "screws.screw_withdrawal": "W = 2850 G² D, in pounds per inch",
    "screws.lag_withdrawal": "W = 1800 G^1.5 D^0.75, in pounds and inches",
    "screws.wood_bearing": "Fe = 16600 G^1.84, 11200 G and 6100 G^1.45 / √D, in psi and inches",
    "screws.single_shear": "Rd changes at 0.17 and 0.25 in",
    "bolts.hole_stretch": "P = (4.64 t + 1.53) d t Fu, t in inches",
    "creep.slip_modulus": "K = ρ^1.5 d / 23, in kg/m3, mm and N/mm",
}
