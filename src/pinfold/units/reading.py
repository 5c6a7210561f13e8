"""Reading quantities as people write them: `45 cm`, `6' 3 1/2"`, `1 m 20 cm`, `105 mph`."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from pinfold.errors import QuantityError
from pinfold.units.kinds import BASE_BY_KIND, RADIAN, RATIO, SPELLINGS, UNIT_BY_SYMBOL, Unit

_NUMBER = r"(?:\d+[\s-]+\d+/\d+|\d+/\d+|\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+)"
_UNDER = r"(?:[A-Za-z]+[234²³]?|\([A-Za-z°234²³ ]+\))"
_WORD = rf"(?:[A-Za-z°·²³]+[234]?(?:/{_UNDER})?|''|[\"'′″%])"
_PART = re.compile(rf"\s*({_NUMBER})\s*({_WORD}(?:\s+{_WORD})*)?\s*")
_COMMA = re.compile(r"\d,\d|,")

EXAMPLES = {
    "length": "'45 cm' or '6 ft 3-1/2 in'", "area": "'12 m2' or '130 ft2'", "volume": "'20 L' or '5 gal'",
    "mass": "'42.6 kg' or '94 lb'", "speed": "'47 m/s' or '105 mph'", "pressure or stress": "'75 kPa' or '1500 psf'",
    "density": "'40 kg/m3' or '142 lb/ft3'", "angle": "'38.9 deg'", "time": "'30 min' or '7 day'",
    "force": "'1 kN' or '250 lbf'", "mass per length": "'2 kg/m' or '1.33 lb/ft'", "plain number": "0.85 or '12 %'",
    "pressure per depth": "'24 kPa/m' or '150 psf/ft'", "temperature": "'12 °C' or '54 °F'", "flow": "'90 L/min'",
    "freezing index": "'400 °C day' or '720 °F day'",
}  # fmt: skip


def read(text: object, *, like: Unit, place: str = "") -> float:
    """The number in coherent SI that a piece of text stands for.

    Accepts one number and one unit, or a run of whole numbers in ever smaller units of one kind with a fraction only in
    the last (`6 ft 3-1/2 in`, `1 m 20 cm`, `94 lb 8 oz`). A plain number needs no unit where a plain number is wanted.

    Args:
        text: what was typed; anything but text, or a number where a plain number is wanted, is refused
        like: any unit of the wanted kind
        place: where the text stands, for the complaint

    Returns:
        the value in the kind's SI unit (°C for temperatures)

    Raises:
        QuantityError: it is no quantity of that kind; the message says what was found, wanted, and an example.
    """
    if like.kind == RATIO.kind and isinstance(text, (int, float)) and not isinstance(text, bool):
        return _finite(float(text), str(text), place)
    if not isinstance(text, str):
        raise QuantityError(_bare_complaint(text, like), place=place)
    try:
        return _read_text(text, like.symbol)
    except QuantityError as mistake:
        raise QuantityError(mistake.message, place=place) from None


@lru_cache(maxsize=8192)  # a plan is read again at every change, and nearly all of its texts are the same
def _read_text(text: str, symbol: str) -> float:
    parts = _parts_of(text, UNIT_BY_SYMBOL[symbol])
    total = sum(float(number) * unit.factor for number, unit in parts)
    return _finite((-total if text.strip().startswith("-") else total) + parts[0][1].offset, text)


def unit_of(text: object) -> Unit:
    """The SI unit of whatever kind of quantity a text names; a plain number's for a number or a bare one.

    Raises:
        QuantityError: its unit is not known.
    """
    if not isinstance(text, str):
        return RATIO
    match = _PART.match(text.strip().lstrip("+-").strip())
    symbol = " ".join((match[2] or "").split()) if match else ""
    if not symbol:
        return RATIO
    symbol = SPELLINGS.get(symbol, symbol)
    if symbol not in UNIT_BY_SYMBOL:
        raise QuantityError(f"{text!r}: the unit {symbol!r} is not known")
    return BASE_BY_KIND[UNIT_BY_SYMBOL[symbol].kind]


def _bare_complaint(found: object, like: Unit) -> str:
    if isinstance(found, (int, float)) and not isinstance(found, bool):
        return f"{found} has no unit; write {_a(like.kind)} in quotes with its unit, like {_example(like)}"
    return f"{type(found).__name__} found where {_a(like.kind)} is wanted, like {_example(like)}"


def _a(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


def _example(like: Unit) -> str:
    return EXAMPLES.get(like.kind, f"'1.2 {like.symbol}'")


def _finite(value: float, text: str, place: str = "") -> float:
    if not math.isfinite(value):
        raise QuantityError(f"{text!r} is not a finite number", place=place)
    return value


def _parts_of(text: str, like: Unit) -> list[tuple[Fraction, Unit]]:
    if len(text) > 60:
        raise QuantityError(f"a text of {len(text)} characters is no quantity; write {_example(like)}")
    if _COMMA.search(text):
        raise QuantityError(
            f"{text!r} has a comma; write the decimal with a point and no thousands mark, like {_example(like)}",
        )
    body = text.strip().removeprefix("-").removeprefix("+").strip()
    parts, end = [], 0
    while end < len(body):
        match = _PART.match(body, end)
        if match is None or match.end() == end:
            raise QuantityError(_shape_complaint(text, like))
        parts.append((_number(match[1], text), _unit(match[2] or "", text, like)))
        end = match.end()
    if not parts:
        raise QuantityError(_shape_complaint(text, like))
    _refuse_odd_runs(parts, text, like)
    return parts


def _shape_complaint(text: str, like: Unit) -> str:
    return f"{text!r} is not a number with a unit; {_a(like.kind)} is wanted, like {_example(like)}"


def _number(text: str, whole: str) -> Fraction:
    pieces = re.split(r"[\s-]+", text) if "/" in text else [text]
    try:
        if "/" not in text and not math.isfinite(float(text)):
            raise OverflowError
        if "e" in text.lower():
            return Fraction(float(text))  # never the exact power: 1e-99999999 would take for ever
        return sum((Fraction(piece) for piece in pieces), Fraction(0))
    except (ValueError, ZeroDivisionError, OverflowError):
        raise QuantityError(f"{whole!r} holds {text!r}, which is no finite number") from None


def _unit(text: str, whole: str, like: Unit) -> Unit:
    symbol = " ".join(text.split())
    if not symbol:
        if like.kind == RATIO.kind:
            return RATIO
        raise QuantityError(f"{whole!r} has a number without a unit; write it like {_example(like)}")
    symbol = SPELLINGS.get(symbol, symbol)
    unit = UNIT_BY_SYMBOL.get(symbol) or UNIT_BY_SYMBOL.get(SPELLINGS.get(symbol.lower(), symbol.lower()))
    if unit is None:
        raise QuantityError(f"{whole!r}: the unit {symbol!r} is not known; write it like {_example(like)}")
    if unit.kind != like.kind:
        raise QuantityError(f"{whole!r} is {_a(unit.kind)}; {_a(like.kind)} is wanted, like {_example(like)}")
    return unit


def _refuse_odd_runs(parts: list[tuple[Fraction, Unit]], text: str, like: Unit) -> None:
    if len(parts) == 1:
        return
    falling = all(first.factor > second.factor for (_, first), (_, second) in pairwise(parts))
    whole = all(number.denominator == 1 for number, _ in parts[:-1])
    below = all(
        number * Fraction(unit.factor) < Fraction(bigger.factor) * Fraction(1000001, 1000000)
        for (_, bigger), (number, unit) in pairwise(parts)
    )
    if not (falling and whole and below) or like.kind in {RATIO.kind, RADIAN.kind, "temperature"}:
        raise QuantityError(
            f"{text!r} can be read in more than one way; go from the larger unit to the smaller, "
            f"with a fraction only in the last, like {_example(like)}",
        )
