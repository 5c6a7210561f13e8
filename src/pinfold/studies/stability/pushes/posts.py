"""Posts pushed at: their hold in the ground and their bending, by the formulas that ask them of the wind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import NamedTuple

from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import pushes as formulas
from pinfold.plan.buildups import Setting
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.embedment import embedment
from pinfold.studies.stability.fences import Pull, listed, mesh_foot, must_have_wall, setting_of
from pinfold.studies.stability.fencing.figures import PUSH_DURATION
from pinfold.studies.stability.fencing.sockets import CHECK as ANCHORAGE
from pinfold.studies.stability.fencing.sockets import LEFT_OUT as BUILT_IN_LEFT_OUT
from pinfold.studies.stability.fencing.sockets import held, must_end_within
from pinfold.studies.stability.fencing.stresses import stress_of
from pinfold.studies.stability.fencing.wall_tops import LEFT_OUT as ON_TOP_LEFT_OUT
from pinfold.studies.stability.fencing.wall_tops import LEFT_OUT_TOP, TOP, fastened, top_bent
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import Wires, bent_by, told_of, with_wind
from pinfold.studies.stability.pushes.walls import UNDER
from pinfold.studies.stability.pushes.who import Push, pushes_at
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import PASCAL, Meter

NOT_IN_IT = "a blow: a kick, a fall against it, a run-up; wind at the same time; mesh and ties between posts"


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
    return tuple(finding for some in alike.values() for finding in _of_kind(some))


def _of_kind(groups: list[Group]) -> tuple[Finding, ...]:
    posts = [post for group in groups for post in group.posts]
    return worst_of([_pushed(group) for group in groups], listed(posts))


def worst_of(pushed: Iterable[Pushed], subject: str) -> tuple[Finding, ...]:
    """Each check on several posts: the finding of the worst of them, which it names."""
    checks: dict[_Check, list[Finding]] = {}
    for each in pushed:
        for check, found in pushed_post(each):
            checks.setdefault(check, []).append(found)
    return tuple(_named(governing(found), f"{check.of}{subject}") for check, found in checks.items())


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


class _Check(NamedTuple):
    """What is asked of a post: the check, how it is found, what it leaves out, and words before the post's name."""

    name: str
    find: Callable[[Pushed, Push], Finding]
    left_out: str = ""
    of: str = ""


@lru_cache(maxsize=256)  # while one corner is dragged, most posts stay where they were
def pushed_post(each: Pushed) -> tuple[tuple[_Check, Finding], ...]:
    """One post under the worst of all pushes."""
    setting = setting_of(each.fence, each.post)
    held = _HELD.get(setting, (_IN_GROUND,) if each.post.hole > 0 else ())
    return tuple((check, _worst(each, check)) for check in (*held, _BENT))


def _worst(each: Pushed, check: _Check) -> Finding:
    def of_all() -> Finding:
        pushes = pushes_at(each.fence.family, each.fence.place)
        return governing(tried(partial(check.find, each, push)) for push in pushes)

    left_out = told(NOT_IN_IT, check.left_out)
    found = answered(Question(check=check.name, subject=f"{check.of}{each.subject}", left_out=left_out), of_all)
    return replace(found, check=f"{found.check} {UNDER}")


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


def _together(each: Pushed, push: Push) -> Pull:
    return with_wind(_pull(each, push), each.wires)


def _told(each: Pushed, push: Push, found: Finding) -> Finding:
    """A finding of what holds a post, with who pushes it."""
    return replace(
        found, because=told(*push.notes, found.because, told_of(each.wires)),
        figures=(*push.figures, *found.figures, *each.wires.figures, *push.factors.allowable),
    )  # fmt: skip


def _embedment(each: Pushed, push: Push) -> Finding:
    fence = each.fence
    return _told(each, push, embedment(fence.family, fence.place, each.post, _together(each, push)))


def _built_in(each: Pushed, push: Push) -> Finding:
    must_have_wall(each.fence)
    must_end_within([(each.fence, each.post)])
    return _told(each, push, held(each.fence, each.post, _together(each, push)))


def _fastened(each: Pushed, push: Push) -> Finding:
    must_have_wall(each.fence)
    return _told(each, push, fastened(each.fence.stretch.buildup, _together(each, push)))


def _top_bent(each: Pushed, push: Push) -> Finding:
    must_have_wall(each.fence)
    return _told(each, push, top_bent(each.fence, each.post, _together(each, push)))


def _bending(each: Pushed, push: Push) -> Finding:
    kind = each.post.kind
    moment, pulled = bent_by(_pull(each, push), each.wires, kind)
    stress = stress_of(
        kind, moment, steady=each.wires.moment, why="stress where the post is held", lasts=PUSH_DURATION
    )  # fmt: skip
    return Finding(
        check="bending", subject="", demand=stress.demand, capacity=stress.capacity, unit=PASCAL,
        because=told(*push.notes, told_of(each.wires), stress.note), working=(*pulled, *stress.working),
        figures=(*push.figures, *stress.figures, *each.wires.figures, *push.factors.allowable),
        mend="" if keeps_to(stress.demand, stress.capacity)
        else "a stouter post, closer posts, or a rail that keeps them off",
    )  # fmt: skip


_IN_GROUND = _Check("embedment", _embedment)
_BENT = _Check("bending", _bending)
_HELD: Mapping[Setting, tuple[_Check, ...]] = {
    Setting.WALL: (_Check(ANCHORAGE, _built_in, BUILT_IN_LEFT_OUT),),
    Setting.WALL_TOP: (
        _Check(ANCHORAGE, _fastened, ON_TOP_LEFT_OUT), _Check("bending", _top_bent, LEFT_OUT_TOP, TOP),
    ),
}  # fmt: skip
"""How walls hold posts; all others stand in the ground."""
