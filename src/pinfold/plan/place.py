"""Where the plot lies and what it costs to reach it: wind, frost, ground, water and haul."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.plan.measures import USUAL_SPREAD, SiteMeasure, usual_measure
from pinfold.sources import Standing
from pinfold.tables.shelf import Kind
from pinfold.units import Celsius, CubicMeter, KelvinSecond, Kilogram, Meter, MeterPerSecond, Radian, Second


class Family(StrEnum):
    """Which standards the checks follow."""

    US = "us"  # ASCE 7, IBC, TMS 402
    EU = "eu"  # EN 1991-1-4, EN 1996, EN 1990


class LandForm(StrEnum):
    """A rise in the land that speeds the wind up."""

    RIDGE = "ridge"
    ESCARPMENT = "escarpment"
    HILL = "hill"


@dataclass(frozen=True, kw_only=True)
class Topography:
    """A ridge, escarpment or hill near the plot.

    Attributes:
        shape: which of the three.
        height: H, rise from foot to crest.
        half_length: Lh, distance upwind of the crest to where the rise is half of H.
        distance: x, from the crest to the plot; 0 on the crest.
        downwind: whether the plot lies downwind of the crest.
    """

    shape: LandForm
    height: Meter
    half_length: Meter
    distance: Meter
    downwind: bool


@dataclass(frozen=True, kw_only=True)
class Place:
    """The plot's place on earth. What is None was not given, and what rests on it is NOT SHOWN.

    Attributes:
        says: a line about the place.
        latitude: north positive.
        longitude: east positive.
        time_zone: that clocks go by there, by its name in the IANA list such as `Europe/Lisbon`.
        elevation: above the sea.
        north: turn of true north from the plan's y axis, clockwise positive.
        wind_speed: basic speed of the family's standard: 3 s gust (US), 10 min mean (EU).
        wind_edition: `7-16` or `7-22`; US family only.
        exposure: `B`, `C`, `D` (US) or `0`, `I`, `II`, `III`, `IV` (EU).
        topography: None on flat land.
        frost_depth: depth the ground freezes to.
        soil: class of ground.
        coldest: a wall there gets through and through.
        hottest: likewise.
        humidity: of the air, the mean of the year, as a share.
        albedo: share of the light that the ground throws back.
        freezing_index: degrees below freezing times days of a hard winter, in the air.
        freezing_days: how long the ground freezes in that winter.
        mean_temperature: of the year.
        surface: what lies on the ground in winter; the air's own index counts where it is not given.
        water_depth: least depth of water in the ground in the wet season.
        pushes: who leans, presses or climbs on what stands there.
        seismic: acceleration in an earthquake as a share of gravity: of short periods, SDS, in the American family; in
            the European the ground's own peak with its soil factor.
        building_wind: speed to reckon with while a wall is green, of the same kind as the wind speed.
    """

    says: str
    latitude: Radian | None
    longitude: Radian | None
    time_zone: str | None = None
    elevation: Meter | None
    north: Radian
    wind_speed: MeterPerSecond | None
    wind_edition: str
    exposure: str | None
    topography: Topography | None
    frost_depth: Meter | None
    soil: Kind | None
    coldest: Celsius | None = None
    hottest: Celsius | None = None
    humidity: float | None = None
    albedo: float | None = None
    freezing_index: KelvinSecond | None = None
    freezing_days: Second | None = None
    mean_temperature: Celsius | None = None
    surface: Kind | None = None
    water_depth: Meter | None = None
    pushes: tuple[Kind, ...] | None = None
    seismic: float | None = None
    building_wind: MeterPerSecond | None = None


@dataclass(frozen=True, kw_only=True)
class Haul:
    """How things get to the plot. What is None was not given.

    Attributes:
        payload: what the vehicle carries.
        bed: volume it holds of loose stuff.
        tank: water it carries at once.
        shop_distance: one way to where things are bought.
        water_distance: one way to the water.
    """

    payload: Kilogram | None
    bed: CubicMeter | None
    tank: CubicMeter | None
    shop_distance: Meter | None
    water_distance: Meter | None


@dataclass(frozen=True, kw_only=True)
class Mixing:
    """What the builder mixes with.

    Attributes:
        batch: most finished mix the mixer or tub turns at once.
        bucket: volume of the bucket sand and gravel are measured in, filled level.
        bag: mass of one bag of cement.
        lime_bag: mass of one bag of lime.
        sand_bulking: how much the damp sand has swollen, as a share of its dry loose volume; None when not measured.
        drum: volume of the mixer's drum, filled to the brim; None when not given, and the batch alone counts.
        lift: most that one person lifts now and then; None where nobody asks the back.
        temperature: of the air where it is mixed; None where nobody asks the time before it sets.
        measures: what the builder fills, as far as the plan or the log says more of it than the bucket's volume.
        sand_by: the measure that sand is counted in; empty for the bucket.
        usual: keys that the plan does not say, which stand as usual.
    """

    batch: CubicMeter
    bucket: CubicMeter
    bag: Kilogram
    lime_bag: Kilogram
    sand_bulking: float | None
    drum: CubicMeter | None = None
    lift: Kilogram | None = None
    temperature: Celsius | None = None
    measures: tuple[SiteMeasure, ...] = ()
    sand_by: str = ""
    usual: tuple[str, ...] = ()

    def measure(self, name: str) -> SiteMeasure:
        """A measure of the site; as it is shipped where neither plan nor log says anything.

        Raises:
            KeyError: nothing is known by that name.
        """
        found = next((each for each in self.measures if each.name == name), None)
        if found is not None:
            return found
        if name == "bucket":
            if "bucket" not in self.usual:
                return SiteMeasure(name=name, brim=self.bucket)
            return SiteMeasure(name=name, brim=self.bucket, standing=Standing.PRACTICE, spread=USUAL_SPREAD)
        return usual_measure(name)
