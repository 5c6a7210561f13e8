"""Opening the database file of a log, and saying in plain words what is wrong with it."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from pinfold.errors import StoreError
from pinfold.store.log_schema import bring_up, format_of

NAME = "log.sqlite"
WAIT_S = 10.0
"""How long one writer waits for another."""

_FULL = "the disk is full"
_BUSY = "another program has been writing to it for too long; close that one and try again"
_DAMAGED = (
    "it is damaged; move it and the files beside it whose names start alike out of the folder, keep them, "
    "and bring back a backup with 'pinfold log restore FILE'"
)
_LOCKED_AWAY = "the folder is not there or may only be read; give yourself the right to write there"
_SAYS = {
    sqlite3.SQLITE_FULL: _FULL, sqlite3.SQLITE_BUSY: _BUSY, sqlite3.SQLITE_LOCKED: _BUSY,
    sqlite3.SQLITE_READONLY: _LOCKED_AWAY,
    sqlite3.SQLITE_PERM: _LOCKED_AWAY, sqlite3.SQLITE_CANTOPEN: _LOCKED_AWAY,
    sqlite3.SQLITE_IOERR: "the disk does not answer; is it still there, and is there room on it?",
}  # fmt: skip


@contextmanager
def in_plain_words(path: Path, *, damaged: str = _DAMAGED) -> Iterator[None]:
    """Turn what the database or the disk says into one line for the builder.

    Args:
        path: the file it is about
        damaged: what to say and do when it is no sound database

    Raises:
        StoreError: in place of either.
    """
    try:
        yield
    except sqlite3.Error as fault:
        code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
        said = damaged if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB) else _SAYS.get(code, str(fault))
        raise StoreError(f"{path}: {said}. What was in the log before is untouched.") from None
    except StoreError:
        raise
    except OSError as fault:
        said = (fault.strerror or str(fault)).lower()
        raise StoreError(f"{path}: {said}. What was in the log before is untouched.") from None


def open_to_write(path: Path) -> sqlite3.Connection:
    """A connection to a log that is made if it is not there.

    Raises:
        StoreError, NewerFileError, sqlite3.Error
    """
    fresh = not path.exists()
    connection = _connect(path, "rwc")
    try:
        format_of(connection, path.name)  # nothing is changed in a file that is none of ours
        _keep_a_journal(connection)
        bring_up(connection, path.name)
        if fresh:
            settle(path.parent)
    except BaseException:
        close_untouched(connection, path)
        raise
    return connection


def open_to_read(path: Path) -> sqlite3.Connection:
    """A connection to a log that is there, or to an empty one in memory; a folder that may only be read will do.

    Raises:
        StoreError, NewerFileError, sqlite3.Error
    """
    if not is_there(path):
        connection = _connect(None, "memory")
    elif os.access(path, os.W_OK) and os.access(path.parent, os.W_OK):
        connection = _connect(path, "rw")
    else:
        connection = _connect(path, "ro" if _has_journal(path) else "ro&immutable=1")
    try:
        bring_up(connection, path.name)
    except BaseException:
        close_untouched(connection, path)
        raise
    return connection


def close_untouched(connection: sqlite3.Connection, path: Path) -> None:
    """Close one through which nothing was written, and leave the file and its journal as they lie.

    Whoever closes a log last puts its journal into the file, and the file may be damaged; one that may only read cannot
    do so, and is let to be the last.
    """
    last = None
    with suppress(sqlite3.Error):
        if _has_journal(path):
            last = _connect(path, "ro")
            last.execute("PRAGMA user_version")
    connection.close()
    if last is not None:
        last.close()


@contextmanager
def reading(path: Path) -> Iterator[sqlite3.Connection]:
    """`open_to_read` for a while.

    Raises:
        StoreError, NewerFileError, sqlite3.Error
    """
    connection = open_to_read(path)
    try:
        yield connection
    finally:
        close_untouched(connection, path)


def lasts(connection: sqlite3.Connection) -> bool:
    """Whether a connection may be kept for later questions.

    One to no file, one that may only read, or one that takes the file for one that nobody changes, may not: others
    may write there meanwhile, or the right to write may come back.
    """
    file = connection.execute("PRAGMA database_list").fetchone()["file"]
    return bool(file) and not connection.execute("PRAGMA query_only").fetchone()[0]


def is_there(path: Path) -> bool:
    """Whether there is a file with something in it; an empty one is what a start leaves that was cut off."""
    return path.exists() and path.stat().st_size > 0


def identity(path: Path) -> tuple[int, int] | None:
    """Which file stands under a name, None when none does: another one may be put there while a program runs."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino


def settle(folder: Path) -> None:
    """Have the disk know the names in a folder."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _has_journal(path: Path) -> bool:
    journal = path.with_name(path.name + "-wal")
    return journal.exists() and journal.stat().st_size > 0


def _connect(path: Path | None, mode: str) -> sqlite3.Connection:
    uri = f"{path.absolute().as_uri()}?mode={mode}" if path is not None else "file::memory:"
    connection = sqlite3.connect(uri, uri=True, timeout=WAIT_S, isolation_level=None, check_same_thread=False)
    connection.row_factory = sqlite3.Row
    for setting in ("synchronous = FULL", "foreign_keys = ON", "recursive_triggers = ON", "trusted_schema = OFF"):
        connection.execute(f"PRAGMA {setting}")
    if mode.startswith("ro"):
        connection.execute("PRAGMA query_only = ON")
    return connection


def _keep_a_journal(connection: sqlite3.Connection) -> None:
    """Write ahead; two programs that start one log at once get in each other's way here, so try again for a while."""
    until = time.monotonic() + WAIT_S
    while connection.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
        try:
            connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as fault:
            if fault.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or time.monotonic() > until:
                raise
            time.sleep(0.02)
