"""Looking a log over: is the file whole, are entries and photos what they were when they were written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from pinfold.errors import PinfoldError
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry
from pinfold.store.log_appending import photos_of
from pinfold.store.log_file import NAME, in_plain_words, is_there, reading
from pinfold.store.log_photos import photo_file, photo_name, photos_in
from pinfold.store.log_rows import entry_in, row_sha, sent_sha, sortable, words_of

MOST_TOLD = 50
"""Complaints of one sort that are listed; the rest is counted."""


def check(folder: Path) -> tuple[str, ...]:
    """What is wrong with the log of a site folder; nothing when all is well, or when there is no log."""
    path = folder / NAME
    if not is_there(path):
        return ()
    try:
        with in_plain_words(path), reading(path) as connection:
            return tuple(_complaints(connection, folder))
    except PinfoldError as stopped:
        return (str(stopped),)


def file_complaints(connection: sqlite3.Connection) -> list[str]:
    """What the database finds wrong with its own file."""
    found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check(20)")]
    return [f"the file is damaged: {line}" for line in found if line != "ok"]


def sound_entry(row: sqlite3.Row) -> Entry | None:
    """The entry in a row, None when the row is not what was written."""
    try:
        entry = entry_in(row)
        sound = row["row_sha"] == row_sha(row) and row["body_sha"] == sent_sha(entry)
        return entry if sound and row["at_utc"] == sortable(entry.when) else None
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def _complaints(connection: sqlite3.Connection, folder: Path) -> Iterator[str]:
    damaged = file_complaints(connection)
    yield from damaged
    if damaged:
        return
    connection.execute("BEGIN")  # one and the same state for all questions, while others may write
    entries: list[Entry] = []
    faulty: list[str] = []
    for row in connection.execute("SELECT * FROM entry ORDER BY seq"):
        entry = sound_entry(row)
        if entry is None:
            faulty.append(f"entry {row['seq']} ({row['id']}) is not what was written; take its words from a backup")
        else:
            entries.append(entry)
    yield from _first(faulty)
    yield from _first(_loose_ends(connection, entries))
    yield from _first(_photo_faults(connection, folder, entries))
    if not faulty:
        yield from _worked_out(connection, entries)
    connection.execute("ROLLBACK")


def _loose_ends(connection: sqlite3.Connection, entries: list[Entry]) -> list[str]:
    there = {row[0] for row in connection.execute("SELECT id FROM entry")}
    return [
        f"entry {entry.seq} ({entry.id}) corrects {entry.corrects}, which is not in the log; was it sent?"
        for entry in entries
        if entry.corrects and entry.corrects not in there
    ]


def _photo_faults(connection: sqlite3.Connection, folder: Path, entries: list[Entry]) -> list[str]:
    stored = {photo.name for photo in photos_in(connection)}
    found = [
        f"entry {entry.seq} ({entry.id}) shows the photo {name[:12]}…, of which the log knows nothing"
        for entry in entries
        for name in photos_of(entry)
        if name not in stored
    ]
    for name in sorted(stored):
        file = photo_file(folder, name)
        if not file.is_file():
            found.append(f"the photo {file} is gone; a backup has it")
        elif photo_name(file.read_bytes()) != name:
            found.append(f"the photo {file} is not what was stored; move it away and bring back a backup")
    return found


def _worked_out(connection: sqlite3.Connection, entries: list[Entry]) -> Iterator[str]:
    stands = {row[0] for row in connection.execute("SELECT seq FROM stands")}
    said = {row[0]: row[1] for row in connection.execute("SELECT seq, words FROM said")}
    if stands != {entry.seq for entry in standing(entries)}:
        yield "what stands is noted wrongly; back up, move the log away and bring the backup back"
    if said != {entry.seq: words_of(entry) for entry in entries}:
        yield "the words to search in are noted wrongly; back up, move the log away and bring the backup back"


def _first(complaints: list[str]) -> list[str]:
    more = len(complaints) - MOST_TOLD
    return complaints[:MOST_TOLD] + ([f"and {more} more like it"] if more > 0 else [])
