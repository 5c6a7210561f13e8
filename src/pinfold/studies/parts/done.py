"""What of the part list is cut already, by the log: what is left to cut, and what lies ready."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from pinfold.logbook.entries import Entry
from pinfold.plan.stock import PilePiece
from pinfold.studies.quantities.records import Part
from pinfold.units import Meter

_SAME: Meter = 0.0015


class Progress(NamedTuple):
    """How far the cutting is.

    Attributes:
        left: all parts, with how many of each are still to be cut.
        cut: how many of each are, by mark.
        told: cuts of the log that are no part of the plan any more.
    """

    left: tuple[Part, ...]
    cut: Mapping[str, int]
    told: tuple[str, ...]


def progress(parts: Sequence[Part], entries: Iterable[Entry]) -> Progress:
    """Parts less what the log says is cut; one whose length the plan has changed since counts no more.

    Args:
        parts: the part list
        entries: of the log that stand; those of other kinds are passed over
    """
    by_mark = {part.mark: part for part in parts}
    cut: Counter[str] = Counter()
    lost: Counter[str] = Counter()
    for entry in entries:
        if entry.kind == "cut":
            mark, many = entry.text("part").strip(), int(entry.number("count") or 1) - int(entry.number("spoiled") or 0)
            if _is(by_mark.get(mark), entry.number("length")):
                cut[mark] += many
            else:
                lost[mark] += many
    done = {mark: min(many, by_mark[mark].count) for mark, many in cut.items() if many > 0}
    left = tuple(replace(part, count=part.count - done.get(part.mark, 0)) for part in parts)
    told = tuple(f"{many} of {mark} were cut that the plan no longer has so; see what they serve for."
                 for mark, many in lost.items() if many > 0)  # fmt: skip
    return Progress(left, done, told)


def _is(part: Part | None, length: Meter | None) -> bool:
    return part is not None and (length is None or part.splice or abs(part.length - length) <= _SAME)


def ready(parts: Iterable[Part], cut: Mapping[str, int]) -> tuple[PilePiece, ...]:
    """Parts that are cut, as pieces on hand of their own lengths, so that they are not bought again."""
    return tuple(
        PilePiece(
            item=part.kind.name, count=cut[part.mark], length=part.length, amount=None, unit=None, note="cut already"
        )
        for part in parts
        if cut.get(part.mark) and part.width is None
    )
