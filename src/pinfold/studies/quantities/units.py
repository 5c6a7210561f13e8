"""Block, brick, earth block, adobe and sheet: whole units, cut units and what home-made ones are made of."""

from __future__ import annotations

import math

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Wall
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.rows import Laid, laid
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, RATIO, CubicMeter, Meter, show, tape


def units(reach: Reach) -> tuple[Quantity, ...]:
    """Units of one stretch; for units made on site also the mix in them."""
    wall = reach.wall
    count = (lambda: _sheets(reach)) if wall.kind.word("make") == "sheet" else (lambda: _units(reach))
    counted = line(
        kind=wall.kind, layer="wall", place=reach.stretch.name, unit=RATIO, count=count,
        waste=waste_of(wall.kind, "units"),
    )  # fmt: skip
    mix = wall.kind.word("mix")
    return (counted, _mix(reach, kind("mixes", mix), counted)) if mix else (counted,)


def leaves(wall: Wall) -> int:
    """How many units stand behind one another in the wall."""
    return round(wall.kind.value("leaves")) if wall.kind.has("leaves") else 1


def _units(reach: Reach) -> Count:
    found = laid(reach)
    behind = leaves(reach.wall)
    note = f"{plural(found.rows, 'row')}: {found.whole} whole" + _cuts(found)
    if behind > 1:
        note += f"; {behind} behind one another"
    return Count(net=float(found.units * behind), note=note)


def _cuts(found: Laid) -> str:
    if not found.small + found.large:
        return ", none cut"
    cut = math.ceil(found.small / 2)
    parts = [plural(found.large, "long piece")] if found.large else []
    parts += [f"{plural(found.small, 'half or shorter piece')} out of {cut}"] if found.small else []
    return ", " + ", ".join(parts)


def _mix(reach: Reach, mix: Kind, counted: Quantity) -> Quantity:
    def count() -> Count:
        if not counted.is_known:
            raise NotFoundError("the units themselves could not be counted")
        volume = unit_volume(reach.wall)
        size = show(volume, CUBIC_METER, reach.system)
        return Count(net=counted.net * volume, note=f"{counted.net:.0f} units of {size}")

    return line(
        kind=mix, layer="wall", place=reach.stretch.name, unit=CUBIC_METER, count=count, waste=counted.waste_figure
    )


def unit_volume(wall: Wall) -> CubicMeter:
    """Volume of one solid unit [m3].

    Raises:
        NotFoundError: its size is not known.
    """
    across = wall.kind.value("unit_width") if wall.kind.has("unit_width") else wall.thickness
    return wall.kind.value("unit_length") * wall.kind.value("unit_height") * across


def sheet_pieces(reach: Reach) -> tuple[tuple[Meter, int, int], ...]:
    """(height, pieces, pieces out of a sheet) for each step of a wall of sheet, sheets standing on end.

    Raises:
        NotFoundError: the sheet's size is not known.
    """
    sheet, across = reach.wall.kind.value("unit_height"), reach.wall.kind.value("unit_length")
    found = []
    for step, top in zip(reach.stretch.steps, reach.stretch.tops, strict=True):
        height = max(z for _, z in top) - step.bed
        found.append((min(height, sheet), _sheet_rows(height, sheet) * math.ceil(step.length / across - 1e-6),
                      max(math.floor(sheet / height + 1e-6), 1)))  # fmt: skip
    return tuple(found)


def _sheet_rows(height: Meter, sheet: Meter) -> int:
    return max(math.ceil(height / sheet - 1e-6), 1)


def _sheets(reach: Reach) -> Count:
    pieces = sheet_pieces(reach)
    notes = (f"{plural(count, 'piece')} {tape(height, reach.system)} high, {per} out of a sheet"
             for height, count, per in pieces)  # fmt: skip
    return Count(net=float(sum(math.ceil(count / per) for _, count, per in pieces)), note="; ".join(notes))
