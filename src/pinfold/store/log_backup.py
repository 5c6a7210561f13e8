"""A log in one file with its photos, and bringing such a file back: what is missing is added, nothing is replaced."""

from __future__ import annotations

import os
import re
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from pinfold.errors import InputError, NotFoundError, StoreError
from pinfold.logbook.entries import ID, PHOTO
from pinfold.store.log import open_log
from pinfold.store.log_appending import Receipt, put
from pinfold.store.log_check import file_complaints, sound_entry
from pinfold.store.log_file import NAME, in_plain_words, is_there, reading, settle
from pinfold.store.log_photos import photo_file, photo_name, photos_in, store_photo
from pinfold.store.log_rows import COLUMNS

SUFFIX = ".pinfold-log"
_NO_BACKUP = "it is no backup of a log, or a damaged one; take an earlier one"
_SHELF = "CREATE TABLE photo_file(name TEXT PRIMARY KEY, jpeg BLOB NOT NULL) STRICT"


@dataclass(frozen=True, kw_only=True)
class Saved:
    """What went into a backup.

    Attributes:
        file: where it lies.
        entries: how many.
        photos: likewise.
        lacking: complaints about photos that could not be put in.
    """

    file: Path
    entries: int
    photos: int
    lacking: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Restored:
    """What came of bringing a backup back.

    Attributes:
        new: entries that were missing and are there now.
        known: entries that were there.
        photos: how many photos the backup held.
        conflicts: entries of one id that say something else; those in the log stayed.
        damaged: entries and photos of the backup that are not what was written and were left out.
    """

    new: int
    known: int
    photos: int
    conflicts: tuple[Receipt, ...]
    damaged: tuple[str, ...]


def backup(folder: Path, out: Path) -> Saved:
    """Put the log of a site folder with its photos into one new file, while others may write.

    Args:
        folder: of the site
        out: the file; none may stand there

    Raises:
        NotFoundError: there is no log yet.
        InputError: a file of that name is there.
        StoreError, NewerFileError: the log cannot be read or the file not written; no half file is left.
    """
    if not is_there(folder / NAME):
        raise NotFoundError(f"there is no log in {folder} yet; 'pinfold log add' starts one")
    if out.exists():
        raise InputError(f"{out} is there already; name a new file, so that no backup is lost")
    with in_plain_words(out), _unfinished(out) as copy:
        with in_plain_words(folder / NAME), reading(folder / NAME) as log:
            _copy(log, copy)
        with closing(sqlite3.connect(copy, isolation_level=None)) as target:
            saved = _shelve_photos(target, folder, out)
            damaged = file_complaints(target)
        if damaged:
            raise StoreError(f"{folder / NAME}: {damaged[0]}; no backup was made")
        with open(copy, "rb+") as file:
            os.fsync(file.fileno())
        shutil.copymode(folder / NAME, copy)
        os.replace(copy, out)
        settle(out.parent)
    return saved


def restore(file: Path, folder: Path) -> Restored:
    """Add what a backup has and the log of a site folder lacks, in the order of the backup, all of it or nothing.

    Raises:
        NotFoundError: there is no such file.
        StoreError, NewerFileError: it is no backup, is damaged as a whole, or the log cannot be written.
    """
    if not file.is_file():
        raise NotFoundError(f"there is no file {file}")
    with in_plain_words(file, damaged=_NO_BACKUP), _copied(file, folder) as source:
        if damaged := file_complaints(source):
            raise StoreError(f"{file}: {damaged[0]}; take an earlier backup. Nothing was brought back")
        return _added(source, folder)


@contextmanager
def _copied(file: Path, folder: Path) -> Iterator[sqlite3.Connection]:
    """A copy to read from: an older backup is brought up to date there, never in its own place."""
    with tempfile.TemporaryDirectory(prefix=".restoring-", dir=folder) as shelf:
        copy = Path(shelf) / NAME
        shutil.copyfile(file, copy)
        journal = file.with_name(f"{file.name}-wal")
        if journal.exists():  # the latest entries of a log that was copied while a program had it open
            shutil.copyfile(journal, copy.with_name(f"{NAME}-wal"))
        if not is_there(copy):
            raise StoreError(f"{file} is empty; that is no backup")
        with reading(copy) as source:
            yield source


def _copy(log: sqlite3.Connection, copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as target:
        log.backup(target)
        target.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it


def _shelve_photos(target: sqlite3.Connection, folder: Path, out: Path) -> Saved:
    lacking, count = [], 0
    target.execute("BEGIN")
    target.execute(_SHELF)
    for photo in photos_in(target):
        file = photo_file(folder, photo.name)
        jpeg = file.read_bytes() if file.is_file() else b""
        if photo_name(jpeg) != photo.name:
            lacking.append(f"{file} is {'damaged' if jpeg else 'gone'} and not in the backup")
            continue
        target.execute("INSERT INTO photo_file(name, jpeg) VALUES(?, ?)", [photo.name, jpeg])
        count += 1
    entries = target.execute("SELECT count(*) FROM entry").fetchone()[0]
    target.execute("COMMIT")
    return Saved(file=out, entries=entries, photos=count, lacking=tuple(lacking))


@contextmanager
def _unfinished(out: Path) -> Iterator[Path]:
    handle, name = tempfile.mkstemp(prefix=f".{out.name}.", dir=out.parent)
    os.close(handle)
    try:
        yield Path(name)
    finally:
        for each in (name, f"{name}-journal"):
            with suppress(FileNotFoundError):
                os.unlink(each)


def _added(source: sqlite3.Connection, folder: Path) -> Restored:
    damaged: list[str] = []
    with open_log(folder) as log, log.writing() as target:
        photos = _unshelve(source, target, folder, damaged)
        receipts = []
        for row in source.execute("SELECT * FROM entry ORDER BY seq"):
            if sound_entry(row) is None or not ID.fullmatch(row["id"]):
                damaged.append(f"entry {row['seq']} of the backup is not what was written; it was left out")
                continue
            receipts.append(put(target, {name: row[name] for name in COLUMNS}, photo_may_lack=True))
    return Restored(
        new=sum(receipt.outcome == "new" for receipt in receipts),
        known=sum(receipt.outcome == "known" for receipt in receipts),
        photos=photos,
        conflicts=tuple(receipt for receipt in receipts if receipt.outcome == "conflict"),
        damaged=tuple(damaged),
    )


def _unshelve(source: sqlite3.Connection, target: sqlite3.Connection, folder: Path, damaged: list[str]) -> int:
    held = source.execute("SELECT 1 FROM sqlite_schema WHERE name = 'photo_file' AND type = 'table'").fetchone()
    jpegs = {row[0] for row in source.execute("SELECT name FROM photo_file")} if held else set()
    count = 0
    for photo in photos_in(source):
        found = source.execute("SELECT jpeg FROM photo_file WHERE name = ?", [photo.name]) if held else ()
        jpeg = next((row[0] for row in found), b"") if photo.name in jpegs else b""
        if not re.fullmatch(PHOTO, photo.name) or photo_name(jpeg) != photo.name:
            damaged.append(f"the photo {photo.name[:12]}… is not in the backup as it was stored; it was left out")
            continue
        store_photo(target, folder, jpeg, photo)
        count += 1
    return count
