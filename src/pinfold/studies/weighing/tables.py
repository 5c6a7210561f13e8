"""Tables: what hangs on some axes only, found once for each of their states and kept for every pick on the others."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Generic, TypeVar

import numpy as np
import numpy.typing as npt

from pinfold.studies.weighing.asking import Asks, Cannot, one_by_one
from pinfold.studies.weighing.axes import AXES, Picks

Codes = npt.NDArray[np.int64]
"""Number of a state for every pick, one dimension for each axis; of length 1 along those it does not hang on."""
Yes = npt.NDArray[np.bool_]
Value = TypeVar("Value")
NOT_ASKED = Cannot("not asked: it fails already, or cannot be built")


@dataclass(frozen=True, kw_only=True, eq=False)
class Table(Generic[Value]):
    """What was found.

    Attributes:
        codes: which of the values goes with a pick.
        values: one for each state; why it cannot be built where it cannot.
    """

    codes: Codes
    values: tuple[Value | Cannot, ...]

    def numbers(self, number: Callable[[Value], float], otherwise: float) -> npt.NDArray[np.float64]:
        """A number of each value, by pick."""
        found = [otherwise if isinstance(each, Cannot) else number(each) for each in self.values]
        return np.array(found)[self.codes]

    @cached_property
    def states(self) -> Codes:
        """Its values numbered, equal ones alike: what other tables hang on in its place."""
        numbers: dict[Hashable, int] = {}
        return np.array([numbers.setdefault(each, len(numbers)) for each in self.values])[self.codes]


def picked(shape: Sequence[int]) -> list[Codes]:
    """The number of the choice on every axis, axis by axis."""
    return [np.arange(many).reshape([-1 if at == place else 1 for at in range(len(shape))])
            for place, many in enumerate(shape)]  # fmt: skip


def tabled(
    codes: Iterable[Codes], find: Callable[[Picks], Value], asks: Asks = one_by_one, *, wanted: Yes | None = None
) -> Table[Value]:  # fmt: skip
    """A table over all states of some codes, each found for the first pick that has it.

    Args:
        codes: what it hangs on
        find: the value for a pick; axes that it does not hang on are at their first choice
        asks: who finds them
        wanted: picks for which it is wanted; states of none of them are not looked for; None for all
    """
    states, first = joined(codes)
    return filled(states, first, find, asks, asked=asked_of(states, len(first), wanted))


def filled(
    states: Codes, first: Codes, find: Callable[[Picks], Value], asks: Asks, *, asked: Yes
) -> Table[Value]:  # fmt: skip
    """A table over some states of which it is known where each comes first, those filled in that are asked."""
    places = np.unravel_index(first[asked], states.shape)
    found = iter(asks(find, list(zip(*(axis.tolist() for axis in places), strict=True))))
    return Table(codes=states, values=tuple(next(found) if is_asked else NOT_ASKED for is_asked in asked.tolist()))


def joined(codes: Iterable[Codes]) -> tuple[Codes, Codes]:
    """The states that some codes make together, numbered, and where each comes first."""
    made = np.zeros((1,) * len(AXES), dtype=np.int64)
    for each in codes:
        made = made * (int(each.max()) + 1) + each
    _, first, inverse = np.unique(made, return_index=True, return_inverse=True)
    return inverse.reshape(made.shape), first


def asked_of(states: Codes, many: int, wanted: Yes | None) -> Yes:
    """Which states any wanted pick has."""
    if wanted is None:
        return np.ones(many, dtype=bool)
    across = tuple(place for place, length in enumerate(states.shape) if length == 1)
    found = np.zeros(many, dtype=bool)
    found[states[wanted.any(axis=across, keepdims=True)]] = True
    return found
