"""What each post carries: the fence it stands in, the wind on it, and posts alike told together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas import fence_loads
from pinfold.plan.buildups import Setting
from pinfold.studies.layout.posting import top_at
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.loads import Wind
from pinfold.units import Meter, Newton, NewtonMeter, Pascal


@dataclass(frozen=True, kw_only=True)
class Band:
    """A band of mesh or sheet that hangs on a post, heights above the level where the post is held.

    Attributes:
        pressure: on it, factor not in it.
        width: of it that the post takes.
        bottom: lower edge.
        top: upper edge.
        why: what it is.
    """

    pressure: Pascal
    width: Meter
    bottom: Meter
    top: Meter
    why: str


@dataclass(frozen=True, kw_only=True)
class Pull:
    """Level force on a post and its moment where the post is held, factors in it."""

    force: Newton
    moment: NewtonMeter
    working: tuple[Step, ...]


def pull_of(bands: Iterable[Band], factor: float) -> Pull:
    """All bands on a post together."""
    force = moment = 0.0
    steps: list[Step] = []
    for band in bands:
        inputs = {
            "pressure": factor * band.pressure, "spacing": band.width, "bottom": max(band.bottom, 0.0),
            "top": max(band.top, band.bottom, 0.0),
        }  # fmt: skip
        pushed = work(fence_loads.mesh_force, why=f"{band.why}, the wind with its factor", **inputs)
        turned = work(fence_loads.mesh_moment, why="its moment where the post is held", **inputs)
        force, moment = force + pushed.number, moment + turned.number
        steps += [pushed, turned]
    return Pull(force=force, moment=moment, working=tuple(steps))


def fence_of(fences: Mapping[str, Exposed], post: Post) -> Exposed:
    """The stretch a post stands in, the nearest of its run."""
    own = [fence for fence in fences.values() if fence.stretch.run == post.run]
    return min(own, key=lambda fence: max(fence.stretch.start - post.along, post.along - fence.stretch.end, 0.0))


def mesh_foot(fence: Exposed, post: Post) -> Meter:
    """Height of the foot of the mesh above the ground at a post."""
    if not post.gate:
        return post.base - post.ground
    if not fence.stretch.steps:
        return 0.0
    return max(top_at(fence.stretch, post.along) - post.ground, 0.0)


def bands_on(fence: Exposed, post: Post, wind: Wind, held_at: Meter) -> tuple[Band, ...]:
    """Mesh on a post, and sheet below it where sheet stands for the wall.

    Args:
        fence: it stands in
        post: the post
        wind: on the stretch
        held_at: height above the ground where the post is held
    """
    foot = mesh_foot(fence, post)
    bands = []
    if wind.mesh_height > 0:
        middle = (foot + wind.mesh_height / 2) * wind.lift - held_at
        bottom = middle - wind.mesh_height / 2
        bands.append(
            Band(pressure=wind.mesh, width=post.share, bottom=bottom, top=bottom + wind.mesh_height, why="mesh")
        )
    if fence.stretch.steps and not has_wall(fence.stretch) and foot > held_at:
        bands.append(
            Band(pressure=wind.wall, width=post.share, bottom=0.0, top=foot - held_at, why="sheet of the wall")
        )
    return tuple(bands)


def setting_of(fence: Exposed, post: Post) -> Setting:
    """How a post is held; gate posts stand in the ground by themselves."""
    if post.gate:
        return Setting.COLLAR if post.collar > 0 else Setting.GROUND
    assert fence.stretch.buildup.posts is not None
    return fence.stretch.buildup.posts.setting


def must_have_wall(fence: Exposed) -> None:
    """Posts that a wall should hold want one.

    Raises:
        NotFoundError: none stands there.
    """
    if not has_wall(fence.stretch):
        raise NotFoundError("no wall stands there that could hold a post; set it in the ground or in a collar")


def listed(posts: Iterable[Post]) -> str:
    """Posts by name, runs of them together: `posts P3–P9, P12`."""
    numbers = sorted(int(post.name.removeprefix("P")) for post in posts)
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [f"P{run[0]}" if len(run) == 1 else f"P{run[0]}{'–' if len(run) > 2 else ', '}P{run[-1]}" for run in runs]
    return f"{'post' if len(numbers) == 1 else 'posts'} {', '.join(parts)}"
