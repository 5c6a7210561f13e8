"""The log of a site, `log.sqlite`: entries go in and are never changed or removed; photos lie beside it."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Self, Unpack

from pinfold.errors import NotFoundError, StoreError
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import Sort, entry_kinds
from pinfold.store.log_appending import Receipt, outcomes_of, put
from pinfold.store.log_file import NAME, close_untouched, identity, in_plain_words, lasts, open_to_read, open_to_write
from pinfold.store.log_photos import Photo, photo_named, photos_in, store_photo
from pinfold.store.log_reading import TOGETHER, Which, asking
from pinfold.store.log_rows import entry_in, row_of

_LOOKED_BACK = 50
"""Entries of a kind that are looked at for what was typed last."""


@dataclass(frozen=True, kw_only=True)
class LogPage:
    """Some entries and whether there are more of them.

    Attributes:
        entries: in the order asked for.
        more: whether there are more after them.
    """

    entries: tuple[Entry, ...]
    more: bool


class Log:
    """The log of one site folder, for as many threads as want it. The file is made when the first thing is written."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.path = folder / NAME
        self._idle: list[tuple[tuple[int, int], sqlite3.Connection]] = []
        self._one_writer = threading.Lock()
        self._wrote = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file; the next question opens it again. Where nothing was written it is left as it lies."""
        wrote, self._wrote = self._wrote, False
        while idle := self._taken_from_idle():
            if wrote:
                idle[1].close()
            else:
                close_untouched(idle[1], self.path)

    def append(self, entries: Sequence[Entry], *, received: str) -> tuple[Receipt, ...]:
        """Write entries down, all of them in one go or none.

        Args:
            entries: in the order they are to stand in
            received: now, ISO 8601 in UTC

        Returns:
            one receipt for each, in the same order

        Raises:
            InvalidPlan: one names a photo that is not stored; nothing is written.
            StoreError, NewerFileError: it cannot be written; nothing is.
        """
        return self.append_rows([row_of(entry, received=received) for entry in entries])

    def append_rows(self, rows: Sequence[Mapping[str, str]]) -> tuple[Receipt, ...]:
        """The same for entries as rows, each with its own time of receipt.

        Raises:
            InvalidPlan, StoreError, NewerFileError: as `append`.
        """
        with self.writing() as connection:
            return tuple(put(connection, row) for row in rows)

    def outcomes(self, entries: Sequence[Entry]) -> tuple[Receipt, ...]:
        """What `append` would say, with nothing written; a new entry has no place yet.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        with self._reading() as connection:
            return tuple(outcomes_of(connection, [row_of(entry, received="") for entry in entries]))

    def entries(
        self, *, newest_first: bool = True, limit: int | None = None, **which: Unpack[Which]
    ) -> tuple[Entry, ...]:
        """Entries in the order of the log.

        Args:
            newest_first: or the first first
            limit: at most so many
            which: see `Which`

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        question, values = asking("*", which)
        order = "DESC" if newest_first else "ASC"
        with self._reading() as connection:
            found = connection.execute(
                f"{question} ORDER BY entry.seq {order} LIMIT ?", [*values, -1 if limit is None else limit]
            )
            return tuple(entry_in(row) for row in found)

    def page(self, *, size: int, **which: Unpack[Which]) -> LogPage:
        """The newest of the entries asked for, and whether there are more; `before_seq` leads to the next page.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        found = self.entries(limit=size + 1, **which)
        return LogPage(entries=found[:size], more=len(found) > size)

    def count(self, **which: Unpack[Which]) -> int:
        """How many there are.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        question, values = asking("count(*)", which)
        with self._reading() as connection:
            return int(connection.execute(question, values).fetchone()[0])

    def entry(self, name: str) -> Entry:
        """One entry by its id, or by its number in the log.

        Raises:
            NotFoundError: there is none such.
            StoreError, NewerFileError: the log cannot be read.
        """
        by_number = name.isascii() and name.isdigit() and len(name) < 8
        with self._reading() as connection:
            row = connection.execute(f"SELECT * FROM entry WHERE {'seq' if by_number else 'id'} = ?", [name]).fetchone()
            if row is None:
                raise NotFoundError(
                    f"there is no entry {name[:64]!r} in the log; 'pinfold log list' shows their numbers"
                )
            return entry_in(row)

    def history(self, name: str) -> tuple[Entry, ...]:
        """An entry and all that corrected it or that it corrects, in the order of the log.

        Raises:
            NotFoundError: there is none such.
            StoreError, NewerFileError: the log cannot be read.
        """
        found = self.entry(name)
        with self._reading() as connection:
            return tuple(entry_in(row) for row in connection.execute(TOGETHER, [found.id]))

    def changed_since(self, seq: int) -> tuple[Entry, ...]:
        """All that was written after one, in the order of the log.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        return self.entries(newest_first=False, after_seq=seq)

    def tip(self, *, without: Collection[str] = ()) -> int:
        """Place of the last entry; 0 in an empty log.

        Args:
            without: kinds of which entries that correct nothing are passed over

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        marks = ", ".join("?" for _ in without)
        question = f"SELECT coalesce(max(seq), 0) FROM entry WHERE kind NOT IN ({marks}) OR corrects <> ''"
        with self._reading() as connection:
            return int(connection.execute(question, [*without]).fetchone()[0])

    def last_values(self, kind: str) -> Mapping[str, str]:
        """What was typed last into each field of a kind, photos, their places and amounts aside: what a form offers.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        known = entry_kinds().get(kind)
        fields = known.fields if known else ()
        left_out = {field.key for field in fields if field.sort is Sort.PHOTO or field.from_photo}
        last: dict[str, str] = {}
        for entry in self.entries(kind=kind, standing=True, limit=_LOOKED_BACK):
            for key, text in entry.typed.items():
                if isinstance(text, str) and key not in left_out:
                    last.setdefault(key, text)
        return last

    def keep_photo(self, jpeg: bytes, *, width: int, height: int, at: str, taken: str = "") -> str:
        """Store a photo: the file first, whole or not at all, then its row. Storing it twice changes nothing.

        Args:
            jpeg: the file's content
            width: in pixels
            height: in pixels
            at: now, ISO 8601 in UTC
            taken: when it was taken, as the camera says; may be empty

        Returns:
            its name, for the field of an entry

        Raises:
            StoreError, NewerFileError: it cannot be written.
        """
        with self.writing() as connection:
            return store_photo(connection, self.folder, jpeg, Photo("", at, width, height, taken))

    def photo(self, name: str) -> Photo:
        """What is known of a stored photo.

        Raises:
            NotFoundError: there is none of that name.
            StoreError, NewerFileError: the log cannot be read.
        """
        with self._reading() as connection:
            return photo_named(connection, name)

    def photos(self) -> tuple[Photo, ...]:
        """All stored photos, in the order of their names.

        Raises:
            StoreError, NewerFileError: the log cannot be read.
        """
        with self._reading() as connection:
            return photos_in(connection)

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """A connection with everything done through it written in one go at the end, or nothing of it.

        Raises:
            StoreError, NewerFileError: it cannot be written.
        """
        with self._one_writer, in_plain_words(self.path), self._lent(to_write=True) as connection:
            connection.execute("BEGIN IMMEDIATE")
            yield connection
            connection.execute("COMMIT")
            self._wrote = True

    @contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        with in_plain_words(self.path), self._lent(to_write=False) as connection:
            try:
                yield connection
            except (ValueError, KeyError, TypeError) as fault:
                raise StoreError(f"{self.path} holds a damaged entry; 'pinfold log check' tells which") from fault

    @contextmanager
    def _lent(self, *, to_write: bool) -> Iterator[sqlite3.Connection]:
        """A connection of one's own for a while; one that met trouble is closed, which undoes its work."""
        connection = self._kept_open() or (open_to_write(self.path) if to_write else open_to_read(self.path))
        try:
            before = identity(self.path)
            yield connection
        except BaseException:
            if to_write:
                connection.close()
            else:
                close_untouched(connection, self.path)
            raise
        if before and lasts(connection):
            self._idle.append((before, connection))
        else:
            connection.close()

    def _kept_open(self) -> sqlite3.Connection | None:
        """One that nobody uses; those of a file that was moved away meanwhile are closed."""
        while idle := self._taken_from_idle():
            of_file, connection = idle
            if of_file == identity(self.path):
                return connection
            connection.close()
        return None

    def _taken_from_idle(self) -> tuple[tuple[int, int], sqlite3.Connection] | None:
        try:
            return self._idle.pop()
        except IndexError:  # asking first would not do: another thread may take the last one meanwhile
            return None


def open_log(folder: Path) -> Log:
    """The log of a site folder; empty, and no file made, where there is none yet."""
    return Log(folder)


__all__ = ["Log", "LogPage", "Photo", "Receipt", "Which", "open_log"]
