"""How posts are helped to stand: anchors on a wall's top, and braces at ends, corners and gates."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.tables.shelf import Kind
from pinfold.units import Meter, Newton


class Hold(StrEnum):
    """What keeps an anchor in the masonry."""

    HEADED = "headed"  # a bolt with its head, a nut or a plate grouted in
    BENT = "bent"  # an L or a J grouted in
    MAKER = "maker"  # set into a drilled hole: what it holds is its maker's to say


@dataclass(frozen=True, kw_only=True)
class Anchors:
    """Anchors that hold the plate of one post on the top of a wall.

    Attributes:
        hold: what keeps them in.
        count: under one post, half of them in each of two rows along the wall.
        row_spacing: between the two rows, across the wall.
        diameter: of one.
        depth: embedded length.
        hook: leg of a bent one; None for others.
        pull: that one may take by its maker; None unless its maker says so.
        shove: likewise, square to it.
    """

    hold: Hold
    count: int
    row_spacing: Meter
    diameter: Meter
    depth: Meter
    hook: Meter | None
    pull: Newton | None
    shove: Newton | None


class BraceForm(StrEnum):
    """What braces an end post along the fence."""

    RAIL = "rail"  # a level rail to the next post, and a wire that slants back to the end post's foot
    STRUT = "strut"  # a pole that slants down from the end post to the ground, on the side the wires pull to


@dataclass(frozen=True, kw_only=True)
class Brace:
    """The brace at every end, corner and gate post of a build-up, one along each fence that ends there.

    Attributes:
        form: rail and wire, or strut.
        rail_at: height of rail or strut on the post above where it is held.
        rail_length: from the end post to the brace post, or to the strut's foot.
        rail: kind of shelf `posts` that rail or strut is made of.
        wire: kind of shelf `rails`; None for a strut.
        strands: how many wires of the diagonal pull together.
    """

    form: BraceForm
    rail_at: Meter
    rail_length: Meter
    rail: Kind
    wire: Kind | None
    strands: int
