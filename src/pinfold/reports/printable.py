"""Text that may go on paper or a terminal: no letter in it steers the printer, the terminal or the order of reading."""

from __future__ import annotations

import unicodedata

_STEERING = {"Cc", "Zl", "Zp", "Cs"}
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff")
_HOLE = "\ufffd"


def printable(text: str) -> str:
    """A text on one line: control letters become spaces, marks that turn the order of reading go, broken letters show.

    Everything else stays as it is; what has no control letters comes back unchanged.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_printable(letter) for letter in text)


def _printable(letter: str) -> str:
    if letter.isascii() and letter.isprintable():
        return letter
    if letter in _TURNING:
        return ""
    if "\ud800" <= letter <= "\udfff" or ord(letter) & 0xFFFE == 0xFFFE:
        return _HOLE
    return " " if unicodedata.category(letter) in _STEERING else letter
