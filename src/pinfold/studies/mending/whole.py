"""Changes under which everything of a build-up or gate holds: the worst check mended first, then the next."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from pinfold.findings import Finding, Verdict
from pinfold.plan.changes import Change
from pinfold.studies.mending.levers import levers_for
from pinfold.studies.mending.records import Weak, Whole
from pinfold.studies.mending.trying import Trials, judging, least
from pinfold.studies.mending.wall_levers import is_another
from pinfold.studies.mending.weak import Key, weak_in
from pinfold.studies.stability.subjects import Owner

ROUNDS = 12
"""Checks mended one after the other before it is given up."""
_Step = tuple[Change, str]
"""A change so far, and the words of what was changed last."""
_Parts = dict[str, Change]
"""What was changed, each under its words: what one of them writes is kept or left out as one."""


def wholes(weak: Sequence[Weak], trials: Trials) -> Iterator[Whole]:
    """For each build-up or gate of which two checks or more fail: changes under which all of it holds.

    Args:
        weak: checks of the plan as it stands
        trials: of changes of the plan
    """
    failing: dict[Owner, list[str]] = {}
    for each in weak:
        if each.verdict is Verdict.FAILS:
            failing.setdefault(each.owner, []).append(each.check)
    for owner, checks in failing.items():
        if len(checks) > 1:
            yield _whole(owner, tuple(dict.fromkeys(checks)), trials)


def _whole(owner: Owner, checks: tuple[str, ...], trials: Trials) -> Whole:
    change: Change = ()
    parts: _Parts = {}
    for _ in range(ROUNDS):
        worst = _worst(owner, change, trials)
        if worst is None:
            parts = _without_idle(owner, parts, trials)
            change = _together(parts)
            cost, unpriced = trials.extra(change)
            return Whole(
                owner=owner, checks=checks, says=", ".join(parts), puts=change, cost=cost, unpriced=unpriced, left=()
            )
        better = _next(worst, change, trials)
        if better is None:
            break
        further, said = better
        own = tuple(put for put in further if put not in change)
        parts[said] = merged(parts.pop(said, ()), own)
        change = _together(parts)
    return Whole(
        owner=owner, checks=checks, says="", puts=(), cost=None, unpriced=(), left=_left(owner, change, trials)
    )


def _failing(owner: Owner, change: Change, trials: Trials) -> list[tuple[Key, Finding]]:
    """What of the owner fails under a change."""
    found = trials.worst(change)
    return [(key, one) for key, one in found.items() if key[2] == owner and one.verdict is Verdict.FAILS]


def _left(owner: Owner, change: Change, trials: Trials) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key[0] for key, _ in _failing(owner, change, trials)))


def _worst(owner: Owner, change: Change, trials: Trials) -> Weak | None:
    failing = _failing(owner, change, trials)
    return weak_in(*max(failing, key=lambda pair: pair[1].use or 0.0)) if failing else None


def _next(weak: Weak, change: Change, trials: Trials) -> _Step | None:
    """The cheapest change of those after which the check holds and the fewest others of the owner fail; where none
    makes it hold, the one that helps the owner most."""
    levers = [(says, steps) for says, steps in _levers(weak, change, trials) if steps]
    judge = judging(weak, trials, under=change, but=weak.owner)
    found = [(step, says) for says, steps in levers if (step := least(steps, judge)) is not None]
    if found:
        return min(found, key=lambda one: _order(weak.owner, one[0], trials))
    helps = [
        (step, says) for says, steps in levers for step in (steps[len(steps) // 2], steps[-1])
        if judge.short(step) or judge.good(step)
    ]  # fmt: skip
    best = min(helps, key=lambda one: _distress(weak.owner, one[0], trials), default=None)
    if best is None or _distress(weak.owner, best[0], trials) > _distress(weak.owner, change, trials) - _HELP:
        return None
    return best


def _levers(weak: Weak, change: Change, trials: Trials) -> Iterator[tuple[str, list[Change]]]:
    """Every lever with its steps beside what was changed already; none that make another enclosure of the plan."""
    stands, tried = trials.of(()), trials.of(change)
    assert stands is not None
    assert tried is not None
    for lever in levers_for(tried.layout.plan, weak):
        steps = [merged(change, step) for step in lever.steps]
        yield lever.says, [step for step in steps if not is_another(stands.layout.plan, step)]


_HELP = 0.02
"""Least that a change must take off the distress of its owner to be worth making."""
_WORST = 100.0


def _distress(owner: Owner, change: Change, trials: Trials) -> float:
    """How far all that fails of an owner is from holding, in powers of e."""
    return math.fsum(math.log(min(one.use or 1.0, _WORST)) for _, one in _failing(owner, change, trials))


def _order(owner: Owner, change: Change, trials: Trials) -> tuple[int, bool, int]:
    cost, _ = trials.extra(change)
    return len(_failing(owner, change, trials)), cost is None, cost or 0


def merged(change: Change, more: Change) -> Change:
    """Two changes as one; where both write a key, the later counts."""
    puts = {put.path: put for put in (*change, *more)}
    return tuple(puts.values())


def _together(parts: _Parts) -> Change:
    """What was changed, as one."""
    change: Change = ()
    for part in parts.values():
        change = merged(change, part)
    return change


def _without_idle(owner: Owner, parts: _Parts, trials: Trials) -> _Parts:
    """What was changed without what turned out not to be needed in the end."""
    for said in tuple(parts):
        fewer = {other: part for other, part in parts.items() if other != said}
        change = _together(fewer)
        if change and trials.of(change) is not None and not _failing(owner, change, trials):
            parts = parts if trials.spoils(change, but=owner) else fewer
    return parts
