"""Answers that take seconds, worked out by a thread of their own while whoever asks gets the last one there was."""

from __future__ import annotations

import concurrent.futures.thread  # noqa: F401 - what the work imports may register an end, too late once it has begun
import threading
from collections.abc import Callable, Hashable
from typing import Generic, NamedTuple, TypeVar

Found = TypeVar("Found")


class Latest(NamedTuple, Generic[Found]):
    """What is known at the moment.

    Attributes:
        answer: the newest there is; None while the first one is worked out.
        is_of_now: whether it is the answer to what was asked, not to what was asked before.
    """

    answer: Found | None
    is_of_now: bool


class Beside(Generic[Found]):
    """One answer, worked out anew when what it hangs on changes; at most one thread works."""

    def __init__(self) -> None:
        self._turn = threading.Condition()  # guards all below
        self._key: Hashable = None
        self._answer: Found | None = None
        self._working = False

    @property
    def last(self) -> Found | None:
        """The newest answer, to whatever it was asked; None while there is none."""
        with self._turn:
            return self._answer

    def latest(self, key: Hashable, work: Callable[[], Found], *, patience: float | None = 0.0) -> Latest[Found]:
        """The newest answer; work on a newer one is begun where it is to another key.

        Args:
            key: what the answer hangs on
            work: gives it
            patience: seconds to wait for it; None for as long as it takes
        """
        with self._turn:
            if key != self._key and not self._working:
                self._working = True
                threading.Thread(target=self._work, args=(key, work)).start()  # a solver cut short would abort the exit
            self._turn.wait_for(lambda: key == self._key or not self._working, timeout=patience)
            return Latest(self._answer, key == self._key)

    def _work(self, key: Hashable, work: Callable[[], Found]) -> None:
        found: Found | None = None
        try:
            found = work()
        finally:
            with self._turn:
                self._key, self._working = key, False
                self._answer = self._answer if found is None else found
                self._turn.notify_all()
