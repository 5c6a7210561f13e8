"""One entry as a row of the log and back; what is written is hashed twice, as it was sent and as it stands there."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from pinfold.logbook.cells import cell_of
from pinfold.logbook.entries import Amount, Entry, Value, raw_of

COLUMNS = (
    "id", "kind", "at", "at_utc", "who", "device", "corrects", "place", "body", "body_sha", "row_sha", "received",
)  # fmt: skip
_HASHED = tuple(name for name in COLUMNS if name != "row_sha")


def row_of(entry: Entry, *, received: str) -> dict[str, str]:
    """An entry by column."""
    row = {
        "id": entry.id, "kind": entry.kind, "at": entry.at, "at_utc": sortable(entry.when), "who": entry.who,
        "device": entry.device, "corrects": entry.corrects, "place": entry.text("place"),
        "body": _json({"typed": entry.typed, "values": entry.values}), "body_sha": sent_sha(entry),
        "received": received,
    }  # fmt: skip
    return {**row, "row_sha": row_sha(row)}


def entry_in(row: sqlite3.Row | Mapping[str, Any]) -> Entry:
    """The entry that a row holds.

    Raises:
        ValueError, KeyError, TypeError: the row is damaged.
    """
    body = json.loads(row["body"])
    return Entry(
        id=row["id"], kind=row["kind"], at=row["at"], who=row["who"], device=row["device"], corrects=row["corrects"],
        values={key: _value(found) for key, found in body["values"].items()}, typed=body["typed"], seq=row["seq"],
        received=row["received"],
    )  # fmt: skip


def sent_sha(entry: Entry) -> str:
    """Hash of an entry as it was sent: two with one id and one hash are the same entry."""
    return _sha(_json(raw_of(entry)))


def row_sha(row: Mapping[str, str] | sqlite3.Row) -> str:
    """Hash of all columns as they stand."""
    return _sha(_json([row[name] for name in _HASHED]))


def words_of(entry: Entry) -> str:
    """What a search looks into, in small letters."""
    return "\n".join([entry.kind, *map(cell_of, entry.typed.values())]).casefold()


def sortable(when: datetime) -> str:
    """A time in UTC, all of one width so that text order is time order."""
    return when.astimezone(UTC).isoformat(timespec="microseconds")


def _value(found: float | int | str | list[list[object]]) -> Value:
    return tuple(Amount(*amount) for amount in found) if isinstance(found, list) else found  # type: ignore[arg-type]


def _json(found: object) -> str:
    return json.dumps(found, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _sha(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
