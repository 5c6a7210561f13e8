"""How far the tops of posts move: their own bending against a share of their height, and what the ground adds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import cantilevers
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.fences import Pull, listed, setting_of
from pinfold.studies.stability.fencing.figures import GIVE, LEAN
from pinfold.studies.stability.fencing.sections import inertia_of
from pinfold.studies.stability.post_groups import Group, hardest
from pinfold.studies.stability.pulls import told_of
from pinfold.studies.stability.tipping import IN_WALL
from pinfold.units import METER, Meter

CHECK = "deflection"
LEFT_OUT = "rocking of the wall that holds a post; years of creep in wood under strained wires; a post set askew"


def leaning(groups: Iterable[Group]) -> tuple[Finding, ...]:
    """Posts of a kind in a build-up together, the worst of them."""
    alike: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        alike.setdefault((group.fence.stretch.buildup.name, group.worst.kind.name), []).append(group)
    return tuple(_worst(some) for some in alike.values())


def _worst(groups: list[Group]) -> Finding:
    posts = [post for group in groups for post in group.posts]
    question = Question(check=CHECK, subject=listed(posts), left_out=LEFT_OUT)
    return answered(question, lambda: governing(tried(partial(_of_group, group)) for group in hardest(groups)))


def _of_group(group: Group) -> Finding:
    in_wall = setting_of(group.fence, group.worst) in IN_WALL
    held = group.worst.base if in_wall else group.worst.ground
    found = lean_of(group.worst, group.together, group.worst.top - held)
    return replace(
        found, because=told(found.because, told_of(group.wires), *group.fence.wind.mesh_notes),
        figures=(*group.fence.figures, *found.figures, *group.wires.figures, *group.fence.factors.allowable),
    )  # fmt: skip


def lean_of(post: Post, pull: Pull, length: Meter) -> Finding:
    """Movement of the top of a post under a pull, its own bending alone.

    Raises:
        NotFoundError: its stiffness is not known.
    """
    kind = post.kind
    if not kind.has("modulus"):
        raise NotFoundError(f"no modulus of elasticity is known for {kind.name}; write modulus beside it in the plan")
    inertia, steps, sized = inertia_of(kind)
    height = min(pull.moment / pull.force, length) if pull.force > 0 else length
    moved = work(
        cantilevers.tip_deflection, why="movement of the top by the post's own bending", force=pull.force,
        height=height, length=length, modulus=kind.value("modulus"), second_moment=inertia,
    )  # fmt: skip
    allowed = LEAN.value * length
    gives = _ground(post, length)
    return Finding(
        check=CHECK, subject="", demand=moved.number, capacity=allowed, unit=METER,
        because="the ground may give half an inch besides: the lean by it stands in the working" if gives else "",
        working=(*pull.working, *steps, moved, *gives),
        figures=(*sized, ("modulus of the post", kind.figure("modulus")), ("movement of its top", LEAN),
                 *((("give of the ground", GIVE),) if gives else ())),
        mend="" if keeps_to(moved.number, allowed) else "a stouter post, closer posts, slacker wires or a brace",
    )  # fmt: skip


def _ground(post: Post, length: Meter) -> tuple[Step, ...]:
    if post.hole <= 0:
        return ()
    why = "lean of the top where the ground gives its half inch"
    return (work(cantilevers.ground_lean, why=why, give=GIVE.value, depth=post.hole, length=length),)
