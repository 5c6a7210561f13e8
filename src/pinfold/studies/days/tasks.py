"""All the tasks of a plan, each after what it waits for."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from dataclasses import replace

from pinfold.logbook.works import Work
from pinfold.plan.buildups import Setting
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.days import waits
from pinfold.studies.days.coat_tasks import coat_tasks
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.fence_tasks import fence_tasks, gate_tasks, post_tasks
from pinfold.studies.days.ground_tasks import ground_tasks, set_out
from pinfold.studies.days.records import Task
from pinfold.studies.days.wall_tasks import wall_tasks
from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.reach import Reach, reaches
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.take_off import ALL, Section


def tasks_of(layout: Layout, quantities: Iterable[Quantity], cards: Iterable[BatchCard]) -> tuple[Task, ...]:
    """The whole job, stretch by stretch around the plot, in an order in which each comes after what it waits for.

    Args:
        layout: the plan laid out
        quantities: the take-off
        cards: batch cards of it
    """
    return in_order(_posts_before_grout(work_of(layout, Counted(quantities, cards)), layout))


def work_of(layout: Layout, counted: Counted, sections: Container[Section] = ALL) -> tuple[Task, ...]:
    """The tasks that some sections of the take-off come to, as they come around the plot.

    Args:
        layout: the plan laid out
        counted: take-off and cards, at least of these sections
        sections: of which tasks are wanted
    """
    if not layout.stretches and not layout.gates:
        return ()
    walls = {reach.stretch.name: _walling(layout, reach, counted, sections) for reach in reaches(layout)}
    first = (set_out(layout),) if Section.UNDER_COATS in sections else ()
    return (*first, *(task for wall in walls.values() for task in wall), *_fences(layout, counted, walls, sections))


def _walling(
    layout: Layout, reach: Reach, counted: Counted, sections: Container[Section]
) -> tuple[Task, ...]:  # fmt: skip
    """The wall of one stretch with its coats."""
    if not reach.stretch.steps:
        return ()
    wall: tuple[Task, ...] = ()
    if Section.UNDER_COATS in sections:
        ground = ground_tasks(reach, counted, layout.plan.place.soil)
        wall = (*ground, *wall_tasks(reach, counted, ground))
    return (*wall, *(coat_tasks(reach, counted, wall) if Section.COATS in sections else ()))


def _fences(
    layout: Layout, counted: Counted, walls: dict[str, tuple[Task, ...]], sections: Container[Section]
) -> tuple[Task, ...]:
    found: list[Task] = []
    by_run: dict[str, list[Reach]] = {}
    for reach in reaches(layout):
        by_run.setdefault(reach.stretch.run, []).append(reach)
    for along in by_run.values():
        posts = _posts(layout, along, counted, walls) if Section.STANDING in sections else ()
        found += posts
        for reach in along if Section.OVER_COATS in sections else ():
            found += fence_tasks(reach, counted, posts=posts, wall=walls[reach.stretch.name])
    for placed in layout.gates.values() if Section.GATES in sections else ():
        found += gate_tasks(placed, layout, counted, walls=walls)
    return tuple(found)


def _posts(
    layout: Layout, along: Sequence[Reach], counted: Counted, walls: dict[str, tuple[Task, ...]]
) -> tuple[Task, ...]:
    """The posts of one run."""
    run, planned = along[0].stretch.run, along[0].stretch.buildup.posts
    count = sum(post.run == run and not post.gate for post in layout.posts)
    before = tuple(task for reach in along for task in walls[reach.stretch.name])
    setting = planned.setting if planned is not None else Setting.GROUND
    return post_tasks(run, count, setting, counted=counted, walls=before)


def _posts_before_grout(tasks: Sequence[Task], layout: Layout) -> tuple[Task, ...]:
    """Posts that stand in the wall are in their cells before these are grouted."""
    in_wall = {
        stretch.name: f"{Work.POSTS} {stretch.run}"
        for stretch in layout.stretches
        if stretch.buildup.posts is not None and stretch.buildup.posts.setting is Setting.WALL
    }
    there = {task.key for task in tasks}
    return tuple(
        replace(task, after=(*task.after, waits.just(in_wall[task.place])))
        if task.work is Work.GROUT and in_wall.get(task.place, "") in there
        else task
        for task in tasks
    )


def in_order(tasks: Iterable[Task]) -> tuple[Task, ...]:
    """Each after what it waits for, else as they come."""
    waiting = list(tasks)
    done: set[str] = set()
    ordered: list[Task] = []
    there = {task.key for task in waiting}
    while waiting:
        free = [task for task in waiting if all(link.key in done or link.key not in there for link in task.after)]
        assert free, f"tasks wait for each other: {[task.key for task in waiting[:5]]}"
        ordered += free
        done |= {task.key for task in free}
        waiting = [task for task in waiting if task.key not in done]
    return tuple(ordered)
