"""How long a search may take, and what it tells meanwhile."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple


class Progress(NamedTuple):
    """How far a search has come.

    Attributes:
        says: what is being tried, in words.
        money: of the best plan so far.
        bound: no plan costs less.
        share: of the time that is gone.
    """

    says: str
    money: int
    bound: int
    share: float


@dataclass(frozen=True, kw_only=True)
class Watch:
    """The time of a search.

    Attributes:
        start: when it began, by a clock that never goes back.
        limit: seconds it may take.
        tell: called with the progress.
    """

    start: float
    limit: float
    tell: Callable[[Progress], None] | None = None

    @property
    def left(self) -> float:
        """Seconds left; negative once they are over."""
        return self.start + self.limit - time.monotonic()

    def say(self, says: str, money: int, bound: int) -> None:
        """Tells whoever asked how far the search is."""
        if self.tell is not None:
            self.tell(Progress(says, money, bound, min(1 - self.left / self.limit, 1.0)))


def watch(limit: float, tell: Callable[[Progress], None] | None = None) -> Watch:
    """A watch that starts now."""
    return Watch(start=time.monotonic(), limit=limit, tell=tell)
