"""Numbers of weighing as text."""

from __future__ import annotations

from pinfold.plan.people import HOUR
from pinfold.studies.weighing.records import Criterion, Score, Shown
from pinfold.units import System, money, significant, symbol_for
from pinfold.units import printed as symbol_printed
from pinfold.units.kinds import UNIT_BY_SYMBOL

FOOT = 0.3048
NOT_SHOWN = "NOT SHOWN"


def said(criterion: Criterion, score: Score, system: System, digits: int) -> str:
    """A score with its spread, such as `9 814 (9 120–10 500)`; the unit stands in the head of its column."""
    if score.value is None:
        return NOT_SHOWN
    text = number(criterion, score.value, system, digits)
    if score.low is None or score.high is None:
        return text
    low, high = (number(criterion, end, system, digits) for end in (score.low, score.high))
    return text if low == text == high else f"{text} ({low}–{high})"


def number(criterion: Criterion, value: float, system: System, digits: int) -> str:
    """One number in the unit of its column."""
    shown = criterion.shown
    if shown is Shown.MONEY:
        return money(round(value / 10**digits), "", 0)
    if shown is Shown.MONEY_PER_LENGTH:
        return significant(value / 10**digits * (FOOT if system is System.US else 1.0))
    if shown is Shown.SHARE:
        return percent(value)
    if shown is Shown.HOURS:
        return significant(value / HOUR)
    if shown is Shown.AMOUNT:
        unit = UNIT_BY_SYMBOL[symbol_of(criterion, system)]
        return significant(value / unit.factor)
    return significant(round(value))


def percent(share: float) -> str:
    """`12 %`, `0.4 %`, `<0.01 %`, `>-0.01 %`; what rounding leaves of nothing is nothing."""
    if abs(share) < _NOTHING:
        return "0\u00a0%"
    if abs(share) < _LEAST:
        return f"{'<' if share > 0 else '>-'}{_LEAST * 100:g}\u00a0%"
    return f"{significant(share * 100, 2)}\u00a0%"


_LEAST, _NOTHING = 1e-4, 1e-9


def head(criterion: Criterion, system: System, currency: str) -> str:
    """Head of a column: what it is and in what."""
    unit = {
        Shown.MONEY: currency, Shown.HOURS: "h", Shown.YEARS: "years",
        Shown.MONEY_PER_LENGTH: f"{currency}/{'ft' if system is System.US else 'm'}".lstrip("/"),
    }.get(criterion.shown, "")  # fmt: skip
    if criterion.shown is Shown.AMOUNT:
        unit = symbol_printed(symbol_of(criterion, system))
    return f"{criterion.says}, {unit}" if unit else criterion.says


def symbol_of(criterion: Criterion, system: System) -> str:
    """The unit of a column; water by the gallon or liter, as it is hauled."""
    if criterion.key == "water":
        return "gal" if system is System.US else "L"
    return symbol_for(1.0, criterion.unit, system)
