"""What ripening is asked and what it answers, as records."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import Kind
from pinfold.units import Celsius, Pascal, Second


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
        target: name of what is waited for, of shelf `ripe_for`.
        says: the same in words.
        soonest: with strong batches and the quickest method; None where it lies past the hours known, or never comes.
        likely: likewise in the middle.
        latest: with weak batches and the slowest method: when to count on it.
        never: whether weak batches never get there.
        because: what it rests on, or why it is not shown.
        standing: the weakest figure.
        figures: that went in.
    """

    target: str
    says: str
    soonest: datetime | None
    likely: datetime | None
    latest: datetime | None
    never: bool
    because: str
    standing: Standing
    figures: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True, kw_only=True)
class Ripening:
    """What was placed at one time, how strong it is, and when what may be done on it.

    Attributes:
        place: where it is; empty where it is asked of a layer anywhere.
        face: of a coat; empty for others or where nobody says.
        layer: of the build-up.
        mix: name of it.
        coat: kind of coat; empty where it is none.
        placed: when.
        logged: whether the log says so; else it is asked as if.
        by_face: whether the warmth of its face is reckoned with, as far as that is known; else the air's.
        known_to: end of the hours that follow each other from its placing; None where none is known.
        foreseen_to: up to here all hours are of these very days, as measured or forecast; None where the first is not.
        age: that it has now at the reference warmth, in the middle; None where it is not placed yet or not known.
        strength_low: now, with weak batches and the slowest method; None where no law speaks of it.
        strength: now, in the middle.
        ripe: when what may be done.
    """

    place: str
    face: str
    layer: str
    mix: str
    coat: str
    placed: datetime
    logged: bool
    by_face: bool
    known_to: datetime | None
    foreseen_to: datetime | None
    age: Second | None
    strength_low: Pascal | None
    strength: Pascal | None
    ripe: tuple[Ripe, ...]
