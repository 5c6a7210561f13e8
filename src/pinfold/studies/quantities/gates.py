"""Gates: frame, infill, hinges, latch, drop bolt, and their posts in concrete."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas.gates import brace_angle
from pinfold.plan.enclosure import Gate
from pinfold.studies.layout.records import GatePlace, Post
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.standing import collars, posts
from pinfold.studies.quantities.strips import Strips, strips_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, Meter, Radian, System, tape


@dataclass(frozen=True, kw_only=True)
class Member:
    """One member of a leaf's frame.

    Attributes:
        says: gate stile, gate rail or gate brace.
        length: to cut.
        count: in one leaf.
        angle: its cut against square, for a brace; 0 for others.
    """

    says: str
    length: Meter
    count: int
    angle: Radian = 0.0


def gate(place: GatePlace, own: tuple[Post, ...], system: System) -> tuple[Quantity, ...]:
    """Everything one gate needs."""
    planned = place.gate
    lines = [
        *posts(own, place=planned.name, system=system),
        *collars(own, place=planned.name, system=system),
        _frame(planned, system),
        infill(planned, system),
        _fitting(planned, "hinge", planned.leaves, "per_leaf"),
        _fitting(planned, "latch", 1, "per_gate"),
    ]
    if planned.leaves > 1:
        lines.append(_fitting(planned, "drop-bolt", 1, "per_gate"))
    return tuple(lines)


def members(planned: Gate) -> tuple[Member, ...]:
    """Members of one leaf: stiles full height, rails between them, braces from corner to corner inside.

    Raises:
        NotFoundError: the width of a member or the number of rails is not known.
        OutOfRangeError: nothing is left between the members.
    """
    own = planned.kind
    across = planned.leaf_width - 2 * own.value("member_width")
    up = planned.height - 2 * own.value("member_width")
    found = [
        Member(says="gate stile", length=planned.height, count=2),
        Member(says="gate rail", length=across, count=round(own.value("rails"))),
    ]
    braces = round(own.value("brace")) if own.has("brace") else 0
    if braces:
        found.append(Member(says="gate brace", length=math.hypot(across, up), count=braces,
                            angle=_angle(across, up).number))  # fmt: skip
    return tuple(found)


def _angle(across: Meter, up: Meter) -> Step:
    return work(brace_angle, why="brace above level", width=across, height=up)


def _frame(planned: Gate, system: System) -> Quantity:
    def count() -> Count:
        found = members(planned)
        net = planned.leaves * math.fsum(member.count * member.length for member in found)
        parts = ", ".join(
            f"{plural(planned.leaves * member.count, member.says[5:])} of {tape(member.length, system)}"
            for member in found
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
