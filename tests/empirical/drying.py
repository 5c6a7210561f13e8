"""Evaporation and drying: formulas whose constants carry units."""

EMPIRICAL = {
    "drying.air_density": "p / (287.05 J/(kg K) T) with T in °C + 273.15",
    "drying.conductivity_by_density": "0.072 exp(0.00125 ρ) with ρ in kg/m3",
    "drying.convection_by_mcadams": "5.7 + 3.8 v with v in m/s",
    "drying.convection_by_side": "4.5 + 1.6 v with v in m/s",
    "drying.evaporation_by_penman": "saturation pressure in Pa by °C",
    "drying.evaporation_from_wall": "saturation pressure in Pa by °C",
    "drying.heat_into_wall": "λ = 2.501 − 0.002361 t MJ/kg with t in °C",
    "drying.heat_of_vapor": "2.501 − 0.002361 t MJ/kg with t in °C",
    "drying.long_wave_gain": "5.67e-8 W/(m2 K4) with T in °C + 273.15",
    "drying.vapor_transfer": "1006 J/(kg K) for the heat of air",
    "drying.water_drawn_in": "√(t / 1 min)",
    "evaporation.evaporation_by_asce": "0.408, Cn and Cd with MJ/m2h, kPa and m/s",
    "evaporation.evaporation_by_menzel": "0.315 and 0.060 with kPa and km/h",
    "evaporation.evaporation_by_power": "1e-6 with °F and mph",
    "evaporation.evaporation_by_uno": "5e-6 with °C and km/h",
    "evaporation.evaporation_from_open_water": "25 + 19 v kg/m2h with v in m/s",
}
