"""Where a search begins: at picks that can be built together, or nowhere."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, islice, product
from math import prod

from pinfold.studies.weighing.asking import Cannot, found_for
from pinfold.studies.weighing.axes import Axis, Picks
from pinfold.studies.weighing.scene import Scene

_MOST = 400
"""Picks that are laid out to find one that can be built."""


def begun(scene: Scene) -> Scene | Mapping[str, int]:
    """The scene with choices in such an order that the first of all axes can be built together.

    What hangs on some axes only is asked with all others at their first choice, and what all build-ups share is read
    from the first. Where none of many can be built: why, and of how many.
    """
    cannot: Counter[str] = Counter()
    for picks in islice(_nearest_first(scene.shape), _MOST):
        found = found_for(lambda at: scene.built(at).layout, picks)
        if not isinstance(found, Cannot):
            return replace(scene, axes=_led_by(scene.axes, picks)) if any(picks) else scene
        cannot[found.why] += 1
    if rest := prod(scene.shape) - cannot.total():
        cannot[f"none of the {cannot.total()} of them that were laid out can be"] = rest
    return cannot


def _nearest_first(shape: Sequence[int]) -> Iterator[Picks]:
    """All picks, those first that differ from the first choices on few axes."""
    for many in range(len(shape) + 1):
        for places in combinations(range(len(shape)), many):
            for choices in product(*(range(1, shape[place]) for place in places)):
                others = dict(zip(places, choices, strict=True))
                yield tuple(others.get(place, 0) for place in range(len(shape)))


def _led_by(axes: Sequence[Axis], picks: Picks) -> tuple[Axis, ...]:
    """Axes with the picked choice of each in front."""
    return tuple(
        Axis(axis.key, (axis.choices[pick], *axis.choices[:pick], *axis.choices[pick + 1 :]))
        for axis, pick in zip(axes, picks, strict=True)
    )  # fmt: skip
