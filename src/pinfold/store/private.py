"""Files for the owner's eyes alone: keys, and who is paired."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from pinfold.errors import StoreError
from pinfold.store import writing

MOST_BYTES = 1_000_000


def read_private(path: Path) -> bytes | None:
    """The bytes of a file; None when there is none.

    Raises:
        StoreError: it is there but cannot be read, or is too large.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            raise StoreError(f"{path.name} is too large to be ours; take it away")
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as fault:
        if isinstance(fault, StoreError):
            raise
        raise StoreError(f"{path.name} cannot be read: {_reason(fault)}") from None


def write_private(path: Path, content: bytes) -> None:
    """Put a file in place whole, with rights for its owner only; its folder is made likewise when it is not there.

    Raises:
        StoreError: it cannot be written; what stood there before still stands.
    """
    name = ""
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        handle, name = tempfile.mkstemp(prefix=".", suffix=".new", dir=path.parent)  # made with 0600
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.replace(name, path)
        name = ""
    except OSError as fault:
        raise StoreError(f"{path.name} cannot be written: {_reason(fault)}") from None
    finally:
        if name:
            with suppress(OSError):
                os.unlink(name)


def remove_private(paths: Iterable[Path]) -> None:
    """Take files away; one that is gone already is no fault.

    Raises:
        StoreError: one cannot be removed.
    """
    writing.remove(paths)


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()
