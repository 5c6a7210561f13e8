"""Rails, wires and mesh of one stretch, with apron and pins."""

from __future__ import annotations

import math
from collections.abc import Callable

from pinfold.plan.buildups import Mesh, Rail
from pinfold.studies.quantities.lines import Count, habit, line, plural, waste_of
from pinfold.studies.quantities.rails import lap_of, rail_pieces
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.strips import Strips, slit_of, strips_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, Meter, tape


def fence(reach: Reach) -> tuple[Quantity, ...]:
    """What hangs on the posts of one stretch."""
    mesh = reach.stretch.buildup.mesh
    lines = [_rail(reach, rail) for rail in reach.stretch.buildup.rails]
    if mesh is not None:
        lines.append(_mesh(reach, mesh))
        if mesh.apron > 0:
            lines += [_apron(reach, mesh), _pins(reach, mesh)]
    return tuple(lines)


def is_wire(rail: Kind) -> bool:
    """Whether it comes by the roll and is strained from end to end, instead of in lengths from post to post."""
    return rail.word("sold") == "roll"


def wire_length(reach: Reach) -> Meter:
    """One wire along the stretch, tied off round a post at each end."""
    return reach.course_length + 2 * wire_end()


def wire_end() -> Meter:
    """What of a wire goes round a post and back on itself at one end."""
    return habit("wire", "end")


def _rail(reach: Reach, rail: Rail) -> Quantity:
    wire, at = is_wire(rail.kind), tape(rail.at, reach.system)

    def count() -> Count:
        if wire:
            return Count(net=wire_length(reach), note=f"at {at}, tied off at both ends")
        lap = lap_of(reach, rail)
        laps = (len(rail_pieces(reach, rail)) - 1) * lap
        how = f"lapped {tape(lap, reach.system)} on posts" if lap else "jointed on posts"
        return Count(net=reach.course_length + laps, note=f"at {at}, {how}")

    return line(
        kind=rail.kind, layer="rails", place=reach.stretch.name, unit=METER, count=count,
        waste=waste_of(rail.kind, "wire" if wire else "sticks"),
    )  # fmt: skip


def band(reach: Reach, mesh: Mesh) -> Strips:
    """The mesh of a stretch as it comes off the roll, its lap over the wall in it.

    Raises:
        NotFoundError: the roll's size is not known.
    """
    return strips_of(mesh.kind, height=mesh.height + mesh.lap, length=reach.course_length)


def apron_band(reach: Reach, mesh: Mesh) -> Strips:
    """The apron likewise, with what is turned up against the fence.

    Raises:
        NotFoundError: the roll's size is not known.
    """
    width = mesh.apron + habit("mesh", "turn_up")
    return slit_of(mesh.kind, width=width, length=reach.course_length, fence=mesh.height + mesh.lap)


def _mesh(reach: Reach, mesh: Mesh) -> Quantity:
    def count() -> Count:
        found = band(reach, mesh)
        high = tape(mesh.height + mesh.lap, reach.system)
        note = f"{high} high out of rolls of {tape(found.roll_height, reach.system)}"
        if found.strips > 1:
            note += f", {found.strips} strips one above the other"
        return Count(net=found.length, note=f"{note}, {plural(len(found.pieces), 'piece')}")

    return _of_roll(reach, mesh, "mesh", count)


def _apron(reach: Reach, mesh: Mesh) -> Quantity:
    def count() -> Count:
        found = apron_band(reach, mesh)
        note = f"{tape(mesh.apron, reach.system)} {'down into' if mesh.apron_buried else 'out on'} the ground"
        if found.slit > 1:
            note += f", {found.slit} side by side out of rolls of {tape(found.roll_height, reach.system)}"
        return Count(net=found.length, note=note)

    return _of_roll(reach, mesh, "apron", count)


def _of_roll(reach: Reach, mesh: Mesh, layer: str, count: Callable[[], Count]) -> Quantity:
    return line(
        kind=mesh.kind, layer=layer, place=reach.stretch.name, unit=METER, count=count,
        waste=waste_of(mesh.kind, "mesh"),
    )  # fmt: skip


def pin_count(reach: Reach) -> int:
    """Pins along the apron of a stretch, at both ends too."""
    return math.ceil(reach.course_length / kind("fasteners", "apron-pin").value("spacing") - 1e-9) + 1


def pin_length() -> Meter:
    """Of a pin that is cut from a bar, its hook in it."""
    return kind("fasteners", "apron-pin").value("length")


def _pins(reach: Reach, mesh: Mesh) -> Quantity:
    ready = kind("fasteners", "apron-pin")
    note = f"one every {tape(ready.value('spacing'), reach.system)} and at both ends"
    if mesh.pin is None:
        return line(
            kind=ready, layer="apron", place=reach.stretch.name, unit=RATIO, waste=waste_of(ready, "units"),
            count=lambda: Count(net=float(pin_count(reach)), note=note),
        )  # fmt: skip
    cut = f"{plural(pin_count(reach), 'pin')} of {tape(pin_length(), reach.system)}, {note}"
    return line(
        kind=mesh.pin, layer="apron", place=reach.stretch.name, unit=METER, waste=waste_of(mesh.pin, "bars"),
        count=lambda: Count(net=pin_count(reach) * pin_length(), note=cut),
    )  # fmt: skip
