"""Every check of `stand` over all build-ups of a search, each found only where something it hangs on differs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

import numpy as np
import numpy.typing as npt

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
from pinfold.studies.stability.inquiry import WALL_CHECKS, WallCheck, found_on
from pinfold.studies.stability.lattices import lattice_of
from pinfold.studies.stability.lines import clearances
from pinfold.studies.stability.post_groups import Group, groups_of
from pinfold.studies.stability.posts import bent_and_held, held_by_walls
from pinfold.studies.stability.pushes.gates import pushed_gate
from pinfold.studies.stability.pushes.posts import pushed_fences
from pinfold.studies.stability.pushes.rails import pushed_rails
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.governing import governing
from pinfold.studies.weighing.scene import Built, Scene
from pinfold.studies.weighing.tables import Cannot, Codes, Table, Told, Yes, asked_of, joined, picked, tabled
from pinfold.studies.weighing.uses import Uses, uses_of

Numbers = npt.NDArray[np.float64]
_Winds = tuple[tuple[float, float, float, float, float], ...]
"""Stretch by stretch: pressure on wall and mesh, arm and lift, and how high the mesh is."""
_STILL = WALL_CHECKS[8:11]  # pushes, earthquakes, green walls: by weights, without the fence
_SHRUNK = WALL_CHECKS[12:]  # cracking: by what the footing holds, without the fence
_WEIGHED = (WALL_CHECKS[1], WALL_CHECKS[0])  # by all weights down to the footing, and all wind; what fails more first
_BEDDED = tuple(check for check in WALL_CHECKS[2:] if check not in (*_STILL, *_SHRUNK))  # at the bed and above it


@dataclass(frozen=True, kw_only=True, eq=False)
class Checked:
    """Every check over all picks.

    Attributes:
        tables: by group of checks; together they hold every check of the plan, but that what fails or cannot be built
            by one group is not asked the next ones.
        cannot: picks that cannot be built, and why: by reason how many.
        fails: picks of which some check fails.
        use: most that any check uses of its strength, of those that do not fail; else of the checks asked.
    """

    tables: tuple[Table[Uses], ...]
    cannot: Mapping[str, int]
    fails: Yes
    use: Numbers


@dataclass(frozen=True, eq=False)
class Asking:
    """Some checks that hang on the same: the states of that, where each comes first, and how they are asked."""

    states: Codes
    first: Codes
    find: Callable[[Picks], Uses]


def checked(scene: Scene, told: Told = None) -> Checked:
    """Ask every check; of the groups of checks always the one that has to be asked least often, in what is left."""
    left = np.ones(scene.shape, dtype=bool)
    fails, use = np.zeros(scene.shape, dtype=bool), np.zeros(scene.shape)
    tables: list[Table[Uses]] = []
    cannot: Counter[str] = Counter()
    groups = groups_of_checks(scene, told)
    while groups:
        group = min(groups, key=lambda each: int(asked_of(each.states, len(each.first), left).sum()))
        groups.remove(group)
        table = tabled((group.states,), group.find, told, wanted=left)
        tables.append(table)
        cannot.update(_out(table, left))
        left &= table.numbers(lambda each: 1.0, 0.0) > 0
        fails |= left & (table.numbers(lambda each: float(each.fails), 0.0) > 0)
        use = np.maximum(use, table.numbers(lambda each: each.use, 0.0))
        left &= ~fails
    return Checked(tables=tuple(tables), cannot=cannot, fails=fails, use=use)


def _out(table: Table[Uses], left: Yes) -> Counter[str]:
    """What of a group cannot be built, of those that are left."""
    found: Counter[str] = Counter()
    many = np.bincount(np.broadcast_to(table.codes, left.shape)[left], minlength=len(table.values))
    for value, count in zip(table.values, many.tolist(), strict=True):
        if isinstance(value, Cannot) and count:
            found[value.why] += count
    return found


def groups_of_checks(scene: Scene, told: Told = None) -> list[Asking]:
    """All checks, those that hang on the same together."""
    return [Asking(*joined(codes), find) for codes, find in _groups(scene, told)]


_Asked = tuple[tuple[Codes, ...], Callable[[Picks], Uses]]
"""What some checks hang on, and how they are asked."""


def _groups(scene: Scene, told: Told) -> Iterator[_Asked]:
    """What each group of checks hangs on, and how it is asked."""
    wall, high, foot, _, fenced, post, every, deep, rail, mesh = picked(scene.shape)
    in_wall, tops = posts_in_wall(scene), stepping(scene).states
    wind = tabled((tops, fenced, post, every, rail, mesh), lambda picks: _wind(scene, picks), told)
    yield from _asked_of_walls(scene, wind)
    lies = lying(scene).states
    hung = (lies, wind.states, fenced, post, every, rail)
    yield (tops, fenced, post, every), lambda picks: _leaves(scene, picks)
    yield (tops, fenced, post, every, rail), lambda picks: _pushed_gates(scene, picks)
    yield (tops, *hung[1:], mesh), lambda picks: _between(scene, picks)  # rails carry the mesh's own weight too
    yield (*hung, deep), lambda picks: _posts(scene, picks)
    if in_wall:
        yield (wall, *hung, deep), lambda picks: _sockets(scene, picks)
    yield (wall, high, foot), lambda picks: _ground(scene, picks)
    dug = tabled((wall, high, foot), lambda picks: _dug(scene, picks)).states
    yield (lies, dug, post, every, deep), lambda picks: _holes(scene, picks)


def _asked_of_walls(scene: Scene, wind: Table[_Winds]) -> Iterator[_Asked]:
    """The groups of what is asked of every stretch of wall; the fence counts for it where its posts stand in it."""
    wall, high, foot, coat, fenced, _, every, *_ = picked(scene.shape)
    thick = tabled((coat,), lambda picks: _coated(scene, picks)).states
    bed = tabled((foot,), lambda picks: _without_width(scene, picks)).states
    leant = (wind.states, every) if posts_in_wall(scene) else (_on_walls(wind).states, fenced)

    def over(codes: tuple[Codes, ...], checks: tuple[WallCheck, ...]) -> _Asked:
        return (wall, high, *codes), lambda picks: _walls(scene, picks, checks)

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


def stepping(scene: Scene, told: Told = None) -> Table[Hashable]:
    """How the wall steps: all that hangs on what stands on its line, gates among it."""
    wall, high, foot, *_ = picked(scene.shape)
    return tabled((wall, high, foot), lambda picks: _tops(scene, picks), told)


def lying(scene: Scene, told: Told = None) -> Table[Hashable]:
    """How the wall lies on its ground and where posts stand by it."""
    wall, high, foot, *_ = picked(scene.shape)
    return tabled((wall, high, foot), lambda picks: _lie(scene, picks), told)


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


def _walls(scene: Scene, picks: Picks, checks: tuple[WallCheck, ...]) -> Uses:
    """Some checks of every stretch of wall."""
    stands = scene.built(scene.only(picks, "wall", "wall-height", "footing", "spacing"))
    walls = (*stands.dressed(scene.built(picks).buildup), *stands.others)
    found = (finding for check in checks for each in walls for finding in found_on(each)(check))
    return uses_of(found, to_first_failing=True)


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
    pushed = (pushed_fences,) if scene.plan.place.pushes != () else ()
    together = (finding for check in (leaning, shearing, *pushed) for finding in check(groups))
    alone = (finding for group in groups for finding in bent_and_held((group,)))
    return uses_of(chain(alone, together), to_first_failing=True)


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
    pushed = scene.plan.place.pushes != ()
    asked: tuple[Callable[[], Iterable[Finding]], ...] = (
        lambda: pushed_rails(fences.values()) if pushed else (), lambda: between_posts(fences.values()),
        lambda: gate_findings(stands.layout, fences), lambda: _braces(stands, fences),
    )  # fmt: skip
    return uses_of((finding for each in asked for finding in each()), to_first_failing=True)


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
