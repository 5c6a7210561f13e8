"""Soaked strength, who is kept out, life, upkeep, what can be used again."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.gathering.amounts import carried_mass
from pinfold.studies.gathering.records import Category, Line
from pinfold.studies.weighing.elements import row_for, rows_for
from pinfold.studies.weighing.keeping_out import kept_out, share_out
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
    first = _from_row(min(rows, key=lambda row: row.value("life")), "life", "{} wears out first of what bears the rest")
    return replace(first, low=min(row.value("life_low") for row in rows),
                   high=min(row.value("life_high") for row in rows))  # fmt: skip


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
    return share_out(kept_out(subject.layout, asked.animals))


def reclaimable(subject: Subject, asked: Asked) -> Score:
    """Share of what stays in the work, by weight, bought or gathered, that can be taken down and used again."""
    del asked
    parts = tuple(_parts(subject))
    whole = math.fsum(mass for mass, _ in parts)
    if whole <= 0:
        return not_shown("nothing of it is weighed")
    figures: Named = tuple({f"of {row.says}": row.figure("reclaimed") for _, row in parts}.items())
    share = math.fsum(mass * row.value("reclaimed") for mass, row in parts) / whole
    return Score(
        value=share, low=share / 2, high=min(1.0, share * 1.5), figures=figures, standing=standing_of(figures),
        because="of all that stays in the work, by weight, water and hardware aside; by how carefully it is taken down",
    )  # fmt: skip


def _parts(subject: Subject) -> Iterator[tuple[float, Kind]]:
    """Masses with the row of what they become; units made on the plot count by what they are made of."""
    made = _made(subject)
    bulking = subject.layout.plan.mixing.sand_bulking
    for line in subject.gathered.lines:
        mass = carried_mass(line.kind, line.net, line.unit, bulking)
        if mass and not (line.category is Category.GATHERED and line.kind.shelf == "walls"):
            for layer, share in _by_layer(line).items():
                yield from ((mass * share, row) for row in _becomes(line, made.get(layer)))


def _made(subject: Subject) -> Mapping[str, Kind]:
    """What mixes become in a layer; of several kinds of wall, coat or footing the one of which least is used again."""
    made: dict[str, Kind] = {}
    for element in subject.elements:
        if element.ref.startswith(("walls/", "coats/", "footings/")):
            row = row_for("lasting", element.ref)
            made[element.layer] = min(made.get(element.layer, row), row, key=lambda each: each.value("reclaimed"))
    return made


def _by_layer(line: Line) -> Mapping[str, float]:
    """What part of a line goes into which layer."""
    whole = math.fsum(use.amount for use in line.uses)
    parts: dict[str, float] = {}
    for use in line.uses:
        parts[use.layer] = parts.get(use.layer, 0.0) + (use.amount / whole if whole > 0 else 0.0)
    return parts


def _becomes(line: Line, layer: Kind | None) -> tuple[Kind, ...]:
    """The row of what a line becomes: stuff of mixes the layer it is in, mortar and grout what is set for good."""
    if line.kind.shelf in ("materials", "bars"):
        return (layer if layer is not None and line.kind.shelf == "materials" else row_for("lasting", _SET),)
    return rows_for("lasting", f"{line.kind.shelf}/{line.kind.name}")[:1]  # none for hardware, boards of forms


_SET = "footings/concrete"
