"""Putting learned figures in the place of shipped ones: in kinds, in a plan's coats, in a take-off."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from pinfold.plan.buildups import Buildup, Coat, Wall
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.studies.lessons.records import Lessons, Override
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind

STRENGTHS = ("strength", "compressive", "flexural_tension", "flexural_tension_en", "shear")
"""Figures of mortars and walls that tests may lower."""


@lru_cache(maxsize=1024)
def taught_kind(of: Kind, figures: tuple[Override, ...]) -> Kind:
    """A kind with what was learned of it, and a mix also with its materials so; the kind itself where nothing was.

    What the plan itself says of it stays.

    Args:
        of: the kind
        figures: all that were learned
    """
    own = [
        each for each in figures
        if (each.shelf, each.kind) == (of.shelf, of.name) and not _given(of, each.name) and not _taught(of, each)
    ]  # fmt: skip
    parts = _taught_parts(of, figures)
    if not own and not parts:
        return of
    notes = [*_notes(of), *(each.says for each in own), *(note for part in parts.values() for note in _new_notes(part))]
    words = {**of.words, "notes": notes}
    if parts:
        uses = of.words["uses"]
        assert isinstance(uses, dict)
        words["uses"] = {**uses, **parts}
    return replace(of, figures={**of.figures, **{each.name: each.figure for each in own}}, words=words)


def _given(of: Kind, name: str) -> bool:
    return of.has(name) and of.figure(name).standing is Standing.GIVEN


def _taught(of: Kind, figure: Override) -> bool:
    """Whether it is there already: a kind taught twice is the same kind."""
    return of.figures.get(figure.name) == figure.figure


def _notes(of: Kind) -> list[str]:
    found = of.words.get("notes", [])
    return [str(line) for line in found] if isinstance(found, list | tuple) else [str(found)]


def _new_notes(material: Kind) -> list[str]:
    shipped = _notes(kind(material.shelf, material.name))
    return [note for note in _notes(material) if note not in shipped]


def _taught_parts(mix: Kind, figures: tuple[Override, ...]) -> dict[str, Kind]:
    uses = mix.words.get("uses") if mix.shelf == "mixes" else None
    names = uses.items() if isinstance(uses, dict) else ()
    taught = {}
    for part, name in names:
        shipped = kind("materials", name) if isinstance(name, str) else name
        found = taught_kind(shipped, figures)
        if found is not shipped:
            taught[part] = found
    return taught


def taught_plan(plan: Enclosure, mixing: Mixing, figures: tuple[Override, ...]) -> Enclosure:
    """A plan with what was learned of its mixing and its coats; the plan itself where nothing was.

    Args:
        plan: as the builder wrote it
        mixing: as learned
        figures: all that were learned
    """
    buildups = {name: _taught_buildup(buildup, figures) for name, buildup in plan.buildups.items()}
    same = all(buildups[name] is plan.buildups[name] for name in buildups)
    if same and mixing == plan.mixing:
        return plan
    return replace(plan, mixing=mixing, buildups=plan.buildups if same else buildups)


def _taught_buildup(buildup: Buildup, figures: tuple[Override, ...]) -> Buildup:
    coats = tuple(_taught_coat(coat, figures) for coat in buildup.coats)
    wall = None if buildup.wall is None else _taught_wall(buildup.wall, figures)
    same = wall is buildup.wall and all(new is old for new, old in zip(coats, buildup.coats, strict=True))
    return buildup if same else replace(buildup, coats=coats, wall=wall)


def _taught_wall(wall: Wall, figures: tuple[Override, ...]) -> Wall:
    """A wall weaker than it was counted by what was crushed; all else of it stays as the plan has it."""
    names = {each.kind for each in figures if each.name in STRENGTHS}
    of = taught_kind(wall.kind, figures) if wall.kind.name in names else wall.kind
    mortar = wall.mortar
    if mortar is not None and mortar.name in names:
        mortar = taught_kind(mortar, figures)
    return wall if of is wall.kind and mortar is wall.mortar else replace(wall, kind=of, mortar=mortar)


def _taught_coat(coat: Coat, figures: tuple[Override, ...]) -> Coat:
    found = taught_kind(coat.kind, figures)
    return coat if found is coat.kind else replace(coat, kind=found)


def as_taught(quantities: Iterable[Quantity], lessons: Lessons) -> tuple[Quantity, ...]:
    """A take-off with its mixes and materials as learned."""
    if not lessons.figures:
        return tuple(quantities)
    lines = tuple(quantities)
    kinds = {line.kind for line in lines if line.kind.shelf in ("mixes", "materials")}
    taught = {of: found for of in kinds if (found := taught_kind(of, lessons.figures)) is not of}
    return tuple(replace(line, kind=taught[line.kind]) if line.kind in taught else line for line in lines)
