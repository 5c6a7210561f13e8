"""Things by the size this plot needs them in: rolls by their height, copings by their mass, posts by their length."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.plan.buildups import Buildup
from pinfold.sources import Standing
from pinfold.studies.gathering.records import Curing
from pinfold.studies.layout.bracing import braces_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.quantities.bracing import pole_length
from pinfold.studies.quantities.coats import coated_area
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.records import Part, Quantity
from pinfold.studies.quantities.standing import cut_length
from pinfold.studies.quantities.strips import roll_height
from pinfold.tables.shelf import Kind
from pinfold.units import KILOGRAM, METER, Meter, Unit

_DAY = 86400.0


def sized(quantity: Quantity, layout: Layout) -> Kind:
    """The kind of a take-off line as it is bought: mesh with the height of its roll, a coping piece with its mass."""
    kind = quantity.kind
    if kind.shelf == "meshes":
        height = _height_wanted(quantity, layout)
        return kind if height is None else rolled(kind, roll_height(kind, height))
    if kind.shelf == "copings" and not kind.has("unit_mass"):
        mass = _coping_mass(quantity, layout)
        return kind if mass is None else _with(kind, "unit_mass", mass, KILOGRAM)
    return kind


def rolled(kind: Kind, height: Meter) -> Kind:
    """A mesh as it is bought in rolls of a height."""
    return _with(kind, "roll_height", height, METER)


@lru_cache(maxsize=256)  # the same kind again is the same object, and so is all that studies found about it
def _with(kind: Kind, name: str, value: float, unit: Unit) -> Kind:
    figure = Figure(value=value, unit=unit, standing=Standing.DERIVED, source="STATICS", where="by the plan")
    return replace(kind, figures={**kind.figures, name: figure})


def _height_wanted(quantity: Quantity, layout: Layout) -> Meter | None:
    if quantity.layer == "gate":
        place = layout.gates.get(quantity.place)
        return place.gate.height if place else None
    buildup = _buildup_at(quantity.place, layout)
    if quantity.layer not in ("mesh", "apron") or buildup is None or buildup.mesh is None:
        return None
    return buildup.mesh.height + buildup.mesh.lap


def _coping_mass(quantity: Quantity, layout: Layout) -> float | None:
    buildup, kind = _buildup_at(quantity.place, layout), quantity.kind
    if buildup is None or buildup.coping is None or not (kind.has("unit_length") and kind.has("density")):
        return None
    return buildup.coping.width * buildup.coping.thickness * kind.value("unit_length") * kind.value("density")


def _buildup_at(place: str, layout: Layout) -> Buildup | None:
    return next((stretch.buildup for stretch in layout.stretches if stretch.name == place), None)


def pieces_by_kind(parts: Iterable[Part], layout: Layout) -> dict[tuple[str, str], tuple[Meter, ...]]:
    """Lengths to cut by shelf and name of what they are cut from; the posts as laid out where no parts are given."""
    found: dict[tuple[str, str], list[Meter]] = {}
    for part in parts:
        found.setdefault((part.kind.shelf, part.kind.name), []).extend([part.length] * part.count)
    if not found:
        for kind, length in _standing(layout):
            found.setdefault((kind.shelf, kind.name), []).append(cut_length(length, layout.plan.units))
    return {key: tuple(lengths) for key, lengths in found.items()}


def _standing(layout: Layout) -> Iterator[tuple[Kind, Meter]]:
    """Posts, and what braces take of posts."""
    for post in layout.posts:
        yield post.kind, post.length
    for place in braces_of(layout):
        yield place.brace.rail, pole_length(place)
        if place.brace_post is not None:
            yield place.brace_post.kind, place.brace_post.length


def curing_of(layout: Layout) -> tuple[Curing, ...]:
    """Every coat that is kept wet, its faces added up over all stretches; coats of unknown cure left out."""
    areas: dict[str, float] = {}
    days: dict[str, float] = {}
    for reach in reaches(layout):
        for coat in reach.stretch.buildup.coats if reach.stretch.steps else ():
            if not coat.kind.has("wet_cure"):
                continue
            try:
                area = coated_area(reach, coat)
            except NotFoundError:
                continue
            areas[coat.kind.name] = areas.get(coat.kind.name, 0.0) + area
            days[coat.kind.name] = coat.kind.value("wet_cure") / _DAY
    return tuple(Curing(says=name, area=area, days=days[name]) for name, area in areas.items())
