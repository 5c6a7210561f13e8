"""Values and amounts of trials as text: to read, and as the log's forms take them."""

from __future__ import annotations

from pinfold.logbook.entries import Amount
from pinfold.reports.amounts import buckets, by_jug
from pinfold.studies.trials.ranges import DAY
from pinfold.units import KG_PER_CUBIC_METER, METER, UNIT_BY_SYMBOL, System, show, significant


def value_text(key: str, value: float, system: System) -> str:
    """A value of a factor as a builder reads it."""
    if key == "thickness":
        return show(value, METER, system)
    if key == "kept_wet":
        return f"{value / DAY:.3g} day{'s' * (value != DAY)}"
    if key == "wet_density":
        return show(value, KG_PER_CUBIC_METER, system)
    return f"{value:.1%}" if key == "water" else significant(value)


def typed_text(key: str, value: float, system: System) -> str:
    """A value as a form takes it."""
    if key == "thickness":
        symbol = "in" if system is System.US else "mm"
        return f"{value / UNIT_BY_SYMBOL[symbol].factor:.3g} {symbol}"
    return f"{value / DAY:.3g} day"


def amount_shown(amount: Amount, system: System) -> str:
    """An amount as a builder measures it: `1 7/8 buckets`, `1/2 bag`, `5 3/4 qt`, `17.9 lb`."""
    if amount.measure == "m3":
        return by_jug(amount.amount, system, off=_EXACT)
    number = buckets(amount.amount)
    if amount.measure == "kg" or not number:
        return amount_text(amount, system)
    return f"{number} {amount.measure}{'s' if amount.amount > 1 else ''}"


_EXACT = 1e-6
"""Proposals are rounded already, to lie inside their ranges: they are told as they are."""


def amount_text(amount: Amount, system: System) -> str:
    """An amount as a form takes it."""
    american = system is System.US
    symbol = {"m3": "gal" if american else "L", "kg": "lb" if american else "kg"}.get(amount.measure)
    if symbol is None:
        return f"{amount.amount:g} {amount.measure}"
    return f"{amount.amount / UNIT_BY_SYMBOL[symbol].factor:.3g} {symbol}"
