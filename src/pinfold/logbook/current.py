"""Which entries stand: each corrected one replaced by its last correction, those taken back left out."""

from __future__ import annotations

from collections.abc import Iterable

from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import WITHDRAWN


def standing(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that stand, in the order things happened, the place in the log among equals.

    A correction of a correction corrects the first one too. Of two corrections of one entry the one written later
    stands. What corrects an entry that is not there stands by itself, unless it takes it back.

    Args:
        entries: of one log, in any order
    """
    in_turn = sorted(entries, key=lambda entry: entry.seq)
    root: dict[str, str] = {}
    last: dict[str, Entry] = {}
    for entry in in_turn:
        first = root.get(entry.corrects, entry.corrects) or entry.id
        root[entry.id] = first
        last[first] = entry
    kept = [entry for entry in last.values() if entry.kind != WITHDRAWN]
    return tuple(sorted(kept, key=lambda entry: (entry.when, entry.seq)))
