"""The ledger to read: what was spent and worked so far, by layer and run, what is pointed out, and line by line."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.ledger.records import Ledger, LedgerLine, LedgerShare, LineSort, Point, PointSort
from pinfold.units import System, decimals_of, money

_FOOT, _HOUR = 0.3048, 3600
_POINTED = 20
"""Points that are told one by one; the record has all."""
_NAMED = 8
"""Entries that a point names; more are counted."""
_EMPTY = (
    "Nothing bought or worked is in the log yet: 'pinfold log add purchase', 'leftover' and 'hours' write it down, or "
    "the log's page."
)
_NOTHING = "Nothing bought or worked is in the log yet: the buttons above write it down."
_ON_SCREEN = {
    PointSort.BILL: "Correct what is wrong, or add what is missing:",
    PointSort.TWICE: "Both are counted. Take one back, or give each its bill:",
    PointSort.CURRENCY: "Say there what one of it is worth:",
    PointSort.AHEAD: "Set the day right:",
    PointSort.BELOW: "Set the amount right:",
    PointSort.OVER: "Set one of the two right, or add the purchase:",
}
"""How to mend it on a screen, before links to the entries."""
_ADDED = (PointSort.BILL, PointSort.OVER)
"""What a purchase more may mend."""
_PATHS = {
    PointSort.BILL: "Mend it with 'pinfold log correct', or add what is missing.",
    PointSort.TWICE: "Both are counted. Take one back with 'pinfold log withdraw', or give each its bill.",
    PointSort.CURRENCY: "Say what one of it is worth: 'pinfold log correct NUMBER rate=0.92'.",
    PointSort.AHEAD: "Set the day right: 'pinfold log correct NUMBER --at 2026-05-03T12:00'.",
    PointSort.BELOW: "Set the amount right with 'pinfold log correct'.",
    PointSort.OVER: "Set one of the two right with 'pinfold log correct', or add the purchase.",
}


def ledger_page(name: str, ledger: Ledger, system: System, lines: Sequence[LedgerLine]) -> Page:
    """The whole ledger.

    Args:
        name: of the plot
        ledger: as found
        system: of units
        lines: those that are shown, the newest first
    """
    title = f"{name}: the ledger"
    return Page(title=title, blocks=(*so_far(ledger, system), *pointed_out(ledger), *_lines(ledger, lines)))


def so_far(ledger: Ledger, system: System) -> tuple[Block, ...]:
    """What was spent and worked, in all, by layer and by run."""
    if not ledger.lines:
        return (Paragraph(text=_EMPTY, on_screen=_NOTHING),)
    shares = (("by layer", ledger.by_layer), ("by run", ledger.by_run))
    told: list[Block] = [Paragraph(text=spent_sentence(ledger, system)), _whole(ledger)]
    told += [_shares(title, found, ledger, system) for title, found in shares if found]
    notes = [*_kept_apart(ledger), *_left_out(ledger)]
    return (*told, *(Paragraph(text=text) for text in notes))


def spent_sentence(ledger: Ledger, system: System) -> str:
    """`USD 512.40 spent so far, 34 h of own work counted at nothing; USD 12.30 a foot of enclosure.`"""
    text = f"{_money(ledger, ledger.spent)} spent so far"
    if ledger.seconds:
        text += f", {hours(ledger.seconds)} of own work "
        text += f"counted at {_money(ledger, ledger.hour)} an hour" if ledger.hour else "counted at nothing"
    if ledger.own:
        text += f"; in all {_money(ledger, ledger.total)}"
    if ledger.per_meter is not None:
        of = "foot" if system is System.US else "meter"
        text += f"; {_money(ledger, _each(ledger.per_meter, system))} a {of} of the whole enclosure, built or not"
    return f"{text}."


def hours(seconds: int) -> str:
    """`34.5 h`"""
    return f"{seconds / _HOUR:,.1f}".removesuffix(".0").replace(",", "\u00a0") + "\u00a0h"


def pointed_out(ledger: Ledger) -> tuple[Block, ...]:
    """What does not add up or looks wrong, each with what it may come of and how to mend it."""
    if not ledger.points:
        return ()
    told: list[Block] = [Heading(text="pointed out")]
    told += [_point(point, ledger) for point in ledger.points[:_POINTED]]
    more = len(ledger.points) - _POINTED
    if more > 0:
        few = f"And {more} more like these"
        told.append(Paragraph(text=f"{few}; 'pinfold reckon --json' has all.", on_screen=f"{few}."))
    return tuple(told)


def _point(point: Point, ledger: Ledger) -> Paragraph:
    """A point; on a screen its entries are links to where they are corrected or taken back."""
    links = [(f"entry {seq}", f"/log/{seq}") for seq in point.lines[:_NAMED]]
    links += [("a purchase more", "/log/new/purchase")] if point.sort in _ADDED else []
    more = f" ({len(point.lines)} of them)" if len(point.lines) > _NAMED else ""
    on_screen = f"{_found(point, ledger)}{more}.{_likely(point)} {_ON_SCREEN[point.sort]}"
    return Paragraph(text=point_told(point, ledger), on_screen=on_screen, links=tuple(links))


def point_told(point: Point, ledger: Ledger) -> str:
    """A point in its sentences: what was found, by how much, in which entries, what it may come of, how to mend it."""
    return f"{_found(point, ledger)} ({_entries(point.lines)}).{_likely(point)} {_PATHS[point.sort]}"


def _found(point: Point, ledger: Ledger) -> str:
    text = point.says
    if point.coins is not None:
        text += f"{_OFF.get(point.sort, ', ')}{_money(ledger, abs(point.coins), point.currency or ledger.currency)}"
    return f"{text[:1].upper()}{text[1:]}"


def _likely(point: Point) -> str:
    return f" Likely {', or '.join(point.likely)}." if point.likely else ""


_OFF = {PointSort.BILL: ", by ", PointSort.TWICE: ", each "}


def _entries(seqs: Sequence[int]) -> str:
    named = ", ".join(map(str, seqs[:_NAMED]))
    more = f" and {len(seqs) - _NAMED} more" if len(seqs) > _NAMED else ""
    return f"entry {named}" if len(seqs) == 1 else f"entries {named}{more}"


def _money(ledger: Ledger, coins: int, currency: str | None = None) -> str:
    """An amount of the site's currency, of another with that one's decimals, or without a name where that is empty."""
    own = currency is None or currency == ledger.currency
    name = ledger.currency if currency is None else currency
    return money(coins, name, ledger.digits if own else decimals_of(name, ledger.digits))


def _each(per_meter: float, system: System) -> int:
    return round(per_meter * (_FOOT if system is System.US else 1.0))


def _whole(ledger: Ledger) -> Table:
    rows = [("goods, tax in them", ledger.goods)]
    rows += [("of it, tax", ledger.tax)] if ledger.tax else []
    rows.append(("delivery and trips", ledger.haul))
    rows += [("off the pile", ledger.reclaimed)] if ledger.reclaimed else []
    rows += [("left over, back onto the pile", -ledger.back)] if ledger.back else []
    rows.append(("spent", ledger.spent))
    rows += [("own work", ledger.own), ("in all", ledger.total)] if ledger.own else []
    cells = [(says, _money(ledger, coins, "")) for says, coins in rows]
    return table(("what", ledger.currency or "cost"), cells, right=(1,))


def _shares(title: str, shares: Sequence[LedgerShare], ledger: Ledger, system: System) -> Table:
    worked, valued = any(share.seconds for share in shares), ledger.own != 0
    heads = [title, "spent", *(["hours"] if worked else []), *(["own work", "in all"] if valued else [])]
    heads.append("a foot" if system is System.US else "a meter")
    rows = []
    for share in shares:
        row = [share.name or "not told", _money(ledger, share.spent, "")]
        row += [hours(share.seconds) if share.seconds else ""] if worked else []
        row += [_money(ledger, share.own, ""), _money(ledger, share.total, "")] if valued else []
        each = share.per_meter
        rows.append([*row, "" if each is None else _money(ledger, _each(each, system), "")])
    return table(heads, rows, right=range(1, len(heads)))


def _kept_apart(ledger: Ledger) -> list[str]:
    return [
        f"Not in it: {_money(ledger, each.coins, each.currency)} paid in another currency without a rate."
        for each in ledger.abroad
    ]


def _left_out(ledger: Ledger) -> list[str]:
    if not ledger.uncosted:
        return []
    trips = "1 trip" if ledger.uncosted == 1 else f"{ledger.uncosted} trips"
    return [f"Not in it: {trips} to the shop; prices.toml says what one costs under trip."]


def _lines(ledger: Ledger, lines: Sequence[LedgerLine]) -> tuple[Block, ...]:
    if not lines:
        return ()
    rows = [_row(ledger, line) for line in lines]
    count = f"{len(ledger.lines):,}".replace(",", "\u00a0")
    note = f"The newest {len(lines)} of {count}." if len(ledger.lines) > len(lines) else ""
    heads = ("no.", "day", "what", "how much", ledger.currency or "coins", "for")
    links = [f"/log/{line.seq}" for line in lines]
    return Heading(text="line by line"), table(heads, rows, right=(0, 4), wide=2, note=note, links=links)


def _row(ledger: Ledger, line: LedgerLine) -> tuple[str, ...]:
    if line.sort is LineSort.HOURS:
        what, much, coins = "hours", hours(int(line.amount)), ""
    else:
        packs = f"{line.amount:g}"
        much = f"{packs} × {line.pack}" if line.pack else packs
        what = line.what if line.sort is LineSort.PURCHASE else f"{line.what}, {_SORTS[line.sort]}"
        coins = _money(ledger, line.coins + (line.haul or 0), "") if line.counted else _abroad(ledger, line)
    where = " ".join(part for part in (line.layer, line.place) if part)
    return str(line.seq), line.day.isoformat(), what, much, coins, where


_SORTS = {LineSort.LEFTOVER: "left over", LineSort.RECLAIMED: "off the pile", LineSort.PILED: "onto the pile"}


def _abroad(ledger: Ledger, line: LedgerLine) -> str:
    return f"({_money(ledger, line.paid, line.currency)})"
