"""How a gate's leaves are kept square, hung and latched, and what lies under them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pinfold.tables.shelf import Kind
from pinfold.units import Meter


class Bracing(StrEnum):
    """What keeps a leaf square."""

    STRUT = "strut"  # a slanting member that is pressed
    WIRE = "wire"  # a wire or rod with a turnbuckle that is pulled
    SHEET = "sheet"  # the sheet on the leaf, with its screws
    NONE = "none"  # the corners alone


class Foot(StrEnum):
    """At which stile the lower end of a strut or wire stands."""

    HINGE = "hinge"
    LATCH = "latch"


@dataclass(frozen=True, kw_only=True)
class Hanging:
    """How the leaves of a gate are braced, hung and latched.

    Attributes:
        bracing: what keeps them square; None for what is usual for the kind.
        foot: where the lower end of strut or wire stands; None for the right stile.
        wire: kind of shelf `rails` that a wire brace is made of; None where there is none.
        hinge: kind of shelf `hinges`; None for what is usual for leaf and post.
        latch_at: height of the latch above the sill; None where it is proposed.
    """

    bracing: Bracing | None = None
    foot: Foot | None = None
    wire: Kind | None = None
    hinge: Kind | None = None
    latch_at: Meter | None = None


@dataclass(frozen=True, kw_only=True)
class Sill:
    """What lies across the opening under the leaf and closes the gap there, bedded level in the ground.

    Attributes:
        kind: of shelf `posts`.
        above: how far its top stands over the highest ground across the opening.
    """

    kind: Kind
    above: Meter

    @property
    def height(self) -> Meter:
        """From its underside to its top.

        Raises:
            NotFoundError: its width is not known.
        """
        return self.kind.value("width")


USUAL = Hanging()
