"""Ten phones that write a hundred entries each, at once and more than once: all of them are in the log, once."""

from __future__ import annotations

import http.client
import json
import threading

from pinfold.actions import pairing
from pinfold.actions.taking import log_of
from pinfold.store import starting
from pinfold.web.guard import token_of
from pinfold.web.listening import Asked, listen
from pinfold.web.pairing import Caller

PHONES, ENTRIES, AT_ONCE = 10, 100, 20


def test_ten_phones_at_once_lose_and_double_nothing(tmp_path):
    folder = tmp_path / "plot"
    starting.from_sample(folder, "seed-garden")
    found, ready = [], threading.Event()
    server = threading.Thread(
        target=listen,
        args=(Asked(folder=folder, port=0), lambda line: None, lambda it: (found.append(it), ready.set())),
    )
    server.start()
    assert ready.wait(20)
    states: list[list[str]] = [[] for _ in range(PHONES)]
    phones = [threading.Thread(target=write, args=(found[0], number, states[number])) for number in range(PHONES)]
    for phone in phones:
        phone.start()
    for phone in phones:
        phone.join(60)
    found[0].stop()
    server.join(15)
    assert all(each.count("new") == ENTRIES and each.count("known") == ENTRIES for each in states), states
    entries = log_of(folder).entries()
    assert len(entries) == PHONES * ENTRIES
    assert len({entry.id for entry in entries}) == PHONES * ENTRIES
    assert sorted(entry.seq for entry in entries) == list(range(1, PHONES * ENTRIES + 1))


def write(running, number, states):
    """One phone: its entries in batches, each batch sent twice, as after a lost answer."""
    host = running.url.removeprefix("http://").strip("/")
    line = http.client.HTTPConnection(host, timeout=60)
    headers = {
        "Content-Type": "application/json",
        "Origin": f"http://{host}",
        "X-Pinfold-Token": token_of(running.desk),
    }
    for first in range(0, ENTRIES, AT_ONCE):
        entries = [entry(number, place) for place in range(first, first + AT_ONCE)]
        for _ in range(2):
            line.request("POST", "/api/log", body=json.dumps({"entries": entries}), headers=headers)
            answer = line.getresponse()
            body = json.loads(answer.read())
            assert answer.status == 200, body
            states += [receipt["state"] for receipt in body["receipts"]]
    line.close()


def entry(number, place):
    return {
        "id": f"phone-{number}-entry-{place}", "kind": "batch", "at": "2026-05-03T14:20:05+02:00", "who": "Ada",
        "device": f"phone {number}", "fields": {"mix": "scratch", "batches": "1"},
    }  # fmt: skip


def test_ten_phones_paired_at_once_are_told_apart(tmp_path):
    tokens: dict[int, str] = {}
    threads = [
        threading.Thread(target=lambda n=n: tokens.update({n: pairing.pair_device(tmp_path, f"phone {n}")}))
        for n in range(PHONES)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    names = {number: pairing.device_with(tmp_path, token).name for number, token in tokens.items()}
    assert names == {number: f"phone {number}" for number in range(PHONES)}
    assert len({Caller(proof=device.proof).proof for device in pairing.devices(tmp_path)}) == PHONES
