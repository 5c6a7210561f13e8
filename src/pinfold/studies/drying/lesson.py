"""What wettings that were seen to dry teach: how many times as long water lasts as reckoned, prior beside posterior."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.findings import Step
from pinfold.studies.drying.records import SPREAD
from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.records import Prior, Reading
from pinfold.units import RATIO, Ratio, Second

OFTEN = 1.645
"""Deviations either way in which 90 of 100 lie."""
WITHIN: Ratio = 0.25
"""Two wettings alike are seen to differ by so much in how long they last, in logarithms: our own judgment."""
DAYS: Ratio = 0.13
"""Of the published spread, what is of the day and not of the wall, so that no log takes it away: our own judgment."""


class Seen(NamedTuple):
    """One wetting that was seen to dry.

    Attributes:
        lasted: until the face was dry again.
        reckoned: how long it should have lasted by the weather of its hours.
        day: when it was, ISO date.
    """

    lasted: Second
    reckoned: Second
    day: str


@dataclass(frozen=True, kw_only=True)
class DryingLesson:
    """What the log teaches of drying.

    Attributes:
        longer: how many times as long a wetting lasts as reckoned; 1 before anything was seen.
        spread: share by which it may be off either way, in 90 of 100 cases.
        spread_before: what was thought of that before.
        count: wettings it rests on.
        weight: share of the log in it.
        set_aside: wettings that could not be used, with the reason.
        working: lines of working, in logarithms.
    """

    longer: Ratio
    spread: Ratio
    spread_before: Ratio
    count: int
    weight: Ratio
    set_aside: tuple[str, ...] = ()
    working: tuple[Step, ...] = ()


def lesson_of(seen: Sequence[Seen], set_aside: tuple[str, ...] = ()) -> DryingLesson:
    """What is believed after wettings that were seen to dry; what was thought before where there are none."""
    whole = math.log1p(SPREAD.value) / OFTEN
    if not seen:
        return DryingLesson(
            longer=1.0, spread=SPREAD.value, spread_before=SPREAD.value, count=0, weight=0.0, set_aside=set_aside
        )
    prior = Prior(
        value=0.0, spread=math.sqrt(whole**2 - DAYS**2), within=WITHIN, unit=RATIO, figure=SPREAD,
        says="as reckoned, with its spread",
    )  # fmt: skip
    found = learned_from([Reading(math.log(each.lasted / each.reckoned), each.day) for each in seen], prior)
    after = math.hypot(found.spread, DAYS)
    return DryingLesson(
        longer=math.exp(found.value), spread=math.expm1(OFTEN * after), spread_before=SPREAD.value,
        count=len(seen), weight=found.weight, set_aside=set_aside, working=found.working,
    )  # fmt: skip
