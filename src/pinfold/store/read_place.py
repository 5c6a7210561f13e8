"""Reading the tables `place`, `haul` and `mixing` of a plan file."""

from __future__ import annotations

import difflib
import math
from dataclasses import replace
from zoneinfo import ZoneInfo, available_timezones

from pinfold.plan.place import Family, Haul, LandForm, Mixing, Place, Topography
from pinfold.store.forms import Form
from pinfold.store.read_measures import NAMES, read_measures
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import (
    CELSIUS,
    CUBIC_METER,
    KELVIN_SECOND,
    KILOGRAM,
    METER,
    METER_PER_SECOND,
    RADIAN,
    RATIO,
    SECOND,
    System,
)

EXPOSURES = {Family.US: ("B", "C", "D"), Family.EU: ("0", "I", "II", "III", "IV")}
EDITIONS = ("7-16", "7-22")
_GALLON, _POUND, _DAY = 3.785411784e-3, 0.45359237, 86400.0
_ORDINARY = 20.0
"""Temperature of the air, in °C, that mixing is reckoned with where none is given."""


def read_place(whole: Form, family: Family) -> Place:
    """The table `place`; what is absent stays None and shows as NOT SHOWN later."""
    form = whole.sub("place") or Form({}, "place", whole.complaints)
    place = Place(
        says=form.text("says", otherwise=""),
        latitude=form.perhaps("latitude", RADIAN, low=-math.pi / 2, high=math.pi / 2),
        longitude=form.perhaps("longitude", RADIAN, low=-math.pi, high=math.pi),
        time_zone=_time_zone(form),
        elevation=form.perhaps("elevation", METER, low=-450.0, high=6000.0),
        north=form.quantity("north", RADIAN, otherwise=0.0, low=-math.pi, high=math.pi),
        wind_speed=form.perhaps("wind_speed", METER_PER_SECOND, low=5.0, high=100.0),
        wind_edition=_edition(form, family),
        exposure=form.choice("exposure", EXPOSURES[family]),
        topography=_topography(form),
        frost_depth=form.perhaps("frost_depth", METER, low=0.0, high=5.0),
        soil=_soil(form),
        coldest=form.perhaps("coldest", CELSIUS, low=-60.0, high=40.0),
        hottest=form.perhaps("hottest", CELSIUS, low=-20.0, high=90.0),
        humidity=form.perhaps("humidity", RATIO, low=0.1, high=1.0),
        albedo=form.perhaps("albedo", RATIO, low=0.0, high=0.95),
        freezing_index=form.perhaps("freezing_index", KELVIN_SECOND, low=0.0, high=6000 * _DAY),
        freezing_days=form.perhaps("freezing_days", SECOND, low=_DAY, high=365 * _DAY),
        mean_temperature=form.perhaps("mean_temperature", CELSIUS, low=-30.0, high=35.0),
        surface=form.kind_if("surface", "surfaces"),
        water_depth=form.perhaps("water_depth", METER, low=0.0, high=50.0),
        pushes=_pushes(form),
        seismic=form.perhaps("seismic", RATIO, low=0.0, high=3.0),
        building_wind=form.perhaps("building_wind", METER_PER_SECOND, low=2.0, high=100.0),
    )
    if place.coldest is not None and place.hottest is not None and place.coldest > place.hottest:
        form.complain("coldest", "is above hottest; write the lower temperature under coldest")
    form.refuse_unknown()
    return place


def _time_zone(form: Form) -> str | None:
    name = form.text("time_zone", otherwise="")
    if not name:
        return None
    try:
        ZoneInfo(name)
    except (LookupError, ValueError, OSError):
        near = difflib.get_close_matches(name, available_timezones(), n=3)
        meant = f"did you mean {' or '.join(near)}?" if near else "take one like 'America/Denver' or 'Europe/Lisbon'"
        form.complain("time_zone", f"{name!r} is no name of the IANA list of time zones; {meant}")
        return None
    return name


def _pushes(form: Form) -> tuple[Kind, ...] | None:
    """Kinds of the shelf, each by name or as a table with own figures; an empty list is nobody."""
    if not form.has("pushes"):
        return None
    names = form.raw("pushes")
    if not isinstance(names, list) or len(names) > len(shelf("pushes")):
        form.complain("pushes", f'{names!r} found; a list is wanted, like ["person", "goat"]; nobody is []')
        return None
    rows = Form({f"pushes[{number}]": name for number, name in enumerate(names)}, form.at, form.complaints)
    return tuple(rows.kind(key, "pushes") for key in rows.table)


def _edition(form: Form, family: Family) -> str:
    if family is Family.EU and form.has("wind_edition"):
        form.complain("wind_edition", "goes with family = 'us'; the EU family follows EN 1991-1-4; take it out")
    return form.choice("wind_edition", EDITIONS, otherwise="7-22") or "7-22"


def _topography(whole: Form) -> Topography | None:
    form = whole.sub("topography")
    if form is None:
        return None
    topography = Topography(
        shape=form.word("shape", LandForm),
        height=form.quantity("height", METER, low=0.0, high=2000.0),
        half_length=form.quantity("half_length", METER, low=0.1, high=20000.0),
        distance=form.quantity("distance", METER, otherwise=0.0, low=0.0, high=50000.0),
        downwind=form.flag("downwind", otherwise=False),
    )
    form.refuse_unknown()
    return topography


def _soil(form: Form) -> Kind | None:
    soil = form.kind_if("soil", "soils")
    test = form.kind_if("hand_test", "hand_tests")
    if soil is not None and test is not None:
        form.complain("hand_test", f"the soil is given as {soil.name} too; take one of the two out")
    if soil is not None:
        return soil
    if test is None or test.word("soil") not in shelf("soils"):
        return None
    return kind("soils", test.word("soil"))


def read_haul(whole: Form) -> Haul:
    """The table `haul`."""
    form = whole.sub("haul") or Form({}, "haul", whole.complaints)
    haul = Haul(
        payload=form.perhaps("payload", KILOGRAM, low=1.0, high=50000.0),
        bed=form.perhaps("bed", CUBIC_METER, low=0.01, high=100.0),
        tank=form.perhaps("tank", CUBIC_METER, low=0.001, high=50.0),
        shop_distance=form.perhaps("shop_distance", METER, low=0.0, high=2e6),
        water_distance=form.perhaps("water_distance", METER, low=0.0, high=2e6),
    )
    form.refuse_unknown()
    return haul


def read_mixing(whole: Form, units: System) -> Mixing:
    """The table `mixing`; mixer, bucket, bags and what one lifts have usual sizes where none are given."""
    form = whole.sub("mixing") or Form({}, "mixing", whole.complaints)
    american = units is System.US
    drum = form.perhaps("drum", CUBIC_METER, low=0.004, high=2.0)
    lifted = kind("cautions", "heavy-lift").value("over")
    mixing = Mixing(
        batch=form.quantity("batch", CUBIC_METER, otherwise=0.06 if drum is None else drum, low=0.002, high=1.0),
        bucket=form.quantity("bucket", CUBIC_METER, otherwise=5 * _GALLON if american else 0.012, low=0.001, high=0.2),
        bag=form.quantity("bag", KILOGRAM, otherwise=94 * _POUND if american else 25.0, low=1.0, high=60.0),
        lime_bag=form.quantity("lime_bag", KILOGRAM, otherwise=50 * _POUND if american else 20.0, low=1.0, high=60.0),
        sand_bulking=form.perhaps("sand_bulking", RATIO, low=0.0, high=0.5),
        drum=drum,
        lift=form.quantity("lift", KILOGRAM, otherwise=lifted, low=2.0, high=60.0),
        temperature=form.quantity("temperature", CELSIUS, otherwise=_ORDINARY, low=-20.0, high=50.0),
    )
    measures = read_measures(form, mixing.bucket)
    filled = next((each.holds for each in measures if each.name == "bucket"), mixing.bucket)
    sand_by = form.choice("sand_by", NAMES, otherwise="") or ""
    form.refuse_unknown()
    usual = tuple(key for key in ("batch", "bucket", "bag", "lime_bag") if key not in form.table)
    return replace(mixing, bucket=filled, measures=measures, sand_by=sand_by, usual=usual)
