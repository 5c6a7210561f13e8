"""Walls without units: poured, rammed in lifts, laid in bags, dry stone and rubble."""

from __future__ import annotations

import math

from pinfold.findings import Step, work
from pinfold.formulas.counts import dry_stone_volume
from pinfold.studies.layout.walls import course_of, lift_of
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, KILOGRAM, RATIO, CubicMeter, KgPerCubicMeter, Meter, show, tape


def mass_wall(reach: Reach) -> tuple[Quantity, ...]:
    """What one stretch of such a wall is made of."""
    wall = reach.wall
    mix = wall.kind.word("mix")
    bulk = line(
        kind=kind("mixes", mix) if mix else wall.kind, layer="wall", place=reach.stretch.name, unit=CUBIC_METER,
        count=lambda: _volume(reach), waste=waste_of(wall.kind, "concrete"),
    )  # fmt: skip
    return (bulk, _bags(reach)) if wall.kind.word("make") == "bags" else (bulk,)


def mean_thickness(reach: Reach) -> Meter:
    """Of the wall between foot and top, where its faces lean in."""
    wall = reach.wall
    top = wall.kind.value("top_thickness") if wall.kind.has("top_thickness") else wall.thickness
    return (wall.thickness + min(top, wall.thickness)) / 2


def wall_volume(reach: Reach) -> CubicMeter:
    """Center line times mean thickness times height from bed to top; corners counted once."""
    return reach.wall_area * mean_thickness(reach)


def _volume(reach: Reach) -> Count:
    wall = reach.wall
    note = f"{tape(mean_thickness(reach), reach.system)} thick"
    if wall.kind.has("top_thickness"):
        note += " on average"
    if wall.kind.word("make") in ("poured", "lifts"):
        lifts = max(math.ceil(step.height / lift_of(wall) - 1e-6) for step in reach.stretch.steps)
        note += f", {plural(lifts, 'lift')} at most"
    if wall.kind.word("make") in ("stone", "rubble"):
        mass = show(wall_volume(reach) * _heap_density(reach), KILOGRAM, reach.system)
        note += f", as much in the heap as in the wall, about {mass}"
    return Count(net=wall_volume(reach), note=note, working=_working(reach))


def _heap_density(reach: Reach) -> KgPerCubicMeter:
    wall = reach.wall.kind
    if wall.has("mortar_share") and wall.has("stone_density"):
        return wall.value("stone_density") * (1 - wall.value("mortar_share"))
    return wall.value("density")


def _working(reach: Reach) -> tuple[Step, ...]:
    wall = reach.wall.kind
    if not wall.has("top_thickness") or wall.value("top_thickness") > reach.wall.thickness:
        return ()
    length = reach.stretch.length
    return (
        work(
            dry_stone_volume, why="wall that tapers, at its mean height", length=length,
            height=reach.wall_area / length, base=reach.wall.thickness, top=wall.value("top_thickness"),
        ),
    )  # fmt: skip


def _bags(reach: Reach) -> Quantity:
    wall = reach.wall

    def count() -> Count:
        across = wall.kind.value("unit_length")
        rows = max(step.courses for step in reach.stretch.steps)
        note = f"{plural(rows, 'row')} at most, a bag for each {tape(across, reach.system)}"
        return Count(net=reach.wall_area / (across * course_of(wall)), note=note)

    return line(
        kind=wall.kind, layer="wall", place=reach.stretch.name, unit=RATIO, count=count,
        waste=waste_of(wall.kind, "units"),
    )  # fmt: skip
