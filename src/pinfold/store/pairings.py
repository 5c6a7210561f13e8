"""Which devices may see a site folder: a dot file in it that holds no token, only what proves one."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path

from pinfold.errors import StoreError
from pinfold.store.private import read_private, write_private

NAME = ".pairings.json"
FORMAT = 1
MOST_DEVICES = 50
_PROOF = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, kw_only=True)
class Device:
    """A phone or tablet that was paired.

    Attributes:
        name: what its owner calls it; entries that it sends carry it.
        proof: SHA-256 of its token, in hex; the token itself is known to the device only.
        paired: day it was paired.
        seen: day it last asked for something.
    """

    name: str
    proof: str
    paired: date
    seen: date

    @property
    def mark(self) -> str:
        """Short name of it among the paired, for a form that unpairs it."""
        return self.proof[:12]


def read_pairings(folder: Path) -> tuple[Device, ...]:
    """All paired devices of a site folder, in the order they were paired.

    Raises:
        StoreError: the file is there but is none of ours.
    """
    content = read_private(folder / NAME)
    if content is None:
        return ()
    try:
        record = json.loads(content)
        if record["format"] != FORMAT:
            raise ValueError
        return tuple(_device(each) for each in record["devices"])
    except (ValueError, KeyError, TypeError, RecursionError):
        raise StoreError(f"{NAME} is damaged or of a later pinfold; remove it, then pair the phones anew") from None


def _device(record: dict[str, str]) -> Device:
    if not (isinstance(record["name"], str) and _PROOF.fullmatch(record["proof"])):
        raise ValueError
    paired, seen = date.fromisoformat(record["paired"]), date.fromisoformat(record["seen"])
    return Device(name=record["name"], proof=record["proof"], paired=paired, seen=seen)


def write_pairings(folder: Path, devices: Iterable[Device]) -> None:
    """Keep them, for the owner's eyes only.

    Raises:
        StoreError: as `write_private`.
    """
    record = {"format": FORMAT, "devices": [asdict(device) for device in devices]}
    write_private(folder / NAME, json.dumps(record, indent=1, default=date.isoformat).encode())
