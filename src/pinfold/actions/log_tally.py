"""How many batches of each mix and layer the log holds, kept count of as entries come in."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry

if TYPE_CHECKING:
    from pinfold.store.log import Log

_AT_ONCE = 2000
_PATIENCE_S = 0.04
"""How long an answer waits for a count that has only begun."""


class _Tally:
    """The count of one folder's log, brought up to its tip by one thread at a time."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self._seq = 0
        self._held: dict[str, tuple[str, int]] = {}
        self._corrected: set[str] = set()
        self._work = threading.Lock()
        self.counts: Counter[str] = Counter()

    def brought_up(self) -> None:
        """Count what came in since."""
        with self._work:
            if self._log.tip() < self._seq:  # another log lies there now
                self._seq, self._held, self._corrected, self.counts = 0, {}, set(), Counter()
            while found := self._log.entries(newest_first=False, after_seq=self._seq, limit=_AT_ONCE):
                for entry in found:
                    self._count(entry)
                self._seq = found[-1].seq

    def _count(self, entry: Entry) -> None:
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
        if number:
            self.counts[key] -= number
        if entry is not None and entry.kind == "batch":
            made = int(entry.number("batches") or 1)
            held = f"{entry.text('mix')}|{entry.text('layer')}"
            self._held[name] = (held, made)
            self.counts[held] += made


@lru_cache(maxsize=4)
def _tally_of(folder: Path) -> _Tally:
    from pinfold.actions.taking import log_of

    return _Tally(log_of(folder))


def batches_logged(folder: Path) -> Mapping[str, int] | None:
    """Batches that stand, by `mix|layer`; None while a long log is counted for the first time."""
    tally = _tally_of(folder.absolute())
    thread = threading.Thread(target=tally.brought_up, daemon=True)
    thread.start()
    thread.join(_PATIENCE_S)
    return None if thread.is_alive() else dict(tally.counts)
