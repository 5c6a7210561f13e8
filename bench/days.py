"""The days: every page of theirs over a sample with a forecast and a typical year, and a week's schedule."""

from __future__ import annotations

import statistics
import tempfile
import time
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path

SAMPLE = "quinta"
"""The larger one."""


def site(where: Path) -> Path:
    """The sample with its forecast from today on and the typical year of a station instead of normals."""
    from pinfold.store.starting import from_sample

    folder = where / SAMPLE
    from_sample(folder, SAMPLE, today=datetime.now(UTC).date())
    (folder / "weather" / "invented-normals.toml").unlink()
    year = files("pvlib").joinpath("data", "723170TYA.CSV")
    (folder / "weather" / "station.csv").write_bytes(year.read_bytes())
    return folder


def rows() -> list[tuple[str, str, str, str]]:
    """What was measured, how long, beside what, and the target."""
    with tempfile.TemporaryDirectory() as where:
        folder = site(Path(where))
        return [scheduling(folder), *paging(folder)]


def scheduling(folder: Path) -> tuple[str, str, str, str]:
    """The whole job laid into days, the coming week by the solver, with nothing laid before."""
    from pinfold.actions.days_laid import JobAsked, laid_out
    from pinfold.actions.days_site import days_site

    days_site(folder).drying  # noqa: B018 - weather, sun and drying have rows of their own
    start = time.perf_counter()
    laid = laid_out(folder, JobAsked())
    took = time.perf_counter() - start
    assert laid.schedule is not None
    what = f"{len(laid.schedule.placed)} pieces of work of the larger sample laid into days"
    return what, f"{took:.1f} s", f"the coming week within {laid.schedule.gap:.1%} of the best there can be", "≤ 5 s"


def paging(folder: Path) -> list[tuple[str, str, str, str]]:
    """Every page of the days, in processor time."""
    from starlette.testclient import TestClient

    from pinfold.web.app import make_app
    from pinfold.web.desk import Desk
    from pinfold.web.pages.days import PAGE

    paths = [route.path for route in PAGE.routes if "GET" in (route.methods or ()) and "{" not in route.path]
    hosts = frozenset({"127.0.0.1:8765"})
    desk = Desk(folder=folder, hosts=hosts, home=hosts, secret=b"s" * 32)
    with TestClient(make_app(desk), base_url="http://127.0.0.1:8765", client=("127.0.0.1", 1)) as client:
        floor = statistics.median(_once(client, f"/static/{desk.version}/mark.svg") for _ in range(9))
        first = {path: _once(client, path) for path in paths}
        found = {path: min(_once(client, path) for _ in range(4)) for path in paths}
    slowest, longest = (max(of, key=lambda path, of=of: of[path]) for of in (found, first))
    over = [path for path, took in found.items() if took > 0.1]
    told = f"slowest {slowest}" + (f"; over the target: {', '.join(over)}" if over else "")
    return [
        (f"{len(paths)} pages of the days over forecast and typical year, {told}", f"{found[slowest] * 1000:.0f} ms",
         f"{found[slowest] / floor:.0f} × a static file", "≤ 100 ms"),
        (f"each of them the first time, slowest {longest}", f"{first[longest] * 1000:.0f} ms",
         f"{first[longest] / floor:.0f} × a static file", "none set"),
    ]  # fmt: skip


def _once(client, path: str) -> float:  # type: ignore[no-untyped-def]
    start = time.process_time()
    assert client.get(path).status_code == 200, path
    return time.process_time() - start


if __name__ == "__main__":
    for row in rows():
        print(f"| {' | '.join(row)} |")
