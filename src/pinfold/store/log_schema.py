"""The tables of `log.sqlite`, format by format. A released step is never changed; a new one is put after it."""

from __future__ import annotations

import sqlite3

from pinfold.errors import NewerFileError, StoreError

APPLICATION_ID = 0x70696E66
"""What says in the file's head that it is a log of ours."""

_FORMAT_1 = (
    """CREATE TABLE entry(
        seq INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        kind TEXT NOT NULL,
        at TEXT NOT NULL,
        at_utc TEXT NOT NULL,
        who TEXT NOT NULL,
        device TEXT NOT NULL,
        corrects TEXT NOT NULL,
        place TEXT NOT NULL,
        body TEXT NOT NULL,
        body_sha TEXT NOT NULL,
        row_sha TEXT NOT NULL,
        received TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX entry_kind ON entry(kind)",
    "CREATE INDEX entry_at ON entry(at_utc)",
    "CREATE INDEX entry_who ON entry(who)",
    "CREATE INDEX entry_place ON entry(place) WHERE place <> ''",
    "CREATE INDEX entry_corrects ON entry(corrects) WHERE corrects <> ''",
    """CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
       BEGIN SELECT RAISE(ABORT, 'an entry is never changed; correct it by another one'); END""",
    """CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
       BEGIN SELECT RAISE(ABORT, 'an entry is never removed; take it back by another one'); END""",
    """CREATE TRIGGER entry_is_never_replaced BEFORE INSERT ON entry
       WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR seq = NEW.seq)
       BEGIN SELECT RAISE(ABORT, 'there is an entry of that id'); END""",
    """CREATE TABLE photo(
        name TEXT PRIMARY KEY,
        at TEXT NOT NULL,
        width INTEGER NOT NULL,
        height INTEGER NOT NULL,
        taken TEXT NOT NULL
    ) STRICT, WITHOUT ROWID""",
    """CREATE TRIGGER photo_is_never_changed BEFORE UPDATE ON photo
       BEGIN SELECT RAISE(ABORT, 'a photo is never changed'); END""",
    """CREATE TRIGGER photo_is_never_removed BEFORE DELETE ON photo
       BEGIN SELECT RAISE(ABORT, 'a photo is never removed'); END""",
    # What follows can be made again from the entries: which of them stand, and their words to search in.
    "CREATE TABLE stands(seq INTEGER PRIMARY KEY REFERENCES entry(seq)) STRICT",
    "CREATE TABLE said(seq INTEGER PRIMARY KEY REFERENCES entry(seq), words TEXT NOT NULL) STRICT",
)
STEPS: tuple[tuple[str, ...], ...] = (_FORMAT_1,)
"""Statements that lead from each format to the next; a new file is of format 0 and empty."""


_HEAD = """
    SELECT (SELECT user_version FROM pragma_user_version), (SELECT application_id FROM pragma_application_id),
    (SELECT count(*) FROM sqlite_schema)
"""
"""Asked at once: between two questions another program may make the tables."""


def format_of(connection: sqlite3.Connection, name: str) -> int:
    """The format of a file; 0 for an empty one.

    Raises:
        StoreError: it is a database, and none of ours.
        NewerFileError: a later pinfold wrote it.
    """
    found, mark, tables = map(int, connection.execute(_HEAD).fetchone())
    if mark != APPLICATION_ID and (mark or found or tables):
        raise StoreError(f"{name} is a file of another program, no log of pinfold; move it out of the way")
    if found > len(STEPS):
        raise NewerFileError(f"{name} is of format {found}; this pinfold reads format {len(STEPS)}. Get a newer one.")
    return found


def bring_up(connection: sqlite3.Connection, name: str) -> None:
    """Make the tables, or bring those of an older format up to this one; all of it or nothing.

    Raises:
        StoreError, NewerFileError: as `format_of`.
        sqlite3.Error: what stopped it; the file is as it was before.
    """
    if format_of(connection, name) == len(STEPS):
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        for step in STEPS[format_of(connection, name) :]:  # another program may have done it while we waited
            for statement in step:
                connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {len(STEPS)}")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
