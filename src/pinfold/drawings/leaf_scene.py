"""One leaf of a gate as it lies on the bench: its pieces, joints, hinges, latch, brace and the diagonal."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.callouts import Column, Note, call_outs
from pinfold.drawings.fineness import millimeter
from pinfold.drawings.leaves import Leaf, known_frame, leaf_shapes
from pinfold.drawings.naming import slug
from pinfold.drawings.scenes import Dimension, Label, PaperMm, Polyline, ScaleBar, Scene, Shape
from pinfold.plan.enclosure import Hand
from pinfold.studies.cutting.records import Steps
from pinfold.studies.gates.bracing import brace_outline
from pinfold.studies.gates.latching import LatchPlace, hinge_places, latch_place
from pinfold.studies.gates.records import FramePiece, GateFrame
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter, tape

NEAR: PaperMm = 6.0
TIER: PaperMm = 8.0


def leaf_scenes(layout: Layout) -> tuple[Scene, ...]:
    """One leaf of every gate in the plan's order; none of a gate whose frame is not known."""
    found = ((known_frame(gate, layout.plan.units), layout.gates[gate.name]) for gate in layout.plan.gates)
    return tuple(
        leaf_scene(layout.plan.name, frame, latch_place(frame, place)) for frame, place in found if frame is not None
    )


def leaf_scene(plot: str, frame: GateFrame, latch: LatchPlace) -> Scene:
    """A leaf seen from outside, its hinges left or right as planned; of two leaves the left one."""
    gate, size = frame.gate, frame.size
    leaf = Leaf(
        kind=gate.kind, left=0.0, right=size.meters(size.width), foot=0.0, top=size.meters(size.height),
        hinged_left=gate.hinges is not Hand.RIGHT, frame=frame, latch_at=latch.at,
    )  # fmt: skip
    fine = millimeter(leaf.right, leaf.top)
    shapes: list[Shape] = [*leaf_shapes(leaf, fine), *_diagonal(leaf, frame)]
    shapes += [*_measures(leaf, frame, latch), *_names(leaf, frame), ScaleBar(system=size.system)]
    return Scene(
        name=slug("leaf", gate.name), title=f"{plot}: {gate.name}, one leaf seen from outside", shapes=tuple(shapes),
        notes=_notes(frame),
        about=f"One leaf of {gate.name}, {_tape(frame, size.width)} by {_tape(frame, size.height)}.",
    )  # fmt: skip


def _tape(frame: GateFrame, steps: Steps) -> str:
    return tape(frame.size.meters(steps), frame.size.system)


def _diagonal(leaf: Leaf, frame: GateFrame) -> Iterator[Shape]:
    start, end = sorted(((leaf.hinge, leaf.top), (leaf.latch, leaf.foot)))
    yield Polyline(layer="mark", points=(start, end), dashed=True)
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    at = (start[0] + (end[0] - start[0]) * 0.26, start[1] + (end[1] - start[1]) * 0.26)
    yield Label(at=at, text=f"diagonal {_tape(frame, frame.diagonal)}", layer="mark", anchor="above", turn=turn,
                size=1.8, movable=False)  # fmt: skip


def _measures(leaf: Leaf, frame: GateFrame, latch: LatchPlace) -> Iterator[Shape]:
    """Over the leaf its stiles and width; beside the hinges their places; beside the latch rails and latch."""
    size, inner = frame.size, frame.size.width - frame.member
    for low, high in pairwise((0, frame.member, inner, size.width)):
        yield _level(leaf, frame, (low, high), NEAR)
    yield _level(leaf, frame, (0, size.width), NEAR + TIER)
    places = hinge_places(frame)
    rails = sorted({edge for rail in frame.rails for edge in (rail.at, rail.at + frame.member)})
    for edge, marks in ((leaf.hinge, (0, places.lower, places.upper, size.height)), (leaf.latch, tuple(rails))):
        out = NEAR if edge == leaf.left else -NEAR
        for low, high in pairwise(marks):
            yield _upright(frame, edge, (low, high), out)
    far = NEAR + TIER
    yield _upright(frame, leaf.hinge, (0, size.height), far if leaf.hinge == leaf.left else -far)
    yield _bare(leaf.latch, latch.at, far if leaf.latch == leaf.left else -far, tape(latch.at, size.system))
    yield from _along_brace(leaf, frame)


def _along_brace(leaf: Leaf, frame: GateFrame) -> Iterator[Shape]:
    """The brace, named with its length along it."""
    brace, struts = frame.brace, [piece for piece in frame.pieces if piece.says == "gate brace"]
    if brace is None:
        return
    outline = [leaf.place(x, y) for x, y in brace_outline(brace, leaf.member)]
    low, high = min(outline, key=lambda point: point[1]), max(outline, key=lambda point: point[1])
    start, end = sorted((low, high))
    text = " + ".join(_tape(frame, piece.length) for piece in struts) or tape(math.dist(low, high), frame.size.system)
    said = f"{brace.bracing.value} {text}, {math.degrees(brace.angle):.1f}° above level"
    at = (start[0] + (end[0] - start[0]) * 0.62, start[1] + (end[1] - start[1]) * 0.62)
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    yield Label(at=at, text=said, layer="mark", anchor="below", turn=turn, size=1.8, movable=False)


def _level(leaf: Leaf, frame: GateFrame, ends: tuple[Steps, Steps], offset: PaperMm) -> Dimension:
    low, high = sorted(leaf.place(frame.size.meters(end), 0.0)[0] for end in ends)
    return Dimension(start=(low, leaf.top), end=(high, leaf.top), offset=offset, size=1.7,
                     text=_tape(frame, ends[1] - ends[0]))  # fmt: skip


def _upright(frame: GateFrame, x: Meter, ends: tuple[Steps, Steps], offset: PaperMm) -> Dimension:
    low, high = (frame.size.meters(end) for end in ends)
    return Dimension(start=(x, low), end=(x, high), offset=offset, size=1.7, text=_tape(frame, ends[1] - ends[0]))


def _bare(x: Meter, high: Meter, offset: PaperMm, text: str) -> Dimension:
    return Dimension(start=(x, 0.0), end=(x, high), offset=offset, size=1.7, text=text)


def _names(leaf: Leaf, frame: GateFrame) -> Iterator[Shape]:
    """What each piece is, in a column on the right."""
    high = leaf.top
    notes = [Note(at=leaf.place(frame.size.meters(frame.member) / 2, high * 0.9), text=_named(frame, "gate stile", 0)),
             Note(at=leaf.place(leaf.right - leaf.left - frame.size.meters(frame.member) / 2, high * 0.2),
                  text=_named(frame, "gate stile", 1))]  # fmt: skip
    for rail in frame.rails:
        at = leaf.place((leaf.right - leaf.left) * 0.8, frame.size.meters(rail.at + frame.member // 2))
        notes.append(Note(at=at, text=_said(frame, rail)))
    notes.append(Note(at=(leaf.hinge, frame.size.meters(hinge_places(frame).upper)), text="upper hinge: pulled"))
    notes.append(Note(at=(leaf.hinge, frame.size.meters(hinge_places(frame).lower)), text="lower hinge: pushed"))
    if leaf.latch_at is not None:
        notes.append(Note(at=(leaf.latch, leaf.latch_at), text="latch"))
    column = Column(x=leaf.right, low=leaf.foot, high=leaf.top, off=NEAR + 2 * TIER + 4.0, width=44.0)
    yield from call_outs(notes, column=column)


def _named(frame: GateFrame, says: str, number: int) -> str:
    return _said(frame, [piece for piece in frame.pieces if piece.says == says][number])


def _said(frame: GateFrame, piece: FramePiece) -> str:
    lapped = f", {len(piece.laps)} half laps" if piece.laps else ""
    return f"{piece.says.removeprefix('gate ')} {piece.place}: {_tape(frame, piece.length)}{lapped}"


def _notes(frame: GateFrame) -> tuple[str, ...]:
    other = "The other leaf is the same in a mirror. " if frame.gate.leaves == 2 else ""
    joint = {
        "half-lap": "Rails run through, half-lapped at the stiles; the strut is scribed into a middle rail.",
        "welded": "Rails stand between the stiles and are welded.",
    }.get(frame.joint, "Rails stand between the stiles in fittings.")
    return (f"{other}{joint} Square when both diagonals read {_tape(frame, frame.diagonal)}.",)
