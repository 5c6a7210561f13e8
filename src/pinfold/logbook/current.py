"""Which entries stand: each corrected one replaced by its last correction, those taken back left out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import WITHDRAWN


def standing(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that stand, in the order things happened, the place in the log among equals.

    A correction of a correction corrects the first one too, in whatever order they came in. Of two corrections of one
    entry the one written later stands. What corrects an entry that is not there stands by itself, unless it takes it
    back.

    Args:
        entries: of one log, in any order
    """
    given = list(entries)
    corrected = {entry.corrects for entry in given}
    last = [_last(group, corrected) for group in _groups(given)]
    kept = [entry for entry in last if entry.kind != WITHDRAWN]
    return tuple(sorted(kept, key=lambda entry: (entry.when, entry.seq)))


def _last(group: Sequence[Entry], corrected: set[str]) -> Entry:
    """The one that nothing corrects; of several, or where they correct each other in a ring, the one written last."""
    open_ends = [entry for entry in group if entry.id not in corrected]
    return max(open_ends or group, key=lambda entry: entry.seq)


def _groups(entries: Sequence[Entry]) -> Iterable[Sequence[Entry]]:
    """Entries that correct each other, through however many steps, together."""
    above: dict[str, str] = {}

    def head(name: str) -> str:
        path = []
        while above.get(name, name) != name:
            path.append(name)
            name = above[name]
        above.update(dict.fromkeys(path, name))
        return name

    for entry in entries:
        if entry.corrects:
            above[head(entry.id)] = head(entry.corrects)
    found: dict[str, list[Entry]] = {}
    for entry in entries:
        found.setdefault(head(entry.id), []).append(entry)
    return found.values()
