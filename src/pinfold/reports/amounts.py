"""Amounts of a buying list or a batch, in the unit a builder asks for them in."""

from __future__ import annotations

import math

from pinfold.studies.batching.records import Ingredient
from pinfold.units import (
    CUBIC_METER,
    KILOGRAM,
    METER,
    RATIO,
    SQUARE_METER,
    UNIT_BY_SYMBOL,
    System,
    Unit,
    poured,
    show,
    significant,
)

_FEET = {System.US: "ft", System.METRIC: "m"}


def amount(value: float, unit: Unit, system: System) -> str:
    """How much: `12`, `2.6 yd³`, `96 ft`, `564 lb`."""
    if unit.kind == RATIO.kind:
        return count(value)
    if unit.kind == METER.kind:
        return show(value, unit, system, in_unit=_FEET[system])
    if unit.kind == CUBIC_METER.kind:
        return volume(value, system)
    return show(value, unit, system)


def count(value: float) -> str:
    """A number of things, with a decimal only where there is a part that counts."""
    return significant(value) if value >= _MANY or abs(value - round(value)) < _PART else f"{value:.1f}"


_MANY = 100
_PART = 0.05
"""From how many things on, and below which share of one, a part does not count."""


def volume(value: float, system: System, *, beside: float = 0.0) -> str:
    """A volume of mix or loose stuff: cubic yards above a quarter of one, else cubic feet; liters below 0.1 m³.

    Args:
        value: in cubic meters
        system: US or metric
        beside: a larger volume named in the same sentence, whose unit this one takes
    """
    size = max(value, beside)
    if system is System.US:
        return show(value, CUBIC_METER, system, in_unit="yd3" if size >= 0.19 else "ft3")
    return show(value, CUBIC_METER, system, in_unit="m3" if size >= 0.1 else "L")


def water(value: float, system: System) -> str:
    """Water or foam, in what it is measured out in."""
    return poured(value, system)


def by_jug(value: float, system: System, *, off: float = 0.025) -> str:
    """What a jug or a marked bucket measures out: `2 5/8 gal`, `1 1/4 qt`, `9.6 L`, `680 mL`.

    Args:
        value: in cubic meters
        system: US or metric
        off: share that a mark of a gallon or a quart may miss; what is told in milliliters or fluid ounces is rounded
            as finely as one reads them off
    """
    if system is System.METRIC:
        step = 1e-4 if value >= _LITER else 1e-5 if value >= _LITER / 10 else 1e-6
        return poured(round(value / step) * step, system)
    for symbol in ("gal", "qt"):
        size = value / UNIT_BY_SYMBOL[symbol].factor
        parts = next((n for n in (1, 2, 4, 8) if abs(round(size * n) / n - size) <= off * size), 0)
        if size >= 1 and parts:
            return f"{_fraction(round(size * parts), parts)} {symbol}"
    ounces = value / UNIT_BY_SYMBOL["fl oz"].factor
    return f"{_fraction(round(ounces * 4), 4) if ounces < _FEW else f'{ounces:.0f}'} fl oz"


_LITER, _FEW = 1e-3, 10
"""Cubic meters in a liter; below so many ounces quarters count."""


def sunk(slump: float, system: System) -> str:
    """A slump as it is read: inches, or millimeters to the next 5."""
    if system is System.US:
        return show(slump, METER, system, in_unit="in")
    return show(round(slump / 0.005) * 0.005, METER, system, in_unit="mm")


def weight(value: float | None, system: System) -> str:
    """A mass, or `not shown`."""
    return "not shown" if value is None else show(value, KILOGRAM, system)


def area(value: float, system: System) -> str:
    """A face area."""
    return show(value, SQUARE_METER, system)


WIDE_ENOUGH = 0.05
"""A bucket mark may miss what the mix wants by this share, not more (common practice)."""


def buckets(value: float) -> str:
    """Level buckets as fine as they must be: `4 1/4`, else eighths; nothing where neither is within 5 %."""
    parts = _parts(value)
    return _fraction(round(value * parts), parts) if parts else ""


def measured(part: Ingredient, system: System) -> str:
    """Level buckets of it; where no mark of one comes near enough, its loose volume by the jug: `3/8`, `2 1/4 gal`."""
    return buckets(part.buckets) or by_jug(part.loose, system)


def halves(value: float) -> str:
    """A number that was rounded to halves or quarters already: `21`, `3 1/4`."""
    return _fraction(round(value * 4), 4)


def twelfths(value: float) -> str:
    """A number of bags that was rounded to twelfths already: `1/3`, `1 1/4`."""
    return _fraction(round(value * 12), 12)


def buckets_measured(value: float) -> float:
    """The number of level buckets that `buckets` writes, for a form to offer."""
    parts = _parts(value)
    return round(value * parts) / parts if parts else float(significant(value, 2)) if value else 0.0


def _parts(value: float) -> int:
    """Quarters or eighths, whichever comes near enough first; 0 where neither does."""
    near = (parts for parts in (4, 8) if abs(round(value * parts) / parts - value) <= WIDE_ENOUGH * value)
    return next((parts for parts in near if round(value * parts)), 0)


def _fraction(count: int, parts: int) -> str:
    whole, rest = divmod(count, parts)
    shrink = math.gcd(rest, parts)
    fraction = f"{rest // shrink}/{parts // shrink}" if rest else ""
    return " ".join(piece for piece in (str(whole) if whole or not fraction else "", fraction) if piece)


def bags(value: float) -> str:
    """Bags to the quarter or third where that is what they are, else to two digits."""
    quarters, thirds = value * 4, value * 3
    if abs(quarters - round(quarters)) < 0.01:
        return buckets(value)
    return _fraction(round(thirds), 3) if abs(thirds - round(thirds)) < 0.01 else significant(value, 2)
