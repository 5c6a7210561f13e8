"""What the spread of the time to come hangs on, and each sort of work's own part."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from pinfold.logbook.works import Work
from pinfold.studies.forecasting.records import Driver, WorkPace
from pinfold.studies.forecasting.rest import DRAWS, Rest, spread_of
from pinfold.units import Second

_LEAST = 0.02
CREW = "the crew's pace at all work"
LEARNING = "how fast work is learned"


def drivers_of(rest: Rest) -> tuple[Driver, ...]:
    """Figures that the spread of the time to come goes along with, most first: squared correlation over the draws."""
    whole, drawn = rest.whole, rest.hands.drawn(DRAWS)
    if float(np.std(whole)) <= 0:
        return ()
    columns = [(CREW, rest.hands.crew(drawn)), (LEARNING, rest.hands.bend(drawn))]
    columns += [(f"the pace of {work.value}", rest.hands.own(drawn, work)) for work in rest.times if rest.due[work] > 0]
    found = [Driver(says, float(np.corrcoef(column, whole)[0, 1] ** 2)) for says, column in columns]
    return tuple(sorted((each for each in found if each.share >= _LEAST), key=lambda each: -each.share))


def works_of(rest: Rest, took: Mapping[str, Second]) -> tuple[WorkPace, ...]:
    """What the log says of each sort of work, and its time to come.

    Args:
        rest: what is left
        took: time so far by sort of work
    """
    return tuple(_pace(rest, work, took.get(work.value, 0.0)) for work in rest.times)


def _pace(rest: Rest, work: Work, took: Second) -> WorkPace:
    over, spread = rest.hands.over_norm(work)
    rate, low, high = rest.hands.rate(work)
    return WorkPace(
        work=work.value, entries=rest.hands.counts.get(work, 0), over_norm=over, over_norm_spread=spread, rate=rate,
        rate_low=low, rate_high=high, took=took, left=min(max(rest.shares[work], 0.0), 1.0),
        to_come=spread_of(rest.times[work]) if math.isfinite(rest.due[work]) else spread_of(np.zeros(1)),
    )  # fmt: skip
