"""Footings that step down a slope, and footings that stand in water."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from pinfold.errors import OutOfRangeError
from pinfold.figures import given
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import footings
from pinfold.plan.buildups import Footing
from pinfold.plan.place import Family
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.units import METER, Meter

_LEVEL: Meter = 0.005
LEFT_OUT = "steps at corners, where two sides meet at different depths; bars bent through the step"


class Drop(NamedTuple):
    """One step of a footing: how high, and the shorter of the level parts beside it."""

    rise: Meter
    run: Meter


def stepped_down(ask: Exposed) -> tuple[Finding, ...]:
    """Steps of the strip under a stretch, its worst; nothing where it is level, or where no strip is."""
    stretch, footing = ask.stretch, ask.stretch.buildup.footing
    if footing is None or footing.kind.word("make") != "strip":
        return ()
    drops = tuple(_drops(stretch))
    if not drops:
        return ()
    question = Question(check="footing step", subject=f"stretch {stretch.name}", left_out=LEFT_OUT)
    find = _american if ask.family is Family.US else _british
    return (answered(question, partial(find, footing, drops)),)


def _drops(stretch: Stretch) -> Iterator[Drop]:
    for before, after in pairwise(stretch.steps):
        rise = abs(after.footing_bottom - before.footing_bottom)
        if rise > _LEVEL:
            yield Drop(rise=rise, run=min(before.length, after.length))


def _american(footing: Footing, drops: tuple[Drop, ...]) -> Finding:
    worst = max(drops, key=lambda drop: drop.rise / drop.run)
    lap = work(footings.step_overlap, why="lap of the upper strip over the lower", rise=worst.rise,
               thickness=footing.thickness)  # fmt: skip
    try:
        most = work(footings.largest_rise, why="three quarters of the level part beside it", run=worst.run)
    except OutOfRangeError:
        return Finding(
            check="", subject="", demand=footings.LEAST_RUN, capacity=min(drop.run for drop in drops), unit=METER,
            because="a level part of the footing is shorter than 2 ft", mend="longer steps, or a deeper footing there",
        )  # fmt: skip
    holds = keeps_to(worst.rise, most.number)
    return Finding(
        check="", subject="", demand=worst.rise, capacity=most.number, unit=METER, working=(most, lap),
        figures=_figures(footing), because=_LAPS, mend="" if holds else "lower or longer steps of the footing",
    )  # fmt: skip


def _british(footing: Footing, drops: tuple[Drop, ...]) -> Finding:
    rise = max(drop.rise for drop in drops)
    lap = work(footings.step_overlap, why="lap of the upper strip over the lower", rise=rise,
               thickness=footing.thickness)  # fmt: skip
    holds = keeps_to(rise, footing.thickness)
    return Finding(
        check="", subject="", demand=rise, capacity=footing.thickness, unit=METER, working=(lap,),
        figures=_figures(footing), because=told("no step higher than the footing is thick", _LAPS),
        mend="" if holds else "lower steps, or a thicker footing",
    )  # fmt: skip


_LAPS = "the upper strip laps over the lower one, by the length in the working, poured in one"


def _figures(footing: Footing) -> Named:
    return (("thickness of the footing", given(footing.thickness, METER)),)


def in_water(ask: Exposed) -> tuple[Finding, ...]:
    """Whether a footing reaches down to where water stands; nothing where the plan does not say."""
    water, footing, stretch = ask.place.water_depth, ask.stretch.buildup.footing, ask.stretch
    if water is None or footing is None or not stretch.steps:
        return ()
    reached = max(step.highest_ground - step.footing_bottom for step in stretch.steps)
    dry = keeps_to(reached, water)
    found = Finding(
        check="wet ground", subject=f"stretch {stretch.name}", demand=reached, capacity=water, unit=METER,
        figures=(("depth of the water", given(water, METER)),),
        because="" if dry else "water comes up to the footing: such ground bears about half, heaves when it freezes "
        "and runs into the trench",
        left_out="springs, and water that runs along the trench after rain",
        mend="" if dry else "drain the ground, found higher, or halve the bearing the footing counts on",
    )  # fmt: skip
    return (found,)
