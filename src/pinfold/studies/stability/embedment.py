"""How deep a post must stand in the ground for the level force and the moment on it."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import embedment as formulas
from pinfold.plan.place import Family, Place
from pinfold.studies.layout.records import Post
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fences import Pull
from pinfold.units import METER, Meter

LEFT_OUT = (
    "a mesh strained by itself where the plan does not say how hard, what cold adds to wires where no brace is, frost "
    "heave, a slope that falls away from the post, ground softened by water or digging, earthquakes"
)


def embedment(family: Family, place: Place, post: Post, pull: Pull) -> Finding:
    """Depth a post needs against its depth in the ground.

    The post may move half an inch at the ground without harm to a fence, so the side pressure of the code counts twice.

    Raises:
        NotFoundError: soil, its side pressure or the width of the post are not known.
        OutOfRangeError: past the method.
    """
    soil = place.soil
    if soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    if not soil.has("lateral"):
        raise NotFoundError(f"no side pressure is known for {soil.name}; write soil by the classes of the code")
    tabulated = soil.figure("lateral")
    width, steps, wide = _width(post)
    if pull.force <= 0:
        return Finding(
            check="embedment", subject="", demand=0.0, capacity=post.hole, unit=METER, because="nothing pushes it",
            working=pull.working,
        )  # fmt: skip
    rate = work(
        formulas.lateral_rate, why="twice the table's: a fence may give half an inch at the ground",
        tabulated=tabulated.value, isolated=True,
    )  # fmt: skip
    found = work(
        formulas.depth_nonconstrained, why="depth at which the ground holds; height is moment over force",
        force=pull.force, height=pull.moment / pull.force, width=width, rate=rate.number,
    )  # fmt: skip
    needed = found.result
    assert isinstance(needed, formulas.Embedment)
    return Finding(
        check="embedment", subject="", demand=needed.depth, capacity=post.hole, unit=METER,
        because=told(
            "so deep the side pressure no longer grows" if needed.capped else "",
            "by the American building code: the European family has no such rule" if family is Family.EU else "",
        ),
        working=(*pull.working, *steps, rate, found), figures=(("side pressure of the ground", tabulated), *wide),
        mend="" if keeps_to(needed.depth, post.hole) else "a deeper hole, a wider collar or closer posts",
    )  # fmt: skip


def _width(post: Post) -> tuple[Meter, tuple[Step, ...], Named]:
    """Width the ground presses on: a round collar's diameter, a post's own, a square one's diagonal."""
    if post.collar > 0:
        return post.collar, (), ()
    if not post.kind.has("width"):
        raise NotFoundError(f"no width is known for {post.kind.name}; measure it, or set it in a collar")
    named = (("width of the post", post.kind.figure("width")),)
    if post.kind.word("section") != "square":
        return post.kind.value("width"), (), named
    diagonal = work(formulas.square_diagonal, why="width of a square post", side=post.kind.value("width"))
    return diagonal.number, (diagonal,), named
