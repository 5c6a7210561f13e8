"""Sun on a plane: how straight it meets it, how strong it is, how long the day, how long a shadow."""

from __future__ import annotations

import math

from pinfold.errors import OutOfRangeError
from pinfold.formulas.ranges import within
from pinfold.units import (
    Celsius,
    Meter,
    Radian,
    Ratio,
    Second,
    WattPerSquareMeter,
    WattPerSquareMeterKelvin,
)

_QUARTER = math.pi / 2
_SOLAR_CONSTANT = 0.0820e6 / 60  # W/m2, as FAO-56 prints it, by the minute
_YEAR = 365.0
_DAY = 86400.0


def cosine_of_incidence(*, altitude: Radian, azimuth: Radian, tilt: Radian, facing: Radian) -> Ratio:
    """How straight the sun meets a plane: cos θ = sin e cos β + cos e sin β cos(a − γ).

    Args:
        altitude: e, of the sun above the level [rad]
        azimuth: a, of the sun, clockwise from north [rad]
        tilt: β, of the plane, 0 lying face up, a quarter turn upright [rad]
        facing: γ, way the plane looks, clockwise from north [rad]

    Returns:
        cos θ, of the angle between the sun and the plane's own straight ahead; below 0 the sun is behind it [-]

    Raises:
        OutOfRangeError: the sun is above the zenith or the tilt is past lying face down.

    Range:
        −π/2 ≤ e ≤ π/2, 0 ≤ β ≤ π, refused outside.

    Source:
        SPA, 3.16, angle of incidence (read)
        ASHRAE-CLEAR-DAY, cosine of incidence, the same in other words (read)

    Example:
        >>> cosine_of_incidence(altitude=0.5, azimuth=3.0, tilt=1.5707963268, facing=3.0)
        0.87758
    """
    within(altitude, "altitude of the sun in rad", low=-_QUARTER, high=_QUARTER)
    within(tilt, "tilt in rad", low=0.0, high=math.pi)
    level = math.sin(altitude) * math.cos(tilt)
    return level + math.cos(altitude) * math.sin(tilt) * math.cos(azimuth - facing)


def beam_on_plane(*, beam: WattPerSquareMeter, cosine: Ratio, lit: Ratio) -> WattPerSquareMeter:
    """Sun on a plane: I_b = I s max(cos θ, 0).

    Args:
        beam: I, of the sun straight on [W/m2]
        cosine: cos θ, of incidence; below 0 the sun is behind the plane [-]
        lit: s, share of the plane that the sun shines on [-]

    Returns:
        I_b, over the whole plane [W/m2]

    Raises:
        OutOfRangeError: the beam is negative, the cosine or the share is none.

    Range:
        I ≥ 0, −1 ≤ cos θ ≤ 1, 0 ≤ s ≤ 1, refused outside.

    Source:
        ASHRAE-CLEAR-DAY, direct irradiance on a surface (read)

    Example:
        >>> beam_on_plane(beam=800.0, cosine=0.5, lit=1.0)
        400
    """
    within(beam, "beam in W/m2", low=0.0)
    within(lit, "share that is lit", low=0.0, high=1.0)
    return beam * lit * max(within(cosine, "cosine of incidence", low=-1.0, high=1.0), 0.0)


def sky_on_plane(*, diffuse: WattPerSquareMeter, tilt: Radian, view: Ratio) -> WattPerSquareMeter:
    """Light of an evenly bright sky on a plane: I_d = D v (1 + cos β)/2.

    Args:
        diffuse: D, of the whole sky on the level [W/m2]
        tilt: β, of the plane, 0 lying face up, a quarter turn upright [rad]
        view: v, what it sees of the sky as a share of what it would see with nothing in the way [-]

    Returns:
        I_d, on the plane [W/m2]

    Raises:
        OutOfRangeError: the light is negative, the tilt past lying face down or the view no share.

    Range:
        D ≥ 0, 0 ≤ β ≤ π, 0 ≤ v ≤ 1, refused outside.

    Source:
        STATICS, view factor between a plane and a hemisphere (derived)

    Example:
        >>> sky_on_plane(diffuse=100.0, tilt=1.5707963267948966, view=1.0)
        50.0
    """
    within(diffuse, "light of the sky in W/m2", low=0.0)
    within(view, "view of the sky", low=0.0, high=1.0)
    return diffuse * view * (1 + math.cos(within(tilt, "tilt in rad", low=0.0, high=math.pi))) / 2


def ground_on_plane(*, level: WattPerSquareMeter, albedo: Ratio, tilt: Radian) -> WattPerSquareMeter:
    """Light thrown back by level ground on a plane: I_g = ρ G (1 − cos β)/2.

    Args:
        level: G, from sun and sky on the level [W/m2]
        albedo: ρ, share that the ground throws back [-]
        tilt: β, of the plane, 0 lying face up, a quarter turn upright [rad]

    Returns:
        I_g, on the plane [W/m2]

    Raises:
        OutOfRangeError: the light is negative, the albedo no share or the tilt past lying face down.

    Range:
        G ≥ 0, 0 ≤ ρ ≤ 1, 0 ≤ β ≤ π, refused outside.

    Source:
        STATICS, view factor between a plane and endless ground (derived)

    Example:
        >>> ground_on_plane(level=1000.0, albedo=0.2, tilt=1.5707963267948966)
        100.0
    """
    within(level, "light on the level in W/m2", low=0.0)
    within(albedo, "albedo", low=0.0, high=1.0)
    return level * albedo * (1 - math.cos(within(tilt, "tilt in rad", low=0.0, high=math.pi))) / 2


def beam_by_ashrae(
    *, apparent: WattPerSquareMeter, extinction: Ratio, clearness: Ratio, altitude: Radian
) -> WattPerSquareMeter:
    """Sun straight on of a clear day: I = C_N A exp(−B / sin e).

    Args:
        apparent: A, of the month, as if there were no air: 1230 in January, 1085 in July [W/m2]
        extinction: B, of the month: 0.142 in January, 0.207 in July [-]
        clearness: C_N, of the region, 0.85 to 1.15 [-]
        altitude: e, of the sun above the level [rad]

    Returns:
        I, straight on; 0 with the sun on the level or below [W/m2]

    Raises:
        OutOfRangeError: a figure is negative or the sun above the zenith.

    Range:
        A, B, C_N ≥ 0, e ≤ π/2, refused outside.

    Source:
        ASHRAE-CLEAR-DAY, direct normal irradiance (read)

    Example:
        >>> beam_by_ashrae(apparent=1187.0, extinction=0.142, clearness=0.98, altitude=1.5707963267948966)
        1009.3
    """
    within(altitude, "altitude of the sun in rad", high=_QUARTER)
    strength = within(apparent, "apparent sun in W/m2", low=0.0) * within(clearness, "clearness", low=0.0)
    if altitude <= 0:
        return 0.0
    return strength * math.exp(-within(extinction, "extinction", low=0.0) / math.sin(altitude))


def distance_factor_by_fao56(*, day: Ratio) -> Ratio:
    """How much stronger the sun is for its distance: d = 1 + 0.033 cos(2π J/365).

    Args:
        day: J, of the year, 1 for the first of January [-]

    Returns:
        d, over the mean of the year [-]

    Raises:
        OutOfRangeError: no day of a year.

    Range:
        1 ≤ J ≤ 366, refused outside.

    Source:
        FAO-56, equation 23 (read)

    Example:
        >>> distance_factor_by_fao56(day=365.0)
        1.033
    """
    return 1 + 0.033 * math.cos(2 * math.pi / _YEAR * within(day, "day of the year", low=1.0, high=366.0))


def declination_by_fao56(*, day: Ratio) -> Radian:
    """How far north of the equator the sun stands: δ = 0.409 sin(2π J/365 − 1.39).

    Args:
        day: J, of the year, 1 for the first of January [-]

    Returns:
        δ, north positive [rad]

    Raises:
        OutOfRangeError: no day of a year.

    Range:
        1 ≤ J ≤ 366, refused outside.

    Source:
        FAO-56, equation 24 (read)

    Example:
        >>> declination_by_fao56(day=172.0)
        0.409
    """
    return 0.409 * math.sin(2 * math.pi / _YEAR * within(day, "day of the year", low=1.0, high=366.0) - 1.39)


def sunset_hour_angle(*, latitude: Radian, declination: Radian) -> Radian:
    """How far the earth turns from noon to sunset: ω = arccos(−tan φ tan δ).

    Args:
        latitude: φ, north positive [rad]
        declination: δ, of the sun, north positive [rad]

    Returns:
        ω; 0 where the sun does not rise, π where it does not set [rad]

    Raises:
        OutOfRangeError: the latitude is at a pole or past it, or the sun past the tropics.

    Range:
        −π/2 < φ < π/2, −0.42 ≤ δ ≤ 0.42, refused outside.

    Source:
        FAO-56, equation 25 (read)

    Example:
        >>> sunset_hour_angle(latitude=0.0, declination=0.3)
        1.5708
    """
    if not -_QUARTER < latitude < _QUARTER:
        raise OutOfRangeError(f"latitude in rad is {latitude:.6g}; the method wants it between the poles")
    within(declination, "declination in rad", low=-0.42, high=0.42)
    return math.acos(min(max(-math.tan(latitude) * math.tan(declination), -1.0), 1.0))


def daylight_by_fao56(*, latitude: Radian, day: Ratio) -> Second:
    """How long the day is, from the middle of the sun on the horizon to the same: N = 24 h ω/π.

    Args:
        latitude: φ, north positive [rad]
        day: J, of the year, 1 for the first of January [-]

    Returns:
        N, 0 in the polar night, 24 hours in the polar day [s]

    Raises:
        OutOfRangeError: as `declination_by_fao56` and `sunset_hour_angle` tell.

    Range:
        −π/2 < φ < π/2, 1 ≤ J ≤ 366, refused outside.

    Source:
        FAO-56, equation 34 (read)

    Notes:
        The sun's upper edge, lifted by the air, gives some ten minutes more.

    Example:
        >>> daylight_by_fao56(latitude=0.0, day=100.0)
        43200
    """
    return _DAY / math.pi * sunset_hour_angle(latitude=latitude, declination=declination_by_fao56(day=day))


def sun_outside_by_fao56(*, latitude: Radian, day: Ratio) -> WattPerSquareMeter:
    """Mean over a day of the sun on the level above the air: R = S d (ω sin φ sin δ + cos φ cos δ sin ω)/π.

    Args:
        latitude: φ, north positive [rad]
        day: J, of the year, 1 for the first of January [-]

    Returns:
        R, over all 24 hours; S is 0.0820 MJ to the square meter and minute [W/m2]

    Raises:
        OutOfRangeError: as `declination_by_fao56` and `sunset_hour_angle` tell.

    Range:
        −π/2 < φ < π/2, 1 ≤ J ≤ 366, refused outside.

    Source:
        FAO-56, equation 21 (read)

    Example:
        >>> sun_outside_by_fao56(latitude=0.0, day=81.0)
        437.5
    """
    declination = declination_by_fao56(day=day)
    angle = sunset_hour_angle(latitude=latitude, declination=declination)
    up = angle * math.sin(latitude) * math.sin(declination)
    across = math.cos(latitude) * math.cos(declination) * math.sin(angle)
    return _SOLAR_CONSTANT * distance_factor_by_fao56(day=day) * (up + across) / math.pi


def shadow_length(*, height: Meter, altitude: Radian) -> Meter:
    """Shadow of an upright stick on level ground: L = h / tan e.

    Args:
        height: h, of the stick [m]
        altitude: e, of the sun above the level [rad]

    Returns:
        L, away from the sun [m]

    Raises:
        OutOfRangeError: the height is negative or the sun not above the level.

    Range:
        h ≥ 0, 0 < e ≤ π/2, refused outside.

    Source:
        SPA, shadow of a stick of 10 m at the moment of its worked example (read)

    Example:
        >>> shadow_length(height=2.0, altitude=0.7853981633974483)
        2.0
    """
    within(altitude, "altitude of the sun in rad", above=0.0, high=_QUARTER)
    return within(height, "height in m", low=0.0) / math.tan(altitude)


def shadow_of_wall(*, height: Meter, altitude: Radian, azimuth: Radian, facing: Radian) -> Meter:
    """How far the shadow of a long wall reaches straight away from it: D = h |cos(a − γ)| / tan e.

    Args:
        height: h, of the wall over the level ground [m]
        altitude: e, of the sun above the level [rad]
        azimuth: a, of the sun, clockwise from north [rad]
        facing: γ, way either face of the wall looks, clockwise from north [rad]

    Returns:
        D, square to the wall on the side away from the sun [m]

    Raises:
        OutOfRangeError: the height is negative or the sun not above the level.

    Range:
        h ≥ 0, 0 < e ≤ π/2, refused outside.

    Source:
        STATICS, the part of a stick's shadow that lies square to the wall (derived)

    Example:
        >>> shadow_of_wall(height=3.0, altitude=0.7853981633974483, azimuth=3.14159265, facing=0.0)
        3.0
    """
    return shadow_length(height=height, altitude=altitude) * abs(math.cos(azimuth - facing))


def sol_air_temperature_c(
    *, air_c: Celsius, absorptance: Ratio, light: WattPerSquareMeter, to_sky: WattPerSquareMeter,
    film: WattPerSquareMeterKelvin,
) -> Celsius:  # fmt: skip
    """Air that would warm a face as sun, sky and air together do: t_e = t + (α I − ε ΔR)/h.

    Args:
        air_c: t, of the air [°C]
        absorptance: α, share of the light that the face takes up [-]
        light: I, on the face [W/m2]
        to_sky: ε ΔR, heat it loses to a clear sky over what a body as warm as the air would: 63 lying, 0 upright [W/m2]
        film: h, heat that air and surroundings take from the face, 17 for a usual wind [W/(m2 K)]

    Returns:
        t_e, what a dry face that lets no heat through comes to [°C]

    Raises:
        OutOfRangeError: the light is negative, the absorptance no share or the film not above 0.

    Range:
        0 ≤ α ≤ 1, I ≥ 0, h > 0, refused outside.

    Source:
        SOL-AIR, equations 28 to 30 (read)

    Example:
        >>> sol_air_temperature_c(air_c=30.0, absorptance=0.5, light=680.0, to_sky=0.0, film=17.0)
        50.0
    """
    taken = within(absorptance, "absorptance", low=0.0, high=1.0) * within(light, "light in W/m2", low=0.0)
    return air_c + (taken - to_sky) / within(film, "film in W/(m2 K)", above=0.0)
