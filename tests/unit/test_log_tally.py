"""Counting the batches in the log, while others write, ask, or put another log in its place."""

from __future__ import annotations

import shutil
import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from pinfold.actions import log_following, log_tally
from pinfold.actions.log_tally import batch_key, batches_logged
from pinfold.errors import StoreError
from pinfold.logbook.entries import entry_of
from pinfold.store.log import Log, open_log
from pinfold.store.log_file import NAME

NOW = "2026-05-03T12:20:00+00:00"


@pytest.fixture(autouse=True)
def patient(monkeypatch):
    monkeypatch.setattr(log_following, "PATIENCE_S", 5.0)


def batch(number, mix="earth", batches="1", corrects=""):
    head = {"id": f"batch-{number:05}", "kind": "batch", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "pc"}
    return entry_of({**head, "corrects": corrects, "fields": {"mix": mix, "layer": "base", "batches": batches}})


def written(folder, *entries):
    folder.mkdir(exist_ok=True)
    with open_log(folder) as log:
        log.append(entries, received=NOW)


def test_batches_are_counted_as_they_stand_and_go_on_from_there(tmp_path):
    assert batches_logged(tmp_path) == {}
    written(tmp_path, batch(1, batches="2"), batch(2, "lime"))
    assert batches_logged(tmp_path) == {batch_key("earth", "base"): 2, batch_key("lime", "base"): 1}
    written(tmp_path, batch(3, batches="5", corrects="batch-00001"), batch(4, "clay", corrects="batch-00002"))
    assert batches_logged(tmp_path) == {batch_key("earth", "base"): 5, batch_key("clay", "base"): 1}


@pytest.mark.parametrize("entries", [2, 3, 7])
def test_another_log_in_place_of_the_one_counted_is_counted_anew_however_long_it_is(tmp_path, entries):
    site, other = tmp_path / "site", tmp_path / "other"
    written(site, *(batch(number) for number in range(3)))
    written(other, *(batch(number, "lime") for number in range(entries)))
    assert batches_logged(site) == {batch_key("earth", "base"): 3}
    shutil.copy(other / NAME, site / "incoming")
    (site / "incoming").replace(site / NAME)

    assert batches_logged(site) == {batch_key("lime", "base"): entries}


def test_another_log_written_into_the_same_file_is_counted_anew(tmp_path):
    site, other = tmp_path / "site", tmp_path / "other"
    written(site, *(batch(number) for number in range(3)))
    written(other, *(batch(number + 50, "lime") for number in range(6)))
    assert batches_logged(site) == {batch_key("earth", "base"): 3}
    log_tally._tally_of(site)._log.close()
    (site / NAME).write_bytes((other / NAME).read_bytes())

    assert batches_logged(site) == {batch_key("lime", "base"): 6}


def test_a_log_that_cannot_be_read_is_told_and_counted_again_once_it_can(tmp_path):
    written(tmp_path, batch(1))
    good = (tmp_path / NAME).read_bytes()
    (tmp_path / NAME).write_bytes(b"no log of anything" * 400)
    for _ in range(2):
        with pytest.raises(StoreError, match="damaged"):
            batches_logged(tmp_path)
    (tmp_path / NAME).write_bytes(good)

    assert batches_logged(tmp_path) == {batch_key("earth", "base"): 1}


@pytest.mark.parametrize("take_away", [shutil.rmtree, lambda folder: folder.rename(folder.with_name("elsewhere"))])
def test_a_folder_that_goes_away_while_its_log_is_counted_is_told_and_leaves_no_trace(tmp_path, monkeypatch, take_away):
    site, traces = tmp_path / "site", []
    written(site, batch(1), batch(2, corrects="batch-00001"))
    really = Log.entries

    def last_sight(self, **which):
        found = really(self, **which)
        take_away(site)
        return found

    monkeypatch.setattr(threading, "excepthook", traces.append)
    monkeypatch.setattr(Log, "entries", last_sight)
    with pytest.raises(StoreError, match="while it was counted"):
        batches_logged(site)
    monkeypatch.setattr(Log, "entries", really)

    assert batches_logged(site) == {}, "there is no log there any more"
    written(site, batch(3))
    assert batches_logged(site) == {batch_key("earth", "base"): 1}
    assert traces == []


def test_trouble_met_after_patience_ran_out_is_told_to_who_asks_next(tmp_path, monkeypatch):
    go, met = threading.Event(), threading.Event()

    def stopped(*_, **__):
        go.wait(5)
        met.set()
        raise StoreError("the disk does not answer")

    monkeypatch.setattr(Log, "entries", stopped)
    monkeypatch.setattr(log_following, "PATIENCE_S", 0.0)
    assert batches_logged(tmp_path) is None
    go.set()
    assert met.wait(5)
    tally = log_tally._tally_of(tmp_path)
    with tally._turn:
        tally._turn.wait_for(lambda: not tally._counting, 5)
    go.clear()
    with pytest.raises(StoreError, match="does not answer"):
        batches_logged(tmp_path)
    go.set()


def test_one_thread_counts_for_all_who_ask_and_none_of_them_sees_half_a_count(tmp_path, monkeypatch):
    written(tmp_path, *(batch(number) for number in range(40)))
    monkeypatch.setattr(log_following, "AT_ONCE", 5)
    monkeypatch.setattr(log_following, "PATIENCE_S", 0.005)
    really, threads, asking = Log.entries, [], 8
    most = threading.active_count() + asking + 3  # who asks, who counts, and one or two that are just going

    def slow(self, **which):
        threads.append(threading.active_count())
        threading.Event().wait(0.001)
        return really(self, **which)

    def asked(turn):
        if turn % 20 == 19:  # forty more at once
            written(tmp_path, *(batch(turn * 100 + number) for number in range(40)))
        return batches_logged(tmp_path)

    monkeypatch.setattr(Log, "entries", slow)
    with ThreadPoolExecutor(asking) as crowd:
        answers = list(crowd.map(asked, range(200)))
    monkeypatch.setattr(log_following, "PATIENCE_S", 5.0)

    assert {each[batch_key("earth", "base")] % 40 for each in answers if each is not None} <= {0}
    assert None in answers
    assert max(threads) <= most
    assert batches_logged(tmp_path) == {batch_key("earth", "base"): 40 * 11}


def test_who_asks_while_a_count_runs_is_told_of_what_was_written_before_asking(tmp_path, monkeypatch):
    written(tmp_path, batch(1))
    really, first, go = Log.entries, threading.Event(), threading.Event()

    def held(self, **which):
        found = really(self, **which)
        first.set()
        go.wait(5)
        return found

    with ThreadPoolExecutor(2) as crowd:
        monkeypatch.setattr(Log, "entries", held)
        one = crowd.submit(batches_logged, tmp_path)
        assert first.wait(5)
        monkeypatch.setattr(Log, "entries", really)
        written(tmp_path, batch(2))
        two = crowd.submit(batches_logged, tmp_path)
        go.set()
        assert one.result() == {batch_key("earth", "base"): 2}
        assert two.result() == {batch_key("earth", "base"): 2}
