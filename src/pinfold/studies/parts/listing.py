"""The part list with its marks.

Marks are pinfold's own: a letter for what a part is and a running number in the order the parts come round the plot.

    T post (its place is P and a number), R rail or strut in lengths, W wire, M mesh and apron, B bar,
    C coping or board on the wall, S sheet, G member or infill of a gate, F board of a form

Pieces alike (same words, kind, size and ends) share one mark. Lengths are rounded up to the tape: a sixteenth of an
inch or a millimeter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache, partial

from pinfold.studies.layout.records import Layout
from pinfold.studies.parts.fences import standing
from pinfold.studies.parts.forms import form_boards
from pinfold.studies.parts.leaves import frame, infill, sill
from pinfold.studies.parts.pieces import Piece, alike, each_known
from pinfold.studies.parts.sorts import sort_of
from pinfold.studies.parts.stretches import of_reach
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.records import Part


def parts(layout: Layout) -> tuple[Part, ...]:
    """All parts, in order around the plot: posts first, then stretch by stretch, then the gates, then the forms.

    What lacks a figure has no part; the take-off names the figure.
    """
    return tuple(_part(mark, group) for mark, group in marked(layout).items())


@lru_cache(maxsize=4)  # lengths, sheets and rolls all ask
def marked(layout: Layout) -> Mapping[str, list[Piece]]:
    """The pieces that share a mark, by mark, each in its place."""
    numbers: dict[str, int] = {}
    found = {}
    for group in alike(_pieces(layout)).values():
        letter = group[0].letter
        numbers[letter] = numbers.get(letter, 0) + 1
        found[f"{letter}{numbers[letter]}"] = group
    return found


def _part(mark: str, group: list[Piece]) -> Part:
    first = group[0]
    sort = sort_of(first.says)
    return Part(
        mark=mark, says=first.says, kind=first.kind, length=first.length, width=first.width,
        count=sum(piece.many for piece in group), places=tuple(dict.fromkeys(piece.place for piece in group)),
        ends=first.ends, left=first.left, right=first.right, deep=first.deep, tolerance=sort.tolerance,
        allows=sort.allows, up=sort.up, splice=first.splice,
    )  # fmt: skip


def _pieces(layout: Layout) -> Iterator[Piece]:
    system, found = layout.plan.units, reaches(layout)
    yield from standing(layout)
    for reach in found:
        yield from of_reach(reach.between_ends)
    for gate in layout.plan.gates:
        yield from each_known((partial(frame, gate, system), partial(infill, gate), partial(sill, gate)), system)
    yield from each_known((partial(form_boards, [reach.between_ends for reach in found], system),), system)
