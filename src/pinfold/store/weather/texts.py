"""From the bytes of a file to its text: encodings met in weather files, and what is no text at all."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan

MOST_BYTES = 12_000_000
"""A year of hours takes less than two million."""
_MARKS = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))


class Text(NamedTuple):
    """Text of a file.

    Attributes:
        text: all of it, with plain line ends.
        notes: what is to be told of how it was read.
    """

    text: str
    notes: tuple[str, ...]


def text_of(content: bytes, *, name: str) -> Text:
    """Text out of bytes: UTF-8, UTF-16 with its mark, else Latin-1 as older weather files are.

    Raises:
        InvalidPlan: it is empty, too large, or no text.
    """
    if len(content) > MOST_BYTES:
        raise _no(name, f"is larger than {MOST_BYTES // 1_000_000} MB; a year of hours takes less than 2 MB")
    encoding = next((encoding for mark, encoding in _MARKS if content.startswith(mark)), "utf-8")
    notes: tuple[str, ...] = ()
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        if encoding != "utf-8":
            raise _no(name, "is no text in the encoding that it begins with; save it again as UTF-8") from None
        text = content.decode("latin-1")
        notes = ("The file is not in UTF-8; it is read as Latin-1, and names of places may look odd.",)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if "\0" in text or sum(not (sign.isprintable() or sign in "\n\t") for sign in text[:4000]) > 40:
        raise _no(name, "is no text; a weather file is EPW, TMY3, CSV, a saved JSON forecast, or lines typed by hand")
    if not text.strip():
        raise _no(name, "is empty")
    return Text(text, notes)


def _no(name: str, why: str) -> InvalidPlan:
    return InvalidPlan(name, [InputError(why)])
