"""Of many posts the ones that govern: another is no worse off that carries less, stands deeper and is held as well."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.studies.stability.fences import mesh_foot, setting_of
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.tipping import IN_WALL

Burden = tuple[float, ...]


def governing(groups: Iterable[Group]) -> tuple[Group, ...]:
    """Groups of which no other is worse in everything; those at which wires end are all kept.

    A post is worse off the more fence it carries, the higher that hangs above where it is held, and the less deep and
    wide it is set; all else must be alike.
    """
    kept: list[tuple[object, Burden, Group]] = []
    for group in groups:
        alike, burden = _alike(group), _burden(group)
        if any(alike == other and _below(burden, more) for other, more, _ in kept):
            continue
        kept = [each for each in kept if not (each[0] == alike and _below(each[1], burden))]
        kept.append((alike, burden, group))
    return tuple(group for _, _, group in kept)


def _below(one: Burden, other: Burden) -> bool:
    return all(low <= high for low, high in zip(one, other, strict=True))


def _alike(group: Group) -> object:
    """What must be the same for one to be worse than the other."""
    fence, post, wires = group.fence, group.worst, group.wires
    at_end = group.listed if wires.acts or wires.unknown else ""
    wind = (fence.wind.mesh, fence.wind.lift, fence.wind.mesh_height)
    return fence.stretch.buildup.name, *wind, post.kind.name, setting_of(fence, post), at_end


def _burden(group: Group) -> Burden:
    post = group.worst
    held = post.base if setting_of(group.fence, post) in IN_WALL else post.ground
    return post.share, mesh_foot(group.fence, post), post.top - held, -post.hole, -post.collar
