"""Where a site was last served in the home network: a dot file in it, so that cards printed later can say it."""

from __future__ import annotations

import json
import re
from pathlib import Path

from pinfold.store.private import read_private, write_private

NAME = ".served.json"
FORMAT = 1
_ADDRESS = re.compile(r"https?://[A-Za-z0-9.-]{1,100}:\d{1,5}/")


def read_served(folder: Path) -> str:
    """The address; empty where it never was, or where the file is none of ours.

    Raises:
        StoreError: it cannot be read.
    """
    content = read_private(folder / NAME)
    try:
        record = json.loads(content or b"{}")
        address = record["address"] if record["format"] == FORMAT else ""
    except (ValueError, KeyError, TypeError, RecursionError):
        return ""
    return address if isinstance(address, str) and _ADDRESS.fullmatch(address) else ""


def write_served(folder: Path, address: str) -> None:
    """Keep the address.

    Raises:
        StoreError: as `write_private`.
    """
    write_private(folder / NAME, json.dumps({"format": FORMAT, "address": address}).encode())
