"""The log with 100,000 entries: its pages, filters, counts and appends beside the same bytes in a bare table."""

from __future__ import annotations

import itertools
import random
import sqlite3
import statistics
import tempfile
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

from pinfold.logbook.entries import Entry, entry_of
from pinfold.store.log import Log, open_log
from pinfold.store.log_rows import row_of

ENTRIES = 100_000
PAGE = 50
BATCH = 20
NOW = "2026-05-03T12:20:00+00:00"
_START = datetime(2024, 1, 1, tzinfo=UTC)
_PLACES = [f"south {number}" for number in range(40)]


def rows() -> list[tuple[str, str, str, str]]:
    """Rows for the table of speeds: what, measured, beside, target."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with open_log(folder) as log, closing(sqlite3.connect(folder / "bare.sqlite", isolation_level=None)) as bare:
            _fill(log, bare)
            return [*_reading(log, bare), *_writing(log, bare)]


def entry(number: int) -> Entry:
    """A made-up entry, every twentieth a correction of the one before."""
    dice = random.Random(number)
    at = (_START + timedelta(minutes=10 * number)).isoformat()
    kind, fields = dice.choice(
        (
            ("batch", {"mix": "earth-plaster", "amounts": [["sand", "10 bucket"], ["water", "14 L"]],
                       "place": dice.choice(_PLACES)}),
            ("crack", {"mark": f"C{dice.randrange(30)}", "width": f"0.{dice.randrange(10, 99)} mm",
                       "place": dice.choice(_PLACES)}),
            ("hours", {"time": f"{dice.randrange(1, 9)} h", "people": "2", "layer": "laying"}),
            ("note", {"text": f"Rain came at {dice.randrange(24)} and the north end stayed wet {number}"}),
        )
    )  # fmt: skip
    raw = {"id": f"bench-{number:08}", "kind": kind, "at": at, "who": "ana", "device": "phone", "fields": fields}
    return entry_of({**raw, "corrects": f"bench-{number - 1:08}"} if number % 20 == 7 else raw)


def _fill(log: Log, bare: sqlite3.Connection) -> None:
    bare.execute("PRAGMA journal_mode = WAL")
    bare.execute("PRAGMA synchronous = FULL")
    bare.execute("CREATE TABLE entry(seq INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, body TEXT NOT NULL) STRICT")
    for start in range(0, ENTRIES, 10_000):
        some = [entry(number) for number in range(start, start + 10_000)]
        log.append(some, received=NOW)
        _append_bare(bare, some)


def _append_bare(bare: sqlite3.Connection, entries: Sequence[Entry]) -> None:
    bare.execute("BEGIN IMMEDIATE")
    for each in entries:
        row = row_of(each, received=NOW)
        bare.execute("INSERT INTO entry(id, body) VALUES(?, ?)", [each.id, "".join(row.values())])
    bare.execute("COMMIT")


def _reading(log: Log, bare: sqlite3.Connection) -> list[tuple[str, str, str, str]]:
    def page() -> object:
        return bare.execute("SELECT * FROM entry ORDER BY seq DESC LIMIT ?", [PAGE]).fetchall()

    def count() -> object:
        return bare.execute("SELECT count(*) FROM entry").fetchone()

    since, until = _START + timedelta(days=300), _START + timedelta(days=310)
    middle = ENTRIES // 2
    asked: list[tuple[str, Callable[[], object], Callable[[], object], str]] = [
        ("newest page", lambda: log.entries(limit=PAGE), page, "≤ 20 ms"),
        ("page in the middle, only what stands",
         lambda: log.entries(limit=PAGE, standing=True, before_seq=middle), page, "≤ 20 ms"),
        ("page of one kind", lambda: log.entries(limit=PAGE, standing=True, kind="crack"), page, "≤ 20 ms"),
        ("page of one place and kind",
         lambda: log.entries(limit=PAGE, standing=True, kind="crack", place="south 7"), page, "≤ 20 ms"),
        ("page of ten days", lambda: log.entries(limit=PAGE, standing=True, since=since, until=until), page, "≤ 20 ms"),
        ("page since the first day", lambda: log.entries(limit=PAGE, standing=True, since=_START), page, "≤ 20 ms"),
        ("words found often", lambda: log.entries(limit=PAGE, text="north END"), page, "≤ 20 ms"),
        ("words found nowhere", lambda: log.entries(limit=PAGE, text="no such words"), page, "none set"),
        ("count of all", log.count, count, "≤ 20 ms"),
        ("count of one kind that stand", lambda: log.count(kind="crack", standing=True), count, "none set"),
        ("form's last values", lambda: log.last_values("batch"), page, "≤ 20 ms"),
    ]  # fmt: skip
    return [
        (f"log of {ENTRIES:,}: {name}", _ms(ours), f"{ours / floor:.1f} × a bare {_like(beside, page)}", target)
        for name, work, beside, target in asked
        for ours, floor in [(_seconds(work), _seconds(beside))]
    ]


def _like(beside: object, page: object) -> str:
    return f"select of {PAGE} rows" if beside is page else "count"


def _writing(log: Log, bare: sqlite3.Connection) -> list[tuple[str, str, str, str]]:
    fresh = itertools.count(ENTRIES)
    batches = [[entry(next(fresh)) for _ in range(BATCH)] for _ in range(60)]
    ours = [_once(partial(log.append, some, received=NOW)) for some in batches]
    floor = [_once(partial(_append_bare, bare, some)) for some in batches]
    again = [_once(partial(log.append, some, received=NOW)) for some in batches]
    plain = statistics.median(floor)
    return [
        (f"log of {ENTRIES:,}: {name}", _ms(median), f"{median / plain:.1f} × a bare insert of {BATCH} rows", target)
        for name, median, target in (
            (f"append of {BATCH}, on the disk", statistics.median(ours), "≤ 20 ms"),
            (f"the same {BATCH} sent again", statistics.median(again), "≤ 20 ms"),
        )
    ]


def _seconds(work: Callable[[], object]) -> float:
    work()
    return statistics.median(_once(work) for _ in range(9))


def _once(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.2f} ms"


if __name__ == "__main__":
    for row in rows():
        print(f"| {' | '.join(row)} |")
