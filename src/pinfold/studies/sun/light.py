"""The light on a face, hour by hour: from the sun where it shines, from the sky it sees, thrown back by the ground.

Sun and sky are pvlib's: the sky by Hay and Davies, who let part of it come from close around the sun; that part goes
and comes with the sun's own light, the rest with the sky that the face sees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, tzinfo
from functools import lru_cache

import numpy as np

from pinfold.figures import Figure, given, printed
from pinfold.sources import Standing
from pinfold.studies.layout.records import Layout
from pinfold.studies.sun.positions import middles, standpoint, sun_at
from pinfold.studies.sun.records import Face, Light, Sky, Standpoint, Sun
from pinfold.studies.sun.shade import LEFT_OUT, incidence, lit_shares, sky_views
from pinfold.studies.weather.records import Element, Hours, Weather, WeatherKind
from pinfold.studies.weather.sunning import Spot, with_sun
from pinfold.units import RATIO

ALBEDO: Figure = printed("20 %", RATIO, Standing.MEMORY, "PRACTICE", "grass and bare ground; dry sand 40, snow 65 %")
"""Share of the light that the ground throws back."""
_LOW = math.radians(1)
"""A sun lower than this throws no stronger a brightness around it than one that stands so high."""
_LIGHT = (Element.BEAM, Element.DIFFUSE, Element.GLOBAL)


@dataclass(frozen=True, kw_only=True, eq=False)
class Lighting:
    """What light on faces needs besides the plan.

    Attributes:
        place: where the sun is seen from.
        sun: at the middle of each hour.
        sky: what comes from sun and sky in it.
        albedo: share of the light that the ground throws back.
    """

    place: Standpoint
    sun: Sun
    sky: Sky
    albedo: Figure


def lighting_of(layout: Layout, weather: Weather) -> Lighting:
    """Sun and sky over all hours of some weather.

    Raises:
        NotFoundError: neither plan nor weather says where on earth it is.
    """
    place = standpoint(layout.plan.place, weather)
    sun = sun_at(place, middles(weather))
    return Lighting(place=place, sun=sun, sky=sky_of(weather, place, sun), albedo=_albedo(layout))


def _albedo(layout: Layout) -> Figure:
    own = layout.plan.place.albedo
    return ALBEDO if own is None else given(own, RATIO)


def light_on(layout: Layout, faces: Sequence[Face], lighting: Lighting) -> Light:
    """The light on faces of a plan, hour by hour."""
    from pvlib.irradiance import get_ground_diffuse, haydavies

    sun, sky = lighting.sun, lighting.sky
    lit, views = lit_shares(layout, faces, sun), _views(layout, tuple(faces))
    beam, dome, ground = (np.zeros_like(lit) for _ in range(3))
    up = np.flatnonzero(sun.is_up | (sky.level > 0))
    cosines = np.maximum(np.array([incidence(face, sun)[up] for face in faces]), 0.0)
    high = np.maximum(np.sin(sun.altitude[up]), math.sin(_LOW))
    for number, face in enumerate(faces):
        tilt = math.degrees(face.tilt)
        parts = haydavies(
            tilt, 0.0, sky.diffuse[up], sky.beam[up], sun.outside[up], projection_ratio=cosines[number] / high,
            return_components=True,
        )  # fmt: skip
        straight = sky.beam[up] * cosines[number] + parts["poa_circumsolar"]
        beam[number, up] = straight * lit[number, up]
        dome[number, up] = parts["poa_isotropic"] * views[number]
        ground[number, up] = get_ground_diffuse(tilt, sky.level[up], albedo=lighting.albedo.value)
    return Light(
        faces=tuple(faces), sun=sun, lit=lit, sky_view=views, beam=beam, sky=dome, ground=ground,
        estimated=sky.estimated, notes=(*lighting.place.notes, *sky.notes, _thrown_back(lighting.albedo), LEFT_OUT),
    )  # fmt: skip


@lru_cache(maxsize=4)  # of a wall and what stands around it, whatever day it is
def _views(layout: Layout, faces: tuple[Face, ...]) -> Hours:
    return sky_views(layout, faces)


def _thrown_back(albedo: Figure) -> str:
    if albedo.standing is Standing.GIVEN:
        return f"The ground throws back {albedo.value:.0%} of the light, as the plan says."
    return (
        f"The ground is taken to throw back {albedo.value:.0%} of the light ({albedo.standing.value}: {albedo.where}); "
        'put your own under [place], like albedo = "30 %".'
    )


def sky_of(weather: Weather, place: Standpoint, sun: Sun) -> Sky:
    """What comes from sun and sky in each hour of some weather; what it does not give is estimated and marked."""
    full = with_sun(weather, Spot(place.latitude, place.longitude, place.elevation))
    beam, diffuse, level = (full.of(element) for element in _LIGHT)
    guessed = np.any([full.estimated[element] for element in _LIGHT if element in full.estimated], axis=0)
    dark = ~np.isfinite(beam + diffuse + level) & sun.is_up
    notes = full.notes[len(weather.notes) :]
    if dark.any():
        notes = (*notes, f"{dark.sum()} hours of daylight have no sun in the weather and count as dark.")
    return Sky(
        beam=np.nan_to_num(beam), diffuse=np.nan_to_num(diffuse), level=np.nan_to_num(level),
        estimated=(dark | guessed) & sun.is_up, notes=notes,
    )  # fmt: skip


def cloudless(start: datetime, count: int, zone: tzinfo) -> Weather:
    """Hours of which nothing is known: their sun is that of a clear sky.

    Args:
        start: of the first hour, in UTC
        count: of hours
        zone: clock of the place
    """
    nothing = np.full(count, np.nan)
    return Weather(
        kind=WeatherKind.NORMALS, says="a clear sky, for want of weather", start=start, zone=zone,
        series={Element.GLOBAL: nothing}, estimated={},
    )  # fmt: skip
