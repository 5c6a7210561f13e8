"""Hours from any moment on, each from what knows it best: measured, else the newest forecast, else a usual year."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.weather.choosing import COMING, of_any_year, worth
from pinfold.studies.weather.clocks import HOUR
from pinfold.studies.weather.moistening import with_moisture
from pinfold.studies.weather.records import Element, Hours, Weather
from pinfold.studies.weather.sunning import with_sky_heat

LENT = (Element.WIND, Element.DEW_POINT)
"""What a source that is silent about it borrows from the hours that stand for any year."""


class Joined(NamedTuple):
    """Hours of several sources, one after the other.

    Attributes:
        weather: all of them; those that stand for any year count as estimated.
        foreseen: which of them are of these very days.
    """

    weather: Weather
    foreseen: NDArray[np.bool_]


class _Layer(NamedTuple):
    """Hours of one source that count where no later layer has them too: their places among ours, and in it."""

    weather: Weather
    ours: NDArray[np.int_]
    its: NDArray[np.int_]
    foreseen: bool


def joined(sources: Sequence[Weather], year: Weather | None, *, start: datetime, count: int) -> Joined | None:
    """So many hours from a moment on; None where no source knows any of them.

    Args:
        sources: all that may be used; those that stand for any year are passed over
        year: that stands for any year; None where there is none
        start: of the first hour, with its offset
        count: how many
    """
    began = start.astimezone(UTC)
    usual = None if year is None else of_any_year(year, began, count)
    coming = sorted((each for each in sources if each.kind in COMING), key=worth)
    layers = [] if usual is None else [_Layer(usual, np.arange(count), np.arange(count), foreseen=False)]
    layers += [layer for each in coming if len((layer := _layer(each, began, count)).ours)]
    if not layers:
        return None
    foreseen = np.zeros(count, dtype=bool)
    for layer in layers:
        foreseen[layer.ours] = layer.foreseen
    whole = _lent(_laid(layers, began, count), usual, foreseen)
    return Joined(with_sky_heat(with_moisture(whole)), foreseen)


def _layer(weather: Weather, start: datetime, count: int) -> _Layer:
    """A source's hours among ours, as far as its air temperature is known."""
    first = round((weather.start - start) / HOUR)
    ours = np.arange(max(first, 0), max(min(first + weather.count, count), max(first, 0)))
    known = np.isfinite(_of(weather, Element.TEMPERATURE)[ours - first])
    return _Layer(weather, ours[known], ours[known] - first, foreseen=True)


def _of(weather: Weather, element: Element) -> Hours:
    return weather.series.get(element, np.full(weather.count, np.nan))


def _laid(layers: Sequence[_Layer], start: datetime, count: int) -> Weather:
    """All layers one over the other, each hour whole from one of them."""
    elements = [each for each in Element if any(layer.weather.has(each) for layer in layers)]
    series = {each: np.full(count, np.nan) for each in elements}
    marks = {each: np.zeros(count, dtype=bool) for each in elements}
    for layer in layers:
        for each in elements:
            series[each][layer.ours] = _of(layer.weather, each)[layer.its]
            guessed = layer.weather.estimated.get(each, np.zeros(layer.weather.count, dtype=bool))
            marks[each][layer.ours] = guessed[layer.its] if layer.foreseen else True
    marks = {each: marks[each] & np.isfinite(series[each]) for each in elements}
    notes = tuple(dict.fromkeys(note for layer in reversed(layers) for note in _notes(layer, alone=len(layers) == 1)))
    return replace(layers[-1].weather, start=start, series=series, estimated=marks, notes=notes)


def _notes(layer: _Layer, *, alone: bool) -> Iterator[str]:
    """What is told of a source, with its name where there are several."""
    name = layer.weather.says.partition(",")[0]
    yield from (note if alone else f"{name}: {note}" for note in layer.weather.notes)


def _lent(whole: Weather, usual: Weather | None, foreseen: NDArray[np.bool_]) -> Weather:
    """With the year's wind and dew point where the source of these days is silent about them, marked and told."""
    if usual is None:
        return whole
    series, marks, notes = dict(whole.series), dict(whole.estimated), list(whole.notes)
    for element in (each for each in LENT if usual.has(each)):
        lacking = np.isnan(series[element]) & foreseen
        if lacking.any():
            series[element] = np.where(lacking, usual.of(element), series[element])
            marks[element] = marks[element] | lacking
            notes.append(f"{str(element).capitalize()} of {whole.says} is that of {usual.says}: it says none itself.")
    if Element.DEW_POINT in series:
        series[Element.DEW_POINT] = np.minimum(series[Element.DEW_POINT], series[Element.TEMPERATURE])
    return replace(whole, series=series, estimated=marks, notes=tuple(notes))
