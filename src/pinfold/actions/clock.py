"""What time it is, as the log writes it."""

from __future__ import annotations

from datetime import UTC, datetime


def now_local() -> str:
    """Now by the computer's own zone, to the second with the offset: when a thing happened that is told at once."""
    return datetime.now(UTC).astimezone().isoformat(timespec="seconds")


def received_now() -> str:
    """Now in UTC, to the millisecond: when the log takes a thing."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
