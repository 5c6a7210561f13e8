"""The upper part of a section: post in its setting, rails, mesh and apron."""

from __future__ import annotations

from pinfold.drawings.callouts import Note
from pinfold.drawings.naming import hatch_of, told
from pinfold.drawings.scenes import Area, Circle, Point, Polyline
from pinfold.drawings.section_frame import Cut, Parts
from pinfold.drawings.section_wall import box
from pinfold.plan.buildups import Faces, Mesh, Posts, Rail, Setting
from pinfold.plan.fences import Anchors
from pinfold.tables.shelf import kind
from pinfold.units import Meter, tape

PLATE: Meter = 0.01
"""Thickness of the plate under a post, as drawn."""
_SETTINGS = {
    Setting.GROUND: "in the ground", Setting.COLLAR: "in its collar of concrete", Setting.WALL: "down into the wall",
    Setting.WALL_TOP: "anchored in the wall's top",
}  # fmt: skip


def post_parts(cut: Cut, parts: Parts) -> None:
    """The post from its foot to its top, with its collar."""
    posts = cut.buildup.posts
    if posts is None:
        return
    x, half = cut.post_at, cut.post_half
    foot, top = foot_of_post(cut, posts), cut.fence_foot + posts.height
    if posts.setting is Setting.COLLAR and posts.collar:
        wide = posts.collar / 2
        parts.shapes.append(Area(layer="footing", points=box(x - wide, foot, x + wide, 0.0), hatch="concrete"))
        says = kind("mixes", kind("waste", "collar").word("mix")).says
        figures = (f"{tape(posts.collar, cut.system)} across", f"{tape(-foot, cut.system)} deep")
        parts.notes.append(Note(at=(x + wide * 0.8, foot * 0.75), text=told(f"collar: {says}", *figures)))
    hatch = "none" if posts.kind.word("section") == "pipe" else hatch_of(posts.kind)
    parts.shapes.append(Area(layer="post", points=box(x - half, foot, x + half, top), hatch=hatch))
    if posts.kind.has("wall"):
        inner = half - posts.kind.value("wall")
        parts.shapes += [
            Polyline(layer="course", points=((x + way * inner, foot), (x + way * inner, top))) for way in (1, -1)
        ]
    told_of = [
        f"{tape(posts.height, cut.system)} above {'the wall' if cut.buildup.wall else 'the ground'}",
        f"{tape(posts.embed, cut.system)} {_SETTINGS[posts.setting]}" if posts.embed else _SETTINGS[posts.setting],
        f"{tape(posts.spacing, cut.system)} apart at most",
    ]
    at = (x + half * 0.5, cut.fence_foot + posts.height * 0.8)
    parts.notes.append(Note(at=at, text=told(posts.kind.says, *told_of)))
    if posts.anchors is not None and posts.setting is Setting.WALL_TOP:
        _anchors(cut, parts, posts.anchors)


def _anchors(cut: Cut, parts: Parts, anchors: Anchors) -> None:
    """The plate under a post, and an anchor of either row down in the wall."""
    apart, foot, x = anchors.row_spacing / 2, cut.fence_foot, cut.post_at
    edge = apart + 2 * anchors.diameter
    parts.shapes.append(Area(layer="post", points=box(x - edge, foot, x + edge, foot + PLATE), hatch="steel"))
    parts.shapes += [
        Polyline(layer="bar", points=_anchor(x + way * apart, foot, way * (anchors.hook or 0.0), anchors.depth))
        for way in (1, -1)
    ]
    across, deep = tape(anchors.row_spacing, cut.system), tape(anchors.depth, cut.system)
    figures = f"{tape(anchors.diameter, cut.system)} thick, {deep} deep", f"two rows {across} apart"
    says = f"{anchors.count} anchors under each post"
    parts.notes.append(Note(at=(x + apart, foot - anchors.depth * 0.6), text=told(says, *figures)))


def _anchor(x: Meter, top: Meter, hook: Meter, depth: Meter) -> tuple[Point, ...]:
    shaft = ((x, top + 2 * PLATE), (x, top - depth))
    return (*shaft, (x - hook, top - depth)) if hook else shaft


def foot_of_post(cut: Cut, posts: Posts) -> Meter:
    """Height of a post's lower end."""
    return (cut.fence_foot if posts.setting in (Setting.WALL, Setting.WALL_TOP) else 0.0) - posts.embed


def rail_parts(cut: Cut, parts: Parts) -> None:
    """Rails and wires on the outer face of the posts, cut through."""
    start = "wall" if cut.buildup.wall else "ground"
    for rail in cut.buildup.rails:
        z, face = cut.fence_foot + rail.at, cut.post_at - cut.post_half
        if rail.kind.word("section") == "rectangle":
            deep, high = rail.kind.value("width"), rail.kind.value("depth")
            ring = box(face - deep, z - high / 2, face, z + high / 2)
            parts.shapes.append(Area(layer="rail", points=ring, hatch=hatch_of(rail.kind)))
            at: Point = (face - deep / 2, z)
        else:
            radius = rail.kind.value("diameter") / 2
            at = (face - radius, z)
            parts.shapes.append(Circle(layer="rail", center=at, radius=max(radius, 0.005), filled=True))
        text = told(rail.kind.says, f"{tape(rail.at, cut.system)} above the {start}")
        parts.notes.append(Note(at=at, text=text))


def mesh_face(cut: Cut) -> Meter:
    """Where the mesh hangs: on the outermost of posts and rails."""
    deep = max((_depth(rail) for rail in cut.buildup.rails), default=0.0)
    return cut.post_at - cut.post_half - deep - 0.004


def _depth(rail: Rail) -> Meter:
    return rail.kind.value("width") if rail.kind.word("section") == "rectangle" else 0.0


def mesh_parts(cut: Cut, parts: Parts) -> None:
    """The mesh, its lap over the wall, its apron; crossing wires as dots."""
    mesh = cut.buildup.mesh
    if mesh is None:
        return
    x, foot = mesh_face(cut), cut.fence_foot
    top = foot + mesh.height
    line: list[Point] = [(x, top), (x, foot)]
    if mesh.lap > 0 and cut.buildup.wall is not None:
        coping = cut.buildup.coping
        edge = (
            x
            if cut.post_at
            else -(max(coping.width / 2, cut.half) if coping else cut.half_at(foot) + _coats_out(cut)) - 0.004
        )
        if edge < x:
            line += [(edge, foot + 0.004), (edge, foot - mesh.lap)]
        else:
            line += [(x, foot - mesh.lap)]
    if mesh.apron > 0 and cut.buildup.wall is None:
        line.append((x, -mesh.apron) if mesh.apron_buried else (x - mesh.apron, 0.004))
    elif mesh.apron > 0:
        start = -cut.half_at(0.0) - _coats_out(cut)
        end = (start, -mesh.apron) if mesh.apron_buried else (start - mesh.apron, 0.004)
        parts.shapes.append(Polyline(layer="apron", points=((start, 0.004), end)))
    parts.shapes.append(Polyline(layer="apron", points=tuple(line)))
    if mesh.kind.has("opening_high"):
        step = mesh.kind.value("opening_high")
        count = int(mesh.height / step + 1e-6)
        parts.shapes += [
            Circle(layer="mesh", center=(x, foot + number * step), radius=0.004, filled=True)
            for number in range(count + 1)
        ]
    _mesh_notes(cut, parts, mesh)


def _mesh_notes(cut: Cut, parts: Parts, mesh: Mesh) -> None:
    x, foot = mesh_face(cut), cut.fence_foot
    where = "below the wall's top" if cut.post_at else "over the wall"
    lap = f"laps {tape(mesh.lap, cut.system)} {where}" if mesh.lap and cut.buildup.wall else ""
    text = told(mesh.kind.says, f"{tape(mesh.height, cut.system)} high", lap)
    parts.notes.append(Note(at=(x, foot + mesh.height * 0.92), text=text))
    if mesh.apron > 0:
        where = "down into the ground" if mesh.apron_buried else "out on the ground, pinned down"
        start = x if cut.buildup.wall is None else -cut.half_at(0.0)
        at = (start, -mesh.apron * 0.7) if mesh.apron_buried else (start - mesh.apron * 0.6, 0.004)
        parts.notes.append(Note(at=at, text=told("apron of mesh", f"{tape(mesh.apron, cut.system)} {where}")))


def _coats_out(cut: Cut) -> Meter:
    return cut.buildup.coats_thickness(Faces.OUTER)
