"""Who finds what tables want: one thing after the other here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

from pinfold.errors import InputError, InvalidPlan, NotFoundError, OutOfRangeError
from pinfold.studies.weighing.axes import Picks

Told = Callable[[], None] | None
"""Told after each thing found."""
Value = TypeVar("Value")
CANNOT = (InvalidPlan, InputError, NotFoundError, OutOfRangeError)
"""What stops a build-up from being laid out."""


@dataclass(frozen=True)
class Cannot:
    """Why a build-up cannot be built."""

    why: str


class Asks(Protocol):
    """Finds a value for each of some picks, in their order."""

    def __call__(
        self, find: Callable[[Picks], Value], picks: Sequence[Picks], /
    ) -> Iterable[Value | Cannot]:  # fmt: skip
        """What is found for each of them, or why it cannot be built."""


def one_by_one(find: Callable[[Picks], Value], picks: Iterable[Picks]) -> Iterator[Value | Cannot]:
    """Each found here, one after the other."""
    return (found_for(find, each) for each in picks)


def found_for(find: Callable[[Picks], Value], picks: Picks) -> Value | Cannot:
    """The value for one pick, or why it cannot be built."""
    try:
        return find(picks)
    except CANNOT as lack:
        return Cannot(_in_short(lack))


def _in_short(lack: Exception) -> str:
    complaints = getattr(lack, "complaints", ())
    return "; ".join(str(each) for each in complaints) or str(lack)
