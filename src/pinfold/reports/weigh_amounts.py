"""Single numbers of weighing with their unit, as running text has them."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.plan.people import HOUR
from pinfold.reports.weigh_words import FOOT, head, number, symbol_of
from pinfold.studies.weighing.records import Criterion, Shown
from pinfold.units import UNIT_BY_SYMBOL, System


class Money(NamedTuple):
    """How money is told.

    Attributes:
        currency: three letters or a sign.
        digits: decimals.
    """

    currency: str
    digits: int


def amount(criterion: Criterion, value: float, system: System, money: Money) -> str:
    """One number with its unit, such as `USD 9 814`, `312 h`, `20 days`, `11 %`."""
    text = number(criterion, value, system, money.digits)
    unit = head(criterion, system, money.currency).removeprefix(criterion.says).removeprefix(", ")
    if criterion.shown is Shown.MONEY:
        return f"{unit}\u00a0{text}" if unit else text
    if criterion.shown is Shown.DAYS:
        return f"{text}\u00a0{'day' if text == '1' else 'days'}"
    return f"{text}\u00a0{unit}" if unit else text


def unit_of(criterion: Criterion, system: System, money: Money) -> float:
    """What one of the shown unit is in SI, money in the smallest coin; of a share one percent."""
    shown = criterion.shown
    if shown is Shown.MONEY:
        return 10.0**money.digits
    if shown is Shown.MONEY_PER_LENGTH:
        return 10.0**money.digits / (FOOT if system is System.US else 1.0)
    if shown is Shown.SHARE:
        return 0.01
    if shown is Shown.HOURS:
        return HOUR
    return UNIT_BY_SYMBOL[symbol_of(criterion, system)].factor if shown is Shown.AMOUNT else 1.0
