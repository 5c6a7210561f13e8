"""A log of any length, as years of work would leave it: made quickly, entry by entry as the log itself writes them."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta

from pinfold.logbook.entries import entry_of
from pinfold.store.log import open_log
from pinfold.store.log_rows import COLUMNS, row_of, sortable, words_of

_ROUND = 3001
PLACES = ("valley/1a", "lane/1b", "bend/1", "hill/1", "store side/3")
MIXES = (
    ("concrete-footing", "footing"),
    ("mortar-O", "mortar"),
    ("lime-plaster", "coat"),
    ("stabilized-earth", "wall"),
)


def long_log(folder, count, *, seed=7):
    """Write `count` entries; every fiftieth corrects the one before it.

    What they say comes round again after a while, and their hashes are those of the first round: pages look at neither.
    """
    chance = random.Random(seed)
    start = datetime(2021, 3, 1, 8, tzinfo=UTC)
    pattern = [_made(chance, number) for number in range(1, _ROUND + 1)]
    rows, words, stands = [], [], []
    for number in range(1, count + 1):
        row, said = pattern[number % _ROUND]
        if number % 50 == 0:
            row, said = pattern[(number - 1) % _ROUND]
            row = {**row, "corrects": f"made-{number - 1:08}"}
            stands.pop()
        at = start + timedelta(minutes=20 * number)
        row = {**row, "id": f"made-{number:08}", "at": at.isoformat(), "at_utc": sortable(at)}
        rows.append([row[name] for name in COLUMNS])
        words.append((number, said))
        stands.append((number,))
    with open_log(folder) as log, log.writing() as connection:
        marks = ", ".join("?" for _ in COLUMNS)
        connection.executemany(f"INSERT INTO entry({', '.join(COLUMNS)}) VALUES({marks})", rows)
        connection.executemany("INSERT INTO said(seq, words) VALUES(?, ?)", words)
        connection.executemany("INSERT INTO stands(seq) VALUES(?)", stands)


def _made(chance, number):
    kind, fields = _said(chance, number)
    entry = entry_of({"id": f"made-{number:08}", "kind": kind, "at": "2021-03-01T08:00+00:00", "device": "phone",
                      "who": chance.choice(("Ana", "Rui")), "fields": fields})  # fmt: skip
    return row_of(entry, received="2021-03-01T08:00:00.000+00:00"), words_of(entry)


def _said(chance, number):
    draw = chance.random()
    if draw < 0.5:
        mix, layer = chance.choice(MIXES)
        amounts = [["sand", f"{chance.randint(2, 9)} bucket"], ["water", f"{chance.randint(8, 18)} L"]]
        return "batch", {"mix": mix, "layer": layer, "batches": "1", "amounts": amounts, "place": chance.choice(PLACES)}
    if draw < 0.7:
        return "hours", {"time": f"{chance.randint(1, 9)} h", "people": "2", "place": chance.choice(PLACES)}
    if draw < 0.8:
        return "crack", {"mark": f"C{chance.randint(1, 40)}", "width": f"{chance.random():.2f} mm"}
    return "note", {"text": f"note {number} on the work of the day", "place": chance.choice(PLACES)}
