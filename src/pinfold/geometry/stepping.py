"""Stepping a wall along a ground profile by whole courses.

Every top and every bed (underside of the lowest course, top of the footing) is a whole number of courses from one
datum. Over a step the bed is level, as low as the lowest ground in it demands and no lower. The top is one of:

- stepped: level over each step, as low as the wanted height above the highest ground in the step allows;
- level: one level over the whole run, as low as the highest ground of the run allows;
- raked: the wanted height above the ground everywhere, courses cut at the top.

Steps are chosen so that the wall seen from the side has the least area between bed and top, no step being shorter than
the minimum; among equals the fewest steps. With a module, the breakpoints are whole modules from the start of the run
and the choice is the best there is. Without one, they are the places where the ground passes a course, the ends, and
places one or two minimum steps from those; the choice is the best among these. Found by dynamic programming over the
breakpoints.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.geometry.breakpoints import Cells, candidates, chosen
from pinfold.geometry.profiles import Profile, area_above, checked_profile, highest, lowest, part_of, raised
from pinfold.geometry.segments import SAME_PLACE
from pinfold.units import Meter, SquareMeter

MOST_COURSES = 2000
"""More courses than this between the lowest and highest ground are taken for a slip of the pen."""
_SLACK = 1e-6
"""Part of a course that counts for nothing when courses are counted."""


class TopLine(StrEnum):
    """How the top of a wall goes along sloping ground."""

    STEPPED = "stepped"
    LEVEL = "level"
    RAKED = "raked"


@dataclass(frozen=True, kw_only=True)
class StepRules:
    """What the steps of one run must keep to.

    Attributes:
        course: height of a course with its joint.
        height: least height of the top above the ground.
        minimum_step: shortest step; a run shorter than it is one step.
        cover: least depth of the bed (top of the footing) below the ground.
        footing_thickness: from the bed down to the bottom of the footing, 0 without a footing.
        depth: least depth of the footing's bottom below the ground, such as a frost depth.
        module: steps stand at whole multiples of this from the run's start (a unit's length or half of it); absent
            when they may stand anywhere.
        datum: height of any course line, so that the courses of neighboring runs meet; when absent, the top of the wall
            is exactly at the wanted height over the run's highest ground.
        worth: area of wall that a further step must save.

    Raises:
        InputError: a number that is not finite, a course, minimum step or module not above 0, or another below 0.
    """

    course: Meter
    height: Meter
    minimum_step: Meter
    cover: Meter = 0.0
    footing_thickness: Meter = 0.0
    depth: Meter = 0.0
    module: Meter | None = None
    datum: Meter | None = None
    worth: SquareMeter = 0.0

    def __post_init__(self) -> None:
        above = (self.course, self.minimum_step, *(() if self.module is None else (self.module,)))
        others = (self.height, self.cover, self.footing_thickness, self.depth, self.worth)
        if not (all(0 < size < math.inf for size in above) and all(0 <= size < math.inf for size in others)):
            raise InputError("course, minimum step and module must be above 0; heights, covers and depths 0 or more")
        if self.datum is not None and not math.isfinite(self.datum):
            raise InputError(f"a course line at {self.datum:g} m is no height")

    @property
    def sunk(self) -> Meter:
        """How far the bed must be below the lowest ground: the cover, or what the footing's depth asks [m]."""
        return max(self.cover, self.depth - self.footing_thickness)


class Step(NamedTuple):
    """One stretch of wall with a level bed.

    Attributes:
        start: distance from the start of the run.
        end: likewise.
        top: level of the top course's top; with a raked top the top of the highest course to be laid before cutting.
        bed: level of the lowest course's underside, the top of the footing.
        footing_bottom: level of the footing's underside.
        courses: whole courses from bed to top.
        highest_ground: in this stretch.
        lowest_ground: in this stretch.
    """

    start: Meter
    end: Meter
    top: Meter
    bed: Meter
    footing_bottom: Meter
    courses: int
    highest_ground: Meter
    lowest_ground: Meter

    @property
    def length(self) -> Meter:
        """Length of the step along the run [m]."""
        return self.end - self.start

    @property
    def height(self) -> Meter:
        """Height of the wall from bed to top [m]."""
        return self.top - self.bed


@dataclass(frozen=True, kw_only=True)
class Steps:
    """A run of wall stepped along its ground.

    Attributes:
        steps: from the run's start to its end, each beginning where the one before ends.
        tops: the top of the wall over each step as (distance, z) pairs; two pairs but for a raked top.
        top_line: which way the top goes.
        datum: height of a course line.
    """

    steps: tuple[Step, ...]
    tops: tuple[Profile, ...]
    top_line: TopLine
    datum: Meter

    @property
    def is_level(self) -> bool:
        """Whether top and bed are level over the whole run."""
        return len(self.steps) == 1 and len({z for top in self.tops for _, z in top}) == 1

    @property
    def face_area(self) -> SquareMeter:
        """Area between bed and top seen from the side [m2]."""
        return math.fsum(area_above(top, step.bed) for step, top in zip(self.steps, self.tops, strict=True))


@lru_cache(maxsize=512)
def stepped(profile: Profile, rules: StepRules, top_line: TopLine = TopLine.STEPPED) -> Steps:
    """A wall's steps along the ground under it; kept for the same profile and rules.

    Args:
        profile: (distance, z) of the ground along the run
        rules: what the steps must keep to
        top_line: how the top goes

    Raises:
        InputError: a profile that does not ascend or is not finite, or more than `MOST_COURSES` of rise.
    """
    checked_profile(profile)
    high, low = highest(profile), lowest(profile)
    if high - low > MOST_COURSES * rules.course:
        raise InputError(f"the ground rises {high - low:g} m, more than {MOST_COURSES} courses of {rules.course:g} m")
    datum = high + rules.height if rules.datum is None else rules.datum
    cells = _cells(profile, rules, datum, top_line)
    breaks = chosen(cells, minimum_step=rules.minimum_step, worth=rules.worth / rules.course)
    steps = tuple(_step(part_of(profile, *ends), rules, datum) for ends in pairwise(breaks))
    if top_line is TopLine.LEVEL:
        top = datum + rules.course * _courses_up(high + rules.height - datum, rules)
        steps = tuple(_with_top(step, top, rules) for step in steps)
    return Steps(steps=steps, tops=_tops(profile, steps, rules, top_line), top_line=top_line, datum=datum)


def _cells(profile: Profile, rules: StepRules, datum: Meter, top_line: TopLine) -> Cells:
    levels = [datum + rules.sunk]
    if top_line is TopLine.STEPPED:
        levels.append(datum - rules.height)
    places = candidates(profile, levels=tuple(levels), course=rules.course, minimum_step=rules.minimum_step,
                        module=rules.module)  # fmt: skip
    ground = _ranges(profile, places)
    tops = tuple(_courses_up(high + rules.height - datum, rules) for _, high in ground)
    beds = tuple(_courses_down(low - rules.sunk - datum, rules) for low, _ in ground)
    return Cells(places=places, tops=tops if top_line is TopLine.STEPPED else (0,) * len(tops), beds=beds)


def _ranges(profile: Profile, places: tuple[Meter, ...]) -> list[tuple[Meter, Meter]]:
    """Lowest and highest ground between each place and the next, in one walk along the profile."""
    ranges, number, z = [], 1, profile[0][1]
    for _, end in pairwise(places):
        low = high = z
        while profile[number][0] < end - SAME_PLACE:
            low, high = min(low, profile[number][1]), max(high, profile[number][1])
            number += 1
        (before, start_z), (after, end_z) = profile[number - 1], profile[number]
        z = start_z + (end_z - start_z) * min((end - before) / (after - before), 1.0)
        ranges.append((min(low, z), max(high, z)))
    return ranges


def _courses_up(height: Meter, rules: StepRules) -> int:
    return math.ceil(height / rules.course - _SLACK)


def _courses_down(height: Meter, rules: StepRules) -> int:
    return math.floor(height / rules.course + _SLACK)


def _step(ground: Profile, rules: StepRules, datum: Meter) -> Step:
    high, low = highest(ground), lowest(ground)
    top, bed = _courses_up(high + rules.height - datum, rules), _courses_down(low - rules.sunk - datum, rules)
    bed_level = datum + bed * rules.course
    return Step(
        start=ground[0][0],
        end=ground[-1][0],
        top=datum + top * rules.course,
        bed=bed_level,
        footing_bottom=bed_level - rules.footing_thickness,
        courses=top - bed,
        highest_ground=high,
        lowest_ground=low,
    )


def _with_top(step: Step, top: Meter, rules: StepRules) -> Step:
    return step._replace(top=top, courses=step.courses + round((top - step.top) / rules.course))


def _tops(profile: Profile, steps: tuple[Step, ...], rules: StepRules, top_line: TopLine) -> tuple[Profile, ...]:
    if top_line is TopLine.RAKED:
        return tuple(raised(part_of(profile, step.start, step.end), rules.height) for step in steps)
    return tuple(((step.start, step.top), (step.end, step.top)) for step in steps)
