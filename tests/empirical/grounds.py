"""Earth, footings and frost: formulas whose constants carry units."""

EMPIRICAL = {
    "earth.earth_thrust": "P = K ρ g H² / 2 with standard gravity 9.80665 m/s2",
    "earth.water_thrust": "P = ρw g H² / 2 with water of 1000 kg/m3 and standard gravity",
    "earth.soaked_density": "ρ' = ρ − 1000 kg/m3",
    "footings.plain_tension": "f = 5 φ √f'c, both in psi",
    "footings.least_width": "max(t + 4 in, 12 in)",
    "frost.latent_heat": "L = 144 BTU/lb γd w",
    "frost.heat_capacity": "C = γd (0.17 + 0.75 w) BTU/(lb °F)",
    "frost.conductivity_by_kersten": "Kersten's lines in BTU in/(ft2 h °F), lb/ft3 and percent",
    "frost.frozen_by_kersten": "Kersten's lines in BTU in/(ft2 h °F), lb/ft3 and percent",
    "frost.berggren_coefficient": "the mean of the year is in °C, which no scaling of kelvins touches",
}
