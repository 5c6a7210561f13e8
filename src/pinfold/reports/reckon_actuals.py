"""Plan against actual to read: totals with their reasons, then hours, batches, goods and prices row by row."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import partial

from pinfold.plan.people import HOUR
from pinfold.reports.pages import Block, Heading, Page, Paragraph, Table, table
from pinfold.studies.actuals.records import (
    Actuals,
    BoughtAgainst,
    CoinReason,
    CoinsAgainst,
    HoursAgainst,
    MixAgainst,
    Reason,
)
from pinfold.units import money, percent

NOTHING = (
    "Nothing is in the log yet. Write down hours with what was done in them, batches, coats and purchases, and this "
    "page says what they should have taken and why they took more or less."
)
_UNREAD = "What was done is NOT SHOWN: the log cannot be read."
_HOW = (
    "Due is what the share that is done should have taken by the plan; the difference is told by its reasons, which "
    "add up to it. What no entry explains is said to be so. Practice: what work takes so far beside its average over "
    "the whole job, by the learning curve."
)
_NAMED = 6
_AS_PLANNED = "* The log does not tell how much of it went in: the planned amount stands, at the price paid."


def against_page(name: str, found: Actuals, currency: str, digits: int, *, is_read: bool = True) -> Page:
    """All of it.

    Args:
        name: of the plot
        found: as held against the plan
        currency: of the price list
        digits: decimals of it
        is_read: whether the log could be read
    """
    title = f"{name}: planned and done"
    blocks = (*_hours(found), *_mixes(found.mixes), *_coins(found.coins, currency, digits),
              *_bought(found.bought, currency, digits))  # fmt: skip
    if not blocks:
        return Page(title=title, blocks=(Paragraph(text=NOTHING if is_read else _UNREAD), *_missing(found)))
    return Page(title=title, blocks=(Paragraph(text=_HOW), *blocks, *_missing(found)))


def _missing(found: Actuals) -> tuple[Block, ...]:
    if not found.missing:
        return ()
    return Heading(text="Not shown"), *(Paragraph(text=f"{text[:1].upper()}{text[1:]}.") for text in found.missing)


def hours_said(seconds: float) -> str:
    """`12.5 h`, from a hundred on without decimals: `1 230 h`."""
    hours = seconds / HOUR
    return f"{hours:,.0f} h".replace(",", "\u00a0") if abs(hours) >= 100 else f"{hours:.1f} h"


def _signed(said: str, value: float) -> str:
    return f"+{said}" if value > 0 else said


def _hours(found: Actuals) -> tuple[Block, ...]:
    rows = [row for row in found.hours if row.took or row.due]
    took = math.fsum(row.took or 0.0 for row in rows) + found.unplaced_time
    if not took:
        return ()
    due, reasons = math.fsum(row.due for row in rows if row.took is not None), _summed(rows)
    text = f"{hours_said(took)} were worked; what is done should have taken {hours_said(due)}{_because(reasons)}."
    if found.unplaced_time:
        text += f" {hours_said(found.unplaced_time)} of them belong to no work of the plan."
    return Heading(text="Hours"), Paragraph(text=text), *_implied(found), _hours_table(rows)


def _implied(found: Actuals) -> tuple[Block, ...]:
    if not found.implied:
        return ()
    more = f" and {len(found.implied) - _NAMED} more" if len(found.implied) > _NAMED else ""
    text = (
        f"Taken as done, since work that comes after it there was begun: {', '.join(found.implied[:_NAMED])}{more}. "
        "If one of them is not done, correct the place of the entry that came after."
    )
    return (Paragraph(text=text),)


def _hours_table(rows: Sequence[HoursAgainst]) -> Table:
    cells = [
        (f"{row.work} {row.run}", hours_said(row.planned), percent(row.done), hours_said(row.due),
         "NOT SHOWN" if row.took is None else hours_said(row.took), _why(row.reasons, hours_said))
        for row in rows
    ]  # fmt: skip
    return table(("work", "planned", "done", "due", "took", "why"), cells, right=(1, 2, 3, 4), wide=5)


def _summed(rows: Iterable[HoursAgainst]) -> tuple[Reason, ...]:
    sums: dict[str, float] = {}
    for row in rows:
        for reason in row.reasons:
            sums[reason.says] = sums.get(reason.says, 0.0) + reason.by
    return tuple(Reason(says, by) for says, by in sums.items())


def _because(reasons: Sequence[Reason]) -> str:
    return f": {_why(reasons, hours_said)}" if reasons else ""


def _why(reasons: Iterable[Reason], said: Callable[[float], str]) -> str:
    """Each reason with its sign; what rounds to nothing is left out."""
    told = ((said(each.by), each) for each in reasons)
    return "; ".join(
        f"{_signed(text, each.by)} {each.says}" for text, each in told if any(c in "123456789" for c in text)
    )


def _mixes(mixes: Sequence[MixAgainst]) -> tuple[Block, ...]:
    rows = [row for row in mixes if row.mixed or row.due]
    if not any(row.mixed for row in rows):
        return ()
    cells = [
        (f"{row.mix} {row.coat} {row.run}".replace("  ", " "), f"{row.planned:.1f}", percent(row.done),
         f"{row.due:.1f}", "NOT SHOWN" if row.mixed is None else f"{row.mixed:.1f}",
         _why(row.reasons, lambda by: f"{by:.1f}"))
        for row in rows
    ]  # fmt: skip
    heads = ("batches of", "planned", "done", "due", "mixed", "why")
    return Heading(text="Batches"), table(heads, cells, right=(1, 2, 3, 4), wide=5)


def _coins(coins: Sequence[CoinsAgainst], currency: str, digits: int) -> tuple[Block, ...]:
    rows = [row for row in coins if row.due or row.took]
    if not rows:
        return ()
    said = partial(money, currency="", digits=digits)
    due, took = sum(row.due for row in rows), sum(row.took for row in rows)
    sums: dict[str, int] = {}
    for row in rows:
        for reason in row.reasons:
            sums[reason.says] = sums.get(reason.says, 0) + reason.coins
    why = _coin_why([CoinReason(says, by) for says, by in sums.items()], digits)
    text = f"Goods for {money(took, currency, digits)} went in; what is done should have cost "
    text += f"{money(due, currency, digits)}{f': {why}' if why else ''}."
    cells = [
        (f"{row.layer} {row.run}{' *' if row.as_planned else ''}", said(row.planned), percent(row.done), said(row.due),
         said(row.took), _coin_why(row.reasons, digits))
        for row in rows
    ]  # fmt: skip
    note = _AS_PLANNED if any(row.as_planned for row in rows) else ""
    listed = table((f"goods, {currency}".rstrip(", "), "planned", "done", "due", "went in", "why"), cells,
                   right=(1, 2, 3, 4), wide=5, note=note)  # fmt: skip
    return Heading(text="Goods"), Paragraph(text=text), listed


def _coin_why(reasons: Iterable[CoinReason], digits: int) -> str:
    return "; ".join(f"{_signed(_coins_said(each.coins, digits), each.coins)} {each.says}" for each in reasons)


def _coins_said(coins: int, digits: int) -> str:
    said = money(abs(coins), "", digits)
    return said if coins >= 0 else f"-{said}"


def _bought(bought: Sequence[BoughtAgainst], currency: str, digits: int) -> tuple[Block, ...]:
    if not bought:
        return ()
    cells = [
        (row.item, f"{row.planned:g}", f"{row.packs:g}",
         "NOT SHOWN" if row.listed is None else _coins_said(row.listed, digits),
         _coins_said(row.paid, digits), "" if not row.dearer else _signed(_coins_said(row.dearer, digits), row.dearer))
        for row in bought
    ]  # fmt: skip
    heads = (f"bought, {currency}".rstrip(", "), "packs planned", "bought", "by the list", "paid", "above the list")
    return Heading(text="Prices paid"), table(heads, cells, right=(1, 2, 3, 4, 5))
