"""The pile as it is now: the list it started with, and what went onto and off it since."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.logbook.entries import Entry
from pinfold.plan.flaws import Flaw, flaws_of
from pinfold.plan.stock import Condition, PilePiece, RawEnds
from pinfold.studies.lessons.paid import item_named
from pinfold.units import Meter

_SAME_LENGTH: Meter = 0.005


class Piled(NamedTuple):
    """The pile, what changed on it, and what could not be used."""

    pile: tuple[PilePiece, ...]
    told: tuple[str, ...]
    set_aside: Counter[str]


def piled(moved: Sequence[Entry], pile: Sequence[PilePiece]) -> Piled:
    """The pile after all that was written down.

    Things go off rows of their own length first, then off rows without one; what more went off than was there is told.

    Args:
        moved: entries of the pile, in any order
        pile: the list of the site, as it was before the first of them
    """
    rows = list(pile)
    told: Counter[str] = Counter()
    aside: Counter[str] = Counter()
    for entry in sorted(moved, key=lambda each: (each.when, each.seq)):
        name = item_named(entry.text("item"))
        if not name:
            aside[f"pile: nothing called {entry.text('item')!r} is known"] += 1
            continue
        count, length = int(entry.number("count") or 1), entry.number("length")
        if entry.text("way") == "in":
            piece, wrong = _piece(entry, name, count)
            _put(rows, piece)
            told[f"{name}, onto it"] += count
            if wrong:
                aside[f"pile: flaws of {name} that cannot be used: {wrong}"] += 1
        else:
            lacking = _take(rows, name, count, (length, entry.text("flaws")))
            told[f"{name}, off it"] += count - lacking
            if lacking:
                aside[f"pile: {lacking} more {name} went off than lay there"] += 1
    lines = tuple(f"{what}: {count}" for what, count in told.items() if count)
    return Piled(tuple(rows), lines, aside)


def _piece(entry: Entry, name: str, count: int) -> tuple[PilePiece, str]:
    """What went onto it, and what is wrong with its flaws; it then counts as poor, so that no part relies on it."""
    length, text = entry.number("length"), entry.text("flaws")
    condition, wrong = Condition(entry.text("condition") or Condition.SOUND), ""
    flaws: tuple[Flaw, ...] = ()
    try:
        if text and length is None:
            raise InputError("flaws without a length")
        flaws = flaws_of(text, length=length)
    except InputError as mistake:
        condition, wrong = Condition.POOR, mistake.message
    piece = PilePiece(
        item=name, count=count, length=length, amount=None, unit=None, note=_where(entry), width=entry.number("width"),
        flaws=flaws, raw_ends=RawEnds(entry.text("raw_ends") or RawEnds.NONE), condition=condition,
    )  # fmt: skip
    return piece, wrong


def _where(entry: Entry) -> str:
    place = entry.text("place")
    return f"by the log, {place}" if place else "by the log"


def _put(rows: list[PilePiece], piece: PilePiece) -> None:
    """Onto the row of its like that the log made, else as a row of its own."""
    for at, row in enumerate(rows):
        if replace(row, count=piece.count) == piece:
            rows[at] = replace(row, count=row.count + piece.count)
            return
    rows.append(piece)


def _take(rows: list[PilePiece], name: str, count: int, like: tuple[Meter | None, str]) -> int:
    """Take so many off, of their length and rather with their flaws than others; how many were not there."""
    for at in _fitting(rows, name, like):
        taken = min(count, rows[at].count)
        rows[at] = replace(rows[at], count=rows[at].count - taken)
        count -= taken
    rows[:] = [row for row in rows if row.count > 0]
    return count


def _fitting(rows: Sequence[PilePiece], name: str, like: tuple[Meter | None, str]) -> list[int]:
    length, text = like
    of_it = [at for at, row in enumerate(rows) if row.item == name]
    if length is None:
        return of_it
    flaws = _readable(text, length)
    own = [at for at in of_it if _is(rows[at].length, length)]
    own.sort(key=lambda at: not _same_flaws(rows[at].flaws, flaws))
    return [*own, *(at for at in of_it if rows[at].length is None)]


def _readable(text: str, length: Meter) -> tuple[Flaw, ...]:
    try:
        return flaws_of(text, length=length)
    except InputError:
        return ()


def _same_flaws(one: Sequence[Flaw], other: Sequence[Flaw]) -> bool:
    return len(one) == len(other) and all(
        a.kind == b.kind and _is(a.start, b.start) and _is(a.end, b.end) for a, b in zip(one, other, strict=True)
    )


def _is(one: Meter | None, other: Meter) -> bool:
    return one is not None and math.isclose(one, other, abs_tol=_SAME_LENGTH)
