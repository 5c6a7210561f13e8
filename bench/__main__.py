"""`python -m bench`: measure, print, and put the figures into docs/speed.md with --write."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
import tomllib
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

from bench import days, drying, log, pages, plots, searching, storms, sun, trials

ROOT = Path(__file__).parents[1]


def seconds(work: Callable[[], object], *, times: int = 7) -> float:
    """Median of so many runs, after one that does not count."""
    work()
    runs = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        runs.append(time.perf_counter() - start)
    return statistics.median(runs)


def start_up() -> list[tuple[str, str, str, str]]:
    ours = seconds(lambda: subprocess.run([sys.executable, "-m", "pinfold", "--help"], check=True, capture_output=True))
    peer = seconds(lambda: subprocess.run([sys.executable, "-c", "import click"], check=True, capture_output=True))
    return [("pinfold --help", f"{ours * 1000:.0f} ms", f"{ours / peer:.2f} × bare `import click`", "≤ 3 ×")]


def recompute(table: Mapping[str, object]) -> None:
    """Everything that changes when a corner is dragged: the plan's records, layout, all checks, quantities, cost."""
    from pinfold.actions.reckonings import reckon_all
    from pinfold.actions.sites import Site
    from pinfold.plan.stock import NO_PRICES
    from pinfold.store.planfile import plan_of_table
    from pinfold.studies.stability.assess import assess

    site = Site(folder=Path(), plan=plan_of_table(table), prices=NO_PRICES, pile=())
    reckon_all(site)
    assess(site.layout)


def forget(*packages: str) -> None:
    """Forget what modules of some packages remember from run to run."""
    for name in [name for name in sys.modules if name.startswith(packages)]:
        for each in list(vars(sys.modules[name]).values()):
            if hasattr(each, "cache_clear"):
                each.cache_clear()


def afresh(plan_text: str) -> None:
    """The same, with what studies remember forgotten first."""
    forget("pinfold.studies", "pinfold.geometry")
    recompute(tomllib.loads(plan_text))


def recomputing() -> list[tuple[str, str, str, str]]:
    from pinfold.actions.pace import look_for_garbage_seldom
    from pinfold.studies.layout.resolve import lay_out

    look_for_garbage_seldom()  # as the doors do
    plan = plots.twelve_sides()
    posts = len(lay_out(plan).posts)
    twelve = plots.twelve_sides_text()
    dragged = [tomllib.loads(plots.twelve_sides_text(1 + step / 500)) for step in range(20)]
    turn = iter(range(10**9))
    rows = []
    sample = plots.sample_text()
    moved = [tomllib.loads(sample.replace('x = "64 ft"', f'x = "{64 + step / 100} ft"', 1)) for step in range(20)]
    for name, work, text, target in (
        ("sample, a corner dragged", lambda: recompute(moved[next(turn) % 20]), sample, "≤ 50 ms"),
        ("sample, with nothing remembered", lambda: afresh(sample), sample, "none set"),
        (
            f"12 sides, {posts} posts, a corner dragged",
            lambda: recompute(dragged[next(turn) % 20]),
            twelve,
            "≤ 50 ms",
        ),
    ):
        ours, floor = seconds(work, times=11), seconds(lambda text=text: tomllib.loads(text))
        rows.append((name, f"{ours * 1000:.0f} ms", f"{ours / floor:.0f} × parsing its TOML alone", target))
    return rows


def binding() -> list[tuple[str, str, str, str]]:
    """The binder with its days over a forecast, in processor time: again, with nothing remembered, from the start."""
    import tempfile

    from pinfold.actions.binding import bind_site
    from pinfold.store.starting import from_sample

    with tempfile.TemporaryDirectory() as where:
        folder, out = Path(where), Path(where) / "binder.pdf"
        from_sample(folder, "seed-garden", today=datetime.now(UTC).date())

        def bind() -> None:
            bind_site(folder, out)

        def bind_anew() -> None:
            forget("pinfold.actions", "pinfold.studies", "pinfold.geometry")
            bind()

        command = [sys.executable, "-m", "pinfold", "binder", "--site", where, "--out", str(out)]
        cold = statistics.median(_of_child(command) for _ in range(3))
        again, anew, floor = (_processor(work) for work in (bind, bind_anew, _empty_page))
    return [
        (f"binder of the sample, {what}", f"{took:.2f} s", f"{took / floor:.0f} × typesetting an empty page", target)
        for what, took, target in (
            ("printed again", again, "none set"),
            ("with nothing remembered", anew, "≤ 3 s"),
            ("from the start of the program", cold, "none set"),
        )
    ]


def _processor(work: Callable[[], object]) -> float:
    """Processor time, the median of three runs after one that does not count."""
    work()
    runs = []
    for _ in range(3):
        start = time.process_time()
        work()
        runs.append(time.process_time() - start)
    return statistics.median(runs)


def _of_child(command: list[str]) -> float:
    """Processor time of a program of its own."""
    before = os.times()
    subprocess.run(command, check=True, capture_output=True)
    after = os.times()
    return after.children_user + after.children_system - before.children_user - before.children_system


def _empty_page() -> None:
    import typst

    typst.compile(b"page")


def main() -> None:
    rows = [
        *start_up(),
        *recomputing(),
        *binding(),
        *storms.rows(seconds),
        *pages.rows(),
        *log.rows(),
        *trials.rows(),
        *sun.rows(),
        *drying.rows(),
        *days.rows(),
        *searching.rows(),
    ]
    lines = ["| what | measured | beside | target |", "|---|---|---|---|"]
    lines += [f"| {' | '.join(row)} |" for row in rows]
    print("\n".join(lines))
    if "--write" in sys.argv:
        path = ROOT / "docs" / "speed.md"
        path.write_text(HEAD + "\n".join(lines) + "\n", encoding="utf-8")


HEAD = """# Speed

Measured by `make bench` (`.venv/bin/python -m bench --write` puts the figures here), most of it on one core; read the
ratios before the seconds, which halve and double with what else the machine does. Median of several runs after
one that does not count. Cutting is measured by itself (`.venv/bin/python -m bench.cutting`), as its rival takes an
hour; last, on a machine with other work: 142 of 142 public instances of one length proven, median 0.05 s, worst 4.4 s;
45 of 45 yard-like cases, median 0.03 s, worst 0.8 s, 19 % of the money saved against first fit.

"""

if __name__ == "__main__":
    main()
