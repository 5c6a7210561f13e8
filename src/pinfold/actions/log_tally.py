"""How many batches of each mix and layer the log holds, kept count of as entries come in."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from pinfold.errors import NotFoundError, StoreError
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry
from pinfold.studies.batching.records import BatchCard

if TYPE_CHECKING:
    from pinfold.store.log import Log

_AT_ONCE = 2000
_PATIENCE_S = 0.3
"""How long an answer waits for a count that has only begun: long enough for a short log beside other work at once."""


def batch_key(mix: str, layer: str) -> str:
    """What a batch is counted under."""
    return f"{mix}|{layer}"


class _Count:
    """The batches of one log file as far as it was read; used by one thread at a time."""

    def __init__(self, log: Log, file: tuple[int, int] | None) -> None:
        self._log = log
        self._file = file
        self._last: Entry | None = None
        self._held: dict[str, tuple[str, int]] = {}
        self._corrected: set[str] = set()
        self._counts: Counter[str] = Counter()

    def is_of(self, file: tuple[int, int] | None) -> bool:
        """Whether the log there is the one that was read: in the same file, with the last entry read in its place."""
        if file != self._file or self._last is None:
            return file == self._file
        there = self._log.entries(newest_first=False, after_seq=self._last.seq - 1, limit=1)
        return bool(there) and (there[0].seq, there[0].id) == (self._last.seq, self._last.id)

    def brought_up(self) -> dict[str, int]:
        """Read what came in since; all that stand, by key."""
        while found := self._log.entries(
            newest_first=False, after_seq=self._last.seq if self._last else 0, limit=_AT_ONCE
        ):
            for entry in found:
                self._read(entry)
            self._last = found[-1]
        return {key: number for key, number in self._counts.items() if number}

    def _read(self, entry: Entry) -> None:
        self._corrected.add(entry.corrects)
        if not entry.corrects and entry.id not in self._corrected:
            if entry.kind == "batch":
                self._set(entry.id, entry)
            return
        group = self._log.history(entry.id)
        stands = standing(group)
        for each in group:
            self._set(each.id, None)
        for each in stands:
            self._set(each.id, each)

    def _set(self, name: str, entry: Entry | None) -> None:
        key, number = self._held.pop(name, ("", 0))
        self._counts[key] -= number
        if entry is not None and entry.kind == "batch":
            made = int(entry.number("batches") or 1)
            held = batch_key(entry.text("mix"), entry.text("layer"))
            self._held[name] = (held, made)
            self._counts[held] += made


class _Tally:
    """The count of one folder's log for whoever asks; at most one thread counts, and what it found shows when whole."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self._count = _Count(log, None)
        self._turn = threading.Condition()  # guards all below
        self._asked = 0
        self._answered = 0
        self._counting = False
        self._counts: Mapping[str, int] = {}
        self._fault: StoreError | None = None

    def asked(self, patience_s: float) -> Mapping[str, int] | None:
        """The count of all that is in the log by now; None when it takes longer than one is willing to wait.

        Raises:
            StoreError: this count, or the last one while this one takes longer, met a log that cannot be read.
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
            return self._counts if self._answered >= mine else None

    def _work(self) -> None:
        """Count until nobody asked since the count began."""
        try:
            while (asked := self._unanswered()) is not None:
                try:
                    counts, fault = self._counted(), None
                except StoreError as met:
                    counts, fault = {}, met
                with self._turn:
                    self._counts, self._fault, self._answered = counts, fault, asked
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

    def _counted(self) -> dict[str, int]:
        from pinfold.store.log_file import identity, in_plain_words

        with in_plain_words(self._log.path):
            file = identity(self._log.path)
        if not self._count.is_of(file):
            self._count = _Count(self._log, file)
        try:
            return self._count.brought_up()
        except NotFoundError:  # an entry that was just read
            self._count = _Count(self._log, None)
            told = f"{self._log.path}: it was moved or taken away while its batches were counted; ask again"
            raise StoreError(told) from None


@lru_cache(maxsize=4)
def _tally_of(folder: Path) -> _Tally:
    from pinfold.actions.taking import log_of

    return _Tally(log_of(folder))


def batches_logged(folder: Path) -> Mapping[str, int] | None:
    """Batches that stand, by `batch_key`; None while a long log is still being counted.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    return _tally_of(folder.absolute()).asked(_PATIENCE_S)


def logged_of(card: BatchCard, tally: Mapping[str, int] | None, *, sole: bool) -> int | None:
    """Batches of a card in a tally; None while they are still being counted.

    Args:
        card: of a mix and a layer
        tally: as `batches_logged` gives it
        sole: whether the mix has no other card, so that batches that name no layer are of this one
    """
    if tally is None:
        return None
    unnamed = tally.get(batch_key(card.mix.name, ""), 0) if sole else 0
    return tally.get(batch_key(card.mix.name, card.layer), 0) + unnamed
