"""Posts, braces, rails, mesh, apron and gates as tasks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pinfold.logbook.works import Work
from pinfold.plan.buildups import Setting
from pinfold.studies.days import waits
from pinfold.studies.days.counted import Counted, mixes
from pinfold.studies.days.ground_tasks import SET_OUT, after, last_of
from pinfold.studies.days.records import Link, Measures, Task
from pinfold.studies.layout.records import GatePlace, Layout
from pinfold.studies.quantities.fence import is_wire
from pinfold.studies.quantities.reach import Reach
from pinfold.units import METER, show

Walls = Mapping[str, tuple[Task, ...]]
"""What is done at each stretch before its fence, by its name."""


def post_tasks(
    place: str, count: int, setting: Setting, *, counted: Counted, walls: Iterable[Task]
) -> tuple[Task, ...]:
    """Holes and posts of a run or a gate; with them braces and anchors.

    Args:
        place: the run or the gate
        count: how many posts
        setting: how they are held
        counted: take-off and cards
        walls: what is done before along the run
    """
    if not count:
        return ()
    before = tuple(walls)
    in_wall = setting in (Setting.WALL, Setting.WALL_TOP)
    holes = () if in_wall else _holes(place, count, counted, before)
    carried = {task.key for task in before if task.work is Work.LAY}
    links = tuple(waits.just(key) for key in sorted(carried)) if in_wall else ()
    concrete = mixes(counted.lines(place, "collars"))
    poured = (("concrete", Measures(m3=counted.net(concrete))),) if concrete else ()
    anchors = _anchors(place, counted)
    task = Task(
        key=f"{Work.POSTS} {place}", work=Work.POSTS, says=f"set {count} {'post' if count == 1 else 'posts'}, plumb",
        place=place, layer="posts", measures=Measures(each=count),
        norms=(("set-post", Measures(each=count)), *poured, *anchors), doses=counted.doses(concrete),
        after=links or after(holes, Work.HOLES),
    )  # fmt: skip
    return (*holes, task, *_braces(place, counted, task.key))


def _holes(place: str, count: int, counted: Counted, before: tuple[Task, ...]) -> tuple[Task, ...]:
    lines = [line for line in counted.lines(place, "trench") if line.kind.name == "hole"]
    if not lines:
        return ()
    dug = Measures(m3=counted.net(lines))
    filled = [waits.just(task.key) for task in before if task.work is Work.BACKFILL]
    task = Task(
        key=f"{Work.HOLES} {place}", work=Work.HOLES, says=f"dig {lines[0].note}", place=place, layer="trench",
        measures=dug._replace(each=count), norms=(("dig-holes", dug),), after=tuple(filled) or (waits.just(SET_OUT),),
    )  # fmt: skip
    return (task,)


def _anchors(place: str, counted: Counted) -> tuple[tuple[str, Measures], ...]:
    count = sum(line.net for line in counted.lines(place, "anchors") if line.kind.shelf == "fasteners")
    return (("anchor", Measures(each=count)),) if count else ()


def _braces(place: str, counted: Counted, posts: str) -> tuple[Task, ...]:
    lines = counted.lines(place, "braces")
    if not lines:
        return ()
    count = Measures(each=max(1.0, sum(1.0 for _ in lines)))
    task = Task(
        key=f"{Work.BRACES} {place}", work=Work.BRACES, says="build the braces", place=place, layer="braces",
        measures=count, norms=(("brace", count),), after=(waits.ripe(posts, "tension-mesh"),),
    )  # fmt: skip
    return (task,)


def fence_tasks(reach: Reach, counted: Counted, *, posts: tuple[Task, ...], wall: tuple[Task, ...]) -> tuple[Task, ...]:
    """Rails, mesh and apron of one stretch.

    Args:
        reach: the stretch
        counted: take-off and cards
        posts: of its run
        wall: with its coats
    """
    links = _firm(reach, posts, wall)
    links += tuple(
        Link(task.key, waits.rule("mesh_after_coat"), "a fresh coat is not leaned on")
        for task in _last_coats(wall)
    )  # fmt: skip
    rails = _rails(reach, counted, links or (waits.just(SET_OUT),))
    mesh = _mesh(reach, counted, after(rails, Work.RAILS) if rails else links or (waits.just(SET_OUT),))
    return (*rails, *mesh, *_apron(reach, counted, after(mesh, Work.MESH)))


def _firm(reach: Reach, posts: tuple[Task, ...], wall: tuple[Task, ...]) -> tuple[Link, ...]:
    """What holds the posts must be strong before anything is strained on them."""
    buildup = reach.stretch.buildup
    if buildup.posts is None:
        return ()
    braces = tuple(waits.just(key) for key in [last_of(posts, Work.BRACES)] if key)
    if buildup.posts.setting in (Setting.WALL, Setting.WALL_TOP):
        return (waits.ripe(last_of(wall, Work.GROUT, Work.LAY) or SET_OUT, "load-point"), *braces)
    held = last_of(posts, Work.POSTS) or SET_OUT
    if buildup.posts.setting is Setting.COLLAR:
        return (waits.ripe(held, "tension-mesh"), *braces)
    return (waits.just(held), *braces)


def _last_coats(wall: tuple[Task, ...]) -> tuple[Task, ...]:
    last = {task.face: task for task in wall if task.work is Work.COAT}
    return tuple(last.values())


def _rails(reach: Reach, counted: Counted, links: tuple[Link, ...]) -> tuple[Task, ...]:
    lines = counted.lines(reach.stretch.name, "rails")
    if not lines:
        return ()
    wires = counted.net(line for line in lines if is_wire(line.kind))
    rails = counted.net(line for line in lines if not is_wire(line.kind))
    norms = tuple((row, Measures(m=length)) for row, length in (("rail", rails), ("wire", wires)) if length)
    what = " and ".join(word for word, length in (("rails", rails), ("wires", wires)) if length)
    return (_along(reach, Work.RAILS, f"put up the {what}", "rails", norms=norms, links=links),)


def _mesh(reach: Reach, counted: Counted, links: tuple[Link, ...]) -> tuple[Task, ...]:
    lines = counted.lines(reach.stretch.name, "mesh")
    if not lines:
        return ()
    norms = (("mesh", Measures(m=counted.net(lines))),)
    return (_along(reach, Work.MESH, "hang, strain and tie the mesh", "mesh", norms=norms, links=links),)


def _apron(reach: Reach, counted: Counted, links: tuple[Link, ...]) -> tuple[Task, ...]:
    if not counted.lines(reach.stretch.name, "apron"):
        return ()
    norms = (("apron", Measures(m=reach.stretch.length)),)
    return (_along(reach, Work.APRON, "lay and pin the apron", "apron", norms=norms, links=links),)


def _along(
    reach: Reach, work: Work, does: str, layer: str, *, norms: tuple[tuple[str, Measures], ...], links: tuple[Link, ...]
) -> Task:  # fmt: skip
    place, length = reach.stretch.name, reach.stretch.length
    return Task(
        key=f"{work} {place}", work=work, says=f"{does}, {show(length, METER, reach.system)}", place=place,
        layer=layer, measures=Measures(m=length), norms=norms, after=links,
    )  # fmt: skip


def gate_tasks(placed: GatePlace, layout: Layout, counted: Counted, *, walls: Walls) -> tuple[Task, ...]:
    """Posts and leaves of one gate.

    Args:
        placed: the gate in its place
        layout: of the plan
        counted: take-off and cards
        walls: what is done before, by stretch
    """
    gate = placed.gate
    beside = tuple(
        task for stretch in layout.stretches if stretch.run == placed.run for task in walls.get(stretch.name, ())
    )  # fmt: skip
    setting = Setting.GROUND if gate.collar is None else Setting.COLLAR
    posts = post_tasks(gate.name, len(placed.posts), setting, counted=counted, walls=beside)
    held = last_of(posts, Work.POSTS)
    link = waits.ripe(held, "hang-gate") if gate.collar is not None else waits.just(held)
    leaves = Measures(each=float(gate.leaves))
    leaf = "leaf" if gate.leaves == 1 else "leaves"
    hang = Task(
        key=f"{Work.GATE} {gate.name}", work=Work.GATE, says=f"build and hang the gate, {gate.leaves} {leaf}",
        place=gate.name, layer="gate", measures=leaves, norms=(("gate", leaves),), after=(link,),
    )  # fmt: skip
    return (*posts, hang)
