"""Walls, masonry, posts and steel: formulas whose constants carry units."""

EMPIRICAL = {
    "walls.layer_weight": "W = ρ g t h with standard gravity 9.80665 m/s2",
    "masonry.flexural_tension_allowed": "table look-up in psi",
    "masonry.modulus_of_rupture": "fr = 2.5 √f'm, both in psi",
    "masonry.height_by_brick_rule": "h = 0.75 t², both in inches; 0.75 holds for 10 psf",
    "masonry.safe_height": "table look-up in mm",
    "steel.lap_by_allowable_stress": "l = 0.002 d fs with fs in psi, least lap 12 in",
    "steel.hook_length": "l = 0.02 ψ fs d / √f'c with stresses in psi, not under 6 in",
    "steel.lap_by_msjc05": "l = 0.13 d² fy γ / (K √f'm) with stresses in psi, least lap 12 in",
}
