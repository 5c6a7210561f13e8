"""Jacking as the log has it: which support, when, how far, and what has lain in its stack since."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.logbook.entries import Entry
from pinfold.studies.leveling.jacked import Jacked
from pinfold.units import METER, Meter, read

NONE = "none"
"""Typed for a stack without shims."""
_THINNEST, _THICKEST = 0.0002, 0.3


class Jackings(NamedTuple):
    """What was written down of jacking.

    Attributes:
        jacked: in order of time.
        faults: what of it cannot be used, with the reason.
    """

    jacked: tuple[Jacked, ...]
    faults: tuple[str, ...]


def jackings_of(folder: Path, marks: Sequence[str] | None = None) -> Jackings:
    """Jacking that stands in the log.

    Args:
        folder: of the site
        marks: of the supports that are asked for; all where None

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.actions.taking import log_of

    entries = [
        entry for entry in log_of(folder).entries(kind="jacking", standing=True)
        if marks is None or entry.text("mark") in marks
    ]  # fmt: skip
    faults: list[str] = []
    jacked = [_jacked(entry, faults) for entry in sorted(entries, key=lambda each: (each.when, each.seq))]
    return Jackings(tuple(jacked), tuple(faults))


def _jacked(entry: Entry, faults: list[str]) -> Jacked:
    shims = None
    try:
        shims = shims_in(entry.text("shims"))
    except InputError as fault:
        faults.append(f"entry {entry.seq}, shims: {fault.message}; its stack counts as in the plan")
    return Jacked(mark=entry.text("mark"), at=entry.when.timestamp(), lift=entry.number("lift") or 0.0, shims=shims)


def shims_in(text: str) -> tuple[Meter, ...] | None:
    """Thickness of each shim of a stack as typed, with commas between; None where nothing is.

    Raises:
        InputError: one of them is no length, or no shim is that thick.
    """
    if not text.strip():
        return None
    if text.strip().lower() == NONE:
        return ()
    found = tuple(read(part.strip(), like=METER) for part in text.split(",") if part.strip())
    for part, thick in zip((part for part in text.split(",") if part.strip()), found, strict=True):
        if not _THINNEST <= thick <= _THICKEST:
            raise InputError(f"{part.strip()[:20]!r} cannot be; a shim from 0.2 mm to 300 mm (12 in) thick is wanted")
    return found
