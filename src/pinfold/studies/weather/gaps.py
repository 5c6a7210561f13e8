"""Short gaps filled by a straight line and marked; long ones stay NOT SHOWN and are told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.weather.records import Element, Hours, Weather

SHORT = 3
"""Hours that a straight line may bridge; weather changes with fronts, the sun with the time of day."""
_NEVER = frozenset({Element.RAIN})
_WORDS = ("filled by a straight line and marked as estimated", "NOT SHOWN, for the gap is too long to bridge")


def without_gaps(weather: Weather) -> Weather:
    """The same with short gaps filled; rain is never drawn up."""
    series, marks = dict(weather.series), dict(weather.estimated)
    counts: dict[Element, tuple[int, int]] = {}
    for element, hours in weather.series.items():
        if not np.isfinite(hours).any():
            del series[element], marks[element]
            continue
        filled = hours if element in _NEVER else _filled(element, hours)
        bridged = np.isnan(hours) & np.isfinite(filled)
        series[element], marks[element] = filled, marks[element] | bridged
        counts[element] = int(bridged.sum()), int(np.isnan(filled).sum())
    return replace(weather, series=series, estimated=marks, notes=(*weather.notes, *_told(counts)))


def _filled(element: Element, hours: Hours) -> Hours:
    missing = np.isnan(hours)
    known = np.flatnonzero(~missing)
    places = np.arange(len(hours))
    if element is Element.WIND_FROM:  # through the shorter side of the circle
        line = np.interp(places, known, np.unwrap(hours[known])) % (2 * np.pi)
    else:
        line = np.interp(places, known, hours[known])
    filled = hours.copy()
    for run in runs(missing):
        if len(run) <= SHORT and run[0] > 0 and run[-1] < len(hours) - 1:
            filled[run] = line[run]
    return filled


def runs(which: NDArray[np.bool_]) -> list[NDArray[np.int_]]:
    """Places of hours one after the other for which something is so, run by run."""
    places = np.flatnonzero(which)
    grouped = groupby(enumerate(places), key=lambda pair: pair[1] - pair[0])
    return [np.array([place for _, place in run]) for _, run in grouped]


def _told(counts: Mapping[Element, tuple[int, int]]) -> list[str]:
    """What was filled and what was not, elements alike together."""
    notes = []
    for place, what in enumerate(_WORDS):
        alike: dict[int, list[str]] = {}
        for element, both in counts.items():
            if both[place]:
                alike.setdefault(both[place], []).append(str(element))
        notes += [
            f"{', '.join(names).capitalize()}: {count} missing hour{'s' if count > 1 else ''} {what}."
            for count, names in alike.items()
        ]
    return notes
