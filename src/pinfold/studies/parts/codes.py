"""Codes of what is cut: digits out of what comes out of what, so that the same cuts have the same code ever after.

No entry of the log, and no other piece that comes or goes, changes the code of a piece. Four digits mostly tell all
pieces of a plan apart; where they do not, those that share them have more.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import count

_FEWEST, _ALL = 4, 12


def coded(letter: str, contents: Sequence[object], *, among: Iterable[object] = ()) -> tuple[str, ...]:
    """A code for each.

    Args:
        letter: that all begin with
        contents: what is cut from what, in plain numbers and words; of those alike the second has -2 behind it
        among: others that they are to be told apart from, such as those that are cut already
    """
    digits = [digits_of(each) for each in contents]
    others = {*digits, *map(digits_of, among)}
    seen: Counter[str] = Counter()
    found = []
    for each in digits:
        seen[each] += 1
        found.append(letter + _shortest(each, others) + (f"-{seen[each]}" if seen[each] > 1 else ""))
    return tuple(found)


def digits_of(content: object) -> str:
    """All digits of a code."""
    number = int(hashlib.sha256(repr(content).encode()).hexdigest(), 16)
    return str(10 ** (_ALL - 1) + number % (9 * 10 ** (_ALL - 1)))


def _shortest(digits: str, others: Iterable[str]) -> str:
    shared = (_common(digits, other) for other in others if other != digits)
    return digits[: max(_FEWEST, max(shared, default=0) + 1)]


def _common(one: str, other: str) -> int:
    return next((at for at in range(_ALL) if one[at] != other[at]), _ALL)


def rest_codes(letter: str, code: str) -> Iterator[str]:
    """Codes of what is left of a piece, one after the other: `Z4170`, `Z4170b`."""
    yield letter + code[1:]
    for number in count(2):
        yield letter + code[1:] + letter_of(number)


def letter_of(number: int) -> str:
    """The letter of one of several, from 1."""
    return "abcdefghijklmnopqrstuvwxyz"[number - 1] if number <= 26 else f".{number}"
