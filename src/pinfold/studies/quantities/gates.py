"""Gates: frame, infill, hinges, latch, drop bolt, and their posts in concrete."""

from __future__ import annotations

import math
from collections import Counter

from pinfold.plan.enclosure import Gate
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.layout.records import GatePlace, Post
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.standing import collars, posts
from pinfold.studies.quantities.strips import Strips, strips_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, System, tape


def gate(place: GatePlace, own: tuple[Post, ...], system: System) -> tuple[Quantity, ...]:
    """Everything one gate needs."""
    planned = place.gate
    lines = [
        *posts(own, place=planned.name, system=system),
        *collars(own, place=planned.name, system=system),
        *_sill(planned, system),
        _frame(planned, system),
        infill(planned, system),
        _fitting(planned, "hinge", planned.leaves, "per_leaf"),
        _fitting(planned, "latch", 1, "per_gate"),
    ]
    if planned.leaves > 1:
        lines.append(_fitting(planned, "drop-bolt", 1, "per_gate"))
    return tuple(lines)


def _sill(planned: Gate, system: System) -> tuple[Quantity, ...]:
    if planned.sill is None:
        return ()
    note = f"across the opening, {tape(planned.width, system)}"
    return (
        line(
            kind=planned.sill.kind, layer="gate", place=planned.name, unit=METER,
            count=lambda: Count(net=planned.width, note=note),
        ),
    )  # fmt: skip


def _frame(planned: Gate, system: System) -> Quantity:
    def count() -> Count:
        frame = frame_of(planned, system)
        alike = Counter((piece.says, piece.length) for piece in frame.pieces)
        net = planned.leaves * math.fsum(frame.size.meters(piece.length) for piece in frame.pieces)
        parts = ", ".join(
            f"{plural(planned.leaves * many, says[5:])} of {tape(frame.size.meters(length), system)}"
            for (says, length), many in alike.items()
        )
        return Count(net=net, note=parts)

    return line(
        kind=planned.kind, layer="gate", place=planned.name, unit=METER, count=count,
        waste=waste_of(planned.kind, "sticks"),
    )  # fmt: skip


def infill_kind(planned: Gate) -> Kind:
    """The mesh or the sheet on the leaf."""
    word = planned.kind.word("infill")
    return kind("walls", "sheet-on-frame") if word == "sheet" else kind("meshes", word)


def infill_band(planned: Gate) -> Strips:
    """Mesh of one leaf as it comes off the roll.

    Raises:
        NotFoundError: the roll's size is not known.
    """
    return strips_of(infill_kind(planned), height=planned.height, length=planned.leaf_width)


def infill(planned: Gate, system: System) -> Quantity:
    """Mesh by the roll, or sheets, on all leaves."""
    own = infill_kind(planned)
    is_mesh = own.shelf == "meshes"

    def mesh() -> Count:
        found = infill_band(planned)
        note = f"{plural(planned.leaves, 'leaf piece')} out of rolls of {tape(found.roll_height, system)}"
        return Count(net=planned.leaves * found.length, note=note)

    def sheet() -> Count:
        pieces = planned.leaves * math.ceil(planned.leaf_width / own.value("unit_length") - 1e-6)
        per = max(math.floor(own.value("unit_height") / planned.height + 1e-6), 1)
        note = f"{plural(pieces, 'piece')} {tape(planned.height, system)} high, {per} out of a sheet"
        return Count(net=float(math.ceil(pieces / per)), note=note)

    return line(
        kind=own, layer="gate", place=planned.name, unit=METER if is_mesh else RATIO, count=mesh if is_mesh else sheet,
        waste=waste_of(own, "mesh"),
    )  # fmt: skip


def _fitting(planned: Gate, name: str, times: int, figure: str) -> Quantity:
    own = kind("fasteners", name)
    return line(
        kind=own, layer="gate", place=planned.name, unit=RATIO,
        count=lambda: Count(net=times * own.value(figure), note=plural(times * own.value(figure), name)),
    )  # fmt: skip
