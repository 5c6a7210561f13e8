"""One entry of the log as a line of the ledger. Money is counted in whole coins and in fractions, never in floats."""

from __future__ import annotations

from fractions import Fraction

from pinfold.logbook.entries import Entry
from pinfold.logbook.works import Work, one_word
from pinfold.studies.ledger.records import LedgerLine, LineSort
from pinfold.studies.lessons.paid import item_named, rate_of, whole_coins

_LAYERS = {Work.LAY.value: "wall", Work.DIG.value: "trench"}
"""The layer that hours of a work go into, where the plan has another word for it."""


def line_of(entry: Entry, currency: str, digits: int) -> LedgerLine | None:
    """The line of an entry that stands; None for kinds that the ledger does not read.

    Args:
        entry: of the log
        currency: of the site; money that names another one is counted at its rate, or not at all
        digits: decimals of the site's currency
    """
    if entry.kind == "purchase":
        return _purchase(entry, currency, digits)
    if entry.kind == "leftover":
        return _moved(entry, LineSort.LEFTOVER, amount=entry.number("packs") or 0.0, pack=entry.text("pack"))
    if entry.kind == "pile":
        sort = LineSort.RECLAIMED if entry.text("way") == "out" else LineSort.PILED
        return _moved(entry, sort, amount=entry.number("count") or 1.0, pack=str(entry.typed.get("length", "")))
    return _hours(entry) if entry.kind == "hours" else None


def _purchase(entry: Entry, currency: str, digits: int) -> LedgerLine:
    other, rate = entry.text("currency"), rate_of(entry, currency, digits)
    abroad = "" if other.casefold() == currency.casefold() else other
    cost, tax = _coins(entry, "cost"), _coins(entry, "tax")
    haul = _coins(entry, "haul") if "haul" in entry.values else None
    total = _coins(entry, "bill_total") if "bill_total" in entry.values else None
    billed = Fraction(1) if abroad else rate
    return LedgerLine(
        day=entry.when.date(), seq=entry.seq, entry=entry.id, sort=LineSort.PURCHASE, what=_what(entry),
        layer=entry.text("layer"), place=entry.text("place"), amount=entry.number("packs") or 0.0,
        pack=entry.text("pack"), coins=_at(rate, cost), tax=_at(rate, tax),
        haul=None if haul is None else _at(rate, haul), trips=int(entry.number("trips") or 0), currency=abroad,
        paid=_at(billed, cost + (haul or 0)), paid_haul=_at(billed, haul or 0), paid_tax=_at(billed, tax),
        counted=rate is not None, shop=entry.text("shop"), bill=entry.text("bill"),
        bill_total=None if total is None else _at(billed, total),
    )  # fmt: skip


def _moved(entry: Entry, sort: LineSort, *, amount: float, pack: str) -> LedgerLine:
    worth = _coins(entry, "worth")
    return _plain(
        entry, sort, what=_what(entry), amount=amount, pack=pack, coins=worth if sort is LineSort.RECLAIMED else -worth
    )


def _hours(entry: Entry) -> LedgerLine:
    seconds = round((entry.number("time") or 0.0) * (entry.number("people") or 1.0))
    line = _plain(entry, LineSort.HOURS, what="", amount=float(seconds), pack="", coins=0)
    word = one_word(line.layer)
    return line._replace(what=word, layer=_LAYERS.get(word, word))


def _plain(entry: Entry, sort: LineSort, *, what: str, amount: float, pack: str, coins: int) -> LedgerLine:
    """A line without a shop."""
    return LedgerLine(
        day=entry.when.date(), seq=entry.seq, entry=entry.id, sort=sort, what=what, layer=entry.text("layer"),
        place=entry.text("place"), amount=amount, pack=pack, coins=coins, tax=0, haul=None, trips=0, currency="",
        paid=0, paid_haul=0, paid_tax=0, counted=True, shop="", bill="", bill_total=None,
    )  # fmt: skip


def _what(entry: Entry) -> str:
    """The thing by the name the price list has for it, else as written."""
    text = entry.text("item")
    return item_named(text) or text


def _coins(entry: Entry, key: str) -> int:
    """Money of a field; nothing where it is empty."""
    value = entry.values.get(key, 0)
    return value if isinstance(value, int) else 0


def _at(rate: Fraction | None, coins: int) -> int:
    """Coins of another currency in the site's, halves up; none without a rate."""
    if rate is None:
        return 0
    return coins if rate == 1 else whole_coins(coins * rate)
