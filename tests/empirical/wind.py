"""Wind formulas with units in their constants."""

EMPIRICAL: dict[str, str] = {
    "wind.exposure_coefficient": "Kz = c (z/zg)^(2/α), ASCE 7 table 26.10-1: zg and the plateau of 15 ft are lengths",
    "wind.elevation_factor": "Ke = exp(−0.000119 zg), ASCE 7 table 26.9-1: 0.000119 per meter, g/(R T) of air at 15 °C",
    "wind_en.roughness_factor": "cr = kr ln(z/z0), EN 1991-1-4 eq. 4.4: z0 is a length of the terrain",
    "wind_en.turbulence_intensity": "Iv = 1/ln(z/z0), EN 1991-1-4 eq. 4.7: z0 is a length of the terrain",
}
