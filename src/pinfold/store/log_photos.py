"""Photos of the log: each in a file named by its content, `photos/NAME.jpg`, with a row that says what is known."""

from __future__ import annotations

import hashlib
import sqlite3
from pathlib import Path
from typing import NamedTuple

from pinfold.errors import NotFoundError, StoreError
from pinfold.store.log_file import in_plain_words, settle
from pinfold.store.writing import write_bytes

FOLDER = "photos"
MOST_BYTES = 60_000_000


class Photo(NamedTuple):
    """A stored photo.

    Attributes:
        name: hash of its content.
        at: when it was stored, ISO 8601 in UTC.
        width: in pixels.
        height: in pixels.
        taken: when it was taken, as the camera said; may be empty.
    """

    name: str
    at: str
    width: int
    height: int
    taken: str


def photo_file(folder: Path, name: str) -> Path:
    """Where a photo lies in a site folder."""
    return folder / FOLDER / f"{name}.jpg"


def picture_bytes(path: Path) -> bytes:
    """The content of a picture that somebody wants to keep.

    Raises:
        NotFoundError: there is no such file.
        StoreError: it cannot be read or is too large for a picture.
    """
    if not path.is_file():
        raise NotFoundError(f"there is no picture {path}")
    with in_plain_words(path):
        if path.stat().st_size > MOST_BYTES:
            raise StoreError(f"{path} is larger than {MOST_BYTES // 1_000_000} MB; that is no photo")
        return path.read_bytes()


def photo_name(jpeg: bytes) -> str:
    """The name of a content."""
    return hashlib.sha256(jpeg).hexdigest()


def store_photo(connection: sqlite3.Connection, folder: Path, jpeg: bytes, photo: Photo) -> str:
    """Put the file in place, then the row; what is there already stays as it is.

    Args:
        connection: in a transaction
        folder: of the site
        jpeg: the content
        photo: what is known; its name is not looked at

    Returns:
        the name

    Raises:
        StoreError: the file cannot be written.
    """
    name = photo_name(jpeg)
    file = photo_file(folder, name)
    if not file.exists() or file.stat().st_size != len(jpeg) or photo_name(file.read_bytes()) != name:
        fresh = not file.parent.exists()
        write_bytes(file, jpeg, make_folder=True)
        settle(file.parent)
        if fresh:
            settle(folder)
    connection.execute(
        "INSERT INTO photo(name, at, width, height, taken) VALUES(?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
        photo._replace(name=name),
    )
    return name


def photo_named(connection: sqlite3.Connection, name: str) -> Photo:
    """What is known of one.

    Raises:
        NotFoundError: there is none of that name.
    """
    row = connection.execute("SELECT * FROM photo WHERE name = ?", [name]).fetchone()
    if row is None:
        raise NotFoundError(f"there is no photo {name[:64]!r} in the log")
    return Photo(*row)


def photos_in(connection: sqlite3.Connection) -> tuple[Photo, ...]:
    """All of them, in the order of their names."""
    return tuple(Photo(*row) for row in connection.execute("SELECT * FROM photo ORDER BY name"))
