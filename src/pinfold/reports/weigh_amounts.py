"""Single numbers of weighing with their unit, as running text has them."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.reports.weigh_words import head, number
from pinfold.studies.weighing.records import Criterion, Shown
from pinfold.units import System


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
