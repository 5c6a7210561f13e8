"""The pile and the parts that are cut as they were from one moment of the log to the next, once cutting has begun."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from pinfold.logbook.entries import Entry
from pinfold.logbook.sawn import by_plan, pieces_cut
from pinfold.plan.stock import PilePiece
from pinfold.studies.lessons.piled import piled


class Moment(NamedTuple):
    """How things stood.

    Attributes:
        pile: what lay on it.
        cuts: entries of all that was cut until then.
        pieces: how many pieces of the cut plan were cut since the moment before, by code.
    """

    pile: tuple[PilePiece, ...]
    cuts: tuple[Entry, ...]
    pieces: Counter[str]


def moments(entries: Iterable[Entry], pile: Sequence[PilePiece]) -> Iterator[Moment]:
    """When the first piece of the cut plan was about to be cut, then whenever more were, or the pile changed otherwise.

    Args:
        entries: of the log that stand
        pile: as it was before the first of them
    """
    moved = sorted((each for each in entries if each.kind in ("cut", "pile")), key=lambda each: (each.when, each.seq))
    begun = next((at for at, each in enumerate(moved) if by_plan(each)), len(moved))
    now = Moment(tuple(pile), (), Counter())
    yield (now := _after(now, moved[:begun]))
    for _, run in groupby(moved[begun:], key=by_plan):
        yield (now := _after(now, list(run)))


def _after(before: Moment, run: Sequence[Entry]) -> Moment:
    return Moment(
        pile=piled([each for each in run if each.kind == "pile"], before.pile).pile,
        cuts=(*before.cuts, *(each for each in run if each.kind == "cut")),
        pieces=pieces_cut(run),
    )
