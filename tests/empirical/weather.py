"""The air and its weather: formulas whose constants carry units."""

EMPIRICAL = {
    "diurnal.night_temperature_c": "the night is 24 h less the day",
    "moist_air.air_pressure": "p = 101325 (1 − 2.25577e-5 z)^5.2559, z in m",
    "moist_air.saturation_pressure": "ln ps of t alone, in Pa",
    "moist_air.vapor_pressure": "r times the saturation pressure of t alone, in Pa",
    "moist_air.wet_bulb_c": "the saturation pressure of t alone, heats in kJ/kg",
    "sky.sky_heat": "the Stefan-Boltzmann constant with T alone",
    "wind_profile.wind_at_two_meters": "u2 = uz 4.87 / ln(67.8 z − 5.42), z in m",
}
