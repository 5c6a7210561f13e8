"""Velocity pressure at the plot, from what the plan says of the place, for both families of standards."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Step, work
from pinfold.formulas import orography, wind, wind_en
from pinfold.plan.place import Family, Place, Topography
from pinfold.studies.stability.factors import Named
from pinfold.tables import wind as tables
from pinfold.units import METER, METER_PER_SECOND, Meter, MeterPerSecond, Pascal


@dataclass(frozen=True, kw_only=True)
class Site:
    """What the plan says of the wind.

    Attributes:
        family: which standards are followed.
        speed: basic speed of the family.
        exposure: B, C, D, or 0 to IV.
        edition: of ASCE 7.
        elevation: above the sea; None when not given.
        topography: None on flat land.
        building: whether it is the wind while a wall is green, for which no least pressure counts.
    """

    family: Family
    speed: MeterPerSecond
    exposure: str
    edition: str
    elevation: Meter | None
    topography: Topography | None
    building: bool = False


@dataclass(frozen=True, kw_only=True)
class Air:
    """Velocity pressure at one height, with its working and what was taken for granted."""

    pressure: Pascal
    working: tuple[Step, ...]
    notes: tuple[str, ...] = ()


def site_of(family: Family, place: Place) -> Site:
    """The wind at the place.

    Raises:
        NotFoundError: the plan does not give it; the message says what to write.
    """
    exposures = "B, C or D" if family is Family.US else "0, I, II, III or IV"
    kind = "the 3-second gust of ASCE 7" if family is Family.US else "the 10-minute mean of EN 1991-1-4"
    if place.wind_speed is None:
        raise NotFoundError(f"no wind speed is given; write wind_speed under [place], {kind}")
    if place.exposure is None:
        raise NotFoundError(f"no exposure is given; write exposure under [place]: {exposures}")
    return Site(
        family=family, speed=place.wind_speed, exposure=place.exposure, edition=place.wind_edition,
        elevation=place.elevation, topography=place.topography,
    )  # fmt: skip


@lru_cache(maxsize=1024)
def air_at(site: Site, height: Meter) -> Air:
    """Velocity pressure at a height above ground.

    Raises:
        NotFoundError: an exposure the standard does not know.
        OutOfRangeError: a height past the tables.
    """
    return _american(site, height) if site.family is Family.US else _european(site, height)


def _american(site: Site, height: Meter) -> Air:
    kz = work(
        wind.exposure_coefficient, why="wind near the ground", height=height, exposure=site.exposure,
        edition=site.edition,
    )  # fmt: skip
    steps, notes = [kz], []
    kzt = ke = 1.0
    if site.topography is not None:
        hill = _hill(site, site.topography, height)
        kzt = hill.number
        steps.append(hill)
    if site.elevation is not None:
        thin = work(wind.elevation_factor, why="thinner air", elevation=site.elevation)
        ke = thin.number
        steps.append(thin)
    else:
        notes.append("no elevation is given: the air counts as at the sea")
    q = work(
        wind.velocity_pressure, why="gust brought to rest", speed=site.speed,
        air_density=tables.factor("air-asce", "density").value, exposure_coefficient=kz.number,
        topographic_factor=kzt, elevation_factor=ke,
    )  # fmt: skip
    return Air(pressure=q.number, working=(*steps, q), notes=tuple(notes))


def _hill(site: Site, topography: Topography, height: Meter) -> Step:
    return work(
        wind.topographic_factor, why="the hill speeds it up", feature=topography.shape.value, exposure=site.exposure,
        hill_height=topography.height, half_length=topography.half_length, crest_distance=topography.distance,
        side="downwind" if topography.downwind else "upwind", height=height,
    )  # fmt: skip


def _european(site: Site, height: Meter) -> Air:
    cr = work(wind_en.roughness_factor, why="wind near the ground", height=height, terrain=site.exposure)
    risen = _rise(site.topography, height) if site.topography is not None else ()
    co = risen[-1].number if risen else 1.0
    vm = work(
        wind_en.mean_speed, why="mean wind there", basic_speed=site.speed, roughness_factor=cr.number,
        orography_factor=co,
    )  # fmt: skip
    iv = work(
        wind_en.turbulence_intensity, why="its gusts", height=height, terrain=site.exposure, orography_factor=co
    )  # fmt: skip
    qp = work(
        wind_en.peak_pressure, why="gust brought to rest", mean_speed=vm.number, turbulence=iv.number,
        air_density=tables.factor("air-en", "density").value,
    )  # fmt: skip
    return Air(pressure=qp.number, working=(cr, *risen, vm, iv, qp), notes=(_STRAIGHT,) if risen else ())


_STRAIGHT = (
    "the slope is taken as straight, twice as long as from the crest to half its height, and alike on both sides"
)


def _rise(topography: Topography, height: Meter) -> tuple[Step, ...]:
    """How much faster the mean wind goes over a hill, and the slope it is reckoned with."""
    slope = work(orography.slope_length, why="upwind slope from foot to crest", half_length=topography.half_length)
    factor = work(
        orography.orography_factor, why="the hill speeds it up", feature=topography.shape.value,
        side="downwind" if topography.downwind else "upwind", hill_height=topography.height,
        slope_length=slope.number, crest_distance=topography.distance, height=height,
    )  # fmt: skip
    return (slope, factor)


@lru_cache(maxsize=64)
def figures_of(site: Site) -> Named:
    """The figures behind the wind, for their standing."""
    speed = (("wind speed", given(site.speed, METER_PER_SECOND)),)
    if site.family is Family.EU:
        row = tables.terrain_kind(site.exposure)
        shared = (("density of air", tables.factor("air-en", "density")), *row.figures.items())
        return (*speed, *shared, ("structural factor", tables.factor("wall-en", "structural_factor")), *_shape(site))
    row = tables.exposure_kind(site.edition, site.exposure)
    solid = [(name.replace("_", " "), tables.factor("solid-wall", name)) for name in _SOLID]
    more: Named = () if site.elevation is None else (("elevation", given(site.elevation, METER)),)
    if site.topography is not None:
        feature = tables.hill_kind(site.topography.shape.value)
        more += _shape(site)
        more += tuple((name.replace("_", " "), figure) for name, figure in feature.figures.items())
    return (*speed, ("density of air", tables.factor("air-asce", "density")), *row.figures.items(), *solid, *more)


_SOLID = ("directionality", "gust_factor", "minimum")


def _shape(site: Site) -> Named:
    """What the plan says of the hill."""
    hill = site.topography
    if hill is None:
        return ()
    return (
        ("height of the hill", given(hill.height, METER)), ("half-length of the hill", given(hill.half_length, METER)),
        ("distance from the crest", given(hill.distance, METER)),
    )  # fmt: skip
