"""How fast a mix is used by what the log teaches: hours for a length or an area, over the mix that goes into it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.batching.setting import USE_RATE
from pinfold.studies.layout.records import Layout
from pinfold.studies.lessons.records import Lesson, Lessons, Topic
from pinfold.studies.quantities.reach import Reach, reaches
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind
from pinfold.units import CUBIC_METER, CUBIC_METER_PER_SECOND

_USED_BY = {"wall": "mortar"}
"""Layers whose hours use the mix of another layer: who lays a wall uses its mortar."""


def paced(quantities: Iterable[Quantity], layout: Layout, lessons: Lessons) -> tuple[Quantity, ...]:
    """A take-off whose mixes know how fast they are used, layer by layer, where the log tells.

    Args:
        quantities: the take-off
        layout: the plan laid out, for lengths and areas
        lessons: what the log teaches
    """
    lines = tuple(quantities)
    taught = lessons.about(Topic.PACE)
    if not taught:
        return lines
    rates = _rates(lines, {reach.stretch.name: reach for reach in reaches(layout)}, taught)
    kinds = {
        (line.layer, line.kind): _knowing(line.kind, rates[line.layer])
        for line in lines if line.kind.shelf == "mixes" and line.layer in rates
    }  # fmt: skip
    return tuple(replace(line, kind=kinds.get((line.layer, line.kind), line.kind)) for line in lines)


def _rates(
    lines: tuple[Quantity, ...], there: Mapping[str, Reach], taught: tuple[Lesson, ...]
) -> dict[str, Figure]:  # fmt: skip
    found: dict[str, Figure] = {}
    for lesson in taught:
        layer = _USED_BY.get(lesson.subject, lesson.subject)
        mixed = [line for line in lines if line.layer == layer and _is_mix(line) and line.place in there]
        done = _done(mixed, there, lesson.per)
        if mixed and done > 0 and lesson.value > 0:
            rate = math.fsum(line.gross for line in mixed) / (lesson.value * done)
            found[layer] = Figure(
                value=rate, unit=CUBIC_METER_PER_SECOND, standing=Standing.LEARNED, source="LOG", where=lesson.told
            )  # fmt: skip
    return found


def _is_mix(line: Quantity) -> bool:
    return line.kind.shelf == "mixes" and line.unit.kind == CUBIC_METER.kind and line.is_known


def _done(mixed: list[Quantity], there: Mapping[str, Reach], per: str) -> float:
    """Length or area that all of a layer is laid on; of coats each counts."""
    coated = [dict(line.working[0].inputs).get("area") for line in mixed if line.layer == "coat" and line.working]
    if coated and per == "m2":
        return math.fsum(area for area in coated if isinstance(area, float))
    reached = [there[place] for place in {line.place for line in mixed}]
    return math.fsum(each.stretch.length if per == "m" else max(each.wall_area, 0.0) for each in reached)


def _knowing(mix: Kind, rate: Figure) -> Kind:
    return replace(mix, figures={**mix.figures, USE_RATE: rate})
