"""What is asked of rolls and what is answered: bands to be covered, rolls, and what comes off which.

A band runs from end to end over posts, where two pieces may meet: mesh with an overlap, wires each tied off there. Each
piece comes off one roll.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.cutting.records import Proof, Steps, Uncut


@dataclass(frozen=True, kw_only=True)
class Band:
    """A band of mesh, or a wire, from end to end.

    Attributes:
        mark: of the part.
        posts: where posts stand, from its start at 0 to its end; pieces may meet on the inner ones.
        many: how many such bands, one above the other.
        place: where it is.
        tie: what each of its pieces takes at either end beyond its posts, to be tied off with.
    """

    mark: str
    posts: tuple[Steps, ...]
    many: int = 1
    place: str = ""
    tie: Steps = 0

    @property
    def length(self) -> Steps:
        """To cut, where it is one piece."""
        return self.between(0, len(self.posts) - 1)

    def between(self, first: int, last: int) -> Steps:
        """To cut for a piece from one of its posts to another, without what it overlaps the next."""
        return self.posts[last] - self.posts[first] + 2 * self.tie


@dataclass(frozen=True, kw_only=True)
class Roll:
    """Rolls alike.

    Attributes:
        mark: its own.
        length: of each.
        count: how many; None where the shop has as many as are wanted.
        price: of each; 0 for what is on hand.
        old: whether it lies on the pile already.
        says: what it is, in words.
    """

    mark: str
    length: Steps
    count: int | None = 1
    price: int = 0
    old: bool = True
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class RollOrder:
    """Bands and the rolls they come off.

    Attributes:
        bands: wanted.
        rolls: on hand and for sale.
        lap: overlap of two pieces on a post.
        keep: shortest rest worth keeping.
    """

    bands: tuple[Band, ...]
    rolls: tuple[Roll, ...]
    lap: Steps
    keep: Steps


class Stretched(NamedTuple):
    """A piece of mesh or wire in its place.

    Attributes:
        mark: of the band.
        place: where that is.
        layer: which of several bands one above the other, from 1.
        start: post that it begins on, along the band.
        end: post that it ends on.
        length: to cut, overlap in it.
    """

    mark: str
    place: str
    layer: int
    start: Steps
    end: Steps
    length: Steps


@dataclass(frozen=True, kw_only=True)
class Unrolled:
    """What comes off one roll.

    Attributes:
        roll: mark of it.
        pieces: in the order they are cut.
        rest: what is left on it.
        kept: whether that is worth keeping.
    """

    roll: str
    pieces: tuple[Stretched, ...]
    rest: Steps
    kept: bool


@dataclass(frozen=True, kw_only=True)
class RollPlan:
    """What comes off which roll.

    Attributes:
        order: what was asked.
        unrolled: of every roll that is cut from.
        uncut: bands that the rolls do not give.
        bound: no plan costs less.
        proof: whether money, and then joints, are proven to be the least.
    """

    order: RollOrder
    unrolled: tuple[Unrolled, ...]
    uncut: tuple[Uncut, ...]
    bound: int
    proof: Proof

    @property
    def money(self) -> int:
        """What all rolls cut from cost."""
        prices = {roll.mark: roll.price for roll in self.order.rolls}
        return sum(prices[each.roll] for each in self.unrolled)

    @property
    def joints(self) -> int:
        """Where two pieces meet."""
        pieces = [piece for each in self.unrolled for piece in each.pieces]
        return len(pieces) - len({(piece.mark, piece.place, piece.layer) for piece in pieces})
