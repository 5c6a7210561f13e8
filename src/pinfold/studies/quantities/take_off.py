"""The take-off: how much of everything each place of the plot needs."""

from __future__ import annotations

from collections.abc import Container
from enum import Enum, auto
from functools import lru_cache

from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.beds import mortar
from pinfold.studies.quantities.bracing import anchoring, braces
from pinfold.studies.quantities.coats import coats
from pinfold.studies.quantities.coping import coping
from pinfold.studies.quantities.fence import fence
from pinfold.studies.quantities.fill import fill
from pinfold.studies.quantities.forms import forms
from pinfold.studies.quantities.gates import gate
from pinfold.studies.quantities.mass import mass_wall
from pinfold.studies.quantities.piers import piers
from pinfold.studies.quantities.reach import Reach, reaches
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.standing import collars, posts, ties
from pinfold.studies.quantities.trench import trench
from pinfold.studies.quantities.units import units

OF_UNITS = ("units", "sheet")


class Section(Enum):
    """Parts of the take-off, each of layers of its own."""

    UNDER_COATS = auto()
    COATS = auto()
    OVER_COATS = auto()
    STANDING = auto()
    GATES = auto()
    FORMS = auto()


ALL = frozenset(Section)


def take_off(layout: Layout, sections: Container[Section] = ALL) -> tuple[Quantity, ...]:
    """Every quantity in order around the plot: stretch by stretch, then the posts of the run, then its gates.

    Boards of forms come last: one set serves all stretches.
    What lacks a figure is kept with a net that is not a number and a note that names the figure.

    Args:
        layout: as laid out
        sections: which are counted
    """
    found: list[Quantity] = []
    runs = list(dict.fromkeys(run.name for _, run in layout.plan.runs))
    by_run: dict[str, list[Reach]] = {}
    for reach in reaches(layout):
        by_run.setdefault(reach.stretch.run, []).append(reach)
    for run in runs:
        for reach in by_run.get(run, ()):
            found += of_stretch(reach, sections)
        found += _standing(layout, run) if Section.STANDING in sections else ()
        found += _gates(layout, run) if Section.GATES in sections else ()
    if Section.FORMS in sections:
        found += forms([reach.between_ends for reach in reaches(layout)], layout.plan.units)
    return tuple(found)


def of_stretch(reach: Reach, sections: Container[Section] = ALL) -> tuple[Quantity, ...]:
    """What one stretch needs, from the trench up; its posts are counted with the run."""
    return (
        *(_under_coats(reach.between_ends) if Section.UNDER_COATS in sections else ()),
        *(_coats(reach) if Section.COATS in sections else ()),
        *(_over_coats(reach.between_ends) if Section.OVER_COATS in sections else ()),
    )


@lru_cache(maxsize=128)  # while one corner is dragged, most stretches stay what they were
def _coats(reach: Reach) -> tuple[Quantity, ...]:
    return coats(reach) if reach.stretch.steps else ()


@lru_cache(maxsize=128)
def _under_coats(reach: Reach) -> tuple[Quantity, ...]:
    if not reach.stretch.steps:
        return ()
    built = units(reach) if reach.wall.kind.word("make") in OF_UNITS else mass_wall(reach)
    return (*trench(reach), *built, *mortar(reach), *fill(reach), *piers(reach))


@lru_cache(maxsize=128)
def _over_coats(reach: Reach) -> tuple[Quantity, ...]:
    return (*(coping(reach) if reach.stretch.steps else ()), *fence(reach), *ties(reach))


def _standing(layout: Layout, run: str) -> tuple[Quantity, ...]:
    own = tuple(post for post in layout.posts if post.run == run and not post.gate)
    system = layout.plan.units
    return (
        *posts(own, place=run, system=system), *collars(own, place=run, system=system), *anchoring(layout, run),
        *braces(layout, run),
    )  # fmt: skip


def _gates(layout: Layout, run: str) -> tuple[Quantity, ...]:
    return tuple(
        quantity
        for planned in sorted(layout.plan.gates, key=lambda each: each.start)
        if layout.gates[planned.name].run == run
        for quantity in gate(
            layout.gates[planned.name],
            tuple(post for post in layout.posts if post.gate == planned.name),
            layout.plan.units,
        )
    )
