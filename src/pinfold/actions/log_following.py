"""Following a log: what is kept in step with the entries that stand, brought up to date as entries come in."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import TYPE_CHECKING, Generic, Protocol, TypeVar

from pinfold.errors import NotFoundError, StoreError
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry

if TYPE_CHECKING:
    from pinfold.store.log import Log

AT_ONCE = 2000
PATIENCE_S = 0.3
"""How long an answer waits for a count that has only begun: long enough for a short log beside other work at once."""


Found = TypeVar("Found")
FoundThere = TypeVar("FoundThere", covariant=True)


class Kept(Protocol[FoundThere]):
    """What is kept in step with the entries that stand."""

    def put(self, entry: Entry) -> None:
        """An entry stands from now on."""

    def drop(self, name: str) -> None:
        """The entry of an id stands no more, if it did."""

    def found(self) -> FoundThere:
        """What all that stands comes to, as it will not change any more."""


class _Reading(Generic[Found]):
    """One log file as far as it was read; used by one thread at a time."""

    def __init__(self, log: Log, file: tuple[int, int] | None, kept: Kept[Found]) -> None:
        self._log = log
        self._file = file
        self._kept = kept
        self._last: Entry | None = None
        self._corrected: set[str] = set()

    def is_of(self, file: tuple[int, int] | None) -> bool:
        """Whether the log there is the one that was read: in the same file, with the last entry read in its place."""
        if file != self._file or self._last is None:
            return file == self._file
        there = self._log.entries(newest_first=False, after_seq=self._last.seq - 1, limit=1)
        return bool(there) and (there[0].seq, there[0].id) == (self._last.seq, self._last.id)

    def brought_up(self) -> Found:
        """Read what came in since; what all of it comes to."""
        while found := self._log.entries(
            newest_first=False, after_seq=self._last.seq if self._last else 0, limit=AT_ONCE
        ):
            for entry in found:
                self._read(entry)
            self._last = found[-1]
        return self._kept.found()

    def _read(self, entry: Entry) -> None:
        self._corrected.add(entry.corrects)
        if not entry.corrects and entry.id not in self._corrected:
            self._kept.put(entry)
            return
        group = self._log.history(entry.id)
        for each in group:
            self._kept.drop(each.id)
        for each in standing(group):
            self._kept.put(each)


class Following(Generic[Found]):
    """A log followed for whoever asks; at most one thread reads, and what it found shows when whole."""

    def __init__(self, log: Log, kept: Callable[[], Kept[Found]]) -> None:
        self._log = log
        self._new = kept
        self._reading = _Reading(log, None, kept())
        self._turn = threading.Condition()  # guards all below
        self._asked = 0
        self._answered = 0
        self._counting = False
        self._found: Found | None = None
        self._fault: StoreError | None = None

    def asked(self, patience_s: float | None) -> Found | None:
        """What all that is in the log by now comes to; None when it takes longer than one is willing to wait.

        Args:
            patience_s: how long that is; None for as long as it takes

        Raises:
            StoreError: this reading, or the last one while this one takes longer, met a log that cannot be read.
        """
        with self._turn:
            self._asked += 1
            mine = self._asked
            if not self._counting:
                self._counting = True
                threading.Thread(target=self._work, daemon=True).start()
            self._turn.wait_for(lambda: self._answered >= mine or not self._counting, patience_s)
            if self._fault is not None:
                raise type(self._fault)(str(self._fault))
            return self._found if self._answered >= mine else None

    def _work(self) -> None:
        """Read until nobody asked since the reading began."""
        try:
            while (asked := self._unanswered()) is not None:
                found: Found | None = None
                fault: StoreError | None = None
                try:
                    found = self._read()
                except StoreError as met:
                    fault = met
                with self._turn:
                    self._found, self._fault, self._answered = found, fault, asked
                    self._turn.notify_all()
        except BaseException:  # nobody may wait for a thread that is gone
            with self._turn:
                self._counting = False
                self._turn.notify_all()
            raise

    def _unanswered(self) -> int | None:
        with self._turn:
            if self._asked > self._answered:
                return self._asked
            self._counting = False
            return None

    def _read(self) -> Found:
        from pinfold.store.log_file import identity, in_plain_words

        with in_plain_words(self._log.path):
            file = identity(self._log.path)
        if not self._reading.is_of(file):
            self._reading = _Reading(self._log, file, self._new())
        try:
            return self._reading.brought_up()
        except NotFoundError:  # an entry that was just read
            self._reading = _Reading(self._log, None, self._new())
            told = f"{self._log.path}: it was moved or taken away while it was counted; ask again"
            raise StoreError(told) from None
