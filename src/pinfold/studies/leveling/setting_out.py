"""Post bases and the first course set out from readings: cut, fill and string heights to a chosen level."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pinfold.studies.leveling.records import MarkHeight
from pinfold.units import Meter

_EVEN: Meter = 0.001


@dataclass(frozen=True, kw_only=True)
class SetOut:
    """One mark on the ground and what is done there.

    Attributes:
        mark: of it.
        height: of the ground over the datum.
        spread: standard deviation of it.
        cut: ground to take away down to the bed; below zero ground to fill up.
        string: from the mark up to the string; below zero where the ground stands over it.
        courses: whole courses from the bed up to the string; None without a course height.
        rest: what is left under the string after them.
    """

    mark: str
    height: Meter
    spread: Meter
    cut: Meter
    string: Meter
    courses: int | None
    rest: Meter | None


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """The level that is set out.

    Attributes:
        string: height of the string over the datum.
        down: from the string down to the bed of the first course or the foot of a post base.
        course: height of a course with its joint; None for posts.
    """

    string: Meter
    down: Meter
    course: Meter | None = None


def set_out(heights: Sequence[MarkHeight], wanted: Wanted) -> tuple[SetOut, ...]:
    """What to cut and fill at each mark, and how high the string runs over it."""
    bed = wanted.string - wanted.down
    courses = rest = None
    if wanted.course is not None:
        courses = math.floor(wanted.down / wanted.course + _EVEN)
        rest = wanted.down - courses * wanted.course
    return tuple(
        SetOut(mark=each.mark, height=each.height, spread=each.spread, cut=each.height - bed,
               string=wanted.string - each.height, courses=courses, rest=rest)
        for each in heights
    )  # fmt: skip
