"""Runs of a program that writes in a log and is killed: `python writer.py FOLDER SEED RUNS points|moments|sweep`.

Each run forks a child that appends random batches and tells through a pipe what was acknowledged. It is killed with
SIGKILL, by itself before or after one statement or one step on the disk (`points`), or from outside at a random moment
(`moments`). A `sweep` kills one and the same small job at its first point, its second and so on to its last. Then the log is opened and held against what was acknowledged, and all is sent once more.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sqlite3
import sys
import tempfile
import time
from functools import partial
from pathlib import Path

from pinfold.logbook.entries import entry_of
from pinfold.store import log_photos
from pinfold.store.log import open_log
from pinfold.store.log_check import check

NOW = "2026-05-03T12:20:00+00:00"
SHARED = 15
"""Runs that go into one log, one after the other."""


def batches_of(dice, run):
    """Batches of entries, some with a photo that is stored before, some corrections of earlier ones."""
    made, batches = [], []
    for _ in range(dice.randint(1, 4)):
        batch = []
        for _ in range(dice.randint(1, 6)):
            name = f"run{run:05}-{len(made):04}"
            raw = {"id": name, "kind": "note", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "phone"}
            raw["fields"] = {"text": "x" * dice.randint(1, 400)}
            photo = b""
            if dice.random() < 0.2:
                photo = dice.randbytes(dice.randint(10, 6000))
                raw |= {"kind": "photo", "fields": {"photo": log_photos.photo_name(photo)}}
            if made and dice.random() < 0.3:
                raw["corrects"] = dice.choice(made)
            made.append(name)
            batch.append((entry_of(raw), photo))
        batches.append(batch)
    return batches


def send(log, batch):
    for _, photo in batch:
        if photo:
            log.keep_photo(photo, width=1, height=1, at=NOW)
    return log.append([entry for entry, _ in batch], received=NOW)


class Points:
    """Counts the points a child passes and kills it at one of them."""

    def __init__(self, last, tell):
        self.left = last
        self.tell = tell

    def passing(self, name):
        self.left -= 1
        if self.left == 0:
            self.tell(f"died {name}")
            os.kill(os.getpid(), signal.SIGKILL)

    def watched(self, name, work):
        def watching(*args, **kwargs):
            self.passing(f"before {name}")
            try:
                return work(*args, **kwargs)
            finally:
                self.passing(f"after {name}")

        return watching


def watch(points):
    """Have every statement and every step on the disk pass two points."""

    class Watched(sqlite3.Connection):
        def execute(self, sql, *args):
            return points.watched(" ".join(sql.split("(")[0].split()[:3]), super().execute)(sql, *args)

        def executemany(self, sql, *args):
            return points.watched(" ".join(sql.split("(")[0].split()[:3]), super().executemany)(sql, *args)

    sqlite3.connect = partial(sqlite3.connect, factory=Watched)
    tempfile.mkstemp = points.watched("mkstemp", tempfile.mkstemp)
    os.replace = points.watched("rename", os.replace)
    os.fsync = points.watched("fsync", os.fsync)


def child(folder, batches, last_point, pipe):
    def tell(line):
        os.write(pipe, f"{line}\n".encode())

    if last_point:
        watch(Points(last_point, tell))
    tell("started")
    with open_log(folder) as log:
        for number, batch in enumerate(batches):
            tell(f"sending {number}")
            send(log, batch)
            tell(f"acknowledged {number}")
    tell("done")
    os._exit(0)


def run_once(folder, batches, dice, mode, point):
    """Lines that the child told before its end."""
    ear, mouth = os.pipe()
    pid = os.fork()
    if not pid:
        os.close(ear)
        child(folder, batches, point, mouth)
    os.close(mouth)
    with os.fdopen(ear) as heard:
        lines = [heard.readline().strip()]
        if mode == "moments":
            time.sleep(dice.random() ** 2 * 0.012 * len(batches))
            os.kill(pid, signal.SIGKILL)
        lines += [line.strip() for line in heard]
    status = os.waitpid(pid, 0)[1]
    assert os.WIFSIGNALED(status) or os.WEXITSTATUS(status) == 0, (lines, status)
    return lines


def verify(folder, batches, lines, before):
    """Nothing acknowledged is lost, no batch is there by half, nothing is doubled, and sending again mends all."""
    acknowledged = [int(line.split()[1]) for line in lines if line.startswith("acknowledged")]
    assert check(folder) == (), check(folder)
    with open_log(folder) as log:
        there = {entry.id: entry for entry in log.entries()}
        assert log.count() == len(there)
        for number, batch in enumerate(batches):
            found = [entry.id in there for entry, _ in batch]
            assert all(found) or not any(found), f"half of batch {number}"
            assert number not in acknowledged or all(found), f"batch {number} was acknowledged and is lost"
        assert before <= set(there), "an earlier run's entries are lost"
        for batch in batches:
            assert {receipt.outcome for receipt in send(log, batch)} <= {"new", "known"}
        sent = {entry.id: entry for batch in batches for entry, _ in batch}
        after = {entry.id: entry for entry in log.entries()}
        assert set(after) == before | set(sent)
        for name, entry in sent.items():
            assert (after[name].values, after[name].typed, after[name].corrects) == (
                entry.values, entry.typed, entry.corrects,
            )  # fmt: skip
        tip = log.tip()
        for batch in batches:
            assert {receipt.outcome for receipt in send(log, batch)} == {"known"}
        assert log.tip() == tip
    assert check(folder) == ()
    return before | set(sent)


def small_job():
    """A photo with its entry, a correction, and the correction's own correction sent before it."""
    photo = b"a picture of the north end"
    head = {"at": "2026-05-03T14:20+02:00", "who": "ana", "device": "phone"}
    note = {**head, "kind": "note", "fields": {"text": "as it was"}}
    shown = {**head, "id": "small-job-1", "kind": "photo", "fields": {"photo": log_photos.photo_name(photo)}}
    return [
        [(entry_of(shown), photo), (entry_of({**note, "id": "small-job-2"}), b"")],
        [
            (entry_of({**note, "id": "small-job-4", "corrects": "small-job-3"}), b""),
            (entry_of({**note, "id": "small-job-3", "corrects": "small-job-2"}), b""),
        ],
    ]


def sweep(folder):
    """Kill the small job at its first point, its second, and so on until it comes to its end."""
    died, lines, point = [], [""], 0
    while lines[-1] != "done":
        point += 1
        place = folder / f"sweep-{point}"
        place.mkdir()
        lines = run_once(place, small_job(), random.Random(0), "sweep", point)
        died += [line.removeprefix("died ") for line in lines if line.startswith("died")]
        verify(place, small_job(), lines, set())
    return died


def many(folder, seed, runs, mode):
    """Random batches, killed at random points or moments."""
    died, amid, before = [], 0, set()
    for run in range(runs):
        dice = random.Random(f"{seed} {run}")
        place = folder / f"{mode}-{seed}-{run // SHARED}"
        if run % SHARED == 0:
            before = set()
            place.mkdir()
        batches = batches_of(dice, run)
        point = dice.randint(1, 60 * len(batches)) if mode == "points" else 0
        lines = run_once(place, batches, dice, mode, point)
        died += [line.removeprefix("died ") for line in lines if line.startswith("died")]
        amid += not lines[-1].startswith("done")
        before = verify(place, batches, lines, before)
    return died, amid


def main(folder, seed, runs, mode):
    """Write out how many runs there were, how many of them were cut off, and at which points."""
    if mode == "sweep":
        died = sweep(folder)
        runs, amid = len(died) + 1, len(died)
    else:
        died, amid = many(folder, seed, runs, mode)
    sys.stdout.write(json.dumps({"runs": runs, "amid": amid, "died": sorted(set(died))}))


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), sys.argv[4])
