"""The price list `prices.toml`: what one pack of each item costs here. Money is read exactly, never as a float."""

from __future__ import annotations

import tomllib
from decimal import Decimal, InvalidOperation
from pathlib import Path

from pinfold.errors import InputError, InvalidPlan, NewerFileError
from pinfold.plan.stock import NO_PRICES, Price, Prices
from pinfold.store.forms import Form
from pinfold.store.items import unknown_item
from pinfold.store.writing import read_text
from pinfold.units import RATIO, Unit, unit_of

NAME = "prices.toml"


def read_prices(path: Path) -> Prices:
    """The price list, or one without prices where the file is not there.

    Raises:
        StoreError: it cannot be read.
        InvalidPlan: with every complaint.
    """
    if not path.exists():
        return NO_PRICES
    return prices_of(read_text(path), name=path.name)


def prices_of(text: str, *, name: str = NAME) -> Prices:
    """The same from text.

    Raises:
        InvalidPlan: with every complaint.
    """
    try:
        table = tomllib.loads(text, parse_float=Decimal)
    except (tomllib.TOMLDecodeError, RecursionError, InvalidOperation) as fault:
        raise InvalidPlan(name, [InputError(f"not readable as TOML: {fault}")]) from None
    form = Form(table)
    found = form.raw("format")
    if isinstance(found, int) and not isinstance(found, bool) and found > 1:
        raise NewerFileError(f"{name} is of format {found}; this pinfold reads format 1. Get a newer pinfold.")
    if found != 1:
        form.complain("format", "write format = 1 on top")
    digits = form.count("digits", otherwise=2, high=4)
    prices = Prices(
        currency=form.text("currency", longest=8),
        digits=digits,
        trip=_money(form, "trip", digits),
        water_trip=_money(form, "water_trip", digits),
        hour=_money(form, "own_hour", digits) or 0,
        by_item={item: _price(part, item, digits) for item, part in form.tables("price", most=2000).items()},
    )
    form.refuse_unknown()
    form.check(name)
    return prices


def _price(form: Form, item: str, digits: int) -> Price:
    if complaint := unknown_item(item):
        form.complain("", complaint)
    found = form.raw("pack")
    pack, unit = (1.0, RATIO) if found is None else _pack(form, found)
    cost = _money(form, "cost", digits)
    if cost is None and not form.has("cost"):
        form.complain("cost", 'is missing; write cost = "12.50"')
    form.refuse_unknown()
    return Price(item=item, pack=pack, unit=unit, cost=cost or 0, printed="each" if found is None else str(found))


def _pack(form: Form, found: object) -> tuple[float, Unit]:
    try:
        unit = unit_of(found)
    except InputError as mistake:
        form.complain("pack", mistake.message)
        return 1.0, RATIO
    return form.measure(_plain(found), unit, "pack", low=1e-9, high=1e9), unit


def _plain(found: object) -> object:
    return float(found) if isinstance(found, Decimal) else found


def _money(form: Form, key: str, digits: int) -> int | None:
    found = form.raw(key)
    if found is None:
        return None
    try:
        amount = Decimal(str(found)) if isinstance(found, str | int | Decimal) and not isinstance(found, bool) else None
        coins = amount.scaleb(digits) if amount is not None and amount.is_finite() else None
    except ArithmeticError:
        coins = None
    if coins is None or coins != coins.to_integral_value() or not 0 <= coins <= 10**12:
        form.complain(key, f"{found!r} found; an amount of money from 0 up with at most {digits} decimals is wanted")
        return None
    return int(coins)
