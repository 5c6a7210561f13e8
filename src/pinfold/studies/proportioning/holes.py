"""Post holes to fill: the builder's own, or those of the plan's posts that stand in concrete."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.errors import InputError
from pinfold.findings import Step, work
from pinfold.formulas import concrete_small, mixes
from pinfold.studies.proportioning.records import Ask, Wish
from pinfold.studies.quantities.standing import post_section
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, CubicMeter, Meter, SquareMeter, both

SECTIONS = {"square": 1.0, "round": math.pi / 4, "none": 0.0}
"""Ground plan of a post over the square of its width."""
_OWN = frozenset({"holes", "hole_width", "hole_depth", "post_shape", "post_width"})
_PASSES = 0.75
"""Stone passes a gap of which it is so much, as between bars (ACI 211)."""

ASKS = (
    Ask(key="holes", says="how many holes; the plan's posts in concrete when nothing is told of holes or posts",
        unit=RATIO, otherwise="1", low=1.0, high=5000.0, example="12", whole=True),
    Ask(key="hole_width", says="width of a round hole", unit=METER, otherwise="10 in", low=0.05, high=2.0,
        example="10 in or 250 mm"),
    Ask(key="hole_depth", says="depth of concrete in the hole", unit=METER, otherwise="30 in", low=0.1, high=3.0,
        example="30 in or 750 mm"),
    Ask(key="post_shape", says="the post's section", choices=tuple(SECTIONS), otherwise="square"),
    Ask(key="post_width", says="side or diameter of the post", unit=METER, otherwise="3-1/2 in", low=0.005, high=1.0,
        example="3-1/2 in or 90 mm"),
    Ask(key="waste", says="more than drawn, for holes are never as narrow", unit=RATIO, low=0.0, high=1.0,
        example="15 %"),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Holes:
    """Holes to fill.

    Attributes:
        count: of them.
        net: concrete in all of them, as drawn.
        gross: with waste.
        one: with waste, in the one that takes most.
        says: where they are from.
        working: lines of working.
    """

    count: int
    net: CubicMeter
    gross: CubicMeter
    one: CubicMeter
    says: str
    working: tuple[Step, ...]


def own_holes(wish: Wish) -> bool:
    """Whether the holes are the builder's own and not those of the plan."""
    return bool(_OWN & wish.told) or not wish.posts()


def holes_of(wish: Wish) -> Holes:
    """The builder's holes where any were told, else those of the plan's posts, else one of the usual kind.

    Raises:
        NotFoundError: the section of a post of the plan is not known.
    """
    waste = wish.numbers.get("waste", kind("waste", "collar").value("waste"))
    own = own_holes(wish)
    each = _own_holes(wish) if own else _plan_holes(wish)
    net = math.fsum(step.number for step in each)
    most = max(each, key=lambda step: step.number)
    gross = work(mixes.with_waste, why="concrete with what goes astray", net=net, waste=waste)
    share = gross.number / net
    count = len(each)
    says = (
        f"{'Your' if own else 'The plan has'} {count} post hole{'s' if count != 1 else ''}, filled to the depth told; "
        f"{waste:.0%} more, for holes are wider than drawn."
    )
    return Holes(count=count, net=net, gross=gross.number, one=most.number * share, says=says, working=(most, gross))


def _own_holes(wish: Wish) -> list[Step]:
    width, depth = wish.number("hole_width"), wish.number("hole_depth")
    section = SECTIONS[wish.word("post_shape")] * wish.number("post_width") ** 2
    one = _collar(width, depth, section, depth if section else 0.0)
    return [one] * round(wish.number("holes"))


def _plan_holes(wish: Wish) -> list[Step]:
    return [
        _collar(post.collar, post.hole, post_section(post.kind), min(post.hole, post.length)) for post in wish.posts()
    ]


def _collar(width: Meter, depth: Meter, section: SquareMeter, buried: Meter) -> Step:
    return work(
        concrete_small.collar_volume, why="concrete in a hole, the post taken off", hole=width, depth=depth,
        section=section, buried=buried,
    )  # fmt: skip


def gap_of(wish: Wish) -> Meter:
    """Narrowest room between post and earth; endless without posts."""
    if not own_holes(wish):
        return min((post.collar - _across(post.kind)) / 2 for post in wish.posts())
    if wish.word("post_shape") == "none":
        return math.inf
    corner = math.sqrt(2) if wish.word("post_shape") == "square" else 1.0
    return (wish.number("hole_width") - corner * wish.number("post_width")) / 2


def _across(post: Kind) -> Meter:
    """Of a post, from corner to corner."""
    wide = post.value("width") if post.has("width") else math.sqrt(post_section(post))
    return wide * (math.sqrt(2) if post.word("section") == "square" else 1.0)


def room_complaints(wish: Wish, *, stone: bool) -> list[InputError]:
    """A post that fills its hole, and stone, where any is put in, that does not pass beside it."""
    gap = gap_of(wish)
    if gap <= 0:
        says = "the post fills the hole and leaves no room for concrete: dig wider, or tell the post's true width."
        return [InputError(says, place="hole_width")]
    size = wish.number("stone_size")
    if not stone or size <= _PASSES * gap * 1.01:
        return []
    says = (
        f"stone to {both(size, METER)} found; {both(gap, METER)} between post and earth lets stone to "
        f"{both(_PASSES * gap, METER)} pass. Take smaller stone, or dig wider."
    )
    return [InputError(says, place="stone_size")]
