"""Posts pushed at: their hold in the ground and their bending, by the formulas that ask them of the wind."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import post_sections
from pinfold.formulas import pushes as formulas
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.fences import Pull, listed, mesh_foot, setting_of
from pinfold.studies.stability.fencing.sections import modulus_of
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import Wires, bent_by, told_of, with_wind
from pinfold.studies.stability.pushes.walls import UNDER
from pinfold.studies.stability.pushes.who import Push, pushes_at
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import PASCAL, Meter

NOT_IN_IT = "a blow: a kick, a fall against it, a run-up; wind at the same time; rails, mesh and ties between posts"


@dataclass(frozen=True, kw_only=True)
class Pushed:
    """A post that is pushed at, for others like it.

    Attributes:
        subject: which posts.
        post: the one that counts.
        fence: it stands in.
        wires: that end or turn at it, and a leaf that hangs on it.
        held: height above the ground where it is held.
        top: height above the ground of what is pushed.
    """

    subject: str
    post: Post
    fence: Exposed
    wires: Wires
    held: Meter
    top: Meter


def pushed_fences(groups: Iterable[Group]) -> tuple[Finding, ...]:
    """Every post but those of gates, those of a kind in a build-up together."""
    alike: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        alike.setdefault((group.fence.stretch.buildup.name, group.worst.kind.name), []).append(group)
    return tuple(finding for some in alike.values() for finding in _together(some))


def _together(groups: list[Group]) -> tuple[Finding, ...]:
    posts = [post for group in groups for post in group.posts]
    return worst_of([_pushed(group) for group in groups], listed(posts))


def worst_of(pushed: Iterable[Pushed], subject: str) -> tuple[Finding, ...]:
    """Each check on several posts: the finding of the worst of them, which it names."""
    checks: dict[str, list[Finding]] = {}
    for each in pushed:
        for found in pushed_post(each):
            checks.setdefault(found.check, []).append(found)
    return tuple(_named(governing(found), subject) for found in checks.values())


def _named(worst: Finding, subject: str) -> Finding:
    which = "" if worst.subject == subject else f"the worst of them: {worst.subject}"
    return replace(worst, subject=subject, because=told(which, worst.because))


def _pushed(group: Group) -> Pushed:
    post, fence = group.worst, group.fence
    in_wall = setting_of(fence, post) in IN_WALL
    return Pushed(
        subject=group.listed, post=post, fence=fence, wires=group.wires,
        held=mesh_foot(fence, post) if in_wall else 0.0, top=post.top - post.ground,
    )  # fmt: skip


@lru_cache(maxsize=256)  # while one corner is dragged, most posts stay where they were
def pushed_post(each: Pushed) -> tuple[Finding, ...]:
    """One post under the worst of all pushes."""
    checks = (("embedment", _embedment), ("bending", _bending)) if each.post.hole > 0 else (("bending", _bending),)
    return tuple(_worst(each, check, find) for check, find in checks)


def _worst(each: Pushed, check: str, find: Callable[[Pushed, Push], Finding]) -> Finding:
    def of_all() -> Finding:
        pushes = pushes_at(each.fence.family, each.fence.place)
        return governing(tried(partial(find, each, push)) for push in pushes)

    found = answered(Question(check=check, subject=each.subject, left_out=NOT_IN_IT), of_all)
    return replace(found, check=f"{check} {UNDER}")


def _pull(each: Pushed, push: Push) -> Pull:
    """The push on the post with its factor, about where the post is held."""
    arm, steps, force = max(min(push.height, each.top) - each.held, 0.0), list(push.working), push.point
    if push.line > 0:
        why = "the push along the top, on one post"
        brought = work(formulas.post_push, why=why, line_load=push.line, share=each.post.share)
        force, steps = brought.number, [*steps, brought]
    force *= push.factors.service.value
    turned = work(formulas.push_moment, why="its moment where the post is held", force=force, arm=arm)
    return Pull(force=force, moment=turned.number, working=(*steps, turned))


def _embedment(each: Pushed, push: Push) -> Finding:
    pull = with_wind(_pull(each, push), each.wires)
    found = embedment(each.fence.family, each.fence.place, each.post, pull)
    return replace(
        found, because=told(*push.notes, found.because, told_of(each.wires)), left_out=NOT_IN_IT,
        figures=(*push.figures, *found.figures, *each.wires.figures, *push.factors.allowable),
    )  # fmt: skip


def _bending(each: Pushed, push: Push) -> Finding:
    kind = each.post.kind
    modulus, steps, sized = modulus_of(kind)
    if not kind.has("allowable"):
        raise NotFoundError(f"no allowable stress is known for {kind.name}; write allowable beside it in the plan")
    allowed = kind.figure("allowable")
    moment, pulled = bent_by(_pull(each, push), each.wires, kind)
    bent = work(post_sections.bending_stress, why="stress where the post is held", moment=moment, modulus=modulus)
    return Finding(
        check="bending", subject="", demand=bent.number, capacity=allowed.value, unit=PASCAL,
        because=told(*push.notes, told_of(each.wires)), working=(*pulled, *steps, bent),
        figures=(*push.figures, *sized, *each.wires.figures, ("allowable stress of the post", allowed),
                 *push.factors.allowable),
        mend="" if keeps_to(bent.number, allowed.value)
        else "a stouter post, closer posts, or a rail that keeps them off",
    )  # fmt: skip
