"""The part list: every piece that is cut out of something bought in lengths, rolls or sheets.

Marks are pinfold's own: a letter for what a part is and a running number in the order the parts come round the plot.

    T post (its place is P and a number), R rail or strut in lengths, W wire, M mesh and apron, B bar,
    C coping or board on the wall, S sheet, G member or infill of a gate

Pieces alike (same words, kind, length and ends) share one mark. Lengths are rounded up to the tape: a sixteenth of an
inch or a millimeter.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.enclosure import Gate
from pinfold.plan.fences import BraceForm
from pinfold.studies.layout.bracing import BracePlace, braces_of
from pinfold.studies.layout.records import Layout, Role
from pinfold.studies.quantities.bracing import brace_wire_length, pole_length
from pinfold.studies.quantities.coping import coping_length
from pinfold.studies.quantities.fence import apron_band, band, is_wire, wire_length
from pinfold.studies.quantities.fill import course_bars, upright_lengths
from pinfold.studies.quantities.gates import infill_band, infill_kind, members
from pinfold.studies.quantities.laps import bar_count, bar_pieces
from pinfold.studies.quantities.reach import Reach, reaches
from pinfold.studies.quantities.records import Part
from pinfold.studies.quantities.standing import cut_length, longest_stock
from pinfold.studies.quantities.trench import footing_bar_length
from pinfold.studies.quantities.units import sheet_pieces
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, System

_SAYS = {Role.LINE: "line post", Role.CORNER: "corner post", Role.END: "end post", Role.GATE: "gate post"}


class _Piece(NamedTuple):
    """One piece or several alike before they are marked."""

    letter: str
    says: str
    kind: Kind
    length: Meter
    place: str
    many: int = 1
    ends: str = "square"


def parts(layout: Layout) -> tuple[Part, ...]:
    """All parts, in order around the plot: posts first, then stretch by stretch, then the gates.

    What lacks a figure has no part; the take-off names the figure.
    """
    numbers: dict[str, int] = {}
    found = []
    for (letter, says, _, _, length, ends), group in _alike(_pieces(layout)).items():
        numbers[letter] = numbers.get(letter, 0) + 1
        found.append(
            Part(
                mark=f"{letter}{numbers[letter]}",
                says=says,
                kind=group[0].kind,
                length=length,
                count=sum(piece.many for piece in group),
                places=tuple(dict.fromkeys(piece.place for piece in group)),
                ends=ends,
            )
        )
    return tuple(found)


_Likeness = tuple[str, str, str, str, Meter, str]
"""Letter, words, shelf and name of its kind, length and ends of a piece."""


def _alike(pieces: Iterable[_Piece]) -> Mapping[_Likeness, list[_Piece]]:
    groups: dict[_Likeness, list[_Piece]] = {}
    for piece in pieces:
        key = (piece.letter, piece.says, piece.kind.shelf, piece.kind.name, piece.length, piece.ends)
        groups.setdefault(key, []).append(piece)
    return groups


def _pieces(layout: Layout) -> Iterator[_Piece]:
    system = layout.plan.units
    for post in layout.posts:
        length = cut_length(post.length, system)
        yield _Piece(letter="T", says=_SAYS[post.role], kind=post.kind, length=length, place=post.name)
    for place in braces_of(layout):
        yield from _known(_brace(place), system)
    for reach in reaches(layout):
        yield from _of_reach(reach.between_ends)
    for gate in layout.plan.gates:
        yield from _known(_gate(gate), system)
        yield from _known(_infill(gate), system)


def _brace(place: BracePlace) -> Iterator[_Piece]:
    at, brace = place.post.name, place.brace
    if place.brace_post is not None:
        own = place.brace_post
        yield _Piece(letter="T", says="brace post", kind=own.kind, length=own.length, place=at)
    strut = brace.form is BraceForm.STRUT
    slope = math.degrees(math.atan2(brace.rail_at, place.length)) if strut else 0.0
    yield _Piece(letter="R", says="strut" if strut else "brace rail", kind=brace.rail, length=pole_length(place),
                 place=at, ends=f"cut to {slope:.0f}°" if strut else "square")  # fmt: skip
    if brace.wire is not None:
        yield _Piece(letter="W", says="brace wire", kind=brace.wire, length=brace_wire_length(place), place=at)


@lru_cache(maxsize=128)  # while one corner is dragged, most stretches stay what they were
def _of_reach(reach: Reach) -> tuple[_Piece, ...]:
    kinds = (_footing, _uprights, _courses, _sheets, _coping, _rails, _mesh, _apron)
    groups = _alike(piece for pieces in kinds for piece in _known(pieces(reach), reach.system))
    return tuple(group[0]._replace(many=sum(piece.many for piece in group)) for group in groups.values())


def _known(pieces: Iterable[_Piece], system: System) -> tuple[_Piece, ...]:
    """Pieces at the length they are cut to; none where a figure is missing."""
    try:
        return tuple(piece._replace(length=cut_length(piece.length, system)) for piece in pieces if piece.length > 1e-6)
    except (NotFoundError, OutOfRangeError):
        return ()


def _footing(reach: Reach) -> Iterator[_Piece]:
    footing = reach.stretch.buildup.footing
    if reach.stretch.steps and footing is not None and footing.bar is not None and footing.bars:
        lengths = bar_pieces(footing_bar_length(reach), bar_count(reach.system, footing.bar))
        for length in lengths:
            yield _Piece(letter="B", says="footing bar", kind=footing.bar, length=length, place=reach.stretch.name,
                         many=footing.bars)  # fmt: skip


def _uprights(reach: Reach) -> Iterator[_Piece]:
    bar = reach.wall.bar if reach.stretch.steps else None
    if bar is not None:
        for says, length, count in upright_lengths(reach):
            yield _Piece(
                letter="B", says=says, kind=bar, length=length, place=reach.stretch.name, many=count,
                ends="foot bent square" if says == "dowel" else "square",
            )  # fmt: skip


def _courses(reach: Reach) -> Iterator[_Piece]:
    bar = reach.wall.course_bar if reach.stretch.steps else None
    if bar is not None and reach.wall.course_bar_every is not None:
        rules = bar_count(reach.system, bar)
        for whole in course_bars(reach):
            for length in bar_pieces(whole, rules):
                yield _Piece(letter="B", says="course bar", kind=bar, length=length, place=reach.stretch.name)


def _sheets(reach: Reach) -> Iterator[_Piece]:
    if reach.stretch.steps and reach.wall.kind.word("make") == "sheet":
        for height, count, _ in sheet_pieces(reach):
            yield _Piece(letter="S", says="sheet on end", kind=reach.wall.kind, length=height,
                         place=reach.stretch.name, many=count)  # fmt: skip


def _coping(reach: Reach) -> Iterator[_Piece]:
    coping = reach.stretch.buildup.coping
    if coping is None or coping.kind.word("make") not in ("board", "precast"):
        return
    place, length, stock = reach.stretch.name, coping_length(reach), coping.kind.value("unit_length")
    if coping.kind.word("make") == "board":
        count = max(math.ceil(length / stock - 1e-6), 1)
        yield _Piece(letter="C", says="board on the wall", kind=coping.kind, length=length / count, place=place,
                     many=count)  # fmt: skip
        return
    whole, rest = divmod(length + 1e-9, stock + coping.kind.value("joint"))
    if whole:
        yield _Piece(letter="C", says="coping piece", kind=coping.kind, length=stock, place=place, many=int(whole))
    if rest > coping.kind.value("joint"):
        yield _Piece(letter="C", says="coping piece, cut", kind=coping.kind, length=min(rest, stock), place=place)


def _rails(reach: Reach) -> Iterator[_Piece]:
    for rail in reach.stretch.buildup.rails:
        if is_wire(rail.kind):
            yield _Piece(letter="W", says="wire", kind=rail.kind, length=wire_length(reach), place=reach.stretch.name)
        else:
            for length in rail_lengths(reach, rail.kind):
                yield _Piece(letter="R", says="rail", kind=rail.kind, length=length, place=reach.stretch.name)


def rail_lengths(reach: Reach, rail: Kind) -> tuple[Meter, ...]:
    """Lengths of rail along a stretch, jointed on posts: each reaches over as many bays as the longest stock allows.

    A bay longer than any stock is shared out in equal pieces, to be scarfed or lapped by the builder.
    """
    slope = reach.course_length / reach.stretch.length
    longest = longest_stock(rail)
    found: list[Meter] = []
    for start, end in reach.bays:
        bay = (end - start) * slope
        if found and found[-1] + bay <= longest + 1e-9:
            found[-1] += bay
        else:
            count = max(math.ceil(bay / longest - 1e-9), 1)
            found += [bay / count] * count
    return tuple(found)


def _mesh(reach: Reach) -> Iterator[_Piece]:
    mesh = reach.stretch.buildup.mesh
    if mesh is not None:
        for length in band(reach, mesh).pieces:
            yield _Piece(letter="M", says="mesh strip", kind=mesh.kind, length=length, place=reach.stretch.name)


def _apron(reach: Reach) -> Iterator[_Piece]:
    mesh = reach.stretch.buildup.mesh
    if mesh is not None and mesh.apron > 0:
        found = apron_band(reach, mesh)
        says = f"apron, slit in {found.slit}" if found.slit > 1 else "apron strip"
        for length in found.pieces:
            yield _Piece(letter="M", says=says, kind=mesh.kind, length=length, place=reach.stretch.name)


def _gate(gate: Gate) -> Iterator[_Piece]:
    for member in members(gate):
        ends = f"mitered {math.degrees(member.angle):.0f}°" if member.angle else "square"
        yield _Piece(letter="G", says=member.says, kind=gate.kind, length=member.length, place=gate.name,
                     many=member.count * gate.leaves, ends=ends)  # fmt: skip


def _infill(gate: Gate) -> Iterator[_Piece]:
    kind = infill_kind(gate)
    if kind.shelf == "meshes":
        for length in infill_band(gate).pieces:
            yield _Piece(letter="G", says="gate mesh", kind=kind, length=length, place=gate.name, many=gate.leaves)
    else:
        pieces = math.ceil(gate.leaf_width / kind.value("unit_length") - 1e-6)
        yield _Piece(letter="G", says="gate sheet", kind=kind, length=gate.height, place=gate.name,
                     many=pieces * gate.leaves)  # fmt: skip
