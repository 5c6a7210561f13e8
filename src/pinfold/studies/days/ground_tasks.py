"""Setting out and all that is done in the ground before the wall: trench, footing, its level."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.logbook.works import Work
from pinfold.studies.days import waits
from pinfold.studies.days.counted import Counted, mixes, of_shelf
from pinfold.studies.days.records import Link, Measures, Task
from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.reach import Reach
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import CUBIC_METER, METER, show

SET_OUT = Work.SET_OUT.value


def set_out(layout: Layout) -> Task:
    """The first of all: corners, strings, levels."""
    length = layout.length
    shown = show(length, METER, layout.plan.units)
    return Task(
        key=SET_OUT, work=Work.SET_OUT, says=f"set out corners, strings and levels, {shown}", place="", layer="trench",
        measures=Measures(m=length), norms=(("set-out", Measures(m=length)),),
    )  # fmt: skip


def ground_tasks(reach: Reach, counted: Counted, soil: Kind | None) -> tuple[Task, ...]:
    """Trench, footing and level of one stretch."""
    return (*_dig(reach, counted, soil), *_footing(reach, counted))


def _dig(reach: Reach, counted: Counted, soil: Kind | None) -> tuple[Task, ...]:
    place = reach.stretch.name
    lines = [line for line in counted.lines(place, "trench") if line.kind.name == "trench"]
    if not lines:
        return ()
    dug = counted.net(lines)
    task = Task(
        key=f"{Work.DIG} {place}", work=Work.DIG, says=f"dig the trench, {show(dug, CUBIC_METER, reach.system)}",
        place=place, layer="trench", measures=Measures(m=reach.stretch.length, m3=dug),
        norms=((row_for("dig-", soil.name if soil else "", otherwise="dig-soft"), Measures(m3=dug)),),
        after=(waits.just(SET_OUT),),
    )  # fmt: skip
    return (task,)


def _footing(reach: Reach, counted: Counted) -> tuple[Task, ...]:
    place, long = reach.stretch.name, Measures(m=reach.stretch.length)
    lines = counted.lines(place, "footing")
    concrete, bars = mixes(lines), of_shelf(lines, "bars")
    if not lines:
        return ()
    bulk = concrete or of_shelf(lines, "footings")
    filled = Measures(m3=counted.net(bulk))
    steel = (("bars", Measures(m=counted.net(bars))),) if bars else ()
    footing = Task(
        key=f"{Work.FOOTING} {place}", work=Work.FOOTING,
        says="pour the footing" if concrete else "lay the footing", place=place, layer="footing",
        measures=long._replace(m3=filled.m3),
        norms=(("concrete" if concrete else "rubble-footing", filled), *steel),
        doses=counted.doses(concrete), after=(waits.just(f"{Work.DIG} {place}"),),
    )  # fmt: skip
    level = Task(
        key=f"{Work.LEVEL} {place}", work=Work.LEVEL, says="level the footing, mark the first course", place=place,
        layer="footing", measures=long, norms=(("level", long),),
        after=(waits.ripe(footing.key, "lay-on") if concrete else waits.just(footing.key),),
    )  # fmt: skip
    return footing, level


def row_for(start: str, name: str, *, otherwise: str) -> str:
    """Row of shelf `labor` for a kind: one that begins so and names the beginning of the kind's name."""
    for row in shelf("labor").values():
        of = row.words.get("of")
        if row.name.startswith(start) and isinstance(of, list) and name.startswith(tuple(map(str, of))):
            return row.name
    return otherwise


def last_of(tasks: Iterable[Task], *works: Work) -> str:
    """Key of the last task of the first of some sorts that there is; empty where there is none."""
    for work in works:
        found = [task.key for task in tasks if task.work is work]
        if found:
            return found[-1]
    return ""


def after(tasks: Iterable[Task], *works: Work) -> tuple[Link, ...]:
    """Follows the last task of the first of some sorts that there is; setting out where there is none."""
    return (waits.just(last_of(tuple(tasks), *works) or SET_OUT),)
