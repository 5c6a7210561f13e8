"""Posts anchored on the wall's top: pull and shove on each anchor, and the wall's top bent by their moment."""

from __future__ import annotations

import math
from dataclasses import replace

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import anchors as formulas
from pinfold.formulas import masonry
from pinfold.formulas.steel import bar_area
from pinfold.plan.buildups import Buildup, Wall
from pinfold.plan.fences import Anchors, Hold
from pinfold.plan.place import Family
from pinfold.studies.layout.records import EndKind, Post, Stretch
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.bedding import section_of, tension_across
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import COMBINATIONS, MATERIAL_FACTOR, Named
from pinfold.studies.stability.fences import Pull
from pinfold.studies.stability.fencing.figures import ANCHOR_YIELD, BREAKOUT, PULL_SHARE, SHEAR_SHARE
from pinfold.studies.stability.fencing.sockets import CHECK, FIRM
from pinfold.studies.stability.post_groups import Group
from pinfold.studies.stability.pulls import told_of
from pinfold.units import NEWTON_METER, PASCAL, RATIO, Meter, Newton

LEFT_OUT = "the plate itself and its welds; anchors that rust; a pull sideways along the wall beside it"
LEFT_OUT_TOP = "piers and bars in the wall"
TOP = "the wall's top under "
"""Before the names of posts, where the wall under them is meant."""
UNSAID = (
    "what holds the posts on the wall is not said: write a table anchors below the posts, with hold, count, "
    "row_spacing, diameter and depth"
)


def on_top(group: Group) -> tuple[Finding, ...]:
    """Posts alike on the wall's top: their anchors, and the wall's top under them."""
    subject = group.listed
    anchored = answered(Question(check=CHECK, subject=subject, left_out=LEFT_OUT), lambda: _anchored(group))
    bent = Question(check="bending", subject=f"{TOP}{subject}", left_out=LEFT_OUT_TOP)
    return (anchored, answered(bent, lambda: _top_bent(group)))


def _anchored(group: Group) -> Finding:
    return _in_wind(group, fastened(group.fence.stretch.buildup, group.together), *group.fence.wind.mesh_notes)


def _top_bent(group: Group) -> Finding:
    return _in_wind(group, top_bent(group.fence, group.worst, group.together))


def _in_wind(group: Group, found: Finding, *notes: str) -> Finding:
    return replace(
        found, because=told(found.because, told_of(group.wires), *notes),
        figures=(*group.fence.figures, *found.figures, *group.wires.figures, *group.fence.factors.allowable),
    )  # fmt: skip


def fastened(buildup: Buildup, pull: Pull) -> Finding:
    """Whether what fastens one post on the wall's top holds.

    Raises:
        NotFoundError: what the maker's anchors hold, or the strength of the wall, is not known.
    """
    posts, wall = buildup.posts, _wall(buildup)
    assert posts is not None
    if posts.anchors is None:
        return Finding(check=CHECK, subject="", demand=pull.moment, unit=NEWTON_METER, because=UNSAID,
                       working=pull.working)  # fmt: skip
    found = anchored(posts.anchors, wall, pull)
    filled = "the cells around the anchors must be filled" if wall.kind.words.get("hollow") else ""
    return replace(found, because=told(filled, found.because))


def anchored(anchors: Anchors, wall: Wall, pull: Pull) -> Finding:
    """Whether the anchors under one post hold: half of them pulled, all of them shoved.

    Raises:
        NotFoundError: what the maker's anchors hold, or the strength of the wall, is not known.
    """
    pulled = work(
        formulas.anchor_pull, why="pull on each anchor of one row, the other row pressed", moment=pull.moment,
        lever=anchors.row_spacing, pulled=anchors.count / 2,
    )  # fmt: skip
    shoved = pull.force / anchors.count
    pull_held, shove_held, steps, figures = _held(anchors, wall)
    use = work(
        formulas.anchor_use, why="pull and shove together", pull=pulled.number, pull_held=pull_held, shove=shoved,
        shove_held=shove_held,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=use.number, capacity=1.0, unit=RATIO,
        because="share of one anchor that is used; moment and force go on into the wall",
        working=(*pull.working, pulled, *steps, use), figures=figures,
        mend="" if keeps_to(use.number, 1)
        else "anchors farther apart, deeper or more of them, or posts built into the wall",
    )  # fmt: skip


_Held = tuple[Newton, Newton, tuple[Step, ...], Named]


def _held(anchors: Anchors, wall: Wall) -> _Held:
    if anchors.hold is Hold.MAKER or (anchors.pull is not None and anchors.shove is not None):
        if anchors.pull is None or anchors.shove is None:
            raise NotFoundError("what one anchor holds is its maker's to say: write pull and shove beside the anchors")
        return anchors.pull, anchors.shove, (), ()
    if wall.kind.word("material") not in FIRM:
        raise NotFoundError(f"no rule is known for anchors in {wall.kind.name}; set the posts in ground or collar")
    if not wall.kind.has("compressive"):
        raise NotFoundError(f"no compressive strength is known for {wall.kind.name}; write compressive beside it")
    return _grouted_in(anchors, wall)


def _grouted_in(anchors: Anchors, wall: Wall) -> _Held:
    strength, edge = wall.kind.figure("compressive"), (wall.head - anchors.row_spacing) / 2
    if edge <= anchors.diameter:
        raise NotFoundError("the anchors stand at the wall's faces; nearer rows or a thicker wall are wanted")
    section = bar_area(diameter=anchors.diameter)
    pulls = _pulls(anchors, edge, section, strength.value)
    half = work(formulas.cone_area, why="cone towards the face; half of it counts", depth=edge, edge=edge)
    shoves = (
        work(formulas.breakout_held, why="shove that breaks out towards the face", area=half.number / 2,
             masonry_strength=strength.value, rate=BREAKOUT.value),
        work(formulas.crushing_held, why="shove that crushes", area=section, masonry_strength=strength.value),
        work(formulas.anchor_steel_held, why="shove its steel takes", area=section, yield_stress=ANCHOR_YIELD.value,
             share=SHEAR_SHARE.value),
    )  # fmt: skip
    figures = (
        ("strength of the masonry", strength), ("breakout", BREAKOUT), ("yield stress of the anchors", ANCHOR_YIELD),
        ("share in pull", PULL_SHARE), ("share in shear", SHEAR_SHARE),
    )  # fmt: skip
    held_pull = min(step.number for step in pulls[1:])
    return held_pull, min(step.number for step in shoves), (*pulls, half, *shoves), figures


def _pulls(anchors: Anchors, edge: Meter, section: float, strength: float) -> tuple[Step, ...]:
    """Cone of one anchor, less half of what it shares with its neighbor in the row; then what each way holds."""
    cone = work(formulas.cone_area, why="cone it may pull out", depth=anchors.depth, edge=edge)
    shared = formulas.overlap_area(reach=min(anchors.depth, edge), spacing=anchors.row_spacing)
    pairs = min(anchors.count / 2 - 1, 2.0)
    area = max(cone.number - pairs * shared / 2, 0.0)
    steps = [
        cone,
        work(formulas.breakout_held, why="pull that breaks out a cone, a neighbor's part left off", area=area,
             masonry_strength=strength, rate=BREAKOUT.value),
        work(formulas.anchor_steel_held, why="pull its steel takes", area=section, yield_stress=ANCHOR_YIELD.value,
             share=PULL_SHARE.value),
    ]  # fmt: skip
    if anchors.hook is not None:
        steps.append(
            work(formulas.bent_anchor_held, why="pull that straightens the bend", diameter=anchors.diameter,
                 depth=anchors.depth, hook=anchors.hook, masonry_strength=strength)
        )  # fmt: skip
    return tuple(steps)


def _wall(buildup: Buildup) -> Wall:
    assert buildup.wall is not None
    return buildup.wall


def top_bent(fence: Exposed, post: Post, pull: Pull) -> Finding:
    """Bed under the plate, bent by a post over the width that its moment spreads to.

    Raises:
        NotFoundError: nothing across the beds pulls, or its strength is not known.
    """
    family, wall, factors = fence.family, _wall(fence.stretch.buildup), COMBINATIONS[fence.family]
    tension, why = tension_across(family, wall)
    if tension is None or tension.value <= 0:
        raise NotFoundError(f"{why}: bars under the anchors, lapped down the wall, must carry the moment")
    area, modulus, section = section_of(wall)
    more = factors.strength.value / factors.service.value
    pulled = work(
        masonry.flexural_tension, why="tension in a bed under the plate, spread over it and four times the wall",
        moment=more * pull.moment / _spread(fence.stretch, post), modulus=modulus, load=0.0, area=area,
    )  # fmt: skip
    european = (("material factor", MATERIAL_FACTOR), ("factor of strength", factors.strength))
    held = tension.value / MATERIAL_FACTOR.value if family is Family.EU else tension.value
    return Finding(
        check="bending", subject="", demand=max(pulled.number, 0.0), capacity=held, unit=PASCAL,
        because=told(
            "weight of wall and post is not counted in favor",
            "the strength is divided by the material factor" if family is Family.EU else "",
        ),
        working=(*pull.working, *section, pulled),
        figures=(("tension across the beds", tension), *(european if family is Family.EU else ())),
        mend="" if keeps_to(pulled.number, held) else "bars under the posts down to the footing, or closer posts",
    )  # fmt: skip


def _spread(stretch: Stretch, post: Post) -> Meter:
    """Width of wall that the moment of a post spreads to; where the wall ends beside it, to the other side alone."""
    posts, wall = stretch.buildup.posts, _wall(stretch.buildup)
    rows = posts.anchors.row_spacing if posts is not None and posts.anchors is not None else 0.0
    half = rows / 2 + 2 * wall.head
    before, after = (
        math.inf if kind is EndKind.CORNER else max(room, 0.0)
        for kind, room in (
            (stretch.start_kind, post.along - stretch.start),
            (stretch.end_kind, stretch.end - post.along),
        )
    )
    return min(half, before) + min(half, after)
