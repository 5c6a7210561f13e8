"""Several programs and several threads that write in one log at once."""

from __future__ import annotations

import subprocess
import sys
import threading

import pytest

from pinfold.logbook.entries import entry_of
from pinfold.store.log import open_log
from pinfold.store.log_check import check

NOW = "2026-05-03T12:20:00+00:00"
PROGRAM = """
import sys
from pathlib import Path
from pinfold.logbook.entries import entry_of
from pinfold.store.log import open_log
folder, name = Path(sys.argv[1]), sys.argv[2]
sys.stdin.readline()
with open_log(folder) as log:
    for number in range(200):
        raw = {"id": f"{name}-{number:05}", "kind": "note", "at": "2026-05-03T14:20+02:00", "who": name,
               "device": name, "fields": {"text": "wet"}}
        shared = {**raw, "id": f"shared-{number:05}", "who": "both", "device": "both"}
        told = log.append([entry_of(raw), entry_of(shared)], received="2026-05-03T12:20:00+00:00")
        print(told[1].outcome)
"""


def note(name, number):
    head = {"id": f"{name}-{number:05}", "kind": "note", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "pc"}
    return entry_of({**head, "fields": {"text": "dry"}})


@pytest.mark.slow
def test_two_programs_of_200_entries_each_that_start_one_log_at_once_lose_and_double_nothing(tmp_path):
    command = [sys.executable, "-c", PROGRAM, str(tmp_path)]
    both = [
        subprocess.Popen([*command, name], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        for name in ("first-one", "other-one")
    ]
    for program in both:
        program.stdin.write("go\n")
        program.stdin.flush()
    outcomes = [program.communicate(timeout=120)[0].split() for program in both]

    assert [program.returncode for program in both] == [0, 0]
    assert [sorted(pair) for pair in zip(*outcomes, strict=True)] == [["known", "new"]] * 200
    with open_log(tmp_path) as log:
        assert log.count() == 600
        assert [log.count(who=name) for name in ("first-one", "other-one", "both")] == [200, 200, 200]
        assert log.tip() == 600
    assert check(tmp_path) == ()


def test_ten_threads_of_100_entries_each_lose_nothing_while_others_read(tmp_path):
    with open_log(tmp_path) as log:
        faults, seen = [], []

        def writing(name):
            try:
                for start in range(0, 100, 4):
                    log.append([note(name, number) for number in range(start, start + 4)], received=NOW)
                    seen.append(len(log.entries(limit=20)) and log.count())
            except Exception as fault:
                faults.append(fault)

        threads = [threading.Thread(target=writing, args=(f"thread-{number}",)) for number in range(10)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

        assert faults == []
        assert all(count % 4 == 0 for count in seen)
        assert (log.count(), log.tip()) == (1000, 1000)
    assert check(tmp_path) == ()
