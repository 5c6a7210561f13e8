"""Opening a data file: kinds of things with their figures.

A data file is TOML. Each table in it is one kind (`[block-8-hollow]`). A value that is a list is a figure:
`density = ["125 lb/ft3", "NCMA-WEIGHT", "read", "table 2"]` (text, source, standing, place). Any other value is a plain
word, number or list of words about the kind (`says = "…"`). A name with a dot in it must stand in quotes.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.units import read, unit_of


@dataclass(frozen=True, kw_only=True, eq=False)
class Kind:
    """One kind of thing that can be bought, gathered or built, with its figures.

    Two kinds are the same when they are one object: a shelf has each of its kinds once.

    Attributes:
        name: key in the data file, the word a plan uses.
        shelf: which data file.
        figures: figure by name.
        words: everything else said about it.
    """

    name: str
    shelf: str
    figures: Mapping[str, Figure]
    words: Mapping[str, object]

    @property
    def says(self) -> str:
        """One line that tells a builder what it is."""
        return str(self.words.get("says", self.name))

    def word(self, key: str, otherwise: str = "") -> str:
        """A plain word about the kind."""
        return str(self.words.get(key, otherwise))

    def has(self, key: str) -> bool:
        """Whether the figure is known."""
        return key in self.figures

    def value(self, key: str) -> float:
        """The figure's number in SI.

        Raises:
            NotFoundError: no such figure is known; the study that asked turns it into NOT SHOWN.
        """
        return self.figure(key).value

    def figure(self, key: str) -> Figure:
        """The figure itself.

        Raises:
            NotFoundError: no such figure is known.
        """
        try:
            return self.figures[key]
        except KeyError:
            raise NotFoundError(f"no {key.removesuffix('_en').replace('_', ' ')} is known for {self.name}") from None


@cache
def shelf(name: str) -> Mapping[str, Kind]:
    """All kinds of one data file, in its order."""
    text = files("pinfold.tables").joinpath(f"{name}.toml").read_text(encoding="utf-8")
    return {key: _kind(name, key, row) for key, row in tomllib.loads(text).items()}


def kind(shelf_name: str, name: str) -> Kind:
    """One kind by shelf and name.

    Raises:
        NotFoundError: it is not there; the message lists what is.
    """
    kinds = shelf(shelf_name)
    if name not in kinds:
        raise NotFoundError(f"no {shelf_name} called {name!r}; there are: {', '.join(kinds)}")
    return kinds[name]


def _kind(shelf_name: str, name: str, row: Mapping[str, object]) -> Kind:
    figures = {key: _figure(value) for key, value in row.items() if is_figure(value)}
    words = {key: value for key, value in row.items() if key not in figures}
    return Kind(name=name, shelf=shelf_name, figures=figures, words=words)


def is_figure(value: object) -> bool:
    """Whether a value of a data file is a figure: a list whose third entry is a standing."""
    return isinstance(value, list) and len(value) in (3, 4) and value[2] in tuple(Standing)


def _figure(row: object) -> Figure:
    assert isinstance(row, list)
    text, source, standing, where = (*row, "")[:4]
    unit = unit_of(text)
    return Figure(
        value=read(text, like=unit), unit=unit, standing=Standing(standing), source=source, where=where,
        printed=str(text),
    )  # fmt: skip
