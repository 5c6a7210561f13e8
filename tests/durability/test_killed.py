"""A program that writes in the log is killed with SIGKILL, over a thousand times: nothing acknowledged is ever lost."""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import pytest

from pinfold.errors import StoreError
from pinfold.logbook.entries import entry_of
from pinfold.store.log import open_log
from pinfold.store.log_check import check
from pinfold.store.log_file import NAME

WRITER = Path(__file__).with_name("writer.py")
MEMORY = Path("/dev/shm")
"""Killing a program loses nothing the kernel has; so a folder in memory will do, and is quick."""
NOW = "2026-05-03T12:20:00+00:00"


@pytest.fixture
def quick():
    place = MEMORY if os.access(MEMORY, os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=place) as folder:
        yield Path(folder)


def started(folder, seed, runs, mode):
    command = [sys.executable, str(WRITER), str(folder), str(seed), str(runs), mode]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def told(program):
    out, err = program.communicate(timeout=900)
    assert program.returncode == 0, (program.args, err)
    return json.loads(out)


@pytest.mark.slow
def test_over_a_thousand_kills_lose_nothing_acknowledged_double_nothing_and_leave_a_log_that_checks(quick, tmp_path):
    seed = random.SystemRandom().randrange(10**6)
    both = [started(quick, seed, 640, "points"), started(quick, seed + 1, 320, "moments")]
    on_disk = started(tmp_path, seed + 2, 60, "moments")
    points, moments, disk = [told(program) for program in (*both, on_disk)]

    assert points["runs"] + moments["runs"] + disk["runs"] > 1000
    assert points["amid"] > 400
    assert moments["amid"] > 100


@pytest.mark.slow
def test_a_kill_at_each_single_point_of_a_job_loses_nothing(quick):
    found = told(started(quick, 0, 0, "sweep"))

    steps = {
        "BEGIN IMMEDIATE", "INSERT INTO entry", "INSERT INTO stands", "INSERT INTO said", "INSERT INTO photo", "COMMIT",
        "mkstemp", "fsync", "rename", "CREATE TABLE entry", "PRAGMA user_version =", "PRAGMA journal_mode =",
    }  # fmt: skip
    assert {f"{side} {step}" for side in ("before", "after") for step in steps} <= set(found["died"])
    assert found["amid"] > 100


def note(number):
    head = {"id": f"note-{number:05}", "kind": "note", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "pc"}
    return entry_of({**head, "fields": {"text": f"{number} " * 40}})


def torn(tmp_path):
    """A log whose latest batches are in its journal only, as before a power cut: the two files, batches of 3."""
    source = tmp_path / "source"
    source.mkdir()
    with open_log(source) as log:
        for start in range(0, 60, 3):
            log.append([note(number) for number in range(start, start + 3)], received=NOW)
        return {each.name: each.read_bytes() for each in source.iterdir() if each.name in (NAME, NAME + "-wal")}


def test_a_journal_that_a_power_cut_tore_anywhere_gives_the_batches_before_whole(tmp_path):
    files = torn(tmp_path)
    journal = files[NAME + "-wal"]
    dice, found = random.Random(4), set()
    for turn, length in enumerate([0, len(journal), *(dice.randrange(len(journal)) for _ in range(60))]):
        folder = tmp_path / str(turn)
        folder.mkdir()
        (folder / NAME).write_bytes(files[NAME])
        (folder / f"{NAME}-wal").write_bytes(journal[:length])
        with open_log(folder) as log:
            entries = log.entries(newest_first=False)
            assert [entry.id for entry in entries] == [note(number).id for number in range(len(entries))]
            assert len(entries) % 3 == 0
            log.append([note(number) for number in range(60)], received=NOW)
            assert log.count() == 60
        assert check(folder) == ()
        found.add(len(entries))
        shutil.rmtree(folder)

    assert {0, 60} <= found
    assert len(found) > 10


def test_a_journal_with_a_wrong_letter_anywhere_never_gives_half_a_batch(tmp_path):
    files = torn(tmp_path)
    dice = random.Random(5)
    for turn in range(40):
        folder = tmp_path / str(turn)
        folder.mkdir()
        journal = bytearray(files[NAME + "-wal"])
        journal[dice.randrange(len(journal))] ^= 1 << dice.randrange(8)
        (folder / NAME).write_bytes(files[NAME])
        (folder / f"{NAME}-wal").write_bytes(journal)
        with open_log(folder) as log:
            assert log.count() % 3 == 0
        assert check(folder) == ()


def test_a_flipped_bit_in_the_file_is_told_or_changes_nothing(tmp_path):
    source = tmp_path / "whole"
    source.mkdir()
    with open_log(source) as log:
        log.append([note(number) for number in range(60)], received=NOW)
        good = log.entries()
    whole = (source / NAME).read_bytes()
    dice, told_of = random.Random(6), 0
    for turn in range(120):
        folder = tmp_path / str(turn)
        folder.mkdir()
        content = bytearray(whole)
        content[dice.randrange(100, len(content))] ^= 1 << dice.randrange(8)
        (folder / NAME).write_bytes(content)
        complaints = check(folder)
        told_of += bool(complaints)
        if not complaints:
            with open_log(folder) as log:
                assert log.entries() == good
            continue
        with open_log(folder) as log, suppress(StoreError):  # and nothing that is not in plain words
            wrong = unlike(good, log.entries())
            assert "is damaged" in str(complaints) or wrong <= named(complaints), (complaints, wrong)
    assert told_of > 40


def unlike(good, found):
    """Places of the entries that are not what was written, that are gone, or that never were."""
    return {entry.seq for entry in {*map(Told.of, good)} ^ {*map(Told.of, found)}}


def named(complaints):
    """Places of the entries that a check told of one by one."""
    return {int(seq) for seq in re.findall(r"^entry (\d+) ", "\n".join(complaints), re.MULTILINE)}


class Told(NamedTuple):
    """All of an entry, to be put in sets."""

    seq: int
    words: str

    @classmethod
    def of(cls, entry):
        return cls(entry.seq, repr(entry))
