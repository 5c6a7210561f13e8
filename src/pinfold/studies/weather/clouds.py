"""How much of the sky is clouded, out of the words of a forecast, marked."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np

from pinfold.plan.weather_file import Column, HourFile
from pinfold.studies.weather.records import Element, Weather
from pinfold.tables.shelf import shelf

_NOTE = "Clouds are taken from the words of the forecast."


def speaks_of_clouds(file: HourFile) -> bool:
    """Whether a file has words for the sky alone, no figures."""
    given = file.columns.get(Element.CLOUD)
    if given is not None and any(math.isfinite(value) for value in given.values):
        return False
    return any(math.isfinite(cover(text)) for text in file.sky)


def with_cover(file: HourFile) -> HourFile:
    """The same with a column of clouds out of its words."""
    values = tuple(cover(text) for text in file.sky)
    clouds = Column(values=values, units=("-",) * len(values))
    return replace(file, columns={**file.columns, Element.CLOUD: clouds})


def as_worded(weather: Weather) -> Weather:
    """The same with all clouds marked as estimated, for they were words."""
    marks = np.isfinite(weather.of(Element.CLOUD))
    return replace(
        weather, estimated={**weather.estimated, Element.CLOUD: marks}, notes=(*weather.notes, _NOTE)
    )  # fmt: skip


@cache
def cover(text: str) -> float:
    """Share of the sky, of the first kind whose word stands in a text; not a number for none."""
    small = text.lower()
    for kind in shelf("sky_words").values():
        words = kind.words["words"]
        assert isinstance(words, list)
        if any(word in small for word in words):
            return kind.value("cover")
    return math.nan
