"""What is wrong with zones of a piece, as a builder writes it: `nails 3 ft to 3 ft 4 in; notch 20 in to 22 in`."""

from __future__ import annotations

from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.tables.shelf import shelf
from pinfold.units import METER, Meter, read

MOST = 60
"""Flaws of one piece."""


class Flaw(NamedTuple):
    """A zone of a piece that is not as it should be.

    Attributes:
        kind: what is wrong, a word of tables/flaws.toml.
        start: from the left end as it lies.
        end: likewise, where it stops.
    """

    kind: str
    start: Meter
    end: Meter


def flaws_of(text: str, *, length: Meter | None) -> tuple[Flaw, ...]:
    """The flaws of a piece, from left to right.

    Args:
        text: each as `KIND START to END`, semicolons between them
        length: of the piece; None where that is not known

    Raises:
        InputError: what cannot be read or is no zone of the piece, all of it at once.
    """
    words = [word for word in (each.strip() for each in text.split(";")) if word]
    if len(words) > MOST:
        raise InputError(f"{len(words)} flaws in one piece; {MOST} are the most: cut the worst end off first")
    found: list[Flaw] = []
    wrong: list[str] = []
    for word in words:
        try:
            found.append(_flaw(word, length))
        except InputError as mistake:
            wrong.append(mistake.message)
    if wrong:
        raise InputError("; ".join(dict.fromkeys(wrong)))
    return tuple(sorted(found, key=lambda flaw: (flaw.start, flaw.end)))


def _flaw(text: str, length: Meter | None) -> Flaw:
    kind, _, zone = text.partition(" ")
    kind = kind.lower()
    start_text, to, end_text = zone.partition(" to ")
    if kind not in shelf("flaws"):
        raise InputError(f"no such flaw: {kind[:30]!r}; there are {', '.join(shelf('flaws'))}")
    if not to:
        raise InputError(
            f"{text[:60]!r} found; a flaw is written like '{kind} 3 ft to 3 ft 4 in', from the left end on"
        )
    start, end = read(start_text.strip(), like=METER), read(end_text.strip(), like=METER)
    if not 0 <= start < end:
        raise InputError(f"{text[:60]!r} found; a flaw begins at the left end or after it, and ends after it begins")
    if length is not None and end > length + 1e-9:
        longer = "is longer than its piece" if end - start > length + 1e-9 else "reaches past the end of its piece"
        raise InputError(f"{text[:60]!r} {longer}; measure both from the same left end")
    return Flaw(kind, start, end)
