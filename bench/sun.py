"""Sun and shade on 40 faces over a year with 6 neighbors, beside bare pvlib for the same faces without any shade."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable
from datetime import UTC, datetime

import numpy as np

from pinfold.studies.layout.records import Layout
from pinfold.studies.sun.light import light_on
from pinfold.studies.sun.positions import middles, standpoint, sun_at
from pinfold.studies.sun.records import Face
from pinfold.studies.weather.records import Element, Weather, WeatherKind

FACES, HOURS = 40, 8760


def plot() -> Layout:
    """Seven sides, each of two runs with a wall: 42 faces; six neighbors, one of them in the middle."""
    from pinfold.store.planfile import plan_of
    from pinfold.studies.layout.resolve import lay_out

    round_ = [(20 * math.cos(2 * math.pi * n / 7), 20 * math.sin(2 * math.pi * n / 7)) for n in range(7)]
    lines = ["format = 1", 'name = "bench"', 'units = "metric"', "[place]", 'latitude = "39.7 deg"',
             'longitude = "-104.8 deg"', 'elevation = "1700 m"', "[haul]", "[mixing]"]  # fmt: skip
    for number, (x, y) in enumerate(round_):
        lines += ["[[corner]]", f'name = "C{number}"', f'x = "{x:.3f} m"', f'y = "{y:.3f} m"']
    for number in range(7):
        lines += ["[[side]]", f'name = "s{number}"', f'from = "C{number}"', f'to = "C{(number + 1) % 7}"',
                  'runs = [{ to = "9 m", buildup = "b" }, { buildup = "b" }]']  # fmt: skip
    for number, (x, y) in enumerate([(0, 0), (15, 3), (-14, 6), (5, 14), (27, 10), (-26, -8)]):
        ring = ", ".join(f'["{x + a} m", "{y + b} m"]' for a, b in ((0, 0), (4, 0), (4, 3), (0, 3)))
        lines += ["[[neighbor]]", f'name = "shed {number}"', 'height = "2.8 m"', f"footprint = [{ring}]"]
    lines += ["[buildup.b.wall]", 'kind = "block-200-hollow"', 'height = "80 cm"']
    return lay_out(plan_of("\n".join(lines)))


def year(layout: Layout) -> Weather:
    """A year of made-up sun, clear every other day."""
    from pinfold.studies.sun.light import cloudless, sky_of

    hours = cloudless(datetime(2023, 1, 1, tzinfo=UTC), HOURS, UTC)
    place = standpoint(layout.plan.place)
    sky = sky_of(hours, place, sun_at(place, middles(hours)))
    clear = np.arange(HOURS) // 24 % 2 == 0
    series = {Element.BEAM: sky.beam * clear, Element.DIFFUSE: sky.diffuse, Element.GLOBAL: sky.level}
    return Weather(kind=WeatherKind.TYPICAL, says="made up", start=hours.start, zone=UTC, series=series,
                   estimated={element: np.zeros(HOURS, dtype=bool) for element in series})  # fmt: skip


def ours(layout: Layout, faces: tuple[Face, ...], weather: Weather) -> object:
    from pinfold.studies.sun.light import lighting_of

    return light_on(layout, faces, lighting_of(layout, weather))


def bare(layout: Layout, faces: tuple[Face, ...], weather: Weather) -> object:
    """pvlib alone: the sun once, each face by itself, as its guide does it."""
    import pandas as pd
    from pvlib.irradiance import get_extra_radiation, get_total_irradiance
    from pvlib.solarposition import get_solarposition

    place = standpoint(layout.plan.place)
    index = pd.date_range(weather.start + pd.Timedelta(minutes=30), periods=weather.count, freq="h")
    sun = get_solarposition(index, np.degrees(place.latitude), np.degrees(place.longitude), altitude=place.elevation)
    beam, diffuse, level = (
        pd.Series(weather.of(element), index=index) for element in (Element.BEAM, Element.DIFFUSE, Element.GLOBAL)
    )
    outside = get_extra_radiation(index)
    return [
        get_total_irradiance(
            np.degrees(face.tilt), np.degrees(face.facing), sun["apparent_zenith"], sun["azimuth"], beam, level,
            diffuse, dni_extra=outside, albedo=0.2, model="haydavies",
        )
        for face in faces
    ]  # fmt: skip


def rows() -> list[tuple[str, str, str, str]]:
    from pinfold.studies.sun.faces import faces_of

    layout = plot()
    weather, faces = year(layout), faces_of(layout)[:FACES]
    turns = [[_once(work, layout, faces, weather) for work in (ours, bare)] for _ in range(8)][1:]
    mine, theirs = (statistics.median(times) for times in zip(*turns, strict=True))
    ratio = statistics.median(one / other for one, other in turns)
    what = f"sun and shade: {len(faces)} faces, {HOURS:,} hours, {len(layout.plan.neighbors)} neighbors"
    return [(what, f"{mine:.2f} s", f"{ratio:.2f} × bare pvlib without shade ({theirs:.2f} s)", "≤ 3 ×")]


def _once(work: Callable[..., object], *given: object) -> float:
    start = time.perf_counter()
    work(*given)
    return time.perf_counter() - start
