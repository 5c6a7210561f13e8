"""The names of things that can be bought or lie on the pile: every kind of every shelf that is a thing."""

from __future__ import annotations

import difflib
from functools import cache

from pinfold.tables.shelf import shelf

SHELVES = (
    "walls",
    "copings",
    "footings",
    "posts",
    "rails",
    "meshes",
    "bars",
    "boards",
    "materials",
    "fasteners",
    "gates",
    "mixes",
)


@cache
def items() -> tuple[str, ...]:
    """All names, shelf by shelf, each once."""
    return tuple(dict.fromkeys(name for each in SHELVES for name in shelf(each)))


def unknown_item(name: str) -> str:
    """What to say of a name that is no item; empty for one that is."""
    if name in items():
        return ""
    near = difflib.get_close_matches(name, items(), n=3)
    hint = f"did you mean {' or '.join(near)}?" if near else "docs/kinds.md lists all"
    return f"{name!r} is no item pinfold knows; {hint}"
