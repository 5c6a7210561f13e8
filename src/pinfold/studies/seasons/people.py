"""What each hour's heat does to the people working: how it feels, how long to work in it, how much to drink."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

import numpy as np

from pinfold.formulas import heat_stress
from pinfold.studies.seasons.elements import element
from pinfold.studies.seasons.records import Marks
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.tables.heat import Effort, Sun
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import CubicMeter, Ratio

EFFORTS: tuple[Effort, ...] = ("light", "moderate", "heavy")
EFFORT_OF: Mapping[str, Effort] = {
    "trench": "heavy", "footing": "heavy", "collars": "heavy", "wall": "heavy", "mortar": "heavy", "grout": "heavy",
    "coping": "moderate", "coat": "moderate", "posts": "moderate", "rails": "moderate", "mesh": "moderate",
    "apron": "moderate", "ties": "light", "gate": "moderate", "braces": "moderate", "anchors": "moderate",
}  # fmt: skip
"""How heavy the work on a layer is (common practice)."""
_SUNNY, _DAYLIGHT, _CLEAR = 400.0, 20.0, 0.25
"""Sun straight on that counts as full, what falls on the level by day (W/m2), and cloud up to which it is clear."""
_PART = 7 / 15
"""Share of what full sun adds to the index that sun through some cloud adds, as of adjusted temperatures."""
LEVELS = ("lower", "caution", "moderate", "high", "extreme")


@dataclass(frozen=True, kw_only=True, eq=False)
class HeatHours:
    """People's heat in each hour; not a number where the weather does not say enough.

    Attributes:
        start: the beginning of the first hour, in UTC.
        shade_c: heat index in the shade.
        sun_c: the same with what the sun adds at the most.
        sunny: 0 without sun, 1 under some cloud, 2 in full sun, as far as the weather tells; in full sun where it does
            not.
        work: seconds of work in the hour for a body used to heat, by effort, in the sun as it is.
        work_in_shade: likewise in the shade.
        work_unused: likewise in the sun, for a body not used to heat.
        drink: water to drink in the hour.
    """

    start: datetime
    shade_c: Hours
    sun_c: Hours
    sunny: Hours
    work: Mapping[str, Hours]
    work_in_shade: Mapping[str, Hours]
    work_unused: Mapping[str, Hours]
    drink: Hours

    def level(self, hour: int, *, in_shade: bool = False) -> Kind | None:
        """Kind of shelf `heat_levels`; None where it is not shown."""
        felt = (self.shade_c if in_shade else self.sun_c)[hour]
        return None if np.isnan(felt) else level_of(float(felt))


def level_of(index_c: float) -> Kind:
    """The level of risk by a heat index."""
    reached = [name for name in LEVELS if name == "lower" or index_c >= kind("heat_levels", name).value("from")]
    return kind("heat_levels", reached[-1])


def heat_hours(weather: Weather) -> HeatHours:
    """People's heat hour by hour.

    Args:
        weather: hours of it
    """
    air, humidity = element(weather, Element.TEMPERATURE), element(weather, Element.HUMIDITY)
    known = np.isfinite(air) & np.isfinite(humidity)
    sunny = _sunny(weather)
    shade = _where(known, heat_stress.heat_index_c(temperature_c=air[known], humidity=humidity[known]))  # type: ignore[arg-type]
    sun = shade + np.choose(sunny.astype(int), (0.0, _PART, 1.0)) * _full_sun()
    ways = {each: _adjusted(known, air, humidity, each) for each in _SUNS}
    there = np.choose(sunny.astype(int), [ways[each] for each in _SUNS])
    return HeatHours(
        start=weather.start, shade_c=shade, sun_c=sun, sunny=sunny,
        work={each: _work(there, each) for each in EFFORTS},
        work_in_shade={each: _work(ways["shade"], each) for each in EFFORTS},
        work_unused={each: _work(there + heat_stress.unused_margin_c(effort=each), each) for each in EFFORTS},
        drink=_drink(sun),
    )  # fmt: skip


def _full_sun() -> float:
    """What full sun adds to the index at the most, in kelvin."""
    return float(str(kind("heat_levels", "in-sun").words["added_f"])) / 1.8


_SUNS: tuple[Sun, ...] = ("shade", "part", "full")


def _sunny(weather: Weather) -> Hours:
    level, beam, cloud = (element(weather, each) for each in (Element.GLOBAL, Element.BEAM, Element.CLOUD))
    clear = np.where(np.isfinite(beam), beam >= _SUNNY, ~np.isfinite(cloud) | (cloud <= _CLEAR))
    day = ~np.isfinite(level) | (level > _DAYLIGHT)
    return np.where(day, np.where(clear, 2.0, 1.0), 0.0)


def _where(known: Marks, values: object) -> Hours:
    whole = np.full(len(known), np.nan)
    whole[known] = values
    return whole


def _adjusted(known: Marks, air: Hours, humidity: Hours, sun: Sun) -> Hours:
    return _where(known, heat_stress.adjusted_temperature_c(
        temperature_c=air[known], humidity=humidity[known], sun=sun))  # type: ignore[arg-type]  # fmt: skip


def _work(adjusted: Hours, effort: Effort) -> Hours:
    known = np.isfinite(adjusted)
    return _where(known, heat_stress.work_in_hour(adjusted_c=adjusted[known], effort=effort))  # type: ignore[arg-type]


def _drink(felt: Hours) -> Hours:
    """Cups by the level, in cubic meters an hour."""
    cup = kind("heat_levels", "cup").value("volume")
    found = np.full(len(felt), np.nan)
    for name in LEVELS:
        level = kind("heat_levels", name)
        reached = felt >= level.value("from") if level.has("from") else np.isfinite(felt)
        found = np.where(reached, float(str(level.words["cups"])) * cup, found)
    return found


def most_to_drink() -> CubicMeter:
    """Most that is drunk in an hour: more is dangerous too."""
    return kind("heat_levels", "cup").value("most")


def shares_of_day(*, new: bool) -> tuple[Ratio, ...]:
    """Share of a full day in the heat, day by day, until a body is used to it.

    Args:
        new: whether the work in heat is new to it; else it was used to it before
    """
    listed = shelf("heat_levels")["new-to-it" if new else "used-to-it"].words["shares"]
    assert isinstance(listed, list)
    return tuple(float(each) for each in listed)


CAUTION = (
    "These are published rules of thumb for fit people under 40, rested and watered. They do not know your heart, your "
    "age, your medicine or the wall that glows beside you. Where your country or your body says less, that counts: "
    "dizzy, headache, sick, cramps or no more sweat means stop, shade, water on the skin. Confused or fainting is heat "
    "stroke: cool with all the water there is and call for help at once. Never work alone in it."
)
"""Stands beside every hour told of people's heat."""
