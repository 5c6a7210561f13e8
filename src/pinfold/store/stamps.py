"""What changes when a file is written anew, so that what was read from it can be kept until then."""

from __future__ import annotations

from pathlib import Path

Stamp = tuple[int, int, int]
"""Time of the last change in ns, bytes, and number of the file, which a file put in its place has not."""


def stamp_of(path: Path) -> Stamp | None:
    """The stamp of a file; None where there is none that can be looked at."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino
