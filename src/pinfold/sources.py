"""Publications behind the figures, and how far each figure can be trusted."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from pinfold.errors import NotFoundError


class Standing(StrEnum):
    """How a figure or an equation was come by, strongest first."""

    DERIVED = "derived"  # plain statics or algebra, worked in the open
    READ = "read"  # read in the publication named, or in a named copy of it
    GIVEN = "given"  # said by the builder in the plan
    LEARNED = "learned"  # taught by the site's own log, at least half of it
    PRACTICE = "practice"  # common practice without a source
    MEMORY = "memory"  # remembered, not read; check before relying on it


_ORDER = tuple(Standing)


def weakest(standings: Iterable[Standing]) -> Standing:
    """The least trustworthy of several standings; DERIVED for none."""
    return max(standings, key=_ORDER.index, default=Standing.DERIVED)


@dataclass(frozen=True, kw_only=True)
class Publication:
    """One book, standard, sheet or page that figures come from.

    Attributes:
        key: how docstrings and data files name it.
        title: what it is, with its year.
        via: the copy or secondary source that was read, empty when the thing itself was read or nothing was.
    """

    key: str
    title: str
    via: str = ""


@cache
def publications() -> dict[str, Publication]:
    """Every publication pinfold names, by key, in the order of the files in the folder `publications`."""
    shelves = sorted(files("pinfold").joinpath("publications").iterdir(), key=lambda shelf: shelf.name)
    rows = [tomllib.loads(shelf.read_text(encoding="utf-8")) for shelf in shelves if shelf.name.endswith(".toml")]
    return {key: Publication(key=key, **row) for shelf in rows for key, row in shelf.items()}


def publication(key: str) -> Publication:
    """The publication of that key.

    Raises:
        NotFoundError: no such key.
    """
    try:
        return publications()[key]
    except KeyError:
        raise NotFoundError(f"no publication {key!r}; the folder names {len(publications())}") from None
