"""What was bought and left over, as things on the pile."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from pinfold.errors import InputError
from pinfold.logbook.entries import Entry
from pinfold.plan.place import Mixing
from pinfold.plan.stock import PilePiece, Price, Prices
from pinfold.studies.lessons.paid import item_named, pack_of
from pinfold.studies.lessons.piled import Piled
from pinfold.units import METER, RATIO

_NOTHING = 1e-6
"""Less of a pack than this is nothing."""


def left_over(entries: Sequence[Entry], prices: Prices, mixing: Mixing) -> Piled:
    """What was left over, as rows of the pile, what is told of it, and what could not be used.

    Args:
        entries: of what was left over, in any order
        prices: the price list, for packs that an entry does not tell
        mixing: with the bags of the site
    """
    rows: list[PilePiece] = []
    told: Counter[str] = Counter()
    aside: Counter[str] = Counter()
    for entry in sorted(entries, key=lambda each: (each.when, each.seq)):
        name, packs = item_named(entry.text("item")), entry.number("packs") or 0.0
        if not name:
            aside[f"leftover: nothing called {entry.text('item')!r} is known"] += 1
            continue
        try:
            pack = pack_of(entry.text("pack"), name, prices.by_item.get(name), mixing)
        except InputError:
            aside[f"leftover of {name}: a pack of {entry.text('pack')!r} cannot be read"] += 1
            continue
        rows += _pieces(name, packs, pack)
        told[f"{name}, left over"] += 1
    return Piled(tuple(rows), tuple(f"{what}: {_times(count)}" for what, count in told.items()), aside)


def _times(count: int) -> str:
    return "1 entry" if count == 1 else f"{count} entries"


def _pieces(name: str, packs: float, pack: Price) -> Iterator[PilePiece]:
    """Whole lengths and the rest of one, whole pieces, or an amount of what is loose."""
    if pack.unit.kind == METER.kind:
        whole, part = divmod(packs, 1.0)
        if whole:
            yield _row(name, count=int(whole), length=pack.pack)
        if part > _NOTHING:
            yield _row(name, count=1, length=part * pack.pack)
    elif pack.unit.kind == RATIO.kind:
        count = int(packs * pack.pack + _NOTHING)
        if count:
            yield _row(name, count=count)
    elif packs > 0:
        yield PilePiece(item=name, count=1, length=None, amount=packs * pack.pack, unit=pack.unit, note=_NOTE)


def _row(name: str, *, count: int, length: float | None = None) -> PilePiece:
    return PilePiece(item=name, count=count, length=length, amount=None, unit=None, note=_NOTE)


_NOTE = "by the log, left over"
