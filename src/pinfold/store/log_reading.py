"""Asking the log: which entries, how many, with what came of one by corrections."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import TypedDict

from pinfold.store.log_rows import sortable


class Which(TypedDict, total=False):
    """Which entries are wanted; all of them where nothing is said.

    Attributes:
        kind: of this kind.
        since: that happened then or later, with its zone.
        until: that happened before, with its zone.
        who: by this name.
        place: at this place.
        text: that hold these letters, large or small.
        before_seq: earlier in the log than this one.
        after_seq: later in the log.
        standing: only those that stand: the last corrections, without what was taken back.
    """

    kind: str | None
    since: datetime | None
    until: datetime | None
    who: str | None
    place: str | None
    text: str | None
    before_seq: int | None
    after_seq: int | None
    standing: bool


_CONDITIONS: Mapping[str, str] = {
    "kind": "kind = ?",
    "since": "at_utc >= ?",
    "until": "at_utc < ?",
    "who": "who = ?",
    "place": "place = ? AND place <> ''",
    "before_seq": "entry.seq < ?",
    "after_seq": "entry.seq > ?",
}
_VALUES: Mapping[str, Callable[[object], object]] = {
    "since": lambda when: sortable(when) if isinstance(when, datetime) else when,
    "until": lambda when: sortable(when) if isinstance(when, datetime) else when,
}


def asking(what: str, which: Which) -> tuple[str, list[object]]:
    """A question and its values: `what` of the entries that are wanted, without order or limit."""
    given = {key: value for key, value in which.items() if value is not None}
    conditions, values = ["1"], []
    for key, condition in _CONDITIONS.items():
        if key in given:
            conditions.append(condition)
            values.append(_VALUES.get(key, _as_it_is)(given[key]))
    if given.get("text"):
        conditions.append("EXISTS (SELECT 1 FROM said WHERE said.seq = entry.seq AND instr(said.words, ?))")
        values.append(str(given["text"]).casefold())
    if given.get("standing"):
        conditions.append("EXISTS (SELECT 1 FROM stands WHERE stands.seq = entry.seq)")
    return f"SELECT {what} FROM entry WHERE {' AND '.join(conditions)}", values


def _as_it_is(value: object) -> object:
    return value


TOGETHER = """
    WITH RECURSIVE together(id) AS (
        VALUES(?)
        UNION SELECT corrects FROM entry JOIN together USING(id) WHERE corrects <> ''
        UNION SELECT entry.id FROM entry JOIN together ON entry.corrects = together.id AND entry.corrects <> ''
    )
    SELECT entry.* FROM entry JOIN together USING(id) ORDER BY seq
"""
"""All entries that correct each other with one, through however many steps, in the order of the log."""
