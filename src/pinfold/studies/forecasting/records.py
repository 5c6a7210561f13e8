"""The forecast to complete as records."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.units import Ratio, Second


class Spread(NamedTuple):
    """A number that may come otherwise.

    Attributes:
        low: it is less in 10 of 100 cases.
        likely: half of them.
        high: it is more in 10 of 100.
    """

    low: float
    likely: float
    high: float


@dataclass(frozen=True, kw_only=True)
class WorkPace:
    """What the log says of one sort of work.

    Attributes:
        work: what sort.
        entries: of hours that say what was done.
        over_norm: average over the whole job over the norm's.
        over_norm_spread: as a share.
        rate: time after doubling over time before.
        rate_low: of it, one spread to the lower side.
        rate_high: one spread to the upper side.
        took: time of all people together so far.
        left: share still to be done.
        to_come: time still to come.
    """

    work: str
    entries: int
    over_norm: Ratio
    over_norm_spread: Ratio
    rate: Ratio
    rate_low: Ratio
    rate_high: Ratio
    took: Second
    left: Ratio
    to_come: Spread


class Seen(NamedTuple):
    """How long the whole job was foreseen to take on some day.

    Attributes:
        day: ISO.
        took: time up to then, all people together.
        whole: time in all, as foreseen then.
        done: share of the work done by then, by the norms' time.
    """

    day: str
    took: Second
    whole: Spread
    done: Ratio
