"""Sections: each build-up cut through from trench to top, every layer named with its figure."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.banks import bank_parts, surface_at
from pinfold.drawings.callouts import Column, Note, call_outs
from pinfold.drawings.naming import sentence, slug
from pinfold.drawings.piers import pier_parts
from pinfold.drawings.scenes import Anchor, Dimension, Label, PaperMm, Polyline, ScaleBar, Scene, Shape
from pinfold.drawings.section_fence import foot_of_post, mesh_parts, post_parts, rail_parts
from pinfold.drawings.section_frame import Cut, Parts, cuts
from pinfold.drawings.section_wall import DEEP, coat_parts, coping_parts, footing_parts, ground_parts, wall_parts
from pinfold.plan.buildups import Faces, Setting
from pinfold.studies.layout.records import Layout
from pinfold.units import Meter, tape

NEAR: PaperMm = 6.0
TIER: PaperMm = 8.0
APART: Meter = 0.02
"""Levels nearer than this are dimensioned as one."""


def section_scenes(layout: Layout) -> tuple[Scene, ...]:
    """One section for each build-up used and each bank against it: outside left, heights from the ground in meters."""
    return tuple(_scene(layout, cut) for cut in cuts(layout))


def _scene(layout: Layout, cut: Cut) -> Scene:
    parts = Parts()
    for add in (ground_parts, bank_parts, footing_parts, pier_parts, wall_parts, coat_parts, coping_parts):
        add(cut, parts)
    for add in (post_parts, rail_parts, mesh_parts):
        add(cut, parts)
    shapes = [*parts.shapes, *_frost(cut), *_sides(cut), *_dimensions(cut), *_column(cut, parts.notes)]
    shapes.append(ScaleBar(system=cut.system))
    return Scene(
        name=slug("section", cut.buildup.name, *([cut.bank.name] if cut.bank else [])),
        title=f"{layout.plan.name}: section of {_named(cut)}", shapes=tuple(shapes), notes=_notes(cut),
        about=f"A cut through {_named(cut)}, from top to bottom: "
        + "; ".join(note.text for note in sorted(parts.notes, key=lambda note: -note.at[1])) + ".",
    )  # fmt: skip


def _named(cut: Cut) -> str:
    return f"{cut.buildup.name} at bank {cut.bank.name}" if cut.bank else cut.buildup.name


def top_of(cut: Cut) -> Meter:
    """The highest thing of a section."""
    posts, mesh = cut.buildup.posts, cut.buildup.mesh
    return cut.fence_foot + max(posts.height if posts else 0.0, mesh.height if mesh else 0.0)


def low_of(cut: Cut) -> Meter:
    """The lowest thing of a section."""
    posts, mesh = cut.buildup.posts, cut.buildup.mesh
    apron = -mesh.apron if mesh and mesh.apron_buried else 0.0
    return min(cut.bottom, foot_of_post(cut, posts) if posts else 0.0, apron)


def _frost(cut: Cut) -> Iterator[Shape]:
    """How deep the ground freezes: a line behind everything, named outside, clear of the hatched ground."""
    if cut.frost is None:
        return
    yield Polyline(layer="zone", points=((cut.left, -cut.frost), (cut.right, -cut.frost)))
    anchor: Anchor = "above right" if cut.frost > 3 * DEEP else "below right"
    text = f"frost to\n{tape(cut.frost, cut.system)}"
    yield Label(at=(cut.left, -max(cut.frost, DEEP)), text=text, layer="zone", anchor=anchor, size=1.8, priority=9)


def _sides(cut: Cut) -> Iterator[Shape]:
    sides: tuple[tuple[Meter, Faces, str, Anchor], ...] = (
        (cut.left, Faces.OUTER, "outside", "above right"), (cut.right, Faces.INNER, "inside", "above left")
    )  # fmt: skip
    for x, face, text, anchor in sides:
        yield Label(
            at=(x, surface_at(cut, face, x) + 0.01), text=text, layer="note", anchor=anchor, size=1.8, priority=9
        )


def _dimensions(cut: Cut) -> Iterator[Shape]:
    """Heights on the outside: every level, then below and above ground; widths below."""
    levels = _apart(_levels(cut))
    yield from _chain(cut, levels, NEAR)
    main = _apart([low_of(cut), 0.0, top_of(cut)])
    if len(levels) > len(main):
        yield from _chain(cut, main, NEAR + TIER)
    for number, ends in enumerate(_widths(cut)):
        yield _width(cut, ends, low_of(cut), -(NEAR + number * TIER))


def _levels(cut: Cut) -> list[Meter]:
    posts, mesh = cut.buildup.posts, cut.buildup.mesh
    levels = [
        cut.bottom,
        cut.bed,
        0.0,
        cut.bank.height if cut.bank else 0.0,
        cut.wall_top,
        cut.fence_foot,
        cut.fence_foot + (mesh.height if mesh else 0.0),
    ]
    if posts is not None:
        levels.append(cut.fence_foot + posts.height)
        if posts.setting in (Setting.GROUND, Setting.COLLAR):
            levels.append(-posts.embed)
    return levels


def _widths(cut: Cut) -> Iterator[tuple[Meter, Meter]]:
    """What is measured below: wall, coping, footing, collar, apron."""
    buildup, near = cut.buildup, cut.half if cut.buildup.wall else cut.post_half
    if buildup.wall is not None:
        yield (-cut.half, cut.half)
    if buildup.coping is not None:
        yield (-buildup.coping.width / 2, buildup.coping.width / 2)
    if buildup.footing is not None:
        yield (-buildup.footing.width / 2, buildup.footing.width / 2)
    if buildup.posts is not None and buildup.posts.collar and buildup.posts.setting is Setting.COLLAR:
        yield (cut.post_at - buildup.posts.collar / 2, cut.post_at + buildup.posts.collar / 2)
    if buildup.mesh is not None and buildup.mesh.apron > 0 and not buildup.mesh.apron_buried:
        yield (-near - buildup.mesh.apron, -near)


def _width(cut: Cut, ends: tuple[Meter, Meter], z: Meter, offset: PaperMm) -> Dimension:
    (start, end) = ends
    return Dimension(start=(start, z), end=(end, z), offset=offset, text=tape(end - start, cut.system))


def _chain(cut: Cut, levels: list[Meter], offset: PaperMm) -> Iterator[Shape]:
    for low, high in pairwise(levels):
        yield Dimension(start=(cut.left, low), end=(cut.left, high), offset=offset, text=tape(high - low, cut.system))


def _apart(levels: list[Meter]) -> list[Meter]:
    """Levels from low to high without those that nearly repeat; the ground always stays."""
    kept: list[Meter] = []
    for level in sorted(levels):
        if kept and level - kept[-1] < APART:
            if level == 0.0:
                kept[-1] = level
            continue
        kept.append(level)
    return kept


def _column(cut: Cut, notes: list[Note]) -> Iterator[Shape]:
    """Layer names in a column on the inside."""
    yield from call_outs(notes, column=Column(x=cut.right + 0.08, low=low_of(cut), high=top_of(cut)))


def _notes(cut: Cut) -> tuple[str, ...]:
    notes = [*([sentence(cut.buildup.says)] if cut.buildup.says else []), _where(cut)]
    if cut.buildup.wall is not None:
        notes.append("Where the ground slopes, wall and trench are higher or deeper: see the elevations.")
    return tuple(notes)


def _where(cut: Cut) -> str:
    if cut.bank is not None:
        return f"Cut in {cut.place} at bank {cut.bank.name}: heights from the ground on the other face."
    if cut.buildup.wall is None:
        return f"Cut in {cut.place} between two posts: heights from the ground there."
    return f"Cut in {cut.place} where it is typical: heights from the ground in the middle of its longest level length."
