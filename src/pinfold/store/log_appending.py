"""Writing one entry into the log inside a transaction, and keeping what is worked out from the entries in step."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan
from pinfold.logbook.current import standing
from pinfold.logbook.entries import PHOTO, Entry
from pinfold.logbook.kinds import Sort, entry_kinds
from pinfold.store.log_reading import TOGETHER
from pinfold.store.log_rows import COLUMNS, entry_in, words_of

_INSERT = f"INSERT INTO entry({', '.join(COLUMNS)}) VALUES({', '.join(':' + name for name in COLUMNS)})"
_CORRECTED = "SELECT 1 FROM entry WHERE corrects = ? AND corrects <> ''"


class Receipt(NamedTuple):
    """What came of one entry that was sent.

    Attributes:
        id: of the entry.
        seq: its place in the log; of a conflict the place of the one that is there.
        outcome: `new`, `known` (it was there already, nothing changed) or `conflict` (nothing written).
        message: of a conflict what to do; empty otherwise.
    """

    id: str
    seq: int
    outcome: str
    message: str = ""


def outcome_of(connection: sqlite3.Connection, row: Mapping[str, str]) -> Receipt:
    """What would come of an entry; of a new one without its place."""
    there = connection.execute("SELECT seq, body_sha FROM entry WHERE id = ?", [row["id"]]).fetchone()
    if there is None:
        return Receipt(row["id"], 0, "new")
    if there["body_sha"] == row["body_sha"]:
        return Receipt(row["id"], there["seq"], "known")
    return Receipt(
        row["id"], there["seq"], "conflict",
        f"entry {there['seq']} has this id and says something else; the one in the log stays. "
        "Send it under a new id, or as a correction of that one",
    )  # fmt: skip


def outcomes_of(connection: sqlite3.Connection, rows: Iterable[Mapping[str, str]]) -> Iterator[Receipt]:
    """What would come of several that are sent together."""
    sent: dict[str, str] = {}
    for row in rows:
        told, before = outcome_of(connection, row), sent.setdefault(row["id"], row["body_sha"])
        if before == row["body_sha"] or told.outcome != "new":
            yield told
        else:
            yield told._replace(outcome="conflict", message="another one sent with it has this id and says otherwise")


def put(connection: sqlite3.Connection, row: Mapping[str, str], *, photo_may_lack: bool = False) -> Receipt:
    """Write an entry down unless one of its id is there.

    Args:
        connection: in a transaction
        row: the entry by column
        photo_may_lack: whether one whose photo is lost is written too

    Raises:
        InvalidPlan: it names a photo that is not stored.
    """
    told = outcome_of(connection, row)
    if told.outcome != "new":
        return told
    seq = connection.execute(_INSERT, row).lastrowid or 0
    entry = entry_in({**row, "seq": seq})
    if not photo_may_lack:
        _refuse_missing_photo(connection, entry)
    connection.execute("INSERT INTO said(seq, words) VALUES(?, ?)", [seq, words_of(entry)])
    _note_what_stands(connection, entry)
    return told._replace(seq=seq)


def photos_of(entry: Entry) -> tuple[str, ...]:
    """Names of the photos that an entry shows."""
    kind = entry_kinds().get(entry.kind)
    keys = [field.key for field in kind.fields if field.sort is Sort.PHOTO] if kind else []
    return tuple(entry.text(key) for key in keys if re.fullmatch(PHOTO, entry.text(key)))


def _refuse_missing_photo(connection: sqlite3.Connection, entry: Entry) -> None:
    for name in photos_of(entry):
        if connection.execute("SELECT 1 FROM photo WHERE name = ?", [name]).fetchone() is None:
            complaint = f"the photo {name[:12]}… is not in the log; store the photo first, then the entry"
            raise InvalidPlan("entry", [InputError(complaint, place=entry.id)])


def _note_what_stands(connection: sqlite3.Connection, entry: Entry) -> None:
    """One of all entries that correct each other stands, or none."""
    if not entry.corrects and connection.execute(_CORRECTED, [entry.id]).fetchone() is None:
        connection.execute("INSERT INTO stands(seq) VALUES(?)", [entry.seq])
        return
    group = [entry_in(row) for row in connection.execute(TOGETHER, [entry.id])]
    connection.executemany("DELETE FROM stands WHERE seq = ?", [[each.seq] for each in group])
    connection.executemany("INSERT INTO stands(seq) VALUES(?)", [[each.seq] for each in standing(group)])
