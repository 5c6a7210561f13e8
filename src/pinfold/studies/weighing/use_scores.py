"""Soaked strength, who is kept out, life, upkeep, what can be used again."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.gathering.records import Category, Line
from pinfold.studies.weighing.elements import row_for
from pinfold.studies.weighing.keeping_out import kept_out
from pinfold.studies.weighing.records import Score, not_shown
from pinfold.studies.weighing.subject import Asked, Named, Subject, standing_of
from pinfold.tables.shelf import Kind

_BEARING = ("walls/", "posts/")


def wet(subject: Subject, asked: Asked) -> Score:
    """Strength left of the wall that softens most."""
    del asked
    rows = [row_for("lasting", element.ref) for element in subject.elements if element.ref.startswith("walls/")]
    if not rows:
        return Score(value=1.0, low=1.0, high=1.0, standing=Standing.PRACTICE, because="there is no wall to soak")
    worst = min(rows, key=lambda row: row.value("soaked"))
    return _from_row(worst, "soaked", "strength of {} left when it is soaked; cap, plinth and coat keep it dry")


def life(subject: Subject, asked: Asked) -> Score:
    """Of the part that bears the rest and wears out first."""
    del asked
    rows = [row_for("lasting", element.ref) for element in subject.elements if element.ref.startswith(_BEARING)]
    if not rows:
        return not_shown("there is neither wall nor post")
    return _from_row(min(rows, key=lambda row: row.value("life")), "life", "{} wears out first of what bears the rest")


def _from_row(row: Kind, name: str, told: str) -> Score:
    figures = tuple((f"{each.replace('_', ' ')} of {row.says}", row.figure(each))
                    for each in (name, f"{name}_low", f"{name}_high"))  # fmt: skip
    value, low, high = (figure.value for _, figure in figures)
    return Score(value=value, low=low, high=high, figures=figures, standing=standing_of(figures),
                 because=told.format(row.says))  # fmt: skip


def upkeep(subject: Subject, asked: Asked) -> Score:
    """Time in a year that keeps it, at the builder's own slowness over what is commonly held."""
    del asked
    figures: dict[str, Figure] = {}
    total = 0.0
    for element in subject.elements:
        if not element.ref.startswith(("setting/", "bars/")):
            row = row_for("lasting", element.ref)
            total += row.value("kept") * element.length
            figures[f"time that keeps {row.says}, in a year by {row.word('per')}"] = row.figure("kept")
    slow = subject.people.slowness
    return Score(
        value=total * slow, low=total * slow / 2, high=total * slow * 2, figures=tuple(figures.items()),
        standing=Standing.PRACTICE, because=f"times {slow:g}; half of it to twice as much, by weather and growth",
    )  # fmt: skip


def tightness(subject: Subject, asked: Asked) -> Score:
    """Share of the animals asked about that do not get in."""
    if not asked.animals:
        return not_shown("no animal was asked about")
    found = kept_out(subject.layout, asked.animals)
    stopped = sum(each.is_out is True for each in found)
    unknown = sum(each.is_out is None for each in found)
    figures = tuple(figure for each in found for figure in each.figures)
    if unknown == len(found):
        return not_shown("; ".join(each.told for each in found), figures)
    count = len(found)
    return Score(
        value=stopped / count, low=stopped / count, high=(stopped + unknown) / count, figures=figures,
        standing=standing_of(figures), because="; ".join(each.told for each in found),
    )  # fmt: skip


def reclaimable(subject: Subject, asked: Asked) -> Score:
    """Share of what is hauled and gathered, by weight, that can be taken down and used again."""
    del asked
    known = [(line.mass, row) for line, row in _masses(subject) if line.mass is not None]
    whole = math.fsum(mass for mass, _ in known)
    if whole <= 0:
        return not_shown("nothing of it is weighed: all is gathered")
    figures: Named = tuple({f"of {row.says}": row.figure("reclaimed") for _, row in known}.items())
    share = math.fsum(mass * row.value("reclaimed") for mass, row in known) / whole
    return Score(
        value=share, low=share / 2, high=min(1.0, share * 1.5), figures=figures, standing=standing_of(figures),
        because="of what is bought, by weight; by how carefully it is taken down",
    )  # fmt: skip


def _masses(subject: Subject) -> Iterator[tuple[Line, Kind]]:
    """Every line with the row of what it becomes; stuff of mixes goes into what is set, of which nothing is left."""
    for line in subject.gathered.lines:
        ref = f"{line.kind.shelf}/{line.kind.name}"
        mixed = line.kind.shelf in ("materials", "bars") and line.category is not Category.GATHERED
        try:
            yield line, row_for("lasting", _SET if mixed else ref)
        except NotFoundError:
            continue  # hardware, which is not weighed


_SET = "footings/concrete"
