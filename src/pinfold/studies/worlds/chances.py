"""The chances of cracking and of falling, build-up by build-up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding
from pinfold.plan.place import Family
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.answers import in_words
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.walls import overturning
from pinfold.studies.worlds.cantilever import Cantilever, cantilever_of
from pinfold.studies.worlds.drawing import PLOTS, WALLS, Drawn, drawn
from pinfold.studies.worlds.living import Yes, lived
from pinfold.studies.worlds.records import YEARS, ManyWorlds, Odds
from pinfold.studies.worlds.replay import Array
from pinfold.tables.shelf import kind

LEFT_OUT = (
    "earthquakes, pushes, frost, drying and settling; rot and rust over the years; walls that are looked after or "
    "braced; what piers and a wall around a corner hold; storms of kinds the wind map does not hold"
)


def many_worlds(layout: Layout, years: tuple[int, ...] = YEARS) -> tuple[ManyWorlds, ...]:
    """Every build-up with a wall, where it stands worst.

    Args:
        layout: the plan laid out
        years: for which chances are told, the fewest first; of more than are drawn none is
    """
    by_buildup: dict[str, list[Exposed]] = {}
    for each in exposures_of(layout).values():
        if has_wall(each.stretch):
            by_buildup.setdefault(each.stretch.buildup.name, []).append(each)
    return tuple(_of_buildup(name, stretches, years) for name, stretches in by_buildup.items())


def _of_buildup(name: str, stretches: Iterable[Exposed], years: tuple[int, ...]) -> ManyWorlds:
    figures: Named = ()
    where = because = ""
    cracking: tuple[Odds, ...] = ()
    falling: tuple[Odds, ...] = ()
    try:
        case = max(_cases(stretches), key=lambda each: _use(overturning(each)))
        where, wall = case.of.stretch.name, cantilever_of(case)
        figures = scatter_of(wall.family, cast=wall.cast)
        cracking, falling = chances(wall, drawn(wall.family, cast=wall.cast), years=years)
        because = _rests_on(wall)
    except NotFoundError as missing:
        because = str(missing)
    except OutOfRangeError as outside:
        because = in_words(outside)
    return ManyWorlds(
        buildup=name, stretch=where, cracking=cracking if falling else (), falling=falling,
        worlds=PLOTS * WALLS if falling else 0, because=because, figures=figures, left_out=LEFT_OUT,
    )  # fmt: skip


def _cases(stretches: Iterable[Exposed]) -> Iterator[Case]:
    for each in stretches:
        yield from each.cases


def _use(finding: Finding) -> float:
    return finding.use or 0.0


def _rests_on(wall: Cantilever) -> str:
    if wall.tension is None and wall.bars is None:
        return "its beds pull nothing from the start: it stands by its weight alone"
    if wall.bars is not None:
        return "bars out of the footing hold it after its bed has cracked"
    return ""


def chances(
    wall: Cantilever, drawn_: Drawn, *, plots: int = PLOTS, years: tuple[int, ...] = YEARS
) -> tuple[tuple[Odds, ...], tuple[Odds, ...]]:  # fmt: skip
    """Chances of cracking, none where the bed pulls nothing from the start, and of falling.

    All that happens to a wall grows with the wind, so the highest wind by then says what has happened by each year.
    """
    years = tuple(each for each in years if each <= drawn_.pressure.shape[1])
    if not years:
        return (), ()
    found = lived(wall, replace(drawn_, pressure=highest_by(drawn_.pressure, years)))
    falling = _odds(found.fallen, years, plots)
    return (_odds(found.cracked, years, plots) if wall.tension is not None else ()), falling


def highest_by(pressure: Array, years: tuple[int, ...]) -> Array:
    """The highest of the first so many years, (walls, number of spans)."""
    return np.stack([pressure[:, :count].max(axis=1) for count in years], axis=1)


def _odds(happened: Yes, years: tuple[int, ...], plots: int) -> tuple[Odds, ...]:
    by_plot = happened.reshape(plots, -1, len(years)).mean(axis=1)
    low, high = np.quantile(by_plot, (0.05, 0.95), axis=0)
    mean = by_plot.mean(axis=0)
    return tuple(Odds(*each) for each in zip(years, mean.tolist(), low.tolist(), high.tolist(), strict=True))


def scatter_of(family: Family, *, cast: bool) -> Named:
    """The figures of the scatter, for their standing."""
    last = "-cast" if cast else ""
    rows = ("storms", f"bed-tension-{family.value}", f"density{last}", f"thickness{last}", "plumb", "yield")
    unused = "return_period_us" if family is Family.EU else "return_period_eu"
    return tuple(
        (f"{name.replace('_', ' ')} of {row}", figure)
        for row in rows for name, figure in kind("scatter", row).figures.items() if name != unused
    )  # fmt: skip
