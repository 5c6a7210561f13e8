"""Which hours of weather a work may be done in, by every rule that falls on it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.place import Family
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.ripening.hours import ripe_hours
from pinfold.studies.ripening.wanting import targets_of, wanted
from pinfold.studies.seasons.elements import (
    Seen,
    around,
    both,
    day_means,
    either,
    element,
    falls,
    is_cyclic,
    lost_in_hour,
    over,
    under,
)
from pinfold.studies.seasons.records import Marks, May, SeasonHours, SeasonWork
from pinfold.studies.weather.records import Element, Hours, Weather, WeatherKind
from pinfold.tables.shelf import Kind, shelf

_HOUR = 3600.0
FROST_SAFE = ("one-freeze", "one-freeze-soft")
"""Targets of shelf `ripe_for` after which a freeze does no harm."""
RAIN_FORESEEN = "rain is looked at only as far as the forecast goes"
NO_RAIN = "rain is not looked at: what stands for any year knows nothing of it"


def season_hours(
    work: SeasonWork, weather: Weather, *, family: Family, lessons: Lessons | None = None,
    foreseen: Marks | None = None,
) -> SeasonHours:  # fmt: skip
    """Which hours a work may be begun and done in, by every rule that falls on it.

    A rule that looks at the hours after or before wants them known: where they are not, and nothing that is known
    speaks against it, the hour is NOT SHOWN.

    Args:
        work: asked about
        weather: hours; what is to be looked at before and after should be among them
        family: which standards are followed
        lessons: of the site, for how strong its mixes are; None for what is thought before any test
        foreseen: which hours are of these very days, as a forecast has them: rain is looked at in them alone; None for
            all of what is no year that stands for any
    """
    rules = tuple(rule for rule in shelf("season_rules").values() if falls_on(rule, work, family))
    rained = weather.kind in (WeatherKind.TYPICAL, WeatherKind.NORMALS)
    looked = tuple(rule for rule in rules if not (rained and rule.has("rain_over")))
    sight = _Sight(work=work, weather=weather, lessons=lessons, foreseen=foreseen)
    seen = {rule.name: sight.of(rule) for rule in looked}
    return SeasonHours(
        work=work, start=weather.start, rules=looked, verdicts=_verdicts(looked, seen, weather.count),
        fires=MappingProxyType({name: each.holds for name, each in seen.items()}),
        unseen=MappingProxyType({name: ~each.known & ~each.holds for name, each in seen.items()}),
        left_out=_left_out(rules, looked, foreseen),
    )  # fmt: skip


def _left_out(rules: tuple[Kind, ...], looked: tuple[Kind, ...], foreseen: Marks | None) -> tuple[str, ...]:
    if len(looked) < len(rules):
        return (NO_RAIN,)
    rained = any(rule.has("rain_over") for rule in looked)
    return (RAIN_FORESEEN,) if rained and foreseen is not None and not foreseen.all() else ()


def falls_on(rule: Kind, work: SeasonWork, family: Family) -> bool:
    """Whether a rule is one of a work's, by its trade and the family."""
    trades = rule.words["trades"]
    assert isinstance(trades, list)
    return rule.word("family", family.value) == family.value and any(trade in work.trades for trade in trades)


def _verdicts(rules: tuple[Kind, ...], seen: Mapping[str, Seen], count: int) -> NDArray[np.int8]:
    found = np.zeros(count, dtype=np.int8)
    for rule in rules:
        fired = May.NO if rule.words.get("no") else May.MEASURES
        one = np.where(seen[rule.name].holds, fired, np.where(seen[rule.name].known, May.YES, May.NOT_SHOWN))
        found = np.maximum(found, one.astype(np.int8))
    return found


@dataclass(frozen=True, kw_only=True, eq=False)
class _Sight:
    """One weather as the rules see it for one work, each series made once."""

    work: SeasonWork
    weather: Weather
    lessons: Lessons | None
    foreseen: Marks | None

    def of(self, rule: Kind) -> Seen:
        """Whether a rule holds something against each hour."""
        seen = self._hour(rule)
        before = rule.value("before") / _HOUR if rule.has("before") else 0.0
        after = self._unripe if rule.words.get("until_frost_safe") else _after(rule)
        if isinstance(after, float) and not before and not after:
            return seen
        return around(seen, before, after, cyclic=is_cyclic(self.weather))

    def _hour(self, rule: Kind) -> Seen:
        parts = [*self._warmth(rule), *self._rest(rule)]
        if rule.has("rain_over"):
            parts.append(self._rain(rule))
        whole = parts[0]
        for part in parts[1:]:
            whole = both(whole, part)
        return whole

    def _rain(self, rule: Kind) -> Seen:
        told = either(
            over(self._series(Element.RAIN), rule.value("rain_over")),
            over(self._series(Element.RAIN_CHANCE), rule.value("chance_over")),
        )  # fmt: skip
        if self.foreseen is None:
            return told
        return Seen(told.holds & self.foreseen, told.known | ~self.foreseen)

    def _warmth(self, rule: Kind) -> list[Seen]:
        air = self._means if rule.words.get("day_mean") else self._series(Element.TEMPERATURE)
        parts = []
        if rule.has("below"):
            parts.append(under(air, rule.value("below"), inclusive=bool(rule.words.get("inclusive"))))
        if rule.has("above"):
            parts.append(over(air, rule.value("above")))
        if rule.words.get("falling"):
            parts.append(falls(self.weather))
        return parts

    def _rest(self, rule: Kind) -> list[Seen]:
        parts = []
        if rule.has("wind_over"):
            parts.append(over(self._series(Element.WIND), rule.value("wind_over")))
        if rule.has("evaporation_over"):
            parts.append(over(self._lost, rule.value("evaporation_over")))
        if rule.words.get("green_wind"):
            limit = self.work.green_speed
            wind = self._series(Element.WIND)
            parts.append(over(wind * (np.nan if limit is None else 1.0), math.inf if limit is None else limit))
        return parts

    def _series(self, which: Element) -> Hours:
        return element(self.weather, which)

    @cached_property
    def _means(self) -> Hours:
        return day_means(self.weather)

    @cached_property
    def _lost(self) -> Hours:
        return lost_in_hour(self.weather)

    @cached_property
    def _unripe(self) -> Hours:
        """Hours from placing in each hour until it stands one freeze, to be counted on."""
        return frost_safe_hours(self.work, self.weather, self.lessons)


def _after(rule: Kind) -> float:
    return rule.value("after") / _HOUR if rule.has("after") else 0.0


def frost_safe_hours(work: SeasonWork, weather: Weather, lessons: Lessons | None) -> Hours:
    """Hours from placing in each hour until a freeze does no harm, to be counted on; infinite where it is not shown."""
    starts = np.arange(weather.count, dtype=np.float64)
    placing = work.placing
    names = [] if placing is None else [each.name for each in targets_of(placing) if each.name in FROST_SAFE]
    if placing is None or not names:
        return np.full(weather.count, np.inf)
    try:
        asked = wanted(names[0], placing, lessons)
    except (NotFoundError, OutOfRangeError):
        return np.full(weather.count, np.inf)
    air = element(weather, Element.TEMPERATURE)
    turned = np.concatenate((air, air)) if is_cyclic(weather) else air
    return ripe_hours(asked, turned, starts).latest
