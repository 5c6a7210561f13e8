"""Writing files whole or not at all, and reading them with one clear line when that fails."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from pinfold.errors import NotFoundError, StoreError

MOST_BYTES = 4_000_000
"""A plan or list larger than this is no plan of ours; refusing it keeps a wrong file from hanging the program."""


_UMASK = os.umask(0)
os.umask(_UMASK)


def read_text(path: Path) -> str:
    """The text of a file.

    Raises:
        NotFoundError: there is no such file.
        StoreError: it cannot be read, is too large, or is no UTF-8 text.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            raise StoreError(f"{path} is larger than {MOST_BYTES // 1_000_000} MB; that is no file of a site folder")
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise NotFoundError(f"there is no {path}; 'pinfold new FOLDER' starts a site folder") from None
    except UnicodeDecodeError as fault:
        raise StoreError(f"{path} is not text in UTF-8 (byte {fault.start}); save it as UTF-8") from None
    except OSError as fault:
        if isinstance(fault, StoreError):
            raise
        raise StoreError(f"{path} cannot be read: {_reason(fault)}") from None


def write_bytes(path: Path, content: bytes, *, make_folder: bool = False, private: bool = False) -> None:
    """Put a file in place whole: a temporary file beside it, flushed to disk, then renamed over it.

    Args:
        path: where; a link is followed, what is no plain file is left alone
        content: all of it
        make_folder: make the folder it goes to when it is not there
        private: for its owner's eyes alone, and the folder that is made for it too

    Raises:
        StoreError: the folder cannot be written, the disk is full, or something other than a file stands there; what
            stood there before still stands.
    """
    place, name = Path(os.path.realpath(path)), ""
    if place.exists() and not place.is_file():
        raise StoreError(f"{path} cannot be written: it is no plain file")
    try:
        if make_folder:
            place.parent.mkdir(parents=True, exist_ok=True, mode=0o700 if private else 0o777)
        handle, name = tempfile.mkstemp(prefix=f".{place.name}.", dir=place.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o600 if private else 0o666 & ~_UMASK)
        os.replace(name, place)
        name = ""
    except OSError as fault:
        raise StoreError(f"{path} cannot be written: {_reason(fault)}; what was there before is untouched") from None
    finally:
        if name:
            with suppress(OSError):
                os.unlink(name)


def remove(paths: Iterable[Path]) -> None:
    """Take files away; one that is gone already is no fault.

    Raises:
        StoreError: one cannot be removed.
    """
    for path in paths:
        try:
            path.unlink(missing_ok=True)
        except OSError as fault:
            raise StoreError(f"{path} cannot be removed: {_reason(fault)}") from None


def write_text(path: Path, text: str, *, make_folder: bool = False) -> None:
    """The same for text, in UTF-8 with plain line ends.

    Raises:
        StoreError: as `write_bytes`.
    """
    write_bytes(path, text.encode("utf-8"), make_folder=make_folder)


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()
