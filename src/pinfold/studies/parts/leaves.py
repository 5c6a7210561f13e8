"""Sills of gates, members and infill of their leaves."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.plan.enclosure import Gate
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.parts.pieces import Piece
from pinfold.studies.quantities.gates import infill_band, infill_kind
from pinfold.studies.quantities.lines import plural
from pinfold.units import System


def sill(gate: Gate) -> Iterator[Piece]:
    """What lies between the posts under the leaves."""
    if gate.sill is not None:
        yield Piece(letter="G", says="gate sill", kind=gate.sill.kind, length=gate.width, place=gate.name)


def frame(gate: Gate, system: System) -> Iterator[Piece]:
    """Stiles, rails and braces of all leaves."""
    found = frame_of(gate, system)
    size, deep = found.size, found.size.meters(found.member)
    for piece in found.pieces:
        laps = f"; {plural(len(piece.laps), 'half lap')}" if piece.laps else ""
        yield Piece(letter="G", says=piece.says, kind=gate.kind, length=size.meters(piece.length), place=gate.name,
                    ends=f"{piece.ends}{laps}", many=gate.leaves, left=piece.left, right=piece.right,
                    deep=deep)  # fmt: skip


def infill(gate: Gate) -> Iterator[Piece]:
    """Mesh or sheet on all leaves; the last sheet of a leaf is slit to what is left of its width."""
    kind = infill_kind(gate)
    if kind.shelf == "meshes":
        found = infill_band(gate)
        for length in found.pieces:
            yield Piece(letter="G", says="gate mesh", kind=kind, length=length, place=gate.name, many=gate.leaves,
                        width=min(gate.height, found.roll_height), splice=True)  # fmt: skip
        return
    for width, count in sheet_widths(gate.leaf_width, kind.value("unit_length")):
        yield Piece(letter="G", says="gate sheet", kind=kind, length=gate.height, place=gate.name,
                    many=count * gate.leaves, width=width)  # fmt: skip


def sheet_widths(across: float, sheet: float) -> Iterator[tuple[float, int]]:
    """(width, how many) of the sheets that stand side by side over a width: whole ones, and what is left."""
    whole = math.floor(across / sheet + 1e-6)
    if whole:
        yield sheet, whole
    if across - whole * sheet > 1e-3:
        yield across - whole * sheet, 1
