"""Dimensions and call-outs of a gate."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from pinfold.drawings.callouts import Column, Note, call_outs
from pinfold.drawings.leaves import Leaf, infill_of
from pinfold.drawings.naming import told
from pinfold.drawings.scenes import Dimension, PaperMm, Point, Shape
from pinfold.drawings.sides import SideView
from pinfold.plan.hanging import Bracing
from pinfold.studies.layout.records import GatePlace, Post
from pinfold.units import Meter, System, tape

BESIDE: Meter = 0.45
"""Ground drawn on each side of the opening."""
NEAR: PaperMm = 6.0
TIER: PaperMm = 8.0


@dataclass(frozen=True, kw_only=True)
class Opening:
    """A gate with all that is drawn of it.

    Attributes:
        leaves: from left to right, seen from outside.
        posts: likewise.
    """

    view: SideView
    place: GatePlace
    leaves: tuple[Leaf, ...]
    posts: tuple[Post, ...]
    system: System

    @property
    def edges(self) -> tuple[Meter, Meter]:
        """Left and right edge of the clear opening."""
        start, end = sorted((self.view.across(self.place.gate.start), self.view.across(self.place.gate.end)))
        return start, end

    def ground_at(self, x: Meter) -> Meter:
        """Height of the ground so far from the left end of the side."""
        return self.view.lie.ground_at(x if self.view.outer_is_right else self.view.length - x)

    @property
    def low(self) -> Meter:
        """The lower end of the deeper post."""
        return min(post.foot for post in self.posts)

    @property
    def high(self) -> Meter:
        """The highest of posts and leaves."""
        return max(*(post.top for post in self.posts), *(leaf.top for leaf in self.leaves))


def gate_dimensions(gate: Opening) -> Iterator[Shape]:
    """Over the leaves gaps, leaves and opening; beside them heights; under them centers and collars."""
    left, right = gate.edges
    edges = [left, *(edge for leaf in gate.leaves for edge in (leaf.left, leaf.right)), right]
    for ends in pairwise(edges):
        yield _level(gate, ends, gate.high, NEAR)
    yield _level(gate, (left, right), gate.high, NEAR + TIER)
    top = gate.leaves[0].top
    for edge, side in ((left, 1), (right, -1)):
        out, foot = edge - side * BESIDE, gate.leaves[0].foot
        yield _upright(gate, (out, gate.ground_at(edge)), foot, side * NEAR)
        if side == 1:
            yield _upright(gate, (out, foot), top, side * NEAR)
    for post, side, edge in zip(gate.posts, (1, -1), gate.edges, strict=False):
        x, out = gate.view.across(post.along), edge - side * BESIDE
        yield _upright(gate, (out, post.foot), post.ground, side * (NEAR + TIER))
        yield _upright(gate, (out, post.ground), post.top, side * (NEAR + TIER))
        if post.collar > 0:
            yield _level(gate, (x - post.collar / 2, x + post.collar / 2), gate.low, -(NEAR + TIER))
    yield _level(gate, _centers(gate), gate.low, -NEAR)


def _centers(gate: Opening) -> tuple[Meter, Meter]:
    return gate.view.across(gate.posts[0].along), gate.view.across(gate.posts[-1].along)


def _level(gate: Opening, ends: tuple[Meter, Meter], z: Meter, offset: PaperMm) -> Dimension:
    text = tape(ends[1] - ends[0], gate.system)
    return Dimension(start=(ends[0], z), end=(ends[1], z), offset=offset, text=text, size=1.7)


def _upright(gate: Opening, foot: Point, top: Meter, offset: PaperMm) -> Dimension:
    return Dimension(start=foot, end=(foot[0], top), offset=offset, text=tape(top - foot[1], gate.system), size=1.7)


def gate_call_outs(gate: Opening) -> Iterator[Shape]:
    """Frame, infill, strut, hinges, latch, post and collar, in a column on the right."""
    leaf, post = gate.leaves[-1], gate.posts[-1]
    notes = [*_leaf_notes(leaf), *_post_notes(post, gate.view.across(post.along), gate.system)]
    member = f"members {tape(leaf.member, gate.system)} wide" if leaf.kind.has("member_width") else ""
    notes.append(Note(at=(leaf.right - leaf.member / 2, _up(leaf, 0.93)), text=told(leaf.kind.says, member)))
    if latched := next((one for one in gate.leaves if one.latched), None):
        height = latched.foot + (latched.latch_at or (latched.top - latched.foot) * 0.6)
        notes.append(Note(at=(latched.latch, height), text="latch"))
    column = Column(x=gate.edges[1] + BESIDE, low=gate.low, high=gate.high, off=NEAR + TIER + 6.0, width=46.0)
    yield from call_outs(notes, column=column)


_BRACED = {
    Bracing.STRUT: "strut from the lower hinge corner to the upper latch corner",
    Bracing.WIRE: "wire with turnbuckle from the upper hinge corner to the lower latch corner",
    Bracing.SHEET: "", Bracing.NONE: "",
}  # fmt: skip


def _up(leaf: Leaf, share: float) -> Meter:
    return leaf.foot + (leaf.top - leaf.foot) * share


def _leaf_notes(leaf: Leaf) -> Iterator[Note]:
    infill, wide = infill_of(leaf), leaf.right - leaf.left
    if infill is not None:
        yield Note(at=(leaf.left + wide * 0.72, _up(leaf, 0.78)), text=told("infill", infill.says))
    yield Note(at=(leaf.hinge, _up(leaf, 1 / 6)), text="hinges on this edge")
    yield Note(at=(leaf.hinge + (leaf.latch - leaf.hinge) * 0.3, _up(leaf, 0.3)), text=_BRACED[leaf.braced_by])


def _post_notes(post: Post, x: Meter, system: System) -> Iterator[Note]:
    length = f"{tape(post.length, system)} long"
    yield Note(at=(x, post.ground + (post.top - post.ground) * 0.1), text=told(post.kind.says, length))
    if post.collar > 0:
        figures = (f"{tape(post.collar, system)} across", f"{tape(post.hole, system)} deep")
        at = (x + post.collar * 0.35, (post.foot + post.ground) / 2)
        yield Note(at=at, text=told("collar of concrete", *figures))
