"""Every page over a log of 100,000 entries beside a static file, in processor time."""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[1]
MANY = 100_000
PAGES = (
    "/", "/plan", "/stand", "/reckon/lessons", "/mix", "/mix/card/footing%20concrete-footing", "/mix/measures",
    "/mix/strength", "/mix/richer", "/mix/trials", "/gather", "/cut", "/reckon", "/reckon/ledger", "/formula",
    "/binder", "/exports", "/plan/edit", "/cracks", "/phone", "/api/phone/hello", "/log", f"/log?before={MANY // 2}",
    "/log?kind=crack", "/log?who=Rui", "/log?place=hill/1", "/log?text=note+77", "/log?text=nothing+is+like+this",
    f"/log/made-{MANY:08}", f"/log/made-{MANY:08}/correct", "/log/new/batch", f"/api/log/since?seq={MANY - 100}",
    "/log/import",
)  # fmt: skip
AFTER = (
    "/", "/log", "/reckon/lessons", "/mix", "/mix/measures", "/mix/strength", "/mix/richer", "/mix/trials", "/stand",
    "/gather", "/reckon", "/reckon/ledger",
)  # fmt: skip
"""Pages looked at after entries that teach."""
DAYS = ("/days", "/days/job", "/days/sheet/today")
"""Pages that show what was worked out last while the job is laid out anew beside them."""


def rows() -> list[tuple[str, str, str, str]]:
    """What was measured, how long, beside what, and the target."""
    sys.path.insert(0, str(ROOT / "tests"))
    from starlette.testclient import TestClient

    from long_logs import long_log
    from pinfold.store.starting import from_sample
    from pinfold.web.app import make_app
    from pinfold.web.desk import Desk

    with tempfile.TemporaryDirectory() as where:
        folder = Path(where) / "quinta"
        from_sample(folder, "quinta")
        long_log(folder, MANY)
        hosts = frozenset({"127.0.0.1:8765"})
        desk = Desk(folder=folder, hosts=hosts, home=hosts, secret=b"s" * 32)
        with TestClient(make_app(desk), base_url="http://127.0.0.1:8765", client=("127.0.0.1", 1)) as client:
            first = _once(client, "/reckon")
            _settle(client)
            floor = statistics.median(_once(client, f"/static/{desk.version}/mark.svg") for _ in range(9))
            found = {path: min(_once(client, path) for _ in range(4)) for path in PAGES}
            again = _after_entries(client)
            days = {path: _waited_after_an_entry(client, path, 1000 + 10 * turn) for turn, path in enumerate(DAYS)}
    slowest, longest, waited = (max(of, key=lambda path, of=of: of[path]) for of in (found, again, days))
    over = [path for path, took in found.items() if took > 0.1]
    told = f"slowest {slowest}" + (f"; over the target: {', '.join(over)}" if over else "")
    beside = f"{found[slowest] / floor:.0f} × a static file"
    return [
        (f"{len(PAGES)} pages, log of {MANY:,}, {told}", f"{found[slowest] * 1000:.0f} ms", beside, "≤ 100 ms"),
        (f"first page after the start, log of {MANY:,}", f"{first * 1000:.0f} ms",
         f"{first / floor:.0f} × a static file", "none set"),
        (f"{len(AFTER)} pages, each the first after a new entry, log of {MANY:,}, slowest {longest}",
         f"{again[longest] * 1000:.0f} ms", f"{again[longest] / floor:.0f} × a static file", "≤ 100 ms"),
        (f"{len(DAYS)} pages of the days, each the first after a new entry, log of {MANY:,}, by the clock, slowest "
         f"{waited}", f"{days[waited] * 1000:.0f} ms", f"{days[waited] / floor:.0f} × a static file", "≤ 100 ms"),
    ]  # fmt: skip


def _settle(client) -> None:  # type: ignore[no-untyped-def]
    """Wait until nothing is worked out beside the pages any more."""
    while client.get("/api/phone").json()["days"]["pending"]:
        time.sleep(0.5)


def _after_entries(client) -> dict[str, float]:  # type: ignore[no-untyped-def]
    return {path: _after_an_entry(client, path, 10 * turn) for turn, path in enumerate(AFTER, start=1)}


def _after_an_entry(client, path: str, first: int) -> float:  # type: ignore[no-untyped-def]
    client.get(path)
    runs = []
    for number in range(first, first + 5):
        _written(client, number)
        runs.append(_once(client, path))
    return statistics.median(runs)


def _written(client, number: int) -> None:  # type: ignore[no-untyped-def]
    """An entry that teaches."""
    token = client.get("/api/phone/hello").json()["token"]
    entry = {
        "id": f"bench-{number:08}", "kind": "bucket", "at": "2026-05-03T08:00+02:00", "who": "me", "device": "bench",
        "fields": {"item": "building-sand", "measure": "bucket", "mass": f"{18 + number % 100 / 10} kg"},
    }  # fmt: skip
    sent = client.post("/api/log", json={"entries": [entry]},
                       headers={"X-Pinfold-Token": token, "Origin": "http://127.0.0.1:8765"})  # fmt: skip
    assert sent.json()["receipts"][0]["state"] == "new", sent.text


def _waited_after_an_entry(client, path: str, first: int) -> float:  # type: ignore[no-untyped-def]
    """By the clock and not by the processor, which works beside it; the days have settled before each."""
    runs = []
    for number in range(first, first + 3):
        while "Refresh" in client.get(path).headers:
            time.sleep(0.5)
        _settle(client)
        _written(client, number)
        start = time.perf_counter()
        assert client.get(path).status_code == 200, path
        runs.append(time.perf_counter() - start)
    return statistics.median(runs)


def _once(client, path: str) -> float:  # type: ignore[no-untyped-def]
    start = time.process_time()
    assert client.get(path).status_code == 200, path
    return time.process_time() - start


if __name__ == "__main__":
    for row in rows():
        print(f"| {' | '.join(row)} |")
