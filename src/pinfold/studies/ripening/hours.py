"""Hours from placing until something may be done, for every hour of placing at once."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pinfold.studies.ripening.gains import HOUR, gained, reached
from pinfold.studies.ripening.records import Wanted
from pinfold.studies.weather.records import Hours


class RipeHours(NamedTuple):
    """Hours from each start until it may be done; infinite where the hours that are known end before, or never.

    Attributes:
        soonest: with strong batches and the quickest method.
        likely: in the middle.
        latest: with weak batches and the slowest method: when to count on it.
    """

    soonest: Hours
    likely: Hours
    latest: Hours


def ripe_hours(asked: Wanted, temperatures: Hours, starts: Hours) -> RipeHours:
    """Hours from each start until what is wanted is there.

    Args:
        asked: what is wanted, of which mix
        temperatures: of the mix, or of the air where nothing better is known, hour by hour in °C; not a number where
            it is not known, and nothing after that is used
        starts: when it is placed, in hours from the first of them, parts of an hour allowed
    """
    gain = gained(temperatures)
    air = np.asarray(temperatures, dtype=np.float64)[: gain.known]
    begins = np.asarray(starts, dtype=np.float64)
    middle, *others = (each[: gain.known + 1] for each in gain.methods)
    floor = _floor(asked, air, begins)
    ways = [middle, *others]
    soonest = np.minimum.reduce([reached(way, asked.ages.soonest, begins) for way in ways])
    latest = np.maximum.reduce([reached(way, asked.ages.latest, begins) for way in ways])
    likely = reached(middle, asked.ages.likely, begins)
    past = (begins < 0) | (begins > gain.known)
    return RipeHours(
        *(np.where(past, np.inf, np.maximum(each, floor)) for each in (np.minimum(soonest, likely), likely, latest))
    )


def _floor(asked: Wanted, air: Hours, begins: Hours) -> Hours:
    """Least time by the clock and least hours at warmth."""
    whole = np.full_like(begins, asked.wait / HOUR)
    if asked.wait_cold is not None:
        whole = np.where(_mean(air, begins, asked.wait / HOUR) < asked.cold, asked.wait_cold / HOUR, whole)
    if asked.warm_hours:
        warm = np.concatenate(([0.0], np.cumsum(np.where(air >= asked.warm, HOUR, 0.0))))
        whole = np.maximum(whole, reached(warm, asked.warm_hours, begins))
    return whole


def _mean(air: Hours, begins: Hours, span: float) -> Hours:
    """Mean warmth of so many hours from each start, as far as they are known."""
    summed = np.concatenate(([0.0], np.cumsum(air)))
    places = np.arange(len(summed))
    ends = np.minimum(begins + span, len(air))
    return (np.interp(ends, places, summed) - np.interp(begins, places, summed)) / np.maximum(ends - begins, 1e-9)
