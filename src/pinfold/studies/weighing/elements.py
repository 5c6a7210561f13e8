"""What an enclosure is made of, so that tables of lives, crafts and carbon can be asked about it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Buildup
from pinfold.studies.layout.records import Layout
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Meter


class Element(NamedTuple):
    """One kind of thing in an enclosure.

    Attributes:
        ref: shelf and name, such as `walls/adobe`; `setting/collar` for how posts are held.
        layer: word of the layer, as costs are told by it.
        length: of enclosure that has it; a count for gates.
    """

    ref: str
    layer: str
    length: Meter


def elements_of(layout: Layout) -> tuple[Element, ...]:
    """Everything, each kind in each layer once."""
    lengths: dict[tuple[str, str], Meter] = {}
    for stretch in layout.stretches:
        for ref, layer in _of_buildup(stretch.buildup):
            lengths[ref, layer] = lengths.get((ref, layer), 0.0) + stretch.end - stretch.start
    for place in layout.gates.values():
        gate = f"gates/{place.gate.kind.name}", "gate"
        lengths[gate] = lengths.get(gate, 0.0) + 1
    return tuple(Element(ref, layer, length) for (ref, layer), length in lengths.items())


def _of_buildup(buildup: Buildup) -> Iterator[tuple[str, str]]:
    wall, posts, mesh = buildup.wall, buildup.posts, buildup.mesh
    if buildup.footing is not None:
        yield f"footings/{buildup.footing.kind.name}", "footing"
        yield from _bar(buildup.footing.bar)
    if wall is not None:
        yield f"walls/{wall.kind.name}", "wall"
        yield from _bar(wall.bar)
    for ref in dict.fromkeys(f"coats/{coat.kind.name}" for coat in buildup.coats):
        yield ref, "coat"
    if buildup.coping is not None:
        yield f"copings/{buildup.coping.kind.name}", "coping"
    if posts is not None:
        yield f"posts/{posts.kind.name}", "posts"
        yield f"setting/{posts.setting.value}", "posts"
    for ref in dict.fromkeys(f"rails/{rail.kind.name}" for rail in buildup.rails):
        yield ref, "rails"
    if mesh is not None:
        yield f"meshes/{mesh.kind.name}", "mesh"


def _bar(bar: Kind | None) -> Iterator[tuple[str, str]]:
    if bar is not None:
        yield f"bars/{bar.name}", "bars"


def rows_for(table: str, ref: str) -> tuple[Kind, ...]:
    """Rows of a table that are for a thing, those that name it best first."""
    fits = [(len(start), row) for row in shelf(table).values() for start in _starts(row) if ref.startswith(start)]
    return tuple(row for _, row in sorted(fits, key=lambda fit: -fit[0]))


def row_for(table: str, ref: str) -> Kind:
    """The row of a table that names a thing best.

    Raises:
        NotFoundError: none does.
    """
    rows = rows_for(table, ref)
    if not rows:
        raise NotFoundError(f"nothing is known of {ref.partition('/')[2]}")
    return rows[0]


def _starts(row: Kind) -> tuple[str, ...]:
    starts = row.words.get("of", ())
    return tuple(starts) if isinstance(starts, list) else ()
