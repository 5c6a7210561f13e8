"""A wet wall's face: what wind, sun and sky bring and take, how fast its water leaves, what goes into the wall."""

from __future__ import annotations

from typing import Literal

import numpy as np

from pinfold.formulas.moist_air import saturation_pressure
from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    JoulePerKg,
    KgPerCubicMeter,
    KgPerSquareMeter,
    KgPerSquareMeterSecond,
    MeterPerSecond,
    Pascal,
    Ratio,
    Second,
    WattPerMeterKelvin,
    WattPerSquareMeter,
    WattPerSquareMeterKelvin,
)

Lee = Literal["windward", "leeward"]
LEWIS: Ratio = 0.865
"""How fast heat spreads in air over how fast vapor does."""
STEFAN_BOLTZMANN: float = 5.670374e-8
"""W/(m2 K4)."""
VAPOR: float = 461.5
"""Gas constant of water vapor in J/(kg K)."""
_DRY_AIR, _HEAT = 287.05, 1006.0
"""Gas constant and heat of air at one pressure, J/(kg K)."""
_ZERO = 273.15
_COLD, _HOT = -60.0, 120.0


def convection_by_side(*, wind: MeterPerSecond, side: Lee) -> WattPerSquareMeterKelvin:
    """Heat that air exchanges with a face out of doors: hc = 4.5 + 1.6 v windward, 4.5 + 0.33 v leeward.

    Args:
        wind: v, at the face [m/s]
        side: whether the face looks into the wind or away from it

    Returns:
        hc, without radiation [W/(m2 K)]

    Raises:
        OutOfRangeError: v below 0.

    Range:
        v ≥ 0, refused below. Measured on a wall out of doors: 6 to 10 over 0 to 4 m/s, its side of little effect.

    Source:
        SURFACE-COEFFICIENTS (read)
        JAYAMAHA-1996, the band that was measured (read)

    Example:
        >>> convection_by_side(wind=2.0, side="windward")
        7.7
    """
    return 4.5 + (1.6 if side == "windward" else 0.33) * within(wind, "wind in m/s", low=0.0)


def convection_by_mcadams(*, wind: MeterPerSecond) -> WattPerSquareMeterKelvin:
    """Heat that air exchanges with a face, the traditional form: hc = 5.7 + 3.8 v.

    Args:
        wind: v, along the face [m/s]

    Returns:
        hc, with some radiation in it [W/(m2 K)]

    Raises:
        OutOfRangeError: v outside 0 to 5 m/s.

    Range:
        0 ≤ v ≤ 5 m/s, refused outside. High for a wall out of doors.

    Source:
        MCADAMS-1954 (memory)

    Example:
        >>> convection_by_mcadams(wind=2.0)
        13.3
    """
    return 5.7 + 3.8 * within(wind, "wind in m/s", low=0.0, high=5.0)


def air_density(*, temperature_c: Celsius, pressure: Pascal, vapor_pressure: Pascal) -> KgPerCubicMeter:
    """How heavy moist air is: ρ = (p − 0.378 e) / (287.05 T).

    Args:
        temperature_c: T, of the air; in kelvin in the equation [°C]
        pressure: p, of the air [Pa]
        vapor_pressure: e, of the water in it [Pa]

    Returns:
        ρ, of the moist air [kg/m3]

    Raises:
        OutOfRangeError: T outside −60 to 120 °C, or p not above 0.

    Range:
        −60 ≤ T ≤ 120 °C, p > 0, refused outside.

    Source:
        ASHRAE-F1, an ideal gas of dry air and vapor (memory)

    Example:
        >>> air_density(temperature_c=20.0, pressure=101325.0, vapor_pressure=0.0)
        1.204
    """
    _within(temperature_c)
    return (within(pressure, "pressure of the air in Pa", above=0.0) - 0.378 * vapor_pressure) / (
        _DRY_AIR * (temperature_c + _ZERO)
    )


def heat_of_vapor(*, temperature_c: Celsius) -> JoulePerKg:
    """Heat that water takes along as it evaporates: λ = 2.501 − 0.002361 t MJ/kg.

    Args:
        temperature_c: t, of the water [°C]

    Returns:
        λ, per mass of water [J/kg]

    Raises:
        OutOfRangeError: t outside −60 to 120 °C.

    Range:
        −60 ≤ t ≤ 120 °C, refused outside.

    Source:
        FAO-56, annex 3 (memory)

    Example:
        >>> heat_of_vapor(temperature_c=20.0)
        2453780
    """
    _within(temperature_c)
    return 2.501e6 - 2361.0 * temperature_c


def vapor_transfer(*, convection: WattPerSquareMeterKelvin, density: KgPerCubicMeter, lewis: Ratio) -> MeterPerSecond:
    """How fast vapor leaves a face that heat leaves so fast: hm = hc / (ρ cp Le^(2/3)), after Chilton and Colburn.

    Args:
        convection: hc, heat exchanged with the air, without radiation [W/(m2 K)]
        density: ρ, of the air; cp is 1006 J/(kg K) [kg/m3]
        lewis: Le, heat's spread in air over vapor's, about 0.865; 1 for heat and vapor alike [-]

    Returns:
        hm, speed at which the excess of vapor is carried off [m/s]

    Raises:
        OutOfRangeError: hc below 0, ρ or Le not above 0.

    Range:
        hc ≥ 0, ρ > 0, Le > 0, refused outside.

    Source:
        INCROPERA, heat and mass transfer analogy (memory)

    Example:
        >>> vapor_transfer(convection=10.0, density=1.2, lewis=1.0)
        0.00828
    """
    within(convection, "heat exchanged with the air in W/(m2 K)", low=0.0)
    heat = within(density, "density of the air in kg/m3", above=0.0) * _HEAT
    speed: MeterPerSecond = convection / (heat * within(lewis, "Lewis number", above=0.0) ** (2 / 3))
    return speed


def evaporation_from_wall(
    *, transfer: MeterPerSecond, surface_c: Celsius, air_c: Celsius, vapor_pressure: Pascal
) -> KgPerSquareMeterSecond:
    """Water leaving a wet face: n = hm (ps(Ts) / (461.5 Ts) − e / (461.5 Ta)).

    Args:
        transfer: hm, speed at which vapor is carried off [m/s]
        surface_c: Ts, of the wet face; in kelvin in the equation [°C]
        air_c: Ta, of the air; likewise [°C]
        vapor_pressure: e, of the water in that air [Pa]

    Returns:
        n, below 0 where dew falls [kg/(m2 s)]

    Raises:
        OutOfRangeError: a temperature outside −60 to 120 °C.

    Range:
        −60 to 120 °C, refused outside; the face must be wet.

    Source:
        INCROPERA, convection of mass (memory)

    Example:
        >>> evaporation_from_wall(transfer=0.01, surface_c=25.0, air_c=25.0, vapor_pressure=0.0)
        0.00023
    """
    _within(surface_c)
    _within(air_c)
    there = saturation_pressure(temperature_c=surface_c) / (VAPOR * (surface_c + _ZERO))
    return transfer * (there - vapor_pressure / (VAPOR * (air_c + _ZERO)))


def long_wave_gain(
    *, sky_heat: WattPerSquareMeter, ground_c: Celsius, sky_view: Ratio, surface_c: Celsius, emittance: Ratio
) -> WattPerSquareMeter:
    """Heat that a face takes from sky and ground less what it gives off: ε (F L + (1 − F) σ Tg⁴ − σ Ts⁴).

    Args:
        sky_heat: L, long-wave heat from the sky onto the level [W/m2]
        ground_c: Tg, of the ground before the face; in kelvin in the equation [°C]
        sky_view: F, share of the view that is sky: 0.5 upright, 1 lying [-]
        surface_c: Ts, of the face; in kelvin in the equation [°C]
        emittance: ε, of the face [-]

    Returns:
        net gain, mostly below 0 [W/m2]

    Raises:
        OutOfRangeError: a share outside 0 to 1, or a temperature outside −60 to 120 °C.

    Range:
        0 ≤ F ≤ 1, 0 ≤ ε ≤ 1, −60 to 120 °C, refused outside. The ground counts as black, and so does what stands on it.

    Source:
        STEFAN-BOLTZMANN (memory)

    Example:
        >>> long_wave_gain(sky_heat=300.0, ground_c=20.0, sky_view=0.5, surface_c=20.0, emittance=0.9)
        -53.4
    """
    _within(surface_c)
    _within(ground_c)
    view = within(sky_view, "share of the view that is sky", low=0.0, high=1.0)
    ground = STEFAN_BOLTZMANN * (ground_c + _ZERO) ** 4
    given = STEFAN_BOLTZMANN * (surface_c + _ZERO) ** 4
    return within(emittance, "emittance", low=0.0, high=1.0) * (view * sky_heat + (1 - view) * ground - given)


def heat_into_wall(
    *, sun: WattPerSquareMeter, absorptance: Ratio, long_wave: WattPerSquareMeter, convection: WattPerSquareMeterKelvin,
    air_c: Celsius, surface_c: Celsius, evaporation: KgPerSquareMeterSecond,
) -> WattPerSquareMeter:  # fmt: skip
    """What of all heat at a face goes on into the wall: q = α S + R + hc (Ta − Ts) − λ n.

    Args:
        sun: S, all sun on the face: straight, from the sky, off the ground [W/m2]
        absorptance: α, share of the sun that the face takes in [-]
        long_wave: R, net gain of heat from sky and ground [W/m2]
        convection: hc, heat exchanged with the air [W/(m2 K)]
        air_c: Ta, of the air [°C]
        surface_c: Ts, of the face [°C]
        evaporation: n, water leaving the face; its heat λ goes along [kg/(m2 s)]

    Returns:
        q, what warms the wall; 0 for a face that stays as it is [W/m2]

    Raises:
        OutOfRangeError: α outside 0 to 1, S or hc below 0, or Ts outside −60 to 120 °C.

    Range:
        S ≥ 0, 0 ≤ α ≤ 1, hc ≥ 0, −60 ≤ Ts ≤ 120 °C, refused outside.

    Source:
        STATICS, heat in less heat out (derived)

    Example:
        >>> heat_into_wall(sun=500.0, absorptance=0.6, long_wave=-50.0, convection=10.0, air_c=20.0, surface_c=30.0,
        ...                evaporation=0.0)
        150.0
    """
    taken = within(absorptance, "absorptance", low=0.0, high=1.0) * within(sun, "sun in W/m2", low=0.0)
    exchanged = within(convection, "heat exchanged with the air in W/(m2 K)", low=0.0) * (air_c - surface_c)
    return taken + long_wave + exchanged - heat_of_vapor(temperature_c=surface_c) * evaporation


def evaporation_by_penman(
    *, heat: WattPerSquareMeter, convection: WattPerSquareMeterKelvin, air_c: Celsius, humidity: Ratio,
    pressure: Pascal, lewis: Ratio,
) -> KgPerSquareMeterSecond:  # fmt: skip
    """Water leaving a wet face without asking its temperature: λn = (Δ Q + hc (es − e)) / (Δ + γ Le^(2/3)).

    The balance of a face that stores nothing, with the curve of saturation taken straight from the air's temperature
    on. A rival of the full balance.

    Args:
        heat: Q, sun taken in and net long-wave heat of a face as warm as the air [W/m2]
        convection: hc, heat exchanged with the air [W/(m2 K)]
        air_c: of the air; λ, es and its slope Δ are taken there [°C]
        humidity: of the air; e is it times es [-]
        pressure: of the air; γ = 1006 p / (0.622 λ) [Pa]
        lewis: Le, heat's spread in air over vapor's [-]

    Returns:
        n [kg/(m2 s)]

    Raises:
        OutOfRangeError: humidity outside 0 to 1, hc below 0, Le not above 0, or the air outside −40 to 60 °C.

    Range:
        −40 to 60 °C, 0 ≤ humidity ≤ 1, hc ≥ 0, Le > 0, refused outside; good while face and air are within 15 K.

    Source:
        PENMAN-1948, with the analogy of heat and vapor (memory)

    Example:
        >>> evaporation_by_penman(heat=0.0, convection=10.0, air_c=25.0, humidity=0.5, pressure=101325.0, lewis=1.0)
        0.0000254
    """
    within(air_c, "temperature of the air in °C", low=-40.0, high=60.0)
    within(convection, "heat exchanged with the air in W/(m2 K)", low=0.0)
    latent, full = heat_of_vapor(temperature_c=air_c), saturation_pressure(temperature_c=air_c)
    slope = full * latent / (VAPOR * (air_c + _ZERO) ** 2)
    psychrometer = _HEAT * pressure / (0.622 * latent) * within(lewis, "Lewis number", above=0.0) ** (2 / 3)
    lack = full * (1 - within(humidity, "humidity", low=0.0, high=1.0))
    rate: KgPerSquareMeterSecond = (slope * heat + convection * lack) / ((slope + psychrometer) * latent)
    return rate


def water_drawn_in(*, suction: KgPerSquareMeter, time: Second) -> KgPerSquareMeter:
    """Water that a dry wall draws in through a wet face: w = s √(t / 1 min).

    Args:
        suction: s, drawn in by the first minute [kg/m2]
        time: t, that the face stays wet [s]

    Returns:
        w, drawn in since it was dry [kg/m2]

    Raises:
        OutOfRangeError: s or t below 0.

    Range:
        s ≥ 0, t ≥ 0, refused below; until its pores are full.

    Source:
        SUCTION, the rate of the first minute with the root of time (memory)

    Example:
        >>> water_drawn_in(suction=1.0, time=240.0)
        2.0
    """
    minutes = within(time, "time in s", low=0.0) / 60.0
    drawn: KgPerSquareMeter = within(suction, "suction in kg/m2", low=0.0) * np.sqrt(minutes)
    return drawn


def conductivity_by_density(*, density: KgPerCubicMeter) -> WattPerMeterKelvin:
    """How well dry masonry and concrete carry heat: k = 0.072 exp(0.00125 ρ) W/(m K).

    Args:
        density: ρ, of the dry stuff [kg/m3]

    Returns:
        k, dry; some tenths more while damp [W/(m K)]

    Raises:
        OutOfRangeError: ρ outside 200 to 2600 kg/m3.

    Range:
        200 ≤ ρ ≤ 2600 kg/m3, refused outside.

    Source:
        ACI-122 (memory)

    Example:
        >>> conductivity_by_density(density=800.0)
        0.196
    """
    within(density, "density in kg/m3", low=200.0, high=2600.0)
    conductivity: WattPerMeterKelvin = 0.072 * np.exp(0.00125 * density)
    return conductivity


def _within(temperature_c: Celsius) -> None:
    within(temperature_c, "temperature in °C", low=_COLD, high=_HOT)
