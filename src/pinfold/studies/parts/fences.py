"""Posts and their braces."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.plan.fences import BraceForm
from pinfold.studies.layout.bracing import BracePlace, braces_of
from pinfold.studies.layout.records import Layout, Role
from pinfold.studies.parts.pieces import Piece, known
from pinfold.studies.quantities.bracing import brace_wire_length, pole_length
from pinfold.studies.quantities.standing import cut_length
from pinfold.tables.shelf import Kind
from pinfold.units import Meter

_SAYS = {Role.LINE: "line post", Role.CORNER: "corner post", Role.END: "end post", Role.GATE: "gate post"}


def standing(layout: Layout) -> Iterator[Piece]:
    """Every post, then the braces."""
    system = layout.plan.units
    for post in layout.posts:
        length = cut_length(post.length, system)
        yield Piece(letter="T", says=_SAYS[post.role], kind=post.kind, length=length, place=post.name)
    for place in braces_of(layout):
        yield from known(_brace(place), system)


def _brace(place: BracePlace) -> Iterator[Piece]:
    at, brace = place.post.name, place.brace
    if place.brace_post is not None:
        own = place.brace_post
        yield Piece(letter="T", says="brace post", kind=own.kind, length=own.length, place=at)
    if brace.form is BraceForm.STRUT:
        slope = math.atan2(brace.rail_at, place.length)
        yield Piece(
            letter="R", says="strut", kind=brace.rail, length=pole_length(place), place=at, right=slope,
            ends=f"cut to {math.degrees(slope):.0f}°", deep=face_of(brace.rail),
        )  # fmt: skip
    else:
        yield Piece(letter="R", says="brace rail", kind=brace.rail, length=pole_length(place), place=at)
    if brace.wire is not None:
        yield Piece(letter="W", says="brace wire", kind=brace.wire, length=brace_wire_length(place), place=at)


def face_of(kind: Kind) -> Meter:
    """Width of the face that a slanting cut of a rail or post runs across; 0 where it is not known."""
    return next((kind.value(name) for name in ("depth", "diameter", "width") if kind.has(name)), 0.0)
