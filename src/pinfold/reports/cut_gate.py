"""One gate to build: its size, pieces, swing, hinges, latch, years and who passes, as a page."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from pinfold.findings import Finding, by_urgency
from pinfold.plan.enclosure import Gate, Hand
from pinfold.plan.hanging import Bracing, Sill
from pinfold.reports.pages import Block, Caution, Findings, Heading, Page, Paragraph, Table, Working, table
from pinfold.studies.cutting.records import Steps
from pinfold.studies.gates.latching import LatchPlace, hinge_places
from pinfold.studies.gates.passing import GateGap, Passer
from pinfold.studies.gates.records import FramePiece, GateFrame, LeafSize, LeafWeight, SwingWay
from pinfold.studies.gates.sag import Sag
from pinfold.studies.stability.factors import SWING_ROOM
from pinfold.tables.shelf import kind
from pinfold.units import KILOGRAM, METER, NEWTON, Meter, System, show, tape

NOTHING: Meter = 0.0002
"""A sag under this is not told in figures."""


@dataclass(frozen=True, kw_only=True)
class GateAnswer:
    """All that is told of one gate.

    Attributes:
        name: the builder's word for it.
        frame: of one leaf.
        weight: of one leaf; None where it is not known.
        ways: how it may open, the planned way first.
        raised: how much higher than its gap over the sill it hangs so that it keeps its gap on its whole way.
        latch: where it sits and how a hand reaches it.
        gaps: of the gate.
        passers: who passes them.
        sag: in years; None where it is not shown.
        sag_because: why it is not shown.
        findings: of its leaves, hinges and posts, as `stand` has them.
    """

    name: str
    frame: GateFrame
    weight: LeafWeight | None
    ways: tuple[SwingWay, ...]
    raised: Meter
    latch: LatchPlace
    gaps: tuple[GateGap, ...]
    passers: tuple[Passer, ...]
    sag: Sag | None
    sag_because: str
    findings: tuple[Finding, ...]


def gate_page(answer: GateAnswer, *, working: bool) -> Page:
    """The gate as a page."""
    return Page(title=f"{answer.name}: to build and hang", blocks=tuple(gate_blocks(answer, working=working)))


def gate_blocks(answer: GateAnswer, *, working: bool) -> Iterator[Block]:
    """All that is told, and the findings."""
    yield from gate_sheet(answer)
    yield Heading(text="Does it hold")
    yield Findings(findings=by_urgency(answer.findings), working=working, each=True)


def gate_sheet(answer: GateAnswer) -> Iterator[Block]:
    """Opening, pieces, swing, hinges and latch, years, who passes."""
    system = answer.frame.size.system
    yield from _opening(answer)
    yield from _cautions(answer)
    yield Heading(text="Pieces of one leaf")
    yield pieces_table(answer.frame)
    yield Paragraph(text=_check_square(answer.frame))
    yield Heading(text="The ground under its swing")
    yield _swing_table(answer.ways, answer.frame.size)
    yield Paragraph(text=_swing_words(answer.ways, answer.raised, system))
    yield Heading(text="Hinges and latch")
    yield Paragraph(text=_hung(answer))
    yield Paragraph(text=_latched(answer.latch, system))
    yield from _years(answer)
    yield Heading(text="Who passes")
    yield _passing_table(answer)


def _t(frame: GateFrame, steps: Steps) -> str:
    return tape(frame.size.meters(steps), frame.size.system)


def _opening(answer: GateAnswer) -> Iterator[Block]:
    frame, size = answer.frame, answer.frame.size
    parts: list[str] = []
    for number, gap in enumerate(size.gaps):
        parts.append(f"gap {_t(frame, gap)}")
        if number < len(size.gaps) - 1:
            parts.append(f"leaf {_t(frame, size.width)}")
    yield Paragraph(text=f"Across the opening: {' + '.join(parts)} = {_t(frame, size.opening)}.")
    if frame.gate.sill is not None:
        yield Paragraph(text=_sill(frame.gate, frame.gate.sill, size.system))
    leaves = "One leaf" if frame.gate.leaves == 1 else "Two leaves, one held by a drop bolt, each"
    weight = ""
    if answer.weight is not None:
        center = tape(answer.weight.reach, size.system)
        weight = (
            f" {show(answer.weight.mass, KILOGRAM, size.system)}, its weight hanging {center} from the hinge edge"
            f"{' (weighed; halfway taken)' if answer.weight.weighed else ', without hinges and latch'}."
        )
    yield Paragraph(text=f"{leaves} {_t(frame, size.width)} wide and {_t(frame, size.height)} high.{weight}")


def _sill(gate: Gate, sill: Sill, system: System) -> str:
    stands = f"{tape(sill.above, system)} above" if sill.above > 0 else "level with"
    return (
        f"Sill: {sill.kind.says}, {tape(gate.width, system)} between the posts, bedded level, its top {stands} the "
        f"highest ground across the opening; the leaf hangs {tape(gate.under, system)} over it."
    )


def _cautions(answer: GateAnswer) -> Iterator[Block]:
    heavy = kind("cautions", "heavy-gate")
    if answer.weight is None or answer.weight.mass > heavy.value("over"):
        yield Caution(text=heavy.says)
    if answer.frame.gate.kind.word("infill") == "sheet":
        yield Caution(text=kind("cautions", "sheet-edges").says)
    if answer.frame.bracing is Bracing.WIRE:
        yield Caution(text=kind("cautions", "wire-tension").says)


def pieces_table(frame: GateFrame) -> Table:
    """Every piece of one leaf, those alike in one row."""
    alike: dict[tuple[object, ...], list[FramePiece]] = {}
    for piece in frame.pieces:
        alike.setdefault((piece.says, piece.length, piece.ends, piece.laps), []).append(piece)
    rows = []
    for some in alike.values():
        first = some[0]
        where = ", ".join(piece.place for piece in some)
        rows.append((first.says, str(len(some)), _t(frame, first.length), _ends(frame, first), where))
    return table(("piece", "count", "length", "ends and laps", "where"), rows, right=(1, 2), wide=3,
                 title=f"{frame.made.says}, {_t(frame, frame.member)} wide",
                 note="Lengths from furthest point to furthest point; laps from the lower or hinge-side end. "
                 "Measure the members you have: where they are wider or narrower, rails and strut change.")  # fmt: skip


def _ends(frame: GateFrame, piece: FramePiece) -> str:
    if not piece.laps:
        return piece.ends
    if piece.says == "gate brace":
        return f"{piece.ends}; half lap where it crosses the middle rail, scribed in place"
    laps = ", ".join(f"{_t(frame, lap.start)} to {_t(frame, lap.end)}" for lap in piece.laps)
    return f"{piece.ends}; half laps {laps}"


def _check_square(frame: GateFrame) -> str:
    heights = ", ".join(_t(frame, rail.at) for rail in frame.rails)
    text = f"Lower edges of the rails at {heights} from the foot. Square when both diagonals read "
    text += f"{_t(frame, frame.diagonal)}."
    brace = frame.brace
    if brace is None:
        return text
    what = "The strut" if brace.bracing is Bracing.STRUT else "The wire"
    way = {
        Bracing.STRUT: "from the lower hinge corner to the upper latch corner, and is pressed",
        Bracing.WIRE: "from the upper hinge corner to the lower latch corner, and is pulled",
    }[brace.bracing]
    wrong = "" if brace.right else " The plan has it the wrong way round: it would do nothing."
    return f"{text} {what} runs {way}; {math.degrees(brace.angle):.1f}° above level.{wrong}"


_HANDS = {Hand.LEFT: "hinges left", Hand.RIGHT: "hinges right", Hand.BOTH: "hinges both"}


def _swing_table(ways: tuple[SwingWay, ...], size: LeafSize) -> Table:
    rows, system, most = [], size.system, size.meters(size.width)
    for way in ways:
        planned = " (planned)" if way.planned else ""
        said = f"opening {way.swing.value}, {_HANDS[way.hinges]}{planned}"
        where = f"{math.degrees(way.angle):.0f}° open, {tape(min(way.radius, most), system)} from the hinge"
        mends = (_or_none(way.lift, system), _or_none(way.cut, system)) if way.lift or way.cut else ("none", "none")
        rows.append((said, _clearance(way.clearance, system), where, *mends))
    return table(
        ("way", "least clearance", "where", "rising hinges", "cut off the foot"), rows, right=(1, 3, 4),
        note="With the leaf hung level at its gap over the highest ground of the opening. Rising hinges: lift over a "
        "right angle that keeps the gap; cut: at the latch end, on a slant from nothing at the hinges.",
    )  # fmt: skip


def _clearance(clearance: Meter, system: System) -> str:
    return tape(clearance, system) if clearance >= 0 else f"strikes, {tape(-clearance, system)} too low"


def _or_none(length: Meter, system: System) -> str:
    return tape(length, system) if length > 0.0005 else "none"


def _swing_words(ways: tuple[SwingWay, ...], raised: Meter, system: System) -> str:
    planned, room = ways[0], SWING_ROOM.value
    outside = " Part of its way lies outside the surveyed ground." if planned.unsurveyed else ""
    if raised > 0.0005:
        outside = (
            f" The drawings hang it {tape(raised, system)} higher, so that it keeps its gap on its whole way: the gap "
            f"under it grows by that.{outside}"
        )
    if planned.clearance >= room:
        return f"As planned it clears the ground on its whole way.{outside}"
    clear = [way for way in ways[1:] if way.clearance >= room]
    others = " or ".join(f"opening {way.swing.value} with {_HANDS[way.hinges]}" for way in clear)
    ask = f"It clears {others}." if others else "No other way of opening clears either."
    return (
        f"As planned it does not clear the ground: hang it higher, on rising hinges, cut its foot, or dig the ground "
        f"away. {ask}{outside}"
    )


def _hung(answer: GateAnswer) -> str:
    frame, places = answer.frame, hinge_places(answer.frame)
    return (
        f"Hinges at {_t(frame, places.lower)} and {_t(frame, places.upper)} above the leaf's foot, "
        f"{_t(frame, places.upper - places.lower)} apart: the further apart, the less the upper one is pulled. "
        "Hang the upper one first, prop the latch side, and check the gaps before the last screw."
    )


def _latched(latch: LatchPlace, system: System) -> str:
    notes = f" Mind: {'; '.join(latch.notes)}." if latch.notes else ""
    return (
        f"Latch {tape(latch.at, system)} above the leaf's foot, {tape(latch.above_ground, system)} above the ground: "
        f"{latch.says}.{notes}"
    )


def _years(answer: GateAnswer) -> Iterator[Block]:
    system, sag = answer.frame.size.system, answer.sag
    yield Heading(text="In years")
    if sag is None:
        yield Paragraph(text=f"NOT SHOWN: {answer.sag_because}.")
        return
    if sag.high < NOTHING:
        yield Paragraph(
            text=f"The brace is pressed with {show(sag.force, NEWTON, system)} and gives next to nothing: a leaf like "
            "this sinks by its hinges and its post."
        )
        return
    low, likely, high = (_small(value, system) for value in (sag.low, sag.likely, sag.high))
    pulled = "pressed" if answer.frame.bracing is Bracing.STRUT else "pulled"
    yield Paragraph(
        text=f"The brace is {pulled} with {show(sag.force, NEWTON, system)}. At the latch the leaf sinks {likely}, "
        f"between {low} and {high} (memory and common practice: a factor of two either way); its diagonals then differ "
        f"by {_small(sag.diagonals, system)}. A turnbuckle takes up {_small(sag.take_up, system)} for the most of it."
    )
    rows = [(term.says, _small(term.change, system)) for term in sag.terms]
    yield table(("what gives", "along the brace"), rows, right=(1,))
    yield Working(steps=sag.steps, figures=sag.figures)


def _small(length: Meter, system: System) -> str:
    return show(length, METER, system, in_unit="in" if system is System.US else "mm", digits=2)


_GAPS = {"under": "under it", "beside": "beside it", "between": "between leaves", "mesh": "through its mesh"}


def _passing_table(answer: GateAnswer) -> Table:
    system = answer.frame.size.system
    heads = ("who", *(f"{_GAPS[gap.name]}, {tape(gap.width, system)}" for gap in answer.gaps))
    rows = [(each.says, *(passes.value for passes in each.at)) for each in answer.passers]
    return table(
        heads, rows,
        note="By the least gap that one of them is known or held to pass; digging, climbing and jumping are left out. "
        "The gap under it is taken where the ground is lowest.",
    )  # fmt: skip
