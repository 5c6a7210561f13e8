"""Parts side by side in one clear length so that they end as far left as they can: ends that lean alike share a cut.

Lengths are along the lower edge. A cut that leans takes more of the length than a square one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from pinfold.studies.cutting.records import Defect, EndCut, PartWanted, Placed, Steps

_WIDEST = 400
"""So many beginnings are followed up at a time."""


class Ground(NamedTuple):
    """What parts are laid into.

    Attributes:
        start: where the first may start.
        end: where the last must end.
        cut_end: where its cut must end, beside a defect; None at the end of a piece.
        zones: defects in it that some of the parts may have.
        kerf: of a square cut.
    """

    start: Steps
    end: Steps
    cut_end: Steps | None
    zones: tuple[Defect, ...]
    kerf: Steps


class _Begun(NamedTuple):
    """Some of the parts, laid.

    Attributes:
        furthest: where they end at the furthest.
        places: of them, from left to right.
        left: indexes of the parts still to be laid, of parts alike only how many.
    """

    furthest: Steps
    places: tuple[Placed, ...]
    left: tuple[int, ...]


def kerf_of(cut: EndCut, kerf: Steps) -> Steps:
    """What a cut takes along the length: more where it leans."""
    return math.ceil(kerf * math.hypot(cut.run, cut.over) / cut.over - 1e-9) if cut.run and cut.over else kerf


def kerf_with(part: PartWanted, kerf: Steps) -> Steps:
    """What is counted for the cuts of a part that finds no partner: one kerf, or both of its cuts where one leans."""
    leans = part.left.run or part.right.run
    return kerf_of(part.left, kerf) + kerf_of(part.right, kerf) if leans else kerf


def arranged(ground: Ground, parts: Sequence[PartWanted]) -> list[Placed] | None:
    """The parts in their places; None where they are not found to fit."""
    alike: dict[tuple[object, ...], list[PartWanted]] = {}
    for part in parts:
        alike.setdefault((part.length, part.left, part.right, part.turns, part.allows), []).append(part)
    groups = list(alike.values())
    begun = [_Begun(ground.start, (), tuple(len(group) for group in groups))]
    for _ in parts:
        further: dict[tuple[tuple[int, ...], EndCut], _Begun] = {}
        for each in begun:
            for more in _with_one_more(ground, each, groups):
                key = more.left, more.places[-1].right
                if key not in further or more.places[-1].end < further[key].places[-1].end:
                    further[key] = more
        begun = sorted(further.values(), key=lambda each: each.furthest)[:_WIDEST]
    return list(begun[0].places) if begun else None


def _with_one_more(ground: Ground, begun: _Begun, groups: Sequence[Sequence[PartWanted]]) -> Iterator[_Begun]:
    for at, (group, many) in enumerate(zip(groups, begun.left, strict=True)):
        if many:
            part = group[-many]
            for left, right in sorted(_ways_round(part), reverse=True):
                place = _next_place(ground, begun.places, part, (left, right))
                furthest = place.end + max(right.run, 0)
                cut = furthest + kerf_of(right, ground.kerf)
                if furthest <= ground.end and (ground.cut_end is None or cut <= ground.cut_end):
                    yield _Begun(furthest, (*begun.places, place), (*begun.left[:at], many - 1, *begun.left[at + 1 :]))


def _ways_round(part: PartWanted) -> set[tuple[EndCut, EndCut]]:
    """Its end cuts as it lies: turned end for end, and upside down where it may be."""
    left, right = part.left, part.right
    ways = {(left, right), (right, left)}
    if part.turns:
        ways |= {(_mirrored(one), _mirrored(other)) for one, other in ways}
    return ways


def _mirrored(cut: EndCut) -> EndCut:
    return cut._replace(run=-cut.run)


def _next_place(ground: Ground, before: Sequence[Placed], part: PartWanted, cuts: tuple[EndCut, EndCut]) -> Placed:
    left, right = cuts
    wide = kerf_of(left, ground.kerf)
    if before:
        last = before[-1]
        taken = wide if last.right.run == left.run else kerf_of(last.right, ground.kerf) + wide
        start = last.end + taken + max(last.right.run - left.run, 0)
    else:
        start = ground.start + max(-left.run, 0) + (wide - ground.kerf if ground.start else 0)
    lower = part.length - max(-left.run, 0) - max(right.run, 0)
    start += _past_zones(ground, part, start, Placed(part.mark, 0, lower, left, right))
    return Placed(part.mark, start, start + lower, left, right)


def _past_zones(ground: Ground, part: PartWanted, start: Steps, place: Placed) -> Steps:
    """How far a part must move right to lie on no defect that it may not have, and to be cut in none at all."""
    moved = 0
    for zone in sorted(ground.zones):
        first = start + moved + min(place.left.run, 0) - kerf_of(place.left, ground.kerf)
        last = start + moved + place.end + max(place.right.run, 0) + kerf_of(place.right, ground.kerf)
        if first >= zone.end or last <= zone.start:
            continue
        into = start + moved + max(place.left.run, 0), start + moved + place.end + min(place.right.run, 0)
        if zone.kind not in part.allows or zone.start < into[0] or zone.end > into[1]:
            moved += zone.end - first
    return moved
