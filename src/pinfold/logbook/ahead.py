"""What cannot have happened yet: work that is written down under a day that is still to come."""

from __future__ import annotations

from datetime import datetime

from pinfold.errors import InputError
from pinfold.logbook.entries import Entry

_DONE = frozenset({"hours", "purchase", "leftover"})
"""Kinds that tell of what is over, in hours or in money."""


def ahead(entry: Entry, now: datetime) -> InputError | None:
    """The complaint about an entry of hours or money on a day that is still to come where it happened; else None.

    Args:
        entry: before it is written
        now: with its zone
    """
    if entry.kind not in _DONE:
        return None
    day, today = entry.when.date(), now.astimezone(entry.when.tzinfo).date()
    if day <= today:
        return None
    what = "hours worked" if entry.kind == "hours" else f"a {entry.kind}"
    told = f"{day} is still to come, today is {today}: {what} cannot be written down before; is the year right?"
    return InputError(told, place="at")
