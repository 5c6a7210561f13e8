"""A step of wall parted at the joints next to its corners, so that the panel at a corner is asked by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding, Verdict
from pinfold.studies.stability.answers import governing, told, tried
from pinfold.studies.stability.cases import Case, blown
from pinfold.studies.stability.returns import Return
from pinfold.units import Meter

_SAME: Meter = 0.01

Check = Callable[[Case], Finding]
Lean = Callable[[Case, Finding], Finding]
"""The finding on a panel at a corner that leans on the wall around it, given the one on it by itself."""


def with_corners(find: Check, lean: Lean) -> Check:
    """A check that lets the panels at corners lean on the walls around them where that is shown to help."""

    def found(case: Case) -> Finding:
        parts = tuple(parted(case))
        if not parts:
            return find(case)
        return governing(_leaning(find, lean, part) for part in parts)

    return found


def parted(case: Case) -> Iterator[Case]:
    """The panels at the corners of a step, and what stands between them; nothing where no corner holds it."""
    if case.action is not blown or not any(case.of.returns):
        return
    step = case.piece.step
    low, high, ends = step.start, step.end, _ends(case)
    for around, start, end in ends:
        low, high = (end, high) if start <= low + _SAME else (low, start)
        yield _part(case, start, end, around)
    if ends and high - low > _SAME:
        yield _part(case, low, high, None)


def _ends(case: Case) -> list[tuple[Return, Meter, Meter]]:
    """Panels of the step next to a corner: what is around it, from where to where; a panel between two, once."""
    stretch, step, panels = case.of.stretch, case.piece.step, case.of.panels
    first, last = case.of.returns
    start, end = panels[0][1] - stretch.start, panels[-1][0] - stretch.start
    found = []
    if first is not None and step.start < _SAME and start <= step.end + _SAME:
        found.append((first, 0.0, start))
    alone = len(panels) == 1 and found
    if last is not None and step.end > stretch.length - _SAME and end >= step.start - _SAME and not alone:
        found.append((last, end, stretch.length))
    return found


def _part(case: Case, start: Meter, end: Meter, around: Return | None) -> Case:
    step = case.piece.step._replace(start=start, end=end)
    return replace(case, piece=replace(case.piece, step=step), around=around)


def _leaning(find: Check, lean: Lean, part: Case) -> Finding:
    """One part by itself; one at a corner as it leans on the wall around it, where that is shown and helps."""
    alone = tried(partial(find, part))
    if part.around is None:
        return alone
    try:
        leant = lean(part, alone)
    except (NotFoundError, OutOfRangeError) as lack:
        if alone.verdict is not Verdict.FAILS:
            return alone
        why = f"no help is taken from the wall around the corner, stretch {part.around.name}: {lack}"
        return replace(alone, because=told(alone.because, why))
    return min(leant, alone, key=_use)


def _use(finding: Finding) -> float:
    return float("inf") if finding.use is None else finding.use
