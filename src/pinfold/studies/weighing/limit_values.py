"""The amount of a limit, read as its criterion is measured."""

from __future__ import annotations

import math
import re
from decimal import Decimal, InvalidOperation

from pinfold.errors import InputError, QuantityError
from pinfold.plan.stock import Prices
from pinfold.studies.weighing.records import Criterion, Shown
from pinfold.units import CUBIC_METER, RATIO, SECOND, System, Unit, read

COUNTS = (Shown.COUNT, Shown.DAYS, Shown.YEARS)
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_WORDS = {**{word: number for number, word in enumerate(_NUMBERS)}, "a": 1, "an": 1, "zero": 0, "none": 0, "nothing": 0}
_DAYS = {"day": 1.0, "days": 1.0, "week": 7.0, "weeks": 7.0}
_YEARS = {"year": 1.0, "years": 1.0, "yr": 1.0}
_AMOUNT = re.compile(r"(?P<before>[^\d\s.]*)\s*(?P<number>\d+(?:\.\d*)?|\.\d+)\s*(?P<after>\D*)")
MOST_COINS = 10**12


def value_of(text: str, criterion: Criterion, *, prices: Prices, system: System) -> float:
    """A number in SI of the criterion's unit, money in the smallest coin.

    Args:
        text: in small letters
        criterion: what it is of
        prices: for the currency and its decimals
        system: of the plan, for the example in the complaint

    Raises:
        InputError: it is no amount of that sort.
    """
    if not text:
        raise InputError(f"no amount; write one, such as {_example(criterion, system)}")
    if re.search(r"\d,", text):
        raise InputError(f"{text!r} has a comma; write the decimal with a point and no thousands mark")
    spelled = " ".join(str(_WORDS.get(word, word)) for word in text.split())
    if criterion.shown in (Shown.MONEY, Shown.MONEY_PER_LENGTH):
        return float(_coins(spelled, prices))
    if criterion.shown in COUNTS:
        return _counted(spelled, criterion)
    if criterion.shown is Shown.SHARE:
        return _share(spelled, criterion)
    return _measured(spelled, SECOND if criterion.shown is Shown.HOURS else criterion.unit, criterion, system)


def _coins(text: str, prices: Prices) -> int:
    found = _AMOUNT.fullmatch(re.sub(r"\s*per (?:foot|meter|length)$", "", text))
    if found is None or text.startswith("-"):
        raise InputError(f"{text!r} is no amount of money; write one such as 900 or 899.50")
    sign = (found["before"] + found["after"]).strip()
    if sign and sign != prices.currency.lower():
        own = f"in {prices.currency}" if prices.currency else "in no currency, as the price list names none"
        raise InputError(f"{sign!r} is not the currency of the price list; limits are read {own}")
    try:
        coins = Decimal(found["number"]).scaleb(prices.digits)
    except InvalidOperation:
        coins = Decimal("NaN")
    if coins != coins.to_integral_value() or coins > MOST_COINS:
        raise InputError(f"{text!r}: an amount of money with at most {prices.digits} decimals is wanted")
    return int(coins)


def _counted(text: str, criterion: Criterion) -> float:
    found = _AMOUNT.fullmatch(text)
    units = _DAYS if criterion.shown is Shown.DAYS else _YEARS if criterion.shown is Shown.YEARS else {}
    after = "" if found is None else found["after"].strip()
    own = {"", criterion.says, criterion.says.removesuffix("s")}
    if found is None or found["before"] or after not in own | set(units):
        of = criterion.says if criterion.shown is Shown.COUNT else criterion.shown.value
        raise InputError(f"{text!r} is no number of {of}; write one such as {_example(criterion, System.US)}")
    number = float(found["number"]) * units.get(after, 1.0)
    if criterion.shown is Shown.COUNT and number != int(number):
        raise InputError(f"{text!r}: a whole number is wanted")
    return number


def _share(text: str, criterion: Criterion) -> float:
    share = _read(text, RATIO)
    if share > 1:
        raise InputError(f"{text!r} is more than all of it; a share such as '5 %' is wanted for {criterion.says}")
    return share


def _measured(text: str, unit: Unit, criterion: Criterion, system: System) -> float:
    if re.fullmatch(r"[\d.]+", text):
        raise InputError(f"{text!r} has no unit; write it like {_example(criterion, system)}")
    return _read(text, unit)


def _read(text: str, unit: Unit) -> float:
    try:
        value = read(text, like=unit)
    except QuantityError as mistake:
        raise InputError(mistake.message) from None
    if value < 0 or not math.isfinite(value):
        raise InputError(f"{text!r}: nothing below 0 is wanted")
    return value


def _example(criterion: Criterion, system: System) -> str:
    if criterion.unit is CUBIC_METER:
        return "'500 gal'" if system is System.US else "'2000 L'"
    if criterion.shown is Shown.AMOUNT:
        return "'900 lb'" if system is System.US else "'400 kg'"
    if criterion.key == "upkeep":
        return "'10 h'"
    return {
        Shown.MONEY: "900", Shown.MONEY_PER_LENGTH: "30", Shown.HOURS: "'120 h'", Shown.DAYS: "'20 days'",
        Shown.YEARS: "'20 years'", Shown.SHARE: "'5 %'",
    }.get(criterion.shown, "2")  # fmt: skip
