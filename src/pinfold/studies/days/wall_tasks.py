"""The wall of one stretch as tasks: blocks, courses by the height of a day, grout, backfill, coping."""

from __future__ import annotations

import math

from pinfold.logbook.works import Work
from pinfold.plan.buildups import Wall
from pinfold.studies.days import waits
from pinfold.studies.days.counted import Counted, mixes
from pinfold.studies.days.ground_tasks import SET_OUT, last_of, row_for
from pinfold.studies.days.records import Link, Measures, Task
from pinfold.studies.layout.walls import course_of, lift_of
from pinfold.studies.quantities.mass import wall_volume
from pinfold.studies.quantities.reach import Reach
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, Meter, show, tape

_SOFT = ("lime", "earth")
_POURED = ("poured",)


def wall_tasks(reach: Reach, counted: Counted, ground: tuple[Task, ...]) -> tuple[Task, ...]:
    """A stretch's wall from the first course to the coping, without its coats.

    Args:
        reach: the stretch
        counted: take-off and cards
        ground: what is done in the ground before
    """
    blocks = _blocks(reach, counted)
    lays = _lays(reach, counted, (*ground, *blocks))
    grout = _grout(reach, counted, lays)
    carried = (grout or lays)[-1].key
    return (*blocks, *lays, *grout, *_backfill(reach, counted, carried), *_coping(reach, counted, carried))


_MADE = {"adobe": "mold", "earth": "press"}
"""How units are made of a family of mixes; of all others they are cast."""


def _blocks(reach: Reach, counted: Counted) -> tuple[Task, ...]:
    """Units made on the plot: the take-off asks for a mix to make them of."""
    place = reach.stretch.name
    lines = mixes(counted.lines(place, "wall"))
    if reach.wall.kind.word("make") != "units" or not lines:
        return ()
    volume = Measures(m3=counted.net(lines))
    count = sum(line.net for line in counted.lines(place, "wall") if line.kind.shelf == "walls")
    verb = _MADE.get(lines[0].kind.word("family"), "cast")
    task = Task(
        key=f"{Work.BLOCKS} {place}", work=Work.BLOCKS, says=f"{verb} {count:.0f} blocks", place=place, layer="wall",
        measures=volume._replace(each=count), norms=((f"{verb}-blocks", volume),), doses=counted.doses(lines),
        after=(waits.just(SET_OUT),),
    )  # fmt: skip
    return (task,)


def _lays(reach: Reach, counted: Counted, before: tuple[Task, ...]) -> tuple[Task, ...]:
    """Courses, a day's height after the other."""
    place, height = reach.stretch.name, max(step.height for step in reach.stretch.steps)
    heights = day_heights(reach.wall, height)
    after = [waits.just(last_of(before, Work.LEVEL, Work.FOOTING, Work.DIG) or SET_OUT)]
    pressed = last_of(before, Work.BLOCKS)
    if pressed:
        after.append(Link(pressed, waits.rule("blocks"), "blocks cure before they are laid"))
    tasks: list[Task] = []
    for number, (low, high) in enumerate(heights, start=1):
        tasks.append(_lay(reach, counted, (low, high), f"{Work.LAY} {place} {number}", tuple(after)))
        after = [waits.ripe(tasks[-1].key, "next-lift" if _is_poured(reach.wall) else "next-lay")]
    return tuple(tasks)


def _lay(reach: Reach, counted: Counted, band: tuple[Meter, Meter], key: str, after: tuple[Link, ...]) -> Task:
    place, wall, stretch = reach.stretch.name, reach.wall, reach.stretch
    low, high = band
    share = _share(reach, low, high)
    measures = Measures(m=stretch.length, m2=reach.wall_area, m3=wall_volume(reach)).times(share)
    make = wall.kind.word("make")
    lines = counted.lines(place, "mortar") if make == "units" else counted.lines(place, "mortar", "wall")
    row = row_for("", wall.kind.name, otherwise="lay-block")
    bars = [line for line in counted.lines(place, "bars") if line.kind.shelf == "bars"]
    steel = (("bars", Measures(m=counted.net(bars) * share)),) if bars else ()
    return Task(
        key=key, work=Work.LAY, says=_says(wall, band, max(step.height for step in stretch.steps), reach),
        place=place, layer="wall", measures=measures, norms=((row, measures), *steel),
        doses=counted.doses(mixes(lines), share), after=after, wall_height=high,
    )  # fmt: skip


def _share(reach: Reach, low: Meter, high: Meter) -> float:
    """Of the wall seen from the side between two heights above its beds."""
    area = sum(step.height * (step.end - step.start) for step in reach.stretch.steps)
    band = sum(max(min(step.height, high) - low, 0.0) * (step.end - step.start) for step in reach.stretch.steps)
    return band / area if area > 0 else 1.0


def _says(wall: Wall, band: tuple[Meter, Meter], height: Meter, reach: Reach) -> str:
    verb = {"units": "lay", "poured": "pour", "lifts": "ram", "bags": "fill and lay", "sheet": "put up"}
    does = verb.get(wall.kind.word("make"), "lay")
    low, high = band
    if low <= 0 and high >= height - 1e-6:
        return f"{does} the wall to its top, {tape(height, reach.system)} over its bed"
    return f"{does} the wall from {tape(low, reach.system)} to {tape(high, reach.system)} over its bed"


def _is_poured(wall: Wall) -> bool:
    return wall.kind.word("make") in _POURED


def day_heights(wall: Wall, height: Meter) -> tuple[tuple[Meter, Meter], ...]:
    """Heights above the bed between which each day's work lies, even ones, whole courses where there are courses."""
    if _is_poured(wall) and wall.kind.has("lift"):
        most = lift_of(wall)
    else:
        soft = wall.mortar is None or wall.mortar.word("family") in _SOFT
        most = kind("job_rules", "day-height").value("soft" if soft else "cement")
    days = max(math.ceil(height / most - 1e-6), 1)
    course = course_of(wall)
    ends = [math.ceil(height * day / days / course - 1e-6) * course for day in range(1, days)]
    ends = [end for end in dict.fromkeys(ends) if 0 < end < height - 1e-6]
    return tuple(zip([0.0, *ends], [*ends, height], strict=True))


def _grout(reach: Reach, counted: Counted, lays: tuple[Task, ...]) -> tuple[Task, ...]:
    place = reach.stretch.name
    lines = mixes(counted.lines(place, "grout"))
    if not lines:
        return ()
    volume = Measures(m3=counted.net(lines))
    height = max(step.height for step in reach.stretch.steps)
    task = Task(
        key=f"{Work.GROUT} {place}", work=Work.GROUT, says=f"grout the cells, {_volume(volume, reach)}", place=place,
        layer="grout", measures=volume._replace(m=reach.stretch.length), norms=(("grout", volume),),
        doses=counted.doses(lines), after=(waits.grouting(lays[-1].key, height),),
    )  # fmt: skip
    return (task,)


def _backfill(reach: Reach, counted: Counted, carried: str) -> tuple[Task, ...]:
    place = reach.stretch.name
    lines = [line for line in counted.lines(place, "trench") if line.kind.name == "backfill"]
    if not lines:
        return ()
    volume = Measures(m3=counted.net(lines))
    task = Task(
        key=f"{Work.BACKFILL} {place}", work=Work.BACKFILL, says=f"fill back and tamp, {_volume(volume, reach)}",
        place=place, layer="trench", measures=volume, norms=(("backfill", volume),),
        after=(waits.overnight(carried, "set before soil leans on it"),),
    )  # fmt: skip
    return (task,)


def _coping(reach: Reach, counted: Counted, carried: str) -> tuple[Task, ...]:
    place = reach.stretch.name
    lines = counted.lines(place, "coping")
    if not lines:
        return ()
    long = Measures(m=reach.course_length)
    task = Task(
        key=f"{Work.COPING} {place}", work=Work.COPING, says="lay the coping", place=place, layer="coping",
        measures=long, norms=(("coping", long),), doses=counted.doses(lines), after=(waits.ripe(carried, "load"),),
    )  # fmt: skip
    return (task,)


def _volume(measures: Measures, reach: Reach) -> str:
    return show(measures.m3, CUBIC_METER, reach.system)
