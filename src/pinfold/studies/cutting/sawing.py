"""The order of cuts in a piece: from its left end on, each measured from the end that the cut before it left fresh."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from pinfold.studies.cutting.records import Pattern, Steps


class Falls(StrEnum):
    """What a length of a piece becomes."""

    PART = "part"
    KEPT = "kept"  # an offcut worth keeping
    WASTE = "waste"


class SawStep(NamedTuple):
    """What falls off the left end of what is left of a piece.

    Attributes:
        falls: part, kept or waste.
        mark: of a part; empty for what is not one.
        measure: from the fresh end to the cut, along the lower edge.
        tape: the same on a tape that lies along the whole piece from its left end.
        run: how much further right the cut is on the upper edge.
        sawn: whether there is a cut; not where it ends with the piece.
    """

    falls: Falls
    mark: str
    measure: Steps
    tape: Steps
    run: Steps
    sawn: bool


class _Length(NamedTuple):
    start: Steps
    end: Steps
    falls: Falls
    mark: str


def saw_steps(pattern: Pattern, length: Steps) -> tuple[SawStep, ...]:
    """The cuts of a piece of that length in their order; the last step may be one without a cut."""
    return tuple(_steps(pattern, length))


def _steps(pattern: Pattern, length: Steps) -> Iterator[SawStep]:
    lengths = [_Length(part.start, part.end, Falls.PART, part.mark) for part in pattern.parts]
    lengths += [_Length(each.start, each.end, Falls.KEPT if each.kept else Falls.WASTE, "") for each in pattern.offcuts]
    by_end = {each.end: each for each in lengths if each.end > each.start}
    fresh = 0
    for saw in pattern.cuts:
        falls = by_end.pop(saw.start, None)
        if falls is not None or saw.start > fresh or saw.run:
            yield _step(falls, fresh, saw.start, run=saw.run, sawn=True)
        fresh = saw.end
    if fresh < length:
        yield _step(by_end.get(length), fresh, length, run=0, sawn=False)


def _step(falls: _Length | None, fresh: Steps, end: Steps, *, run: Steps, sawn: bool) -> SawStep:
    what, mark = (falls.falls, falls.mark) if falls is not None else (Falls.WASTE, "")
    return SawStep(what, mark, end - fresh, end, run, sawn)
