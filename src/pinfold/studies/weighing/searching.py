"""Searching all build-ups that axes make: what stands, what it costs, and which of it no other betters."""

from __future__ import annotations

import gc
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from pinfold.plan.stock import Prices
from pinfold.studies.weighing.asking import Asks, Cannot, Told
from pinfold.studies.weighing.axes import Picks, says_of
from pinfold.studies.weighing.beginning import begun
from pinfold.studies.weighing.checked import Checked, checked
from pinfold.studies.weighing.columns import Takes, columns_of, takes_of
from pinfold.studies.weighing.front import Column, Yes, as_less, front_of
from pinfold.studies.weighing.guards import kept_out_by, tightness_of
from pinfold.studies.weighing.lacking import Lacks
from pinfold.studies.weighing.limits import Limits
from pinfold.studies.weighing.misses import Miss, held_against
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.sharing import asking
from pinfold.studies.weighing.subject import USUAL_ANIMALS
from pinfold.studies.weighing.trading import USUAL
from pinfold.studies.weighing.uses import Uses


@dataclass(frozen=True, kw_only=True, eq=False)
class Searched:
    """All build-ups of a search: those of which no check fails that hangs on what is picked, with what they take.

    Attributes:
        scene: what was varied, begun where it can be built.
        tried: how many build-ups there are.
        fails: how many fail in some check that not all fail.
        cannot: why others cannot be built, and how many.
        picks: of all others, (n, axes).
        unshown: checks that are not shown, for each of them, with the part they are of.
        everywhere: those that are not shown in any of them, whichever is picked.
        failing: what fails in all of them, whichever is picked: leaves of gates and neighbors.
        takes: what they take, whatever it costs.
        prices: what things cost.
        columns: by criterion, money in the smallest coin, not a number where it is not shown, (n,).
        lacks: what is missing to tell their cost, and of which of them, (n,) each.
    """

    scene: Scene
    tried: int
    fails: int
    cannot: Mapping[str, int]
    picks: npt.NDArray[np.int64]
    unshown: tuple[frozenset[str], ...]
    everywhere: frozenset[str]
    failing: frozenset[str]
    takes: Takes
    prices: Prices
    columns: Mapping[str, Column]
    lacks: Lacks

    def says(self, number: int) -> str:
        """One of them in a line."""
        return says_of(self.scene.axes, self.picks_of(number))

    def picks_of(self, number: int) -> Picks:
        """Its picks."""
        return tuple(self.picks[number].tolist())


def searched(scene: Scene, prices: Prices, told: Told = None, *, processes: int = 1) -> Searched:
    """Ask every check of every build-up, and price those of which none fails.

    Args:
        scene: what is varied
        prices: what things cost here
        told: of the progress
        processes: how many share the work
    """
    led = begun(scene)
    if not isinstance(led, Scene):
        return _nothing(scene, prices, led)
    with _uncollected(), asking(led, told, processes=processes) as asks:
        return _searched(led, prices, asks)


def _nothing(scene: Scene, prices: Prices, cannot: Mapping[str, int]) -> Searched:
    """A search in which nothing can be built."""
    takes = Takes(goods=(), states=np.zeros((0, 0), dtype=np.int64), priceless={}, guards=())
    return Searched(
        scene=scene, tried=math.prod(scene.shape), fails=0, cannot=cannot,
        picks=np.zeros((0, len(scene.axes)), dtype=np.int64), unshown=(), everywhere=frozenset(), failing=frozenset(),
        takes=takes, prices=prices, columns=columns_of(scene, takes, prices).columns, lacks={},
    )  # fmt: skip


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without the collector of garbage, which would go through all that a search keeps, over and over."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _searched(scene: Scene, prices: Prices, asks: Asks) -> Searched:
    found = checked(scene, asks)
    stands = found.stands.copy()
    given = _of_each(found, stands, lambda each: each.given)
    failing = _in_all(given)
    worse = np.array([names != failing for names in given], dtype=bool)
    stands[tuple(np.argwhere(stands)[worse].T)] = False
    picks, unshown = np.argwhere(stands), _of_each(found, stands, lambda each: each.unshown)
    takes = takes_of(scene, found, stands, asks)
    known = columns_of(scene, takes, prices)
    return Searched(
        scene=scene, tried=math.prod(scene.shape), fails=int(found.fails.sum() + worse.sum()), cannot=found.cannot,
        picks=picks, unshown=unshown, everywhere=_in_all(unshown),
        failing=failing if unshown else frozenset(), takes=takes, prices=prices,
        columns=known.columns, lacks=known.lacks,
    )  # fmt: skip


def _in_all(each: Sequence[frozenset[str]]) -> frozenset[str]:
    return frozenset.intersection(*each) if each else frozenset()


def at_prices(found: Searched, prices: Prices) -> Searched:
    """A search with other prices: what stands and what it takes is as found."""
    if prices == found.prices:
        return found
    known = columns_of(found.scene, found.takes, prices)
    return replace(found, prices=prices, columns=known.columns, lacks=known.lacks)


def _of_each(
    found: Checked, stands: Yes, names_of: Callable[[Uses], frozenset[str]]
) -> tuple[frozenset[str], ...]:  # fmt: skip
    """What checks are named, by those that stand."""
    shape, at = found.fails.shape, np.nonzero(stands)
    states = [np.broadcast_to(table.codes, shape)[at].tolist() for table in found.tables]
    by_table = [[frozenset() if isinstance(each, Cannot) else names_of(each) for each in table.values]
                for table in found.tables]  # fmt: skip
    return tuple(
        frozenset().union(*(names[state] for names, state in zip(by_table, row, strict=True)))
        for row in zip(*states, strict=True)
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Answered:
    """What of a search keeps to limits.

    Attributes:
        columns: by criterion, not a number where it is not shown, (n,); whom it keeps out among them, by wall, mesh and
            ground alone.
        kept_out: by animal asked about 1 where a build-up keeps it out, 0 where not, (n,).
        fence_out: likewise by wall, mesh and ground alone, however the gates are.
        kept: numbers of those that keep to all.
        unsure: how many miss none that is shown, something limited being not shown.
        nearest: where none keeps to all, the one that misses by least.
        front: of those kept the ones that no other betters, the cheapest first; where no cost is shown, in the order of
            the first criterion that is.
        keys: criteria that the front was looked for by.
        nowhere: those of them that no build-up kept shows; left out of the looking.
        beside: how many of those kept are not among what was looked at, something looked for being not shown.
        cheapest: number of the cheapest kept; None without any whose cost is shown.
        strongest: of the one with most strength to spare, the cheapest of several.
    """

    columns: Mapping[str, Column]
    kept_out: Mapping[str, Column]
    fence_out: Mapping[str, Column]
    kept: tuple[int, ...]
    unsure: int
    nearest: Miss | None
    front: tuple[int, ...]
    keys: tuple[str, ...]
    nowhere: tuple[str, ...]
    beside: int
    cheapest: int | None
    strongest: int | None


def answered(found: Searched, limits: Limits, by: Sequence[str] = USUAL) -> Answered:
    """Hold a search against limits; nothing is asked of the plan again.

    Args:
        found: searched before
        limits: to keep to
        by: criteria of the front
    """
    animals = limits.animals or USUAL_ANIMALS
    guards = found.takes.guards
    kept_out, fence_out = (kept_out_by(each, found.scene.shape, found.picks, animals) for each in (guards, guards[:-1]))
    columns: dict[str, Column] = {**found.columns, "tightness": tightness_of(fence_out)}
    unknown = np.full(len(found.picks), np.nan)
    limited = {limit.criterion.key: columns.get(limit.criterion.key, unknown) for limit in limits.all}
    held = held_against({**columns, **limited, "margin": _margin(found, holds=limits.holds)}, limits.all)
    kept = np.flatnonzero(held.kept)
    within = {key: column[kept] for key, column in columns.items()}
    looked = front_of({key: within[key] for key in by if key in within})
    return Answered(
        columns=columns, kept_out=kept_out, fence_out=fence_out, kept=tuple(kept.tolist()),
        unsure=int(held.unsure.sum()), nearest=held.nearest, keys=tuple(by),
        front=tuple(kept[_in_order(np.flatnonzero(looked.kept), within, looked.keys)].tolist()),
        nowhere=looked.nowhere if len(kept) else (), beside=int(looked.unsure.sum()),
        cheapest=_numbered(kept, _cheapest(within["cash_now"])), strongest=_numbered(kept, _strongest(within)),
    )  # fmt: skip


def _numbered(kept: npt.NDArray[np.int64], place: int | None) -> int | None:
    return None if place is None else int(kept[place])


def _cheapest(cash: Column) -> int | None:
    """The cheapest of those whose cost is shown."""
    return None if np.isnan(cash).all() else int(np.nanargmin(cash))


def _strongest(within: Mapping[str, Column]) -> int | None:
    """Of those with most strength to spare the cheapest; of several whose cost is not shown the first."""
    margin = within["margin"]
    if not len(margin):
        return None
    strong = np.flatnonzero(margin >= margin.max() - _ALIKE)
    return int(strong[_cheapest(within["cash_now"][strong]) or 0])


_ALIKE = 1e-9


def _in_order(
    front: npt.NDArray[np.int64], within: Mapping[str, Column], keys: Sequence[str]
) -> npt.NDArray[np.int64]:  # fmt: skip
    """The cheapest first; where no cost is shown, in the order of the first criterion that is."""
    key = next((key for key in ("cash_now", *keys) if np.isfinite(within[key][front]).any()), "margin")
    return front[np.argsort(as_less(key, within[key][front]), kind="stable")]


def _margin(found: Searched, *, holds: bool) -> Column:
    """Strength to spare; where all has to hold it is not shown for what has checks that only it does not show."""
    margin = found.columns["margin"]
    if not holds:
        return margin
    return np.where([bool(names - found.everywhere) for names in found.unshown], np.nan, margin)
