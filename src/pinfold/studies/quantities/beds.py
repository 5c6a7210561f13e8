"""Mortar: what stays in bed and head joints, and between rubble stone."""

from __future__ import annotations

from pinfold.findings import work
from pinfold.formulas.counts import rubble_mortar
from pinfold.plan.buildups import Wall
from pinfold.studies.layout.walls import course_of
from pinfold.studies.quantities.lines import Count, line
from pinfold.studies.quantities.mass import wall_volume
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.units import leaves
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, SQUARE_METER, Meter, SquareMeter, show, tape

THIRD = 1 / 3


def mortar(reach: Reach) -> tuple[Quantity, ...]:
    """Mortar of one stretch; nothing for walls without joints."""
    wall = reach.wall
    if wall.mortar is None or wall.kind.word("bedding", "none") == "none":
        return ()
    is_rubble = wall.kind.has("mortar_share")
    row = "mortar-rubble" if is_rubble else f"mortar-{wall.kind.word('bedding')}"
    return (
        line(
            kind=wall.mortar, layer="mortar", place=reach.stretch.name, unit=CUBIC_METER,
            count=(lambda: _rubble(reach)) if is_rubble else (lambda: _joints(reach)),
            waste=kind("waste", row).figure("waste"),
        ),
    )  # fmt: skip


def mortar_per_area(wall: Wall) -> Meter:
    """Mortar that stays in the joints of a wall of units, per area of its face [m3/m2].

    Raises:
        NotFoundError: a size of the unit is not known.
    """
    joint, height = wall.kind.value("joint"), wall.kind.value("unit_height")
    module, across = wall.kind.value("unit_length") + joint, bedded_width(wall)
    face: SquareMeter = module * course_of(wall)
    collar = (leaves(wall) - 1) * joint * face
    return (across * joint * (module + height) + collar) / face


def bedded_width(wall: Wall) -> Meter:
    """Width of mortar across the wall: both face shells, or all of it but the joints between leaves.

    Raises:
        NotFoundError: the thickness of the shells is not known.
    """
    if wall.kind.word("bedding") == "face-shell":
        return 2 * wall.kind.value("shell")
    if wall.kind.has("unit_width"):
        return leaves(wall) * wall.kind.value("unit_width")
    return wall.thickness


def _joints(reach: Reach) -> Count:
    bedding = "under the face shells only" if reach.wall.kind.word("bedding") == "face-shell" else "on full beds"
    area, joint = show(reach.wall_area, SQUARE_METER, reach.system), tape(reach.wall.kind.value("joint"), reach.system)
    note = f"{area} of wall, joints of {joint} {bedding}; what falls off and into the cells is the waste"
    return Count(net=reach.wall_area * mortar_per_area(reach.wall), note=note)


def _rubble(reach: Reach) -> Count:
    share = reach.wall.kind.value("mortar_share")
    volume = wall_volume(reach)
    if abs(share - THIRD) < 1e-9:
        step = work(rubble_mortar, why="mortar between rubble stone", wall=volume)
        return Count(net=step.number, note="a third of the wall", working=(step,))
    return Count(net=volume * share, note=f"{share:.0%} of the wall")
