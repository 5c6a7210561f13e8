"""The brace of a leaf: which way it must run, at which angle it lies and how its ends are cut.

A strut is sawn once at each end, along the stiles where it lies flat, along the rails where it is steep, so that it
reaches from inner corner to inner corner and bears there with the larger part of its force.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from pinfold.errors import OutOfRangeError
from pinfold.plan.enclosure import Gate
from pinfold.plan.hanging import Bracing, Foot
from pinfold.studies.cutting.records import Steps
from pinfold.studies.gates.records import BraceLie, FramePiece, Lap, LeafSize, nearest_mark
from pinfold.units import Meter, Radian

RIGHT = {Bracing.STRUT: Foot.HINGE, Bracing.WIRE: Foot.LATCH}
"""Where the lower end stands so that a strut is pressed and a wire pulled."""
_PLUMB = math.pi / 2


def brace_lie(gate: Gate, inside: tuple[Meter, Meter], member: Meter) -> BraceLie | None:
    """How the brace of a leaf lies between its stiles and rails; None where it has none.

    Raises:
        OutOfRangeError: it is wider than what it spans.
    """
    planned = gate.hanging.bracing
    if planned is None and not (gate.kind.has("brace") and gate.kind.value("brace") > 0):
        return None
    bracing = planned or Bracing.STRUT
    if bracing not in RIGHT:
        return None
    foot = gate.hanging.foot or RIGHT[bracing]
    across, up = inside
    slope = math.atan2(up, across)
    if bracing is Bracing.WIRE:
        return BraceLie(bracing=bracing, foot=foot, right=foot is RIGHT[bracing], angle=slope, cut=slope,
                        width=across, height=up)  # fmt: skip
    angle, cut = _strut(slope, member / math.hypot(across, up))
    return BraceLie(
        bracing=bracing, foot=foot, right=foot is RIGHT[bracing], angle=angle, cut=cut, width=across, height=up
    )  # fmt: skip


def _strut(slope: Radian, share: float) -> tuple[Radian, Radian]:
    """Angle above level and cut of a strut whose corners lie on the diagonal; `share` is its width over that."""
    if share >= 0.7:
        raise OutOfRangeError("a strut as wide as the leaf leaves room for is no strut")
    off = math.asin(share)
    return (slope - off, _PLUMB) if slope < math.pi / 4 else (slope + off, 0.0)


def brace_pieces(
    brace: BraceLie, size: LeafSize, member: Steps, rails_at: tuple[Steps, ...], *, joint: str
) -> Iterator[FramePiece]:
    """The strut: whole and lapped over middle rails of wood, in one piece for each bay between welded rails."""
    between = [(low + member, high) for low, high in pairwise(rails_at)]
    if joint == "half-lap" or len(between) == 1:
        yield _whole(brace, size, member, rails_at)
        return
    for number, (low, high) in enumerate(between):
        yield _bay(brace, size, member, _Bay(low - member, high - member, number, len(between)))


def _whole(brace: BraceLie, size: LeafSize, member: Steps, rails_at: tuple[Steps, ...]) -> FramePiece:
    wide, lean = size.meters(member), _lean(brace, brace.cut)
    length = brace.width * math.cos(brace.angle) + brace.height * math.sin(brace.angle)
    laps = tuple(_crossing(brace, size, member, at) for at in rails_at[1:-1])
    assert length > wide
    return FramePiece(
        says="gate brace", place="strut", length=nearest_mark(length, size.system), left=lean, right=lean,
        ends=f"both {_said(brace, brace.cut)}, alike", laps=laps, at=member,
    )  # fmt: skip


def _crossing(brace: BraceLie, size: LeafSize, member: Steps, at: Steps) -> Lap:
    """Where the strut is let into a middle rail, along the strut's lower edge as far as the rail is high."""
    low, high = (size.meters(edge - member) for edge in (at, at + member))
    wide = size.meters(member)
    start, end = (_along(brace, wide, height) for height in (low, high))
    reach = abs(wide / 2 * math.tan(_lean(brace, 0.0)))
    return Lap(nearest_mark(start - reach, size.system), nearest_mark(end + reach, size.system))


def _along(brace: BraceLie, wide: Meter, height: Meter) -> Meter:
    """Distance along the strut from its furthest low point to where its axis is at a height over the lower rail."""
    first = wide / 2 / math.cos(brace.angle) if brace.cut else 0.0  # height where the axis starts
    tip = wide / 2 * abs(math.tan(_lean(brace, brace.cut)))
    return (height - first) / math.sin(brace.angle) + tip


class _Bay(NamedTuple):
    """Between two rails: its lower and upper edge over the lowest rail, its number, and how many there are."""

    low: Steps
    high: Steps
    number: int
    many: int


def _bay(brace: BraceLie, size: LeafSize, member: Steps, bay: _Bay) -> FramePiece:
    wide, lowest, highest = size.meters(member), bay.number == 0, bay.number == bay.many - 1
    cuts = (brace.cut if lowest else 0.0, brace.cut if highest else 0.0)
    whole = brace.width * math.cos(brace.angle) + brace.height * math.sin(brace.angle)
    tips = [wide / 2 * abs(math.tan(_lean(brace, cut))) for cut in cuts]
    start = 0.0 if lowest else _along(brace, wide, size.meters(bay.low)) - tips[0]
    end = whole if highest else _along(brace, wide, size.meters(bay.high)) + tips[1]
    leans = [_lean(brace, cut) for cut in cuts]
    said = " and ".join(dict.fromkeys(_said(brace, cut) for cut in cuts))
    return FramePiece(
        says="gate brace", place=f"strut, part {bay.number + 1} from below", left=leans[0], right=leans[1],
        length=nearest_mark(end - start, size.system), ends=f"lower and upper {said}", at=bay.low + member,
    )  # fmt: skip


def _lean(brace: BraceLie, cut: Radian) -> Radian:
    """How far a cut at that angle above level leans off square as the strut lies flat before the saw."""
    return brace.angle if cut else brace.angle - _PLUMB


def _said(brace: BraceLie, cut: Radian) -> str:
    off = abs(math.degrees(_lean(brace, cut)))
    return f"{off:.1f}° off square, along the {'stiles' if cut else 'rails'}"


def brace_outline(brace: BraceLie, member: Meter) -> tuple[tuple[Meter, Meter], ...]:
    """Corners of a strut, or the two ends of a wire, from the leaf's lower hinge corner on."""
    across, up, off = brace.width, brace.height, member
    if brace.bracing is Bracing.WIRE:
        points = [(0.0, 0.0), (across, up)]
    elif brace.cut:
        face = member / math.cos(brace.angle)
        points = [(0.0, 0.0), (across, up - face), (across, up), (0.0, face)]
    else:
        face = member / math.sin(brace.angle)
        points = [(0.0, 0.0), (face, 0.0), (across, up), (across - face, up)]
    if brace.foot is Foot.LATCH:
        points = [(across - x, y) for x, y in points]
    return tuple((off + x, off + y) for x, y in points)
