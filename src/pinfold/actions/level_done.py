"""What was really jacked, written into the log in one go: as planned, or as it came out."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from pinfold.actions.level import LevelAsked, leveled
from pinfold.actions.level_jacked import NONE, shims_in
from pinfold.actions.level_read import refuse, sent_at
from pinfold.actions.level_site import NO_SUPPORTS, SiteLevels, level_site
from pinfold.actions.log_book import DEVICE, WHO, new_id
from pinfold.actions.taking import take_entries
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.studies.leveling.moving import Move
from pinfold.studies.leveling.words import fine
from pinfold.units import METER, Meter, System, read

_LINE = re.compile(r"\s*(?P<mark>[^\s=:]+)\s*(?:[=\s]\s*(?P<lift>[^:]+?)\s*)?(?::\s*(?P<shims>.*?)\s*)?")
_ABOUT = "what was jacked"
_MOST_LIFT: Meter = 0.3


class _Done(NamedTuple):
    """One support as it is written down."""

    mark: str
    lift: str
    shims: str


@dataclass(frozen=True, kw_only=True)
class JackingDone:
    """What was done at the supports.

    Attributes:
        lines: a mark each, with what was lifted where that was not as planned, and the shims in its stack since, like
            `S3 +5/8 in: 1/2 in, 1/8 in`; all moves as planned where there are none.
        asked: of the moves: structure, survey, tolerance.
        who: did it.
        device: it was written down on.
        id: begins the ids of the entries, so that the same sent twice is written once.
    """

    lines: tuple[str, ...]
    asked: LevelAsked
    who: str = WHO
    device: str = DEVICE
    id: str = ""


def write_jacking(folder: Path, done: JackingDone) -> tuple[str, ...]:
    """Write all of it down, or nothing where part of it is wrong; what came of it, in lines.

    Raises:
        NotFoundError: no structure has supports.
        InvalidPlan: every complaint, each with the mark it is about.
        StoreError, NewerFileError: the log cannot be written.
    """
    levels = level_site(folder, done.asked.neighbor)
    if levels is None:
        raise NotFoundError(NO_SUPPORTS)
    ones = _ones(levels, done)
    begin = done.id or new_id()
    at = sent_at(folder, f"{begin[:48]}-0")
    raws = [
        {"id": f"{begin[:48]}-{number}", "kind": "jacking", "at": at, "who": done.who, "device": done.device,
         "fields": {"mark": one.mark, "lift": one.lift} | ({"shims": one.shims} if one.shims else {})}
        for number, one in enumerate(ones)
    ]  # fmt: skip
    refuse(_ABOUT, [one.mark for one in ones], take_entries(folder, raws, write=False))
    new = any(each.state == "new" for each in take_entries(folder, raws))
    lifts = ", ".join(f"{one.mark} {one.lift}" for one in ones)
    if not new:
        return ("Written down already.",)
    return (f"Written down as jacked: {lifts}.", "Read all supports anew, and again after a week.")


def jacking_lines(folder: Path, asked: LevelAsked) -> tuple[str, ...]:
    """The planned moves as they would be typed; none where there is nothing to move.

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `level_of`.
    """
    levels = level_site(folder, asked.neighbor)
    if levels is None:
        return ()
    planned = _planned(levels, asked, levels.site.plan.units)
    return tuple(f"{each.mark} {each.lift}: {each.shims}" for each in planned.values())


def _ones(levels: SiteLevels, done: JackingDone) -> tuple[_Done, ...]:
    planned = _planned(levels, done.asked, levels.site.plan.units)
    lines = [line for line in done.lines if line.strip()] or list(planned)
    if not lines:
        told = "nothing is to be moved by the last survey; name the supports and what was lifted, like S3 +5/8 in"
        raise InvalidPlan(_ABOUT, [InputError(told, place="marks")])
    problems: list[InputError] = []
    ones = tuple(_one(line, levels, planned, problems) for line in lines)
    twice = [mark for mark, count in Counter(one.mark for one in ones).items() if mark and count > 1]
    problems += [InputError("is named twice; once with all that was lifted is wanted", place=mark) for mark in twice]
    if problems:
        raise InvalidPlan(_ABOUT, problems)
    return ones


def _one(line: str, levels: SiteLevels, planned: Mapping[str, _Done], problems: list[InputError]) -> _Done:
    match = _LINE.fullmatch(line)
    mark = match["mark"] if match else ""
    if match is None or mark not in levels.marks:
        told = f"{line.strip()[:40]!r} names no support; one of {', '.join(levels.marks)} is wanted, like S3 +5/8 in"
        problems.append(InputError(told, place=mark or "marks"))
        return _Done("", "", "")
    if match["lift"] is None and mark not in planned:
        problems.append(
            InputError("is not to be moved by the last survey; say what was lifted, like +1/4 in", place=mark)
        )
        return _Done(mark, "", "")
    for place, text, reads in ((mark, match["lift"], _lift), (f"{mark}: shims", match["shims"], shims_in)):
        try:
            reads(text or "")
        except InputError as fault:
            problems.append(InputError(fault.message, place=place))
    if match["lift"] is None:
        own = planned[mark]
        return own._replace(shims=match["shims"] or own.shims)
    return _Done(mark, match["lift"], match["shims"] or "")


def _lift(text: str) -> None:
    """Refuse what is no lift.

    Raises:
        InputError: it is no length, or more than a jack lifts at one place.
    """
    if text and abs(read(text, like=METER)) > _MOST_LIFT:
        raise InputError(f"{text[:20]!r} cannot be; up to 300 mm (12 in) up or down is wanted")


def _planned(levels: SiteLevels, asked: LevelAsked, system: System) -> dict[str, _Done]:
    """What is to be moved by the survey, as it would be typed, by mark."""
    moves = leveled(levels, asked).moves
    stacks = {support.mark: support.shims for support in levels.blocks.leveling.supports}
    return {
        move.mark: _Done(move.mark, fine(move.lift, system), _stack(stacks[move.mark], move, system))
        for move in (moves.touched if moves is not None else ())
    }  # fmt: skip


def _stack(now: Sequence[Meter], move: Move, system: System) -> str:
    """The shims in a stack after a move."""
    counts = Counter(round(thick, 6) for thick in now)
    for shim in move.shims:
        counts[round(shim.thickness, 6)] += shim.count
    left = [_thick(thick, system) for thick in sorted(counts, reverse=True) for _ in range(counts[thick])]
    return ", ".join(left) or NONE


def _thick(thick: Meter, system: System) -> str:
    """A thickness of a shim as the plan would have it."""
    exact = f"{1e3 * thick:g} mm"
    told = fine(thick, system)
    return told if abs(read(told, like=METER) - thick) < 1e-6 else exact
