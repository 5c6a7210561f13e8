"""Days made up for tests of drying: a plot, hours of weather that are all alike or go up and down, and their light."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import UTC, datetime
from typing import NamedTuple

import numpy as np

from pinfold.studies.drying.records import Asked, Drying
from pinfold.studies.drying.study import Bench, bench_of, drying_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.sun.faces import faces_of
from pinfold.studies.sun.light import Lighting, light_on, lighting_of
from pinfold.studies.sun.records import Light
from pinfold.studies.weather.records import Element, Weather, WeatherKind
from small_plots import SQUARE, Plot

COATED = """
[buildup.b.wall]
kind = "block-200-hollow"
height = "80 cm"
[[buildup.b.coat]]
kind = "cement-scratch"
[[buildup.b.coat]]
kind = "cement-brown"
"""
START = datetime(2026, 6, 21, 6, tzinfo=UTC)


def square(buildup: str = COATED) -> Layout:
    """Ten meters square, walls on all sides."""
    return Plot(buildup=buildup, corners=SQUARE, is_closed=True).laid_out()


def weather(*, hours: int = 48, lacks: tuple[Element, ...] = (), **changed: object) -> Weather:
    """A dry, clear summer in Colorado, hour by hour alike but for the sun; any element put otherwise by its name."""
    day = np.arange(hours) % 24
    sun = np.maximum(np.sin((day + START.hour - 12.0) / 15.0 * np.pi), 0.0) * (((day + START.hour) % 24 >= 12) * 1.0)
    usual = {
        Element.TEMPERATURE: 24.0 - 8.0 * np.cos((day - 4.0) / 24 * 2 * np.pi), Element.HUMIDITY: 0.25,
        Element.DEW_POINT: 3.0, Element.PRESSURE: 84000.0, Element.WIND: 4.0, Element.WIND_FROM: math.pi,
        Element.SKY_HEAT: 300.0, Element.GLOBAL: 900.0 * sun, Element.DIFFUSE: 120.0 * sun, Element.BEAM: 800.0 * (sun > 0),
    }  # fmt: skip
    given = {**usual, **{Element[name.upper()]: value for name, value in changed.items()}}
    series = {
        element: np.broadcast_to(np.asarray(value, dtype=float), hours).copy()
        for element, value in given.items() if element not in lacks
    }  # fmt: skip
    return Weather(
        kind=WeatherKind.FORECAST, says="made up", start=START, zone=UTC, series=series, estimated={},
        latitude=math.radians(39.7), longitude=math.radians(-104.8), elevation=1600.0,
    )  # fmt: skip


class Lit(NamedTuple):
    """A plot in its weather."""

    light: Light
    lighting: Lighting
    weather: Weather

    def drying(self, asked: Asked | None = None) -> Drying:
        return drying_of(*self, asked)

    def bench(self, asked: Asked | None = None) -> Bench:
        return bench_of(*self, asked or Asked())

    def shaded(self, share: float) -> Lit:
        """The same with a share of the sun's own light."""
        return self._replace(light=replace(self.light, beam=self.light.beam * share))


def lit(layout: Layout | None = None, over: Weather | None = None) -> Lit:
    layout, over = layout or square(), over or weather()
    lighting = lighting_of(layout, over)
    return Lit(light_on(layout, faces_of(layout), lighting), lighting, over)
