"""What ripening is asked and what it answers, as records."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import Kind
from pinfold.units import Celsius, Ratio, Second


class Ages(NamedTuple):
    """Ages at the reference warmth, by which something is reached.

    Attributes:
        soonest: by the strong end of 90 of 100 batches.
        likely: by the middle.
        latest: by the weak end; infinite where it is never reached.
    """

    soonest: Second
    likely: Second
    latest: Second


@dataclass(frozen=True, kw_only=True, eq=False)
class Gained:
    """Age gained since the first hour, at the beginning of each and the end of the last.

    Attributes:
        methods: by each method of shelf `maturity`, rising; a little more than the hours are many.
        known: how many hours follow each other from the first on with a temperature.
    """

    methods: tuple[Hours, ...]
    known: int


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What is wanted of one mix before one thing may be done.

    Attributes:
        target: kind of shelf `ripe_for`.
        mix: of shelf `mixes`.
        layer: of the build-up.
        ages: at the reference warmth; nothing where no strength is asked.
        wait: least time by the clock.
        wait_cold: instead of it where the mean of that time is below `cold`; None without.
        cold: see there.
        warm_hours: least time at `warm` or more; 0 without.
        warm: see there.
        figures: that went in.
        standing: the weakest of them and of the strength.
    """

    target: Kind
    mix: Kind
    layer: str
    ages: Ages
    wait: Second
    wait_cold: Second | None
    cold: Celsius
    warm_hours: Second
    warm: Celsius
    figures: tuple[tuple[str, Figure], ...]
    standing: Standing


@dataclass(frozen=True, kw_only=True)
class Ripe:
    """When one thing may be done on what was placed at one time.

    Attributes:
        target: name of what is waited for.
        says: the same in words.
        place: where it is; empty where it is asked of the layer anywhere.
        layer: of the build-up.
        mix: name of it.
        placed: when it was placed.
        logged: whether the log says so; else it is asked as if.
        soonest: with strong batches and the quickest method; None where it lies past the hours known.
        likely: likewise in the middle.
        latest: with weak batches and the slowest method: when to count on it.
        governs: what is waited for longest: strength, time, warm hours.
        reached: share of the latest that is there when the hours end; 1 where it is reached.
        estimated: whether some of the hours are not of these days: a typical year, or filled in.
        because: what it rests on, or why it is not shown.
        standing: the weakest figure.
        figures: that went in.
    """

    target: str
    says: str
    place: str
    layer: str
    mix: str
    placed: datetime
    logged: bool
    soonest: datetime | None
    likely: datetime | None
    latest: datetime | None
    governs: str
    reached: Ratio
    estimated: bool
    because: str
    standing: Standing
    figures: tuple[tuple[str, Figure], ...]
