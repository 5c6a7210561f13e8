"""The search over build-ups beside one plan after the other: build-ups a second, checked and priced, all in."""

from __future__ import annotations

import random
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

SAMPLES = ("seed-garden", "quinta")
ONE_BY_ONE = 40


def rows() -> list[tuple[str, str, str, str]]:
    """Two rows for each sample: the first answer over the usual choices, and every choice, and other limits on it."""
    return [_row(name, every=every) for name in SAMPLES for every in (False, True)]


def _row(name: str, *, every: bool) -> tuple[str, str, str, str]:
    from pinfold.actions.reckonings import reckon_all
    from pinfold.actions.sites import open_site, start_site
    from pinfold.actions.weigh_search import SearchAsked, processes_for, scene_of
    from pinfold.studies.stability.assess import assess
    from pinfold.studies.weighing.limits import limits_of
    from pinfold.studies.weighing.searching import answered, searched

    with tempfile.TemporaryDirectory() as folder:
        start_site(Path(folder) / name, name, {})
        site = open_site(Path(folder) / name)
        scene = scene_of(site, SearchAsked(every=every))
        draw = random.Random(8)
        some = [tuple(draw.randrange(many) for many in scene.shape) for _ in range(ONE_BY_ONE)]
        start = time.perf_counter()
        for picks in some:
            one = replace(site, plan=scene.built(picks).lessons.plan)
            assess(one.layout)
            reckon_all(one)
        single = (time.perf_counter() - start) / ONE_BY_ONE
        scene = scene_of(site, SearchAsked(every=every))
        start = time.perf_counter()
        many = processes_for(scene)
        found = searched(scene, site.lessons.prices, processes=many)
        first = time.perf_counter() - start
        start = time.perf_counter()
        answered(found, limits_of("at most 60 trips", prices=site.lessons.prices, system=site.plan.units))
        again = time.perf_counter() - start
    print(f"{name}: {found.tried} build-ups, first {first:.1f} s, again {again * 1000:.0f} ms", file=sys.stderr)
    return (
        f"search over {found.tried} build-ups of {name}, {'every choice' if every else 'the usual choices'}, checked "
        f"and priced, tables and all, in {many} {'process' if many == 1 else 'processes'}",
        f"{found.tried / first:.0f} build-ups/s in {first:.1f} s",
        f"{found.tried / first * single:.0f} × one at a time; other limits on it {found.tried / again:.0f}/s",
        "≥ 20 000/s, ≥ 100 ×",
    )


if __name__ == "__main__":
    for row in rows():
        print(" | ".join(row))
