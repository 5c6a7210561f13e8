"""Rails pushed at in the middle between two posts, by who leans there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache, partial
from typing import NamedTuple

from pinfold.findings import Finding, Step, work
from pinfold.formulas import cantilevers
from pinfold.formulas import pushes as formulas
from pinfold.geometry.profiles import part_of
from pinfold.plan.buildups import Buildup, Rail
from pinfold.plan.place import Family, Place
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.fencing.bays import strips_of, weight_on
from pinfold.studies.stability.fencing.rails import CHECK, bent
from pinfold.studies.stability.pulls import is_wire
from pinfold.studies.stability.pushes.walls import UNDER
from pinfold.studies.stability.pushes.who import Push, pushes_at
from pinfold.units import Meter

LEFT_OUT = (
    "a blow: a kick, a fall against it; wind at the same time; the weight of who climbs over; how far it gives; what "
    "fixes it to the posts; what wires and the mesh pass on along the fence"
)
_WIRES_GIVE = "wires give way and are not counted"
Hit = tuple[Rail, Meter | None]
"""A rail that takes a push, and the height of what takes the rest; None where it takes all."""


def pushed_rails(fences: Iterable[Exposed]) -> tuple[Finding, ...]:
    """Rails that bend, once for all stretches of a build-up; wires are none of them."""
    alike: dict[str, list[Exposed]] = {}
    for fence in fences:
        if fence.stretch.buildup.posts is not None and _stiff(fence.stretch.buildup):
            alike.setdefault(fence.stretch.buildup.name, []).append(fence)
    return tuple(_of_buildup(some) for some in alike.values())


def _of_buildup(fences: list[Exposed]) -> Finding:
    stretches = [fence.stretch for fence in fences]
    lowest, tallest = min(map(_lowest, stretches)), max(stretch.tallest for stretch in stretches)
    asked = _Asked(stretches[0].buildup, fences[0].family, fences[0].place, (round(lowest, 2), round(tallest, 2)))
    names = ", ".join(stretch.name for stretch in stretches)
    question = Question(
        check=f"{CHECK} {UNDER}", subject=f"stretch{'es' if len(fences) > 1 else ''} {names}", left_out=LEFT_OUT
    )  # fmt: skip
    return answered(question, lambda: _worst(asked))


class _Asked(NamedTuple):
    """Rails of a build-up, and the least and greatest height of the wall below them."""

    buildup: Buildup
    family: Family
    place: Place
    feet: tuple[Meter, Meter]


@lru_cache(maxsize=32)  # while one corner is dragged, rails stay what they were
def _worst(asked: _Asked) -> Finding:
    buildup = asked.buildup
    return governing(
        tried(partial(_pushed, buildup, push, hit, level))
        for push in pushes_at(asked.family, asked.place) for level in _levels(asked, push)
        for hit in _hits(buildup, level)
    )  # fmt: skip


def _levels(asked: _Asked, push: Push) -> tuple[Meter, ...]:
    """Levels of a push above the foot of the mesh that may be the worst: at either end, and square at a rail."""
    high, low = (push.height - foot for foot in asked.feet)
    return (low, high, *(rail.at for rail in _stiff(asked.buildup) if low < rail.at < high))


def _stiff(buildup: Buildup) -> list[Rail]:
    return sorted((rail for rail in buildup.rails if not is_wire(rail.kind)), key=lambda rail: rail.at)


def _lowest(stretch: Stretch) -> Meter:
    """Least height of a wall's top above the ground; 0 without one."""
    pairs = zip(stretch.steps, stretch.tops, strict=True)
    heights = [
        min(z for _, z in top) - max(z for _, z in part_of(stretch.ground, step.start, step.end)) for step, top in pairs
    ]
    return max(min(heights, default=0.0), 0.0)


def _hits(buildup: Buildup, level: Meter) -> Iterator[Hit]:
    """Rails that a push at a level above the foot of the mesh comes to, through the mesh or at once."""
    rails = _stiff(buildup)
    below, above = ([rail for rail in rails if (rail.at <= level) is low] for low in (True, False))
    if buildup.mesh is None or not above:
        yield (below[-1] if below else rails[0]), None
        return
    held = 0.0 if buildup.wall is not None and buildup.mesh.lap > 0 else None
    if below:
        yield below[-1], above[0].at
    other = below[-1].at if below else held
    yield above[0], other


def _pushed(buildup: Buildup, push: Push, hit: Hit, level: Meter) -> Finding:
    """A rail bent by its share of a push in the middle of its span, and by its weight and the mesh's."""
    assert buildup.posts is not None
    rail, span = hit[0], buildup.posts.spacing
    share, shared = _share(hit, level)
    factor = push.factors.service.value * share
    strip = strips_of(buildup)[buildup.rails.index(rail)]
    weight = weight_on(buildup, rail, strip)
    down = work(cantilevers.span_moment, why="bent by the weight", load=weight, span=span)
    if push.point > 0:
        why = "bent by the push in the middle of the span"
        across = work(formulas.rail_push_moment, why=why, force=factor * push.point, span=span)
    else:
        across = work(cantilevers.span_moment, why="bent by the push along it", load=factor * push.line, span=span)
    found = bent(rail.kind, across, down)
    return Finding(
        check="", subject="", demand=found.demand, capacity=found.capacity, unit=found.unit, mend=found.mend,
        because=told(f"{rail.kind.name}, jointed on the posts", *push.notes, _WIRES_GIVE),
        working=(*push.working, *shared, *found.working),
        figures=(*push.figures, *found.figures, *push.factors.allowable),
    )  # fmt: skip


def _share(hit: Hit, level: Meter) -> tuple[float, tuple[Step, ...]]:
    """Share of the push on a rail; nothing where the wall below its mesh is pushed at instead."""
    rail, other = hit
    if level < 0:
        return 0.0, ()
    if other is None:
        return 1.0, ()
    step = work(formulas.rail_share, why="the rest goes to what else holds the mesh", height=level, rail=rail.at,
                other=other)  # fmt: skip
    return step.number, (step,)
