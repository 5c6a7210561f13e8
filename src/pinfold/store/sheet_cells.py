"""Numbers and days as spreadsheets of different countries write them, made plain; what can be read two ways is told."""

from __future__ import annotations

import re
from datetime import date

from pinfold.errors import InputError

_NUMBER = re.compile(r"([+-]?\d[\d.,]*)(.*)", re.DOTALL)
_GROUPING = re.compile(r"(?<=\d)[ \u00a0\u202f'’](?=\d{3}(?!\d))")
"""What stands between thousands where that is no point or comma."""
_THOUSANDS = r"[+-]?[1-9]\d{0,2}(?:%s\d{3})+"
_TURNED = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})")
"""Day, month, year with points between."""


def plain_number(cell: str, *, comma: bool) -> str:
    """A cell with the number it begins with made plain: `12,50` and `1.234,50 m` as `12.50` and `1234.50 m`.

    Args:
        cell: as it stands, without blanks around it
        comma: whether the sheet is of a country that may write a comma for the point

    Raises:
        InputError: it can be read two ways, or its points and commas make no number.
    """
    found = _NUMBER.fullmatch(_GROUPING.sub("", cell))
    if found is None:
        return cell
    number, rest = found[1].rstrip(".,"), found[1][len(found[1].rstrip(".,")) :] + found[2]
    return _plain(number, comma=comma) + rest


def _plain(number: str, *, comma: bool) -> str:
    marks = [mark for mark in ".," if mark in number]
    if len(marks) == 2:
        point = max(marks, key=number.rfind)
        return _parted(number, point=point, group="," if point == "." else ".")
    if not marks or (marks == ["."] and number.count(".") == 1 and not comma):
        return number
    mark = marks[0]
    if number.count(mark) > 1:
        return _ungrouped(number, mark)
    if re.fullmatch(_THOUSANDS % re.escape(mark), number):
        whole, part = number.replace(mark, ""), number.replace(mark, ".")
        exact = part.rstrip("0").rstrip(".") if part.endswith("0") else f"{part}0"
        raise InputError(f"{number!r} can be read two ways; write {whole} or {exact}")
    return number.replace(",", ".")


def _parted(number: str, *, point: str, group: str) -> str:
    whole, _, part = number.rpartition(point)
    if point in whole or group in part:
        raise InputError(f"{number!r} is no number; write it like 1234.50")
    return f"{_ungrouped(whole, group)}.{part}"


def _ungrouped(number: str, mark: str) -> str:
    if not re.fullmatch(_THOUSANDS % re.escape(mark), number):
        raise InputError(f"{number!r} is no number; write it like 1234.50")
    return number.replace(mark, "")


def plain_day(cell: str) -> date:
    """A day as `2026-05-03` or `3.5.2026`.

    Raises:
        InputError: it is none, or can be read two ways as `3/5/2026` can.
    """
    turned = _TURNED.fullmatch(cell)
    text = f"{turned[3]}-{int(turned[2]):02}-{int(turned[1]):02}" if turned else cell
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(f"{cell[:20]!r} is no day; write it like 2026-05-03") from None
