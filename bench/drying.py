"""How 40 faces dry over a week, beside finding the light on them."""

from __future__ import annotations

import statistics
import time
from datetime import UTC, datetime

import numpy as np

from bench.sun import FACES, plot
from pinfold.studies.weather.records import Element, Weather, WeatherKind

HOURS = 168


def week() -> Weather:
    """A clear week of summer, dry and windy."""
    hour = np.arange(HOURS) % 24
    sun = np.maximum(np.sin((hour - 12.0) / 15.0 * np.pi), 0.0)
    series = {
        Element.TEMPERATURE: 24.0 - 8.0 * np.cos((hour - 10.0) / 12 * np.pi), Element.HUMIDITY: np.full(HOURS, 0.25),
        Element.PRESSURE: np.full(HOURS, 84e3), Element.WIND: np.full(HOURS, 4.0),
        Element.SKY_HEAT: np.full(HOURS, 300.0), Element.GLOBAL: 900.0 * sun, Element.BEAM: 800.0 * sun,
        Element.DIFFUSE: 120.0 * sun,
    }  # fmt: skip
    return Weather(
        kind=WeatherKind.FORECAST, says="made up", start=datetime(2023, 6, 21, tzinfo=UTC), zone=UTC, series=series,
        estimated={},
    )  # fmt: skip


def rows() -> list[tuple[str, str, str, str]]:
    from pinfold.studies.drying.study import drying_of
    from pinfold.studies.sun.faces import faces_of
    from pinfold.studies.sun.light import light_on, lighting_of

    layout, weather = plot(), week()
    faces, lighting = faces_of(layout)[:FACES], lighting_of(layout, weather)
    light = light_on(layout, faces, lighting)
    turns = []
    for _ in range(8):
        start = time.perf_counter()
        drying_of(light, lighting, weather)
        middle = time.perf_counter()
        light_on(layout, faces, lighting)
        turns.append((middle - start, time.perf_counter() - middle))
    mine, lit = (statistics.median(times) for times in zip(*turns[1:], strict=True))
    what = f"a wet wall's week: {len(faces)} faces, {HOURS} hours, dry and kept wet"
    return [(what, f"{mine:.2f} s", f"{mine / lit:.1f} × the light on them ({lit:.2f} s)", "≤ 1 s")]
