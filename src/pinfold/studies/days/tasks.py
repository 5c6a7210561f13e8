"""All the tasks of a plan, each after what it waits for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
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


def tasks_of(layout: Layout, quantities: Iterable[Quantity], cards: Iterable[BatchCard]) -> tuple[Task, ...]:
    """The whole job, stretch by stretch around the plot, in an order in which each comes after what it waits for.

    Args:
        layout: the plan laid out
        quantities: the take-off
        cards: batch cards of it
    """
    counted = Counted(quantities, cards)
    if not layout.stretches and not layout.gates:
        return ()
    soil = layout.plan.place.soil
    walls: dict[str, tuple[Task, ...]] = {}
    for reach in reaches(layout):
        ground = ground_tasks(reach, counted, soil) if reach.stretch.steps else ()
        wall = wall_tasks(reach, counted, ground) if reach.stretch.steps else ()
        coats = coat_tasks(reach, counted, wall) if reach.stretch.steps else ()
        walls[reach.stretch.name] = (*ground, *wall, *coats)
    fences = _fences(layout, counted, walls)
    whole = (set_out(layout), *(task for wall in walls.values() for task in wall), *fences)
    return in_order(_posts_before_grout(whole, layout))


def _fences(layout: Layout, counted: Counted, walls: dict[str, tuple[Task, ...]]) -> tuple[Task, ...]:
    found: list[Task] = []
    by_run: dict[str, list[Reach]] = {}
    for reach in reaches(layout):
        by_run.setdefault(reach.stretch.run, []).append(reach)
    for run, along in by_run.items():
        planned = along[0].stretch.buildup.posts
        count = sum(post.run == run and not post.gate for post in layout.posts)
        before = tuple(task for reach in along for task in walls[reach.stretch.name])
        setting = planned.setting if planned is not None else Setting.GROUND
        posts = post_tasks(run, count, setting, counted=counted, walls=before)
        found += posts
        for reach in along:
            found += fence_tasks(reach, counted, posts=posts, wall=walls[reach.stretch.name])
    for placed in layout.gates.values():
        found += gate_tasks(placed, layout, counted, walls=walls)
    return tuple(found)


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
