"""What a search answers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.plan.changes import Change
from pinfold.studies.weighing.axes import AXES, change_of, table_of
from pinfold.studies.weighing.misses import Miss, Short
from pinfold.studies.weighing.searching import Answered, Searched


@dataclass(frozen=True, kw_only=True)
class Row:
    """One build-up of a search.

    Attributes:
        says: what it is, in one line.
        choices: what was picked, by axis.
        numbers: by criterion, in SI, money in the smallest coin.
        unshown: checks that are not shown of it.
        change: what writes it into the plan as a build-up of its own.
    """

    says: str
    choices: Mapping[str, str]
    numbers: Mapping[str, float]
    unshown: tuple[str, ...]
    change: Change


class Proven(NamedTuple):
    """One build-up of a search written into the plan, laid out and assessed whole.

    Attributes:
        row: which.
        use: most that any check uses of its strength.
        check: which one.
        where: on what.
        fails: whether any fails.
        differs: whether that is another number than the search found.
    """

    row: Row
    use: float
    check: str
    where: str
    fails: bool
    differs: bool


@dataclass(frozen=True, kw_only=True)
class Search:
    """A search and what of it keeps to limits.

    Attributes:
        name: of the plot.
        buildup: that was varied.
        axes: choices by axis.
        tried: how many build-ups there are.
        fails: how many fail in some check.
        cannot: why others cannot be built, and how many.
        stands: of how many no check fails.
        everywhere: checks that are not shown in any of these, whichever is picked.
        asked: limits, as written.
        kept: how many keep to all of them.
        unsure: how many miss none that is shown, something limited being not shown.
        nearest: where none keeps to all, the one that misses by least.
        shorts: by how much it misses what.
        front: of those kept the ones that no other betters, the cheapest first.
        by: criteria that the front was looked for by.
        cheapest: of those kept.
        strongest: of those kept, the one with most strength to spare.
        currency: as in the price list.
        digits: decimals of the currency.
        proven: the cheapest and the strongest, whole.
    """

    name: str
    buildup: str
    axes: Mapping[str, tuple[str, ...]]
    tried: int
    fails: int
    cannot: Mapping[str, int]
    stands: int
    everywhere: tuple[str, ...]
    asked: tuple[str, ...]
    kept: int
    unsure: int
    nearest: Row | None
    shorts: tuple[Short, ...]
    front: tuple[Row, ...]
    by: tuple[str, ...]
    cheapest: Row | None
    strongest: Row | None
    currency: str
    digits: int
    proven: tuple[Proven, ...]


def row_of(found: Searched, number: int, name: str) -> Row:
    """One build-up of a search, to be written under a name."""
    scene, picks = found.scene, found.picks_of(number)
    return Row(
        says=found.says(number),
        choices={key: axis.choices[pick].says for key, axis, pick in zip(AXES, scene.axes, picks, strict=True)},
        numbers={key: float(column[number]) for key, column in found.columns.items()},
        unshown=tuple(sorted(found.unshown[number])),
        change=change_of(name, found.says(number), table_of(scene.axes, picks, scene.plan.units)),
    )  # fmt: skip


def miss_of(found: Searched, kept: Answered, name: str) -> tuple[Row | None, tuple[Short, ...]]:
    """The nearest miss, and by how much it misses what."""
    miss: Miss | None = kept.nearest
    return (None, ()) if miss is None or kept.kept else (row_of(found, miss.number, name), miss.shorts)
