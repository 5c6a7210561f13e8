"""Frost under footings and posts, and what of the ground was surveyed at all."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to
from pinfold.plan.place import Place
from pinfold.studies.layout.records import Layout, Post, Stretch
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.fences import listed
from pinfold.studies.stability.footings.freezing import freezing_of
from pinfold.units import METER, Meter

LEFT_OUT = "whether the ground holds water and heaves at all; snow cover and shade; deeper frost in a hard winter"
_BY_DEPTH: Meter = 0.005


def frost(layout: Layout) -> tuple[Finding, ...]:
    """Frost under every wall and every post in the ground, posts of one depth together."""
    place = layout.plan.place
    walls = [_under_wall(stretch, place) for stretch in layout.stretches if has_wall(stretch)]
    posts: dict[int, list[Post]] = {}
    for post in layout.posts:
        if post.hole > 0:
            posts.setdefault(round(post.hole / _BY_DEPTH), []).append(post)
    return (*walls, *(_under_posts(group, place) for group in posts.values()))


def _under_wall(stretch: Stretch, place: Place) -> Finding:
    question = Question(check="frost", subject=f"stretch {stretch.name}", left_out=LEFT_OUT)
    return answered(question, lambda: _wall(stretch, place))


def _wall(stretch: Stretch, place: Place) -> Finding:
    frozen = freezing_of(place)
    reached = min(step.lowest_ground - step.footing_bottom for step in stretch.steps)
    footing, wall = stretch.buildup.footing, stretch.buildup.wall
    assert wall is not None
    shallow = not keeps_to(frozen.depth, reached)
    if shallow and wall.kind.word("make") == "stone":
        raise NotFoundError(
            "founded above the frost; dry stone gives with the heaving ground and commonly stands so, but by how much "
            "it may is not known"
        )
    drained = footing is not None and footing.kind.word("make") == "rubble-trench"
    return Finding(
        check="frost", subject="", demand=frozen.depth, capacity=reached, unit=METER,
        because=told("counted as any footing; the trench must drain to daylight" if drained else "", frozen.note),
        figures=frozen.figures, working=frozen.working,
        mend="a deeper footing" if shallow else "", caution=frozen.caution,
    )  # fmt: skip


def _under_posts(posts: Iterable[Post], place: Place) -> Finding:
    group = tuple(posts)
    question = Question(check="frost", subject=listed(group), left_out=LEFT_OUT)

    def find() -> Finding:
        frozen, reached = freezing_of(place), min(post.hole for post in group)
        shallow = not keeps_to(frozen.depth, reached)
        return Finding(
            check="frost", subject="", demand=frozen.depth, capacity=reached, unit=METER,
            because=told("frost under the foot lifts posts out year by year" if shallow else "", frozen.note),
            figures=frozen.figures, working=frozen.working, mend="deeper holes" if shallow else "",
            caution=frozen.caution,
        )  # fmt: skip

    return answered(question, find)


def survey(layout: Layout) -> tuple[Finding, ...]:
    """What stands outside the surveyed ground; nothing where all stands inside, or the ground was called level."""
    outside = [stretch.name for stretch in layout.stretches if stretch.outside]
    if not outside:
        return ()
    stretches = f"stretch{'es' if len(outside) > 1 else ''} {', '.join(outside)}"
    return (
        Finding(
            check="surveyed ground", subject=stretches,
            because="reaches outside the surveyed heights: the nearest height was taken on, which proves nothing",
            mend="more surveyed points, some of them outside the corners",
        ),
    )  # fmt: skip
