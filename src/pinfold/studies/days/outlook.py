"""What weather, sun and season hold for each task hour by hour: not at all, at what risk, with which measures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.studies.days.records import Task
from pinfold.studies.drying.records import Drying, limits
from pinfold.studies.seasons.people import EFFORT_OF, HeatHours
from pinfold.studies.seasons.records import Marks, May, SeasonHours
from pinfold.studies.sun.records import Light, Sun
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.tables.shelf import kind
from pinfold.units import Celsius, Radian

_DUSK: Radian = -0.07
"""Sun lower than this, and it is too dark to work (4 degrees under the horizon: common practice)."""
_LIT = 0.15
"""Share of a face in the sun from which on it counts as in the sun."""
_COOL: Celsius = 15.0
"""In air under it the sun on a coat is welcome (common practice)."""
_STAYS_OUT = frozenset({Work.FOOTING, Work.LAY, Work.GROUT, Work.COPING, Work.COAT, Work.POSTS})
"""Work that rain spoils."""


class Limits(NamedTuple):
    """For one task, hour by hour.

    Attributes:
        no: it is not done.
        risk: what it costs, in hours of waiting.
        shown: whether the weather says enough of the hour.
    """

    no: Marks
    risk: Hours
    shown: Marks


@dataclass(frozen=True, kw_only=True, eq=False)
class Outlook:
    """Hours ahead, and what is known of them.

    Attributes:
        weather: hours.
        foreseen: which of them are of these very days; the others are those of a usual year.
        seasons: rules by (layer, mix, coat).
        heat: of the people.
        sun: where it stands; None where nobody knows where on earth the plot is.
        light: on the faces, in the first hours; None likewise.
        drying: of the faces, in some of the hours; None where it is not shown.
    """

    weather: Weather
    foreseen: Marks
    seasons: Mapping[tuple[str, str, str], SeasonHours]
    heat: HeatHours | None = None
    sun: Sun | None = None
    light: Light | None = None
    drying: Drying | None = None

    @property
    def count(self) -> int:
        """How many hours."""
        return self.weather.count

    @cached_property
    def dark(self) -> Marks:
        """Hours too dark to work in; none where the sun is not known."""
        if self.sun is None:
            return np.zeros(self.count, dtype=bool)
        found: Marks = self.sun.altitude < _DUSK
        return found

    def season_of(self, task: Task) -> SeasonHours | None:
        """The rules that fall on a task; None where none does."""
        keys = [(dose.layer, dose.mix, task.coat) for dose in task.doses] or [(task.layer, "", "")]
        return next((self.seasons[key] for key in keys if key in self.seasons), None)

    def face_of(self, task: Task) -> str:
        """Name of the face a coat goes on; empty for other work."""
        return f"{task.place} {task.face}" if task.face else ""

    def limits_for(self, task: Task) -> Limits:
        """For one task, whatever its place."""
        no, risk, shown = self.dark.copy(), np.zeros(self.count), np.ones(self.count, dtype=bool)
        season = self.season_of(task)
        if season is not None:
            no |= season.verdicts == May.NO
            shown &= season.verdicts != May.NOT_SHOWN
            risk += _burdens(season) * _price("burden")
        risk += np.where(shown, 0.0, _price("not_shown"))
        if task.work in _STAYS_OUT:
            risk += self._rain() * _price("rain")
        risk += self._rest(task) * _price("heat")
        if task.face:
            hot, face_risk = self._on_face(task)
            no |= hot
            risk += face_risk
        return Limits(no, risk, shown)

    def _rain(self) -> Hours:
        """Chance of rain, where a forecast tells it."""
        if not self.weather.has(Element.RAIN_CHANCE):
            return np.zeros(self.count)
        chance = np.nan_to_num(self.weather.of(Element.RAIN_CHANCE))
        found: Hours = np.where(self.foreseen, np.clip(chance, 0.0, 1.0), 0.0)
        return found

    def _rest(self, task: Task) -> Hours:
        """Share of each hour that heat asks people to rest, over the half that an hour of risk stands for."""
        if self.heat is None:
            return np.zeros(self.count)
        work = self.heat.work[EFFORT_OF.get(task.layer, "moderate")]
        found: Hours = np.nan_to_num(1.0 - work / HOUR) / 0.5
        return found

    def _on_face(self, task: Task) -> tuple[Marks, Hours]:
        """Hours in which a face is too hot, and what sun and drying cost."""
        hot, risk = np.zeros(self.count, dtype=bool), np.zeros(self.count)
        name = self.face_of(task)
        if self.light is not None and name in _names(self.light):
            lit = self.light.lit[self.light.of(name)]
            risk[: len(lit)] += np.nan_to_num(lit) * self._warm[: len(lit)] * _price("sun")
        if self.drying is not None and self.drying.shown and name in _names(self.drying):
            warm, rate = (of[self.drying.of(name)] for of in (self.drying.surface_temperature,
                                                              self.drying.fresh_evaporation))  # fmt: skip
            ends, dried = limits(), slice(self._dried, self._dried + len(warm))
            hot[dried] = np.nan_to_num(warm, nan=-99.0) > ends.too_hot.value
            over = np.nan_to_num(rate) / ends.act.value
            risk[dried] += np.clip(over - ends.caution.value / ends.act.value, 0.0, 1.0) * _price("drying")
        return hot, risk

    @cached_property
    def _warm(self) -> Marks:
        """Hours in which the sun on a fresh coat harms it; all where the air is not known."""
        if not self.weather.has(Element.TEMPERATURE):
            return np.ones(self.count, dtype=bool)
        found: Marks = ~(self.weather.of(Element.TEMPERATURE) < _COOL)
        return found

    @cached_property
    def _dried(self) -> int:
        """Number of the hour in which the drying begins."""
        return 0 if self.drying is None else round((self.drying.start - self.weather.start).total_seconds() / HOUR)

    def hour(self, moment: float) -> int:
        """Number of the hour that holds a moment, in seconds since 1970; -1 past them."""
        number = int((moment - self.weather.start.timestamp()) // HOUR)
        return number if 0 <= number < self.count else -1

    def shade_on(self, task: Task) -> NDArray[np.bool_] | None:
        """Hours in which the face of a coat is in the shade by day; None where it is not known."""
        name = self.face_of(task)
        if not name or self.light is None or name not in _names(self.light):
            return None
        found: NDArray[np.bool_] = self.light.lit[self.light.of(name)] < _LIT
        return found

    def warmth_on(self, task: Task, hour: int) -> float | None:
        """Temperature of the face a coat goes on; None where it is not known."""
        name = self.face_of(task)
        if not name or self.drying is None or not self.drying.shown or name not in _names(self.drying):
            return None
        warm, number = self.drying.surface_temperature[self.drying.of(name)], hour - self._dried
        return float(warm[number]) if 0 <= number < len(warm) and np.isfinite(warm[number]) else None


def _names(of: Light | Drying) -> tuple[str, ...]:
    return tuple(face.name for face in of.faces)


def _price(name: str) -> float:
    return kind("job_rules", "risk").value(name) / HOUR


def _burdens(season: SeasonHours) -> Hours:
    """How much the measures of each hour ask, each rule at its heaviest."""
    found = np.zeros(len(season.verdicts))
    for rule in season.rules:
        listed = rule.words.get("measures", [])
        names = listed if isinstance(listed, list) else []
        burden = max((float(str(kind("season_measures", str(name)).words["burden"])) for name in names), default=0.0)
        found += np.where(season.fires[rule.name], 0.25 + burden, 0.0)
    return found
