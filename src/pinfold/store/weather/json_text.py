"""Saved JSON that means one thing only: no key twice, no number that is none, nothing absurdly deep."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import NoReturn

from pinfold.errors import InputError, InvalidPlan

DEEPEST = 40
_LONGEST_NUMBER = 40


def json_of(text: str, *, name: str) -> object:
    """What stands in a JSON text.

    Raises:
        InvalidPlan: it cannot be read; a file that was cut is told as such.
    """
    try:
        found: object = json.loads(
            text, object_pairs_hook=_once, parse_constant=_no_number, parse_float=_float, parse_int=_int
        )
    except RecursionError:
        raise _no(name, "lists stand too deep in each other; that is no forecast") from None
    except json.JSONDecodeError as fault:
        raise _no(name, _told(fault, text), line=fault.lineno) from None
    except ValueError as fault:
        raise _no(name, str(fault)) from None
    if not _shallow(found):
        raise _no(name, "lists stand too deep in each other; that is no forecast")
    return found


def _told(fault: json.JSONDecodeError, text: str) -> str:
    rest = text[fault.pos :].strip()
    if not rest or fault.msg.startswith("Unterminated"):
        return "the file ends in the middle; save it again, whole"
    return f"not readable as JSON ({fault.msg.lower()}); save it again as it came"


def _no(name: str, why: str, *, line: int = 0) -> InvalidPlan:
    return InvalidPlan(name, [InputError(why, place=f"line {line}" if line else "")])


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice in one object; save it again as it came")
    return found


def _no_number(text: str) -> NoReturn:
    raise ValueError(f"{text} is no number of JSON; a missing value is null")


def _float(text: str) -> float:
    value = float(text)
    if not math.isfinite(value) or len(text) > _LONGEST_NUMBER:
        raise ValueError("a number is too large or too long")
    return value


def _int(text: str) -> int:
    if len(text) > _LONGEST_NUMBER:
        raise ValueError("a number is too large or too long")
    return int(text)


def _shallow(found: object) -> bool:
    level: list[object] = [found]
    for _ in range(DEEPEST):
        inner: list[object] = []
        for each in level:
            if isinstance(each, Mapping):
                inner += each.values()
            elif isinstance(each, list):
                inner += each
        if not inner:
            return True
        level = inner
    return False
