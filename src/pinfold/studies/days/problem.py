"""What a schedule is found for: pieces, slots, where each may begin and what it costs there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from pinfold.plan.people import HOUR
from pinfold.studies.days.pieces import Piece, Wait
from pinfold.studies.days.records import Link
from pinfold.studies.days.slots import SLOT, Slots
from pinfold.units import Second

Costs = NDArray[np.float64]
Ready = Callable[[Link, float], Second]
"""How long a link waits when what it waits for ends at a moment, in seconds since 1970."""
Starts = tuple[int, ...]
"""Slot that each piece begins in, in the order of the pieces; -1 where it does not."""
NOT_YET = -1


def by_the_clock(link: Link, ends: float) -> Second:
    """The time a link names, whenever it is."""
    del ends
    return link.wait


@dataclass(frozen=True, kw_only=True, eq=False)
class Problem:
    """Pieces to be laid into slots.

    Attributes:
        slots: there are.
        pieces: each after what it waits for.
        allowed: (pieces, slots) whether a piece may begin in a slot.
        risk: (pieces, slots) what it costs that a piece begins there, in hours of all work waiting.
        crew: people there are at once.
        day_most: slots of people that a day has in all.
        ready: how long links wait.
    """

    slots: Slots
    pieces: tuple[Piece, ...]
    allowed: NDArray[np.bool_]
    risk: Costs
    crew: int
    day_most: int
    ready: Ready = by_the_clock

    @cached_property
    def weights(self) -> Costs:
        """What an hour of waiting costs each piece: its work, more where much waits for it."""
        work = np.array([piece.slots * piece.people for piece in self.pieces], dtype=float)
        tails = np.array([piece.tail for piece in self.pieces], dtype=float)
        longest = tails.max(initial=0.0)
        shares = 1.0 + 3.0 * (tails / longest if longest > 0 else tails)
        weighed: Costs = work * shares / max(float((work * shares).sum()), 1e-9)
        return weighed

    @cached_property
    def hours(self) -> Costs:
        """From the first slot to the beginning of each, nights and all."""
        since: Costs = (self.slots.seconds - self.slots.seconds[0]) / HOUR
        return since

    @cached_property
    def costs(self) -> Costs:
        """(pieces, slots) all that a beginning costs; with each piece's own work weighed in."""
        ends = self.hours[None, :] + np.array([[piece.slots * SLOT / HOUR] for piece in self.pieces])
        found: Costs = self.weights[:, None] * (ends + self.risk)
        return found

    @cached_property
    def left_costs(self) -> Costs:
        """What each piece costs that does not begin at all: more than any slot."""
        worst = np.max(np.where(self.allowed, self.risk, 0.0), axis=1, initial=0.0)
        end = self.hours[-1] + 24.0
        found: Costs = self.weights * (end + worst + np.array([piece.slots * SLOT / HOUR for piece in self.pieces]))
        return found

    def free_from(self, wait: Wait, slot: int) -> int:
        """First slot in which a piece may begin when what it waits for begins in a slot."""
        ends = self.slots.moment(slot) + self.pieces[wait.piece].slots * SLOT
        return self.slots.first_from(ends + self.ready(wait.link, ends))

    def cost_of(self, starts: Sequence[int]) -> float:
        """Of a whole schedule."""
        return float(sum(
            self.costs[number, start] if start >= 0 else self.left_costs[number]
            for number, start in enumerate(starts)
        ))  # fmt: skip
