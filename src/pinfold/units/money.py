"""Money as text, from the smallest coin."""

from __future__ import annotations


def money(coins: int | None, currency: str, digits: int) -> str:
    """`USD 1 234.50`, unbroken at line ends; `not shown` where the amount is not known."""
    if coins is None:
        return "not shown"
    whole, part = divmod(abs(coins), 10**digits)
    sign = "-" if coins < 0 else ""
    grouped = f"{whole:,}".replace(",", "\u00a0")
    amount = f"{sign}{grouped}.{part:0{digits}d}" if digits else f"{sign}{grouped}"
    return f"{currency}\u00a0{amount}" if currency else amount
