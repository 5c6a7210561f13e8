"""When what may be done on something that was placed, by the hours of warmth since and after."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

import numpy as np

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.sources import Standing
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.ripening.ages import growth
from pinfold.studies.ripening.gains import HOUR, gained
from pinfold.studies.ripening.hours import ripe_hours
from pinfold.studies.ripening.placed import Placed
from pinfold.studies.ripening.records import Gained, Ripe, Ripening, Wanted
from pinfold.studies.ripening.wanting import is_reachable, targets_of, wanted
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import Kind
from pinfold.units import Pascal, Second


@dataclass(frozen=True, kw_only=True, eq=False)
class Warmth:
    """Hours of warmth of one placed thing.

    Attributes:
        start: of the first, in UTC.
        zone: clock of the place.
        temperatures: of it or of the air, in °C; not a number where not known.
        estimated: which are not of these very days, or filled in; 1 or 0.
        by_face: whether some of them are of its face.
    """

    start: datetime
    zone: tzinfo
    temperatures: Hours
    estimated: Hours
    by_face: bool = False

    def hour(self, moment: datetime) -> float:
        """A moment in hours from the first."""
        return (moment.astimezone(UTC) - self.start) / timedelta(hours=1)

    def at(self, hours: float) -> datetime | None:
        """The moment so many hours from the first, by the clock of the place; None for what never comes."""
        if not np.isfinite(hours):
            return None
        return (self.start + timedelta(hours=float(hours))).astimezone(self.zone)


def ripening_of(placed: Placed, warmth: Warmth, *, now: datetime, lessons: Lessons | None) -> Ripening:
    """When what may be done on it, and how strong it is now.

    Args:
        placed: what, where and when
        warmth: hours, beginning no later than it was placed
        now: with its offset
        lessons: of the site; None for what is thought before any test
    """
    placing, begins = placed.placing, warmth.hour(placed.when)
    first = max(int(begins), 0)
    gain = gained(warmth.temperatures[first:])
    known = first + gain.known if begins >= 0 else 0
    age, low, middle = _now(placed, gain, min(warmth.hour(now) - first, gain.known), begins - first, lessons)
    doubtful = np.flatnonzero(warmth.estimated[first:known])
    foreseen = first + int(doubtful[0]) if len(doubtful) else known
    return Ripening(
        place=placed.place, face=placed.face, layer=placing.layer, mix=placing.mix.name,
        coat=placing.coat.name if placing.coat else "", placed=placed.when.astimezone(warmth.zone),
        logged=placed.logged, by_face=warmth.by_face, known_to=warmth.at(known) if known > first else None,
        foreseen_to=warmth.at(foreseen) if foreseen > first else None, age=age, strength_low=low, strength=middle,
        ripe=tuple(_ripe(target, placed, warmth, lessons) for target in targets_of(placing)),
    )  # fmt: skip


def _ripe(target: Kind, placed: Placed, warmth: Warmth, lessons: Lessons | None) -> Ripe:
    try:
        asked = wanted(target.name, placed.placing, lessons)
    except (NotFoundError, OutOfRangeError) as missing:
        return _not_shown(target, str(missing))
    begins = warmth.hour(placed.when)
    first = max(int(begins), 0)
    found = ripe_hours(asked, warmth.temperatures[first:], np.array([begins - first]))
    never = not is_reachable(asked)
    soonest, likely, latest = (warmth.at(begins + float(each[0])) for each in found)
    return Ripe(
        target=target.name, says=target.says, soonest=soonest, likely=likely, latest=latest, never=never,
        because=_because(asked, never=never), standing=asked.standing, figures=asked.figures,
    )  # fmt: skip


def _because(asked: Wanted, *, never: bool) -> str:
    if never:
        return "weak batches of this mix never get there"
    where = [figure.where for _, figure in asked.figures if figure.where]
    return "; ".join(dict.fromkeys(where))


def _not_shown(target: Kind, missing: str) -> Ripe:
    return Ripe(
        target=target.name, says=target.says, soonest=None, likely=None, latest=None, never=False, because=missing,
        standing=Standing.MEMORY, figures=(),
    )  # fmt: skip


def _now(
    placed: Placed, gain: Gained, hours: float, begins: float, lessons: Lessons | None
) -> tuple[Second | None, Pascal | None, Pascal | None]:  # fmt: skip
    """Age at the reference warmth now, strength with weak batches and the slowest method, strength in the middle."""
    if gain.known == 0 or hours <= begins:
        return None, None, None
    places = np.arange(len(gain.methods[0]))
    ages = [float(np.interp(hours, places, each) - np.interp(begins, places, each)) for each in gain.methods]
    try:
        grown = growth(placed.placing.mix, lessons)
    except (NotFoundError, OutOfRangeError):
        return ages[0], None, None
    if ages[0] < 12 * HOUR:
        return ages[0], None, None
    low = float(np.interp(np.log(max(min(ages), 1.0)), np.log(grown.ages), grown.low))
    return ages[0], low, float(np.interp(np.log(ages[0]), np.log(grown.ages), grown.middle))
