"""The job as records: pieces of work, what each waits for, and how long each takes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.figures import Figure
from pinfold.logbook.works import Work
from pinfold.sources import Standing
from pinfold.units import CubicMeter, Ratio, Second, SquareMeter

IN_ONE_GO = frozenset({Work.FOOTING, Work.GROUT, Work.COAT})
"""Stops of these leave a seam: once begun they go on to a corner, an end or a joint."""
WET = frozenset({Work.BLOCKS, Work.FOOTING, Work.LAY, Work.POSTS, Work.GROUT, Work.COPING, Work.COAT})
"""Work with something that sets."""


class Link(NamedTuple):
    """What one piece of work waits for.

    Attributes:
        key: of the piece before it.
        wait: least time by the clock from the end of that one to the start of this.
        why: what is waited for, in words; empty where the one just follows the other.
        target: what must be strong enough for what, as shelf `ripe_for` names it; empty where it is time alone.
    """

    key: str
    wait: Second = 0.0
    why: str = ""
    target: str = ""


class Dose(NamedTuple):
    """A mix that goes into a piece of work.

    Attributes:
        mix: name of it, of shelf `mixes`.
        layer: of the build-up.
        volume: to mix, waste and all.
        batches: how many charges of the mixer; not a number where no card could be made.
        water: to pour in; not a number likewise.
    """

    mix: str
    layer: str
    volume: CubicMeter
    batches: float
    water: CubicMeter


class Measures(NamedTuple):
    """How much work there is, by what a pace may be told for.

    Attributes:
        m: length.
        m2: area.
        m3: volume.
        each: pieces.
    """

    m: float = 0.0
    m2: float = 0.0
    m3: float = 0.0
    each: float = 0.0

    def by(self, per: str) -> float:
        """So much of what a time is for."""
        return float(getattr(self, per))

    def times(self, share: Ratio) -> Measures:
        """A share of it."""
        return Measures(*(amount * share for amount in self))


@dataclass(frozen=True, kw_only=True)
class Task:
    """One piece of work at one place.

    Attributes:
        key: the same as long as the plan is, such as `coat south/1a outer 2`.
        work: what sort.
        says: what is to be done, in the builder's words.
        place: stretch, run or gate; empty for the whole plot.
        face: `outer` or `inner` for a coat; else empty.
        coat: name of the coat's kind; empty for what is none.
        layer: word of the build-up that the log and the pace go by.
        measures: how much.
        norms: names on shelf `labor` and how much of each goes in.
        doses: mixes that go in.
        after: what it waits for.
        wet_for: how long what it leaves is kept damp.
        wall_height: how high the wall stands when it is done; 0 for anything but laying.
        part: number of the piece where work was cut in pieces, from 1; 0 where it is whole.
        parts: of how many.
    """

    key: str
    work: Work
    says: str
    place: str
    layer: str
    measures: Measures
    norms: tuple[tuple[str, Measures], ...]
    face: str = ""
    coat: str = ""
    doses: tuple[Dose, ...] = ()
    after: tuple[Link, ...] = ()
    wet_for: Second = 0.0
    wall_height: float = 0.0
    part: int = 0
    parts: int = 1

    @property
    def area(self) -> SquareMeter:
        """That it covers."""
        return self.measures.m2


@dataclass(frozen=True, kw_only=True)
class Pace:
    """How long one task takes.

    Attributes:
        labor: time of all people together.
        most: people who still help one another at it.
        spread: of the time, as a share, that all tasks of its sort have in common.
        told: where the time comes from, in words.
        standing: how far it can be trusted.
        figures: that went in.
    """

    labor: Second
    most: int
    spread: Ratio
    told: str
    standing: Standing
    figures: tuple[tuple[str, Figure], ...]

    @property
    def is_known(self) -> bool:
        """Whether a time is known at all."""
        return math.isfinite(self.labor)


class Kept(NamedTuple):
    """How many of the days that are planned are really worked, as a belief: a beta distribution.

    Attributes:
        yes: planned days that were worked, those of what was thought before too.
        no: likewise not worked.
    """

    yes: float
    no: float


@dataclass(frozen=True, kw_only=True)
class Job:
    """All that is to be done.

    Attributes:
        tasks: each after what it waits for.
        paces: by key of the task.
        missing: what could not be counted, in words; not in the tasks.
        notes: what was taken for want of better.
    """

    tasks: tuple[Task, ...]
    paces: Mapping[str, Pace]
    missing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    def task(self, key: str) -> Task:
        """A task by its key.

        Raises:
            StopIteration: there is none.
        """
        return next(task for task in self.tasks if task.key == key)

    @property
    def labor(self) -> Second:
        """Time of one person for all of it, as far as it is known."""
        return math.fsum(pace.labor for pace in self.paces.values() if pace.is_known)
