"""What is cut for a stretch: bars, sheets, coping, rails and wires, mesh and apron."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from pinfold.plan.buildups import Rail, RailJoint
from pinfold.studies.parts.leaves import sheet_widths
from pinfold.studies.parts.pieces import Piece, alike, known
from pinfold.studies.quantities.coping import coping_length
from pinfold.studies.quantities.fence import apron_band, band, is_wire, pin_count, pin_length, wire_end, wire_length
from pinfold.studies.quantities.fill import course_bars, upright_lengths
from pinfold.studies.quantities.forms import joined_equal
from pinfold.studies.quantities.laps import bar_count, bar_pieces
from pinfold.studies.quantities.lines import habit
from pinfold.studies.quantities.rails import lap_of, rail_pieces
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.strips import Strips
from pinfold.studies.quantities.trench import footing_bar_length
from pinfold.studies.quantities.units import sheet_pieces
from pinfold.units import Meter, tape


@lru_cache(maxsize=128)  # while one corner is dragged, most stretches stay what they were
def of_reach(reach: Reach) -> tuple[Piece, ...]:
    """Every piece of a stretch, those alike together."""
    kinds = (_footing, _uprights, _courses, _sheets, _coping, _rails, _mesh, _apron, _pins)
    groups = alike(piece for pieces in kinds for piece in known(pieces(reach), reach.system))
    return tuple(group[0]._replace(many=sum(piece.many for piece in group)) for group in groups.values())


def _footing(reach: Reach) -> Iterator[Piece]:
    footing = reach.stretch.buildup.footing
    if reach.stretch.steps and footing is not None and footing.bar is not None and footing.bars:
        lengths = bar_pieces(footing_bar_length(reach), bar_count(reach.system, footing.bar))
        for length in lengths:
            yield Piece(letter="B", says="footing bar", kind=footing.bar, length=length, place=reach.stretch.name,
                         many=footing.bars)  # fmt: skip


def _uprights(reach: Reach) -> Iterator[Piece]:
    bar = reach.wall.bar if reach.stretch.steps else None
    if bar is not None:
        for says, length, count in upright_lengths(reach):
            yield Piece(
                letter="B", says=says, kind=bar, length=length, place=reach.stretch.name, many=count,
                ends="foot bent square" if says == "dowel" else "square",
            )  # fmt: skip


def _courses(reach: Reach) -> Iterator[Piece]:
    bar = reach.wall.course_bar if reach.stretch.steps else None
    if bar is not None and reach.wall.course_bar_every is not None:
        rules = bar_count(reach.system, bar)
        for whole in course_bars(reach):
            for length in bar_pieces(whole, rules):
                yield Piece(letter="B", says="course bar", kind=bar, length=length, place=reach.stretch.name)


def _sheets(reach: Reach) -> Iterator[Piece]:
    if not reach.stretch.steps or reach.wall.kind.word("make") != "sheet":
        return
    kind, place = reach.wall.kind, reach.stretch.name
    for step, (height, count, _) in zip(reach.stretch.steps, sheet_pieces(reach), strict=True):
        widths = tuple(sheet_widths(step.length, kind.value("unit_length")))
        rows = count // sum(many for _, many in widths)
        for width, many in widths:
            yield Piece(letter="S", says="sheet on end", kind=kind, length=height, width=width, place=place,
                        many=many * rows)  # fmt: skip


def _coping(reach: Reach) -> Iterator[Piece]:
    coping = reach.stretch.buildup.coping
    if coping is None or coping.kind.word("make") not in ("board", "precast"):
        return
    place, length, stock = reach.stretch.name, coping_length(reach), coping.kind.value("unit_length")
    if coping.kind.word("make") == "board":
        for each, count in joined_equal(length, stock):
            yield Piece(letter="C", says="board on the wall", kind=coping.kind, length=each, place=place, many=count)
        return
    whole, rest = divmod(length + 1e-9, stock + coping.kind.value("joint"))
    if whole:
        yield Piece(letter="C", says="coping piece", kind=coping.kind, length=stock, place=place, many=int(whole))
    if rest > coping.kind.value("joint"):
        yield Piece(letter="C", says="coping piece, cut", kind=coping.kind, length=min(rest, stock), place=place)


def _rails(reach: Reach) -> Iterator[Piece]:
    for rail in reach.stretch.buildup.rails:
        if is_wire(rail.kind):
            yield Piece(letter="W", says="wire", kind=rail.kind, length=wire_length(reach), place=reach.stretch.name,
                        splice=True, tie=wire_end())  # fmt: skip
        else:
            yield from _rail(reach, rail)


def _rail(reach: Reach, rail: Rail) -> Iterator[Piece]:
    lap, joint = tape(lap_of(reach, rail), reach.system), rail.joint
    for length, lapped in rail_pieces(reach, rail):
        says, ends = "rail", "square"
        if lapped and joint is not RailJoint.BUTT:
            says = "rail, half-lapped" if joint is RailJoint.HALF_LAP else "rail, lapped"
            cut = f"halved over {lap}" if joint is RailJoint.HALF_LAP else f"{lap} past the next one"
            ends = f"square; {'both ends' if lapped > 1 else 'one end'} {cut}"
        yield Piece(letter="R", says=says, kind=rail.kind, length=length, place=reach.stretch.name, ends=ends)


def _mesh(reach: Reach) -> Iterator[Piece]:
    mesh = reach.stretch.buildup.mesh
    if mesh is not None:
        found = band(reach, mesh)
        for width in strip_widths(mesh.height + mesh.lap, found):
            yield Piece(letter="M", says="mesh strip", kind=mesh.kind, length=reach.course_length, width=width,
                        place=reach.stretch.name, splice=True)  # fmt: skip


def strip_widths(high: Meter, found: Strips) -> Iterator[Meter]:
    """Of the strips that stand one above the other: whole rolls, and what is left for the last."""
    joint = habit("mesh", "strip_joint")
    for _ in range(found.strips - 1):
        yield found.roll_height
        high -= found.roll_height - joint
    yield min(high, found.roll_height)


def _apron(reach: Reach) -> Iterator[Piece]:
    mesh = reach.stretch.buildup.mesh
    if mesh is not None and mesh.apron > 0:
        found = apron_band(reach, mesh)
        says = f"apron strip, slit in {found.slit}" if found.slit > 1 else "apron strip"
        yield Piece(letter="M", says=says, kind=mesh.kind, length=reach.course_length / found.slit,
                    width=found.roll_height if found.slit > 1 else mesh.apron + habit("mesh", "turn_up"),
                    place=reach.stretch.name, many=found.strips, splice=True)  # fmt: skip


def _pins(reach: Reach) -> Iterator[Piece]:
    mesh = reach.stretch.buildup.mesh
    if mesh is not None and mesh.apron > 0 and mesh.pin is not None:
        yield Piece(letter="B", says="apron pin", kind=mesh.pin, length=pin_length(), place=reach.stretch.name,
                    many=pin_count(reach), ends="one pointed, the other bent to a hook")  # fmt: skip
