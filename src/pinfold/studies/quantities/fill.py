"""Inside the wall: grout in cells, upright bars with their dowels, bars along courses, damp-proof sheet."""

from __future__ import annotations

import math
from collections import Counter
from functools import lru_cache

from pinfold.findings import Step, work
from pinfold.formulas.counts import units_by_face
from pinfold.geometry.profiles import area_above
from pinfold.plan.buildups import BarPlace, Grout, Wall
from pinfold.studies.layout.walls import course_of
from pinfold.studies.quantities.laps import BarRules, bar_count, bar_pieces
from pinfold.studies.quantities.lines import Count, habit, line, plural, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, METER, Meter, SquareMeter, tape

_NEAR: Meter = 0.1
"""Places nearer than this are one cell."""


def fill(reach: Reach) -> tuple[Quantity, ...]:
    """Grout, bars and sheet of one stretch."""
    wall = reach.wall
    lines = []
    if wall.membrane:
        lines.append(_membrane(reach))
    if wall.grout is not Grout.NONE and wall.grout_mix is not None:
        lines.append(_grout(reach, wall.grout_mix))
    if wall.bar is not None and wall.bar_spacing is not None:
        lines.append(_uprights(reach, wall.bar))
    if wall.course_bar is not None and wall.course_bar_every is not None:
        lines.append(_along(reach, wall.course_bar))
    return tuple(lines)


def filled_cells(reach: Reach) -> tuple[Meter, ...]:
    """Places of the cells filled in a partly filled wall: as the grout asks, and wherever a bar stands."""
    wall = reach.wall
    places: list[Meter] = []
    wanted = [
        *(reach.uprights(wall.grout_spacing, alike=_is_partial) if wall.grout_spacing else ()),
        *bar_places(reach),
    ]
    for place in sorted(wanted):
        if not places or place - places[-1] > _NEAR:
            places.append(place)
    return tuple(places)


@lru_cache(maxsize=128)  # take-off and part list both ask
def bar_places(reach: Reach) -> tuple[Meter, ...]:
    """Places of the upright bars; none without bars."""
    wall = reach.wall
    if wall.bar is None or wall.bar_spacing is None:
        return ()
    return reach.uprights(wall.bar_spacing, alike=lambda other: other.bar is not None)


def _is_partial(other: Wall) -> bool:
    return other.grout is Grout.PARTIAL


def _grout(reach: Reach, mix: Kind) -> Quantity:
    count = (lambda: _all_cells(reach)) if reach.wall.grout is Grout.FULL else (lambda: _some_cells(reach))
    waste = kind("waste", "grout").figure("waste")
    return line(kind=mix, layer="grout", place=reach.stretch.name, unit=CUBIC_METER, count=count, waste=waste)


def _all_cells(reach: Reach) -> Count:
    wall = reach.wall
    module = wall.kind.value("unit_length") + wall.kind.value("joint")
    step = work(units_by_face, why="units whose cells are filled", area=_filled_area(reach), length=module,
                height=course_of(wall))  # fmt: skip
    volume = step.number * wall.kind.value("grout_per_unit")
    return Count(net=volume, note=f"all cells of {step.number:.0f} units", working=(step,))


def _filled_area(reach: Reach) -> SquareMeter:
    """Face of the wall up to where its grout stops."""
    whole, high = reach.wall_area, reach.wall.grout_height
    if high is None:
        return whole
    stretch = reach.stretch
    over = (area_above(top, step.bed + high) for step, top in zip(stretch.steps, stretch.tops, strict=True))
    return whole - math.fsum(over)


def _filled_to(height: Meter, wall: Wall) -> Meter:
    return height if wall.grout_height is None else min(height, wall.grout_height)


def _some_cells(reach: Reach) -> Count:
    wall = reach.wall
    per_height = wall.kind.value("grout_per_unit") / wall.kind.value("cells_per_unit") / course_of(wall)
    cells = filled_cells(reach)
    height = math.fsum(_filled_to(reach.full_height(cell), wall) for cell in cells)
    note = f"{plural(len(cells), 'cell')}, {tape(height, reach.system)} in all; posts and bars in them not taken off"
    return Count(net=height * per_height, note=note)


@lru_cache(maxsize=128)  # take-off and part list both ask
def upright_lengths(reach: Reach) -> tuple[tuple[str, Meter, int], ...]:
    """(what it is, length, how many alike) of upright bars and dowels, in the order they first come.

    With dowels a bar stands on the footing and ends under the top by its cover or where the plan ends it, lapped with a
    dowel that comes up out of the footing by a lap and is hooked at its foot; without, one bar reaches from the
    footing's cover up. Where bars stand near both faces there are two at each place.

    Raises:
        NotFoundError: the bar's diameter is not known.
    """
    wall, footing = reach.wall, reach.stretch.buildup.footing
    if wall.bar is None:
        return ()
    cover = habit("bars", "cover")
    below = max(footing.thickness - cover, 0.0) if footing and footing.kind.word("make") != "rubble-trench" else 0.0
    dowels = wall.dowels and below > 0
    found: Counter[tuple[str, Meter]] = Counter()
    hook = habit("bars", "hook") * wall.bar.value("diameter")
    dowel = below + hook + lap_of(reach, wall.bar) if dowels else 0.0
    many = 2 if wall.bar_place is BarPlace.BOTH else 1
    for place in bar_places(reach):
        high = max(reach.full_height(place) - cover, 0.0)
        bar = (high if wall.bar_height is None else min(high, wall.bar_height)) + (0.0 if dowels else below)
        found["upright bar", bar] += many
        if dowels:
            found["dowel", dowel] += many
    return tuple((says, length, count) for (says, length), count in found.items())


def lap_of(reach: Reach, bar: Kind) -> Meter:
    """Lap of an upright bar with its dowel: as the plan lays it, else the whole one.

    Raises:
        NotFoundError: the bar's diameter is not known.
    """
    return bar_count(reach.system, bar).lap if reach.wall.lap is None else reach.wall.lap


def _uprights(reach: Reach, bar: Kind) -> Quantity:
    def count() -> Count:
        found = upright_lengths(reach)
        bars, dowels = (sum(many for says, _, many in found if says == what) for what in ("upright bar", "dowel"))
        told = dowels and reach.wall.lap is None
        working: tuple[Step, ...] = (bar_count(reach.system, bar).working,) if told else ()
        note = plural(bars, "upright bar") + (f" and {plural(dowels, 'dowel')}" if dowels else "")
        return Count(net=math.fsum(length * many for _, length, many in found), note=note, working=working)

    return line(kind=bar, layer="bars", place=reach.stretch.name, unit=METER, count=count, waste=waste_of(bar, "bars"))


def course_bars(reach: Reach) -> tuple[Meter, ...]:
    """Length of each bar along a course, half a lap in it where the next stretch goes on."""
    wall = reach.wall
    assert wall.course_bar is not None
    assert wall.course_bar_every is not None
    lap = bar_count(reach.system, wall.course_bar).lap * reach.joined_ends / 2
    lengths = []
    for step in reach.stretch.steps:
        beds = math.floor(step.height / wall.course_bar_every + 1e-6)
        lengths += [step.length + lap * step.length / reach.stretch.length] * beds
    return tuple(lengths)


def _along(reach: Reach, bar: Kind) -> Quantity:
    def count() -> Count:
        rules: BarRules = bar_count(reach.system, bar)
        lengths = course_bars(reach)
        net = math.fsum(piece for length in lengths for piece in bar_pieces(length, rules))
        note = f"{plural(len(lengths), 'bar')} along courses, lapped {tape(rules.lap, reach.system)}"
        return Count(net=net, note=note, working=(rules.working,))

    return line(kind=bar, layer="bars", place=reach.stretch.name, unit=METER, count=count, waste=waste_of(bar, "bars"))


def _membrane(reach: Reach) -> Quantity:
    sheet = kind("fasteners", "damp-proof-sheet")
    lap = habit("sheet", "roll_joint")
    pieces = len(reach.stretch.steps)
    return line(
        kind=sheet, layer="membrane", place=reach.stretch.name, unit=METER, waste=waste_of(sheet, "sheet"),
        count=lambda: Count(
            net=reach.stretch.length + (pieces - 1) * lap,
            note=f"{_lies(reach)}, {tape(reach.wall.thickness, reach.system)} wide",
        ),
    )  # fmt: skip


def _lies(reach: Reach) -> str:
    at = reach.wall.membrane_at
    return f"{tape(at, reach.system)} over the lowest bed" if at else "at the foot of the wall"
