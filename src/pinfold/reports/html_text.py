"""Texts for HTML: escaped, free of letters that steer, and names that can stand in an address."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from html import escape

from pinfold.reports.printable import printable

_LONGEST = 60


def safe(text: str) -> str:
    """A text that can stand between tags and inside a quoted attribute."""
    return escape(printable(text), quote=True)


def named(texts: Iterable[str]) -> tuple[str, ...]:
    """A name for each text, of small letters, digits and hyphens, no two alike, the same for the same texts."""
    names: list[str] = []
    counts: dict[str, int] = {}
    for text in texts:
        plain = "".join(letter for letter in unicodedata.normalize("NFKD", text) if not unicodedata.combining(letter))
        name = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:_LONGEST].strip("-") or "part"
        while name in counts:
            counts[name] += 1
            name = f"{name}-{counts[name]}"
        counts[name] = 1
        names.append(name)
    return tuple(names)
