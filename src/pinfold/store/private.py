"""Files for the owner's eyes alone: keys, and who is paired."""

from __future__ import annotations

from collections.abc import Iterable
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
    writing.write_bytes(path, content, make_folder=True, private=True)


def remove_private(paths: Iterable[Path]) -> None:
    """Take files away; one that is gone already is no fault.

    Raises:
        StoreError: one cannot be removed.
    """
    writing.remove(paths)


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()
