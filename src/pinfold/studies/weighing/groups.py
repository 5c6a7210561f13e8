"""Which checks of `stand` hang on what of a build-up, and how each group of them is asked of a pick."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Mapping
from functools import lru_cache, partial

from pinfold.findings import Finding
from pinfold.plan.buildups import Faces
from pinfold.studies.stability.blocks.neighbors import on_blocks
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.earth.banks import held_banks
from pinfold.studies.stability.fencing.bracing import Braced, braces
from pinfold.studies.stability.fencing.leaning import leaning
from pinfold.studies.stability.fencing.shearing import shearing
from pinfold.studies.stability.fencing.spans import between_posts
from pinfold.studies.stability.gates import gate_findings, hung_posts
from pinfold.studies.stability.ground import frost, survey
from pinfold.studies.stability.hanging.checks import hanging_findings
from pinfold.studies.stability.inquiry import WALL_CHECKS, found_on
from pinfold.studies.stability.lattices import lattice_of
from pinfold.studies.stability.lines import clearances
from pinfold.studies.stability.post_groups import Group, groups_of
from pinfold.studies.stability.posts import bent_and_held, held_by_walls
from pinfold.studies.stability.pushes.gates import pushed_gate
from pinfold.studies.stability.pushes.posts import pushed_fences
from pinfold.studies.stability.pushes.rails import pushed_rails
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.studies.weighing.asking import Asks, Cannot, one_by_one
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.governing import governing
from pinfold.studies.weighing.scene import Built, Scene
from pinfold.studies.weighing.tables import Codes, Table, picked, tabled
from pinfold.studies.weighing.uses import Uses, hardest_first, uses_of

_Winds = tuple[tuple[float, float, float, float, float], ...]
"""Stretch by stretch: pressure on wall and mesh, arm and lift, and how high the mesh is."""
_STILL = (8, 9, 10)  # of WALL_CHECKS pushes, earthquakes, green walls: by weights, without the fence
_SHRUNK = (12,)  # cracking: by what the footing holds, without the fence
_WEIGHED = (1, 0)  # by all weights down to the footing, and all wind; what fails more first
_BEDDED = tuple(sorted({*range(2, len(WALL_CHECKS))} - {*_STILL, *_SHRUNK}))  # at the bed and above it


Asked = tuple[tuple[Codes, ...], Callable[[Picks], Uses]]
"""What some checks hang on, and how they are asked."""


def groups_of_checks(scene: Scene, asks: Asks = one_by_one) -> Iterator[Asked]:
    """What each group of checks hangs on, and how it is asked."""
    wall, high, foot, _, fenced, post, every, deep, rail, mesh = picked(scene.shape)
    in_wall, tops = posts_in_wall(scene), stepping(scene, asks).states
    wind = tabled((tops, fenced, post, every, rail, mesh), partial(_wind, scene), asks)
    yield from _asked_of_walls(scene, wind)
    lies = lying(scene).states
    hung = (lies, wind.states, fenced, post, every, rail)
    yield (tops, fenced, post, every), partial(_leaves, scene)
    yield (tops, fenced, post, every, rail), partial(_pushed_gates, scene)
    yield (tops, *hung[1:], mesh), partial(_between, scene)  # rails carry the mesh's own weight too
    yield (*hung, deep), partial(_posts, scene)
    if in_wall:
        yield (wall, *hung, deep), partial(_sockets, scene)
    yield (wall, high, foot), partial(_ground, scene)
    dug = tabled((wall, high, foot), partial(_dug, scene)).states
    yield (lies, dug, post, every, deep), partial(_holes, scene)


def _asked_of_walls(scene: Scene, wind: Table[_Winds]) -> Iterator[Asked]:
    """The groups of what is asked of every stretch of wall; the fence counts for it where its posts stand in it."""
    wall, high, foot, coat, fenced, _, every, *_ = picked(scene.shape)
    thick = tabled((coat,), partial(_coated, scene)).states
    bed = tabled((foot,), partial(_without_width, scene)).states
    leant = (wind.states, every) if posts_in_wall(scene) else (_on_walls(wind).states, fenced)

    def over(codes: tuple[Codes, ...], checks: tuple[int, ...]) -> Asked:
        return (wall, high, *codes), partial(_walls, scene, checks=checks)

    yield over((foot, coat), _SHRUNK)
    yield over((foot, thick), _STILL)
    yield over((foot, thick, *leant), _WEIGHED)
    yield over((bed, coat, *leant), _BEDDED)


def _on_walls(winds: Table[_Winds]) -> Table[Hashable]:
    """Of the winds what presses on walls."""
    pressed = tuple(
        each if isinstance(each, Cannot) else tuple((wall, arm) for wall, _, arm, *_ in each) for each in winds.values
    )
    return Table(codes=winds.codes, values=pressed)


def _coated(scene: Scene, picks: Picks) -> Hashable:
    """How thick coats are: all that weighs of them."""
    buildup = scene.built(picks).buildup
    return buildup.coats_thickness(Faces.OUTER) + buildup.coats_thickness(Faces.INNER)


def stepping(scene: Scene, asks: Asks = one_by_one) -> Table[Hashable]:
    """How the wall steps: all that hangs on what stands on its line, gates among it."""
    wall, high, foot, *_ = picked(scene.shape)
    return tabled((wall, high, foot), partial(_tops, scene), asks)


def lying(scene: Scene, asks: Asks = one_by_one) -> Table[Hashable]:
    """How the wall lies on its ground and where posts stand by it."""
    wall, high, foot, *_ = picked(scene.shape)
    return tabled((wall, high, foot), partial(_lie, scene), asks)


def posts_in_wall(scene: Scene) -> bool:
    """Whether the posts of the build-up stand in its wall."""
    posts = scene.built(scene.first).buildup.posts
    return posts is not None and posts.setting in IN_WALL


def _lie(scene: Scene, picks: Picks) -> Hashable:
    """How a wall lies on its ground, and how far behind it posts stand: what all that stands on it hangs on."""
    built = scene.built(picks)
    return _tops(scene, picks), tuple((post.ground, post.base) for post in built.layout.posts)


def _tops(scene: Scene, picks: Picks) -> Hashable:
    """How a wall steps."""
    built = scene.built(picks)
    return tuple((each.stretch.steps, each.stretch.tops, each.stretch.joints) for each in built.own)


def _wind(scene: Scene, picks: Picks) -> _Winds:
    """What the wind presses on wall and mesh, stretch by stretch."""
    stands = scene.built(scene.only(picks, "wall", "wall-height", "footing"))
    hung = scene.built(scene.only(picks, "fence-height", "posts", "spacing", "rails", "mesh"))
    lattice = lattice_of(hung.buildup)
    winds = (each.wind_with(lattice) for each in stands.own)
    return tuple((wind.wall, wind.mesh, wind.arm, wind.lift, wind.mesh_height) for wind in winds)


def _without_width(scene: Scene, picks: Picks) -> Hashable:
    """A footing but for how wide it is."""
    footing = scene.built(picks).buildup.footing
    return None if footing is None else (footing.kind.name, footing.thickness, footing.below_ground, footing.bars)


def _walls(scene: Scene, picks: Picks, *, checks: tuple[int, ...]) -> Uses:
    """Some checks of every stretch of wall."""
    stands = scene.built(scene.only(picks, "wall", "wall-height", "footing", "spacing"))
    walls = (*stands.dressed(scene.built(picks).buildup), *stands.others)
    asked = (
        ((check, each.stretch.name), partial(found_on(each), WALL_CHECKS[check])) for check in checks for each in walls
    )  # fmt: skip
    return hardest_first(_failed_before(scene, checks), asked)


@lru_cache(maxsize=64)
def _failed_before(scene: Scene, what: Hashable) -> Counter[Hashable]:
    """How often each of some checks failed in this search: only the order of asking hangs on it."""
    assert scene is not None, what
    return Counter()


def _set_out(scene: Scene, picks: Picks) -> tuple[Built, Mapping[str, Exposed]]:
    """Where posts stand, and the stretches dressed with the rails and the mesh of the picks."""
    keys = ("wall", "wall-height", "footing", "fence-height", "posts", "spacing", "embed")
    stands, buildup = scene.built(scene.only(picks, *keys)), scene.built(picks).buildup
    dressed = {each.stretch.name: each for each in stands.dressed(buildup)}
    return stands, {name: dressed.get(name, each) for name, each in stands.inquiry.standings.items()}


def _posts_alike(scene: Scene, picks: Picks) -> tuple[Group, ...]:
    stands, fences = _set_out(scene, picks)
    return governing(groups_of(stands.layout, fences))


def _posts(scene: Scene, picks: Picks) -> Uses:
    """Posts by themselves, in the wind and under pushes."""
    groups = _posts_alike(scene, picks)
    checks = (leaning, shearing, *((pushed_fences,) if scene.plan.place.pushes != () else ()))
    alone = ((group.listed, partial(bent_and_held, (group,))) for group in groups)
    together = ((check.__name__, partial(check, groups)) for check in checks)
    return hardest_first(_failed_before(scene, "posts"), (*alone, *together))


def _sockets(scene: Scene, picks: Picks) -> Uses:
    """How walls hold the posts in them."""
    return uses_of(held_by_walls(_posts_alike(scene, picks)))


def _leaves(scene: Scene, picks: Picks) -> Uses:
    """Leaves of gates, and how they hang."""
    stands, fences = _set_out(scene, picks)
    return uses_of(hanging_findings(stands.layout, fences), to_first_failing=True)


def _pushed_gates(scene: Scene, picks: Picks) -> Uses:
    """Gates under pushes."""
    stands, fences = _set_out(scene, picks)
    gates = stands.layout.gates.values() if scene.plan.place.pushes != () else ()
    found = (each for place in gates for each in pushed_gate(hung_posts(stands.layout, fences, place)))
    return uses_of(found, to_first_failing=True)


def _between(scene: Scene, picks: Picks) -> Uses:
    """What hangs between posts, gates in the wind, and braces."""
    stands, fences = _set_out(scene, picks)
    rails = (("pushed", partial(pushed_rails, fences.values())),) if scene.plan.place.pushes != () else ()
    asked = (
        *rails, ("between", partial(between_posts, fences.values())),
        ("gates", partial(gate_findings, stands.layout, fences)), ("braces", partial(_braces, stands, fences)),
    )  # fmt: skip
    return hardest_first(_failed_before(scene, "between"), asked)


def _braces(stands: Built, fences: Mapping[str, Exposed]) -> tuple[Finding, ...]:
    """Every brace, where any build-up has one."""
    layout = stands.layout
    if not any(buildup.brace for buildup in layout.plan.buildups.values()):
        return ()
    hung = [each for place in layout.gates.values() for each in hung_posts(layout, fences, place)]
    ends = [Braced(post=each.worst, fence=each.fence, wires=each.wires) for each in groups_of(layout, fences)]
    return braces((*ends, *(Braced(post=each.post, fence=each.fence, wires=each.wires) for each in hung)))


def _ground(scene: Scene, picks: Picks) -> Uses:
    """Survey, banks and structures on blocks."""
    built = scene.built(picks)
    layout = built.layout
    banks = held_banks(layout.plan.banks, built.inquiry.standings)
    return uses_of((*survey(layout), *banks, *on_blocks(layout.plan)), to_first_failing=True)


def _dug(scene: Scene, picks: Picks) -> Hashable:
    """What is dug for a wall, and what frost makes of it."""
    built = scene.built(picks)
    footing, wall = built.buildup.footing, built.buildup.wall
    assert wall is not None
    return _tops(scene, picks), wall.kind.word("make"), footing and (footing.kind.name, footing.width), wall.thickness


def _holes(scene: Scene, picks: Picks) -> Uses:
    """Frost, and buried lines by what is dug."""
    layout = scene.built(picks).layout
    return uses_of((*frost(layout), *clearances(layout)), to_first_failing=True)
