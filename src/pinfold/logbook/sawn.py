"""Entries that tell which pieces of the cut plan are cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from pinfold.logbook.entries import Entry


def by_plan(entry: Entry) -> bool:
    """Whether it tells of a piece of the cut plan that was cut, whatever came out of it."""
    return entry.kind in ("cut", "pile") and bool(entry.text("piece"))


def pieces_cut(entries: Iterable[Entry]) -> Counter[str]:
    """How many pieces of the cut plan are cut, by their code."""
    found: Counter[str] = Counter()
    for entry in entries:
        if entry.kind == "cut" and by_plan(entry):
            found[entry.text("piece").strip()] += int(entry.number("pieces") or 0)
    return found
