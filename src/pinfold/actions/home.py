"""The home certificate's files, in the user's own folder of settings, never in a site folder and never served whole."""

from __future__ import annotations

import os
import sys
from datetime import UTC, datetime
from pathlib import Path

from pinfold.errors import StoreError
from pinfold.store.private import read_private, remove_private, write_private

FILES = ("ca.pem", "ca.key", "leaf.pem", "leaf.key")
"""The authority's certificate, which phones may have; its key, which nobody may; the server's own pair."""


def folder() -> Path:
    """Where they lie.

    Raises:
        StoreError: this user has no home folder.
    """
    try:
        home = Path.home()
    except RuntimeError:
        raise StoreError("this user has no home folder to keep the home certificate in") from None
    if sys.platform == "win32":
        base = os.environ.get("APPDATA") or str(home / "AppData" / "Roaming")
    else:
        base = os.environ.get("XDG_CONFIG_HOME") or str(home / ".config")
    return Path(base) / "pinfold" / "home"


def kept(name: str) -> bytes | None:
    """One of `FILES`; None when it is not there.

    Raises:
        StoreError: it cannot be read.
    """
    assert name in FILES
    return read_private(folder() / name)


def keep(name: str, content: bytes) -> Path:
    """Write one of `FILES`, for its owner's eyes only, and give where it lies.

    Raises:
        StoreError: it cannot be written.
    """
    assert name in FILES
    write_private(folder() / name, content)
    return folder() / name


def remove() -> None:
    """Take all of them away; phones keep trusting the authority until they are told otherwise.

    Raises:
        StoreError: one cannot be removed.
    """
    remove_private(folder() / name for name in FILES)


def now() -> datetime:
    """The moment, in UTC."""
    return datetime.now(UTC)
