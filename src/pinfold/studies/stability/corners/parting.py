"""Checks over the steps of a wall; at corners panel by panel, each panel there as it leans on the wall around."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding, Verdict, urgency
from pinfold.studies.stability.answers import told, tried
from pinfold.studies.stability.cases import Case

Check = Callable[[Case], Finding]
Lean = Callable[[Case, Finding], Finding]
"""The finding on a panel at a corner that leans on the wall around it, given the one on it by itself."""


def worst_step(cases: Iterable[Case], find: Check, lean: Lean | None) -> Finding:
    """The worst step's finding; where that step is at a corner, its panels are asked one by one, and so on."""
    steps = dict(enumerate(cases))
    found = {number: tried(partial(find, case)) for number, case in steps.items()}
    while True:
        worst = min(found, key=lambda number: _rank(found[number]))
        case = steps.pop(worst, None)
        if lean is None or case is None or not case.parts:
            return found[worst]
        found[worst] = _in_parts(case, find, lean) or found[worst]


def _in_parts(case: Case, find: Check, lean: Lean) -> Finding | None:
    """The worst panel of a step, unless one of them is not shown: it might be worse than what is."""
    parts = [_leaning(find, lean, part) for part in case.parts]
    shown = all(part.verdict is not Verdict.NOT_SHOWN for part in parts)
    return min(parts, key=_rank) if shown else None


def _rank(finding: Finding) -> tuple[int, float]:
    """What is worst comes first; of panels that are alike but for the last digits, the first."""
    order, use, *_ = urgency(finding)
    return order, round(use, 9)


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
