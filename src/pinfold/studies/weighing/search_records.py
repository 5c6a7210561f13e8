"""What a search answers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from pinfold.plan.changes import Change
from pinfold.studies.weighing.axes import AXES, change_of, table_of
from pinfold.studies.weighing.front import Column
from pinfold.studies.weighing.keeping_out import let_in_beside, let_in_by
from pinfold.studies.weighing.misses import Short
from pinfold.studies.weighing.row_codes import Coder
from pinfold.studies.weighing.searching import Answered, Searched


@dataclass(frozen=True, kw_only=True)
class Row:
    """One build-up of a search.

    Attributes:
        code: by which it is chosen.
        says: what it is, in one line.
        choices: what was picked, by axis.
        numbers: by criterion, in SI, money in the smallest coin; None where it is not shown.
        keeps_out: by animal asked about whether it is kept out; None where that is not shown.
        fence_out: likewise by wall, mesh and ground alone, however the gates are.
        unshown: checks that are not shown of it.
        change: what writes it into the plan as a build-up of its own.
    """

    code: str
    says: str
    choices: Mapping[str, str]
    numbers: Mapping[str, float | None]
    keeps_out: Mapping[str, bool | None]
    fence_out: Mapping[str, bool | None]
    unshown: tuple[str, ...]
    change: Change


class Proven(NamedTuple):
    """One build-up of a search written into the plan, laid out and assessed whole.

    Attributes:
        row: which.
        use: most that any check uses of its strength.
        check: which one.
        where: on what.
        fails: whether any fails that does not fail whichever is picked.
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
        fails: how many fail in some check that not all fail.
        cannot: why others cannot be built, and how many.
        stands: how many there are beside these: of them nothing fails that hangs on what is picked.
        failing: where none stands, what fails in the first choice of every axis.
        in_all: what fails in all that stand, whichever is picked: leaves of gates and neighbors.
        everywhere: checks that are not shown in any of these, whichever is picked, with the part they are of.
        lacks: what is missing to tell the cost of any of these, and of how many.
        asked: limits, as written.
        limited: keys of the criteria that they limit.
        unknown: limits on what a search does not know of build-ups, so that none keeps to them.
        kept: how many keep to all of them.
        unsure: how many miss none that is shown, something limited being not shown.
        nearest: where none keeps to all, the one that misses by least.
        shorts: by how much it misses what.
        ways: of it, whom of those that should stay out wall, mesh and ground let in, and by which ways.
        let_in: of the animals asked about whom the gates and what is not varied let in, whichever is picked, by which
            ways; those of whom that is not shown among them.
        front: of those kept the ones that no other betters, the cheapest first where its cost is shown.
        by: criteria that the front was looked for by.
        nowhere: those of them that none kept shows; left out of the looking.
        beside: how many of those kept are not among what was looked at, something looked for being not shown.
        cheapest: of those kept.
        strongest: of those kept, the one with most strength to spare.
        currency: as in the price list.
        digits: decimals of the currency.
        proven: all of these, whole.
    """

    name: str
    buildup: str
    axes: Mapping[str, tuple[str, ...]]
    tried: int
    fails: int
    cannot: Mapping[str, int]
    stands: int
    failing: tuple[str, ...]
    in_all: tuple[str, ...]
    everywhere: tuple[str, ...]
    lacks: Mapping[str, int]
    asked: tuple[str, ...]
    limited: tuple[str, ...]
    unknown: tuple[str, ...]
    kept: int
    unsure: int
    nearest: Row | None
    shorts: tuple[Short, ...]
    ways: tuple[str, ...]
    let_in: tuple[str, ...]
    front: tuple[Row, ...]
    by: tuple[str, ...]
    nowhere: tuple[str, ...]
    beside: int
    cheapest: Row | None
    strongest: Row | None
    currency: str
    digits: int
    proven: tuple[Proven, ...]


def found_name(code: str) -> str:
    """What a build-up that was found is called in a plan."""
    return f"found-{code}"


@dataclass(frozen=True, kw_only=True)
class Rows:
    """Build-ups of a search as rows.

    Attributes:
        found: the search.
        kept: what of it keeps to limits.
        coder: for their codes.
    """

    found: Searched
    kept: Answered
    coder: Coder

    def row(self, number: int) -> Row:
        """One of them."""
        scene, picks, kept = self.found.scene, self.found.picks_of(number), self.kept
        code, says = self.coder.code(scene.axes, picks), self.found.says(number)
        return Row(
            code=code, says=says,
            choices={key: axis.choices[pick].says for key, axis, pick in zip(AXES, scene.axes, picks, strict=True)},
            numbers={key: _shown(column[number]) for key, column in kept.columns.items()},
            keeps_out=_out(kept.kept_out, number), fence_out=_out(kept.fence_out, number),
            unshown=tuple(sorted(self.found.unshown[number])),
            change=change_of(found_name(code), says, table_of(scene.axes, picks, scene.plan.units)),
        )  # fmt: skip

    def one(self, number: int | None) -> Row | None:
        """One of them, where there is one."""
        return None if number is None else self.row(number)

    def nearest(self, animals: tuple[str, ...]) -> tuple[Row | None, tuple[Short, ...], tuple[str, ...]]:
        """The nearest miss where none keeps to the limits, by how much it misses what, and who gets in by which ways.

        Args:
            animals: that should stay out
        """
        miss = self.kept.nearest
        if miss is None or self.kept.kept:
            return None, (), ()
        buildup = self.found.scene.built(self.found.picks_of(miss.number)).buildup
        return self.row(miss.number), miss.shorts, let_in_by(buildup, animals)

    def let_in(self, animals: tuple[str, ...]) -> tuple[str, ...]:
        """Whom of some animals the gates and what is not varied let in, whichever is picked, and by which ways."""
        if not len(self.found.picks):
            return ()
        scene = self.found.scene
        return let_in_beside(scene.built(scene.first).layout, scene.name, animals)


def _out(kept_out: Mapping[str, Column], number: int) -> Mapping[str, bool | None]:
    return {name: None if np.isnan(out[number]) else bool(out[number]) for name, out in kept_out.items()}


def _shown(number: float) -> float | None:
    return None if np.isnan(number) else float(number)
