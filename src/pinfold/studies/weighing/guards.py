"""Whom the build-ups of a search keep out, by the same ways in as one enclosure is asked by."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

import numpy as np
import numpy.typing as npt

from pinfold.plan.buildups import Buildup
from pinfold.studies.weighing.asking import Cannot
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.front import Column
from pinfold.studies.weighing.keeping_out import Way, elsewhere, gaps_at, is_out, over, through, under
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.tables import Codes, Table, picked, tabled
from pinfold.tables.shelf import Kind, shelf

Guard = Table[Mapping[str, bool | None]]
"""By state who of the shelf `passers` is kept out on some ways; None where that is not shown."""


def guards_of(scene: Scene) -> tuple[Guard, ...]:
    """Ways over, under and through what is varied; last those by the gates and elsewhere, the same for every pick."""
    wall, high, foot, _, fenced, *_, mesh = picked(scene.shape)

    def on(codes: tuple[Codes, ...], way: Callable[[Kind, Buildup], Way]) -> Guard:
        return tabled(codes, lambda picks: _each(lambda who: (way(who, scene.built(picks).buildup),)))

    return (on((wall, high, fenced), over), on((foot, mesh), under), on((mesh,), through), _elsewhere(scene))


def _elsewhere(scene: Scene) -> Guard:
    """By the gates and the other build-ups, which are the same whatever is picked."""

    def found(picks: Picks) -> Mapping[str, bool | None]:
        layout = scene.built(picks).layout
        gaps = gaps_at(layout)
        return _each(lambda who: elsewhere(who, layout, scene.name, gaps))

    return tabled((), found)


def _each(ways: Callable[[Kind], Iterable[Way]]) -> Mapping[str, bool | None]:
    return {name: is_out(found for found, _ in ways(who)) for name, who in shelf("passers").items()}


def kept_out_by(
    guards: Sequence[Guard], shape: tuple[int, ...], picks: npt.NDArray[np.int64], animals: Sequence[str]
) -> Mapping[str, Column]:  # fmt: skip
    """By animal 1 where a build-up keeps it out, 0 where not, not a number where that is not shown, (n,) each.

    Args:
        guards: of the search
        shape: how many choices each axis has
        picks: of the build-ups, (n, axes)
        animals: of the shelf `passers`
    """
    states = [np.broadcast_to(guard.codes, shape)[tuple(picks.T)] for guard in guards]
    found = {}
    for name in animals:
        ways = np.array([_numbers(guard, name)[at] for guard, at in zip(guards, states, strict=True)])
        found[name] = np.where((ways == 0.0).any(axis=0), 0.0, ways.mean(axis=0)) if len(picks) else np.zeros(0)
    return found


def _numbers(guard: Guard, name: str) -> Column:
    kept = (None if isinstance(each, Cannot) else each[name] for each in guard.values)
    return np.array([np.nan if each is None else float(each) for each in kept])


def tightness_of(kept_out: Mapping[str, Column]) -> Column:
    """Share of the animals asked about that are kept out; not a number where it is not shown of any."""
    out = np.stack(list(kept_out.values()))
    share: Column = (out == 1.0).mean(axis=0)
    return np.where(np.isnan(out).all(axis=0), np.nan, share)
