"""Reading the build-ups of a plan file, layer by layer."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TypeVar

from pinfold.errors import InputError
from pinfold.plan.buildups import Buildup, Coat, Coping, Faces, Footing, Mesh, Posts, Rail, RailJoint, Setting, Wall
from pinfold.store.forms import Form, each
from pinfold.store.read_fences import read_anchors, read_brace
from pinfold.store.read_walls import complain_of_piers, piers_of, wall_of
from pinfold.units import METER, RATIO, Meter, both

USUAL_LAP: Meter = 0.05
"""Mesh over the face of a wall where the plan says nothing (common practice)."""
Layer = TypeVar("Layer", Footing, Coat, Posts, Rail, Mesh)
Record = TypeVar("Record")


def read_buildups(whole: Form) -> dict[str, Buildup]:
    """All `[buildup.name]` tables."""
    forms = whole.tables("buildup")
    if not forms:
        whole.complain("buildup", "at least one build-up is wanted, written [buildup.name] with its layers below it")
    return {name: _told(name, form) for name, form in forms.items()}


def buildup_of(name: str, table: Mapping[str, object]) -> Buildup:
    """One build-up from its table alone.

    Raises:
        InvalidPlan: with every complaint at once.
    """
    form = Form(table, f"buildup.{name}")
    buildup = _told(name, form)
    form.check(name)
    return buildup


@dataclass(frozen=True)
class _Same:
    """A table that counts as the same whenever it reads the same."""

    text: str
    table: Mapping[str, object] = field(compare=False)


def _told(name: str, form: Form) -> Buildup:
    buildup, complaints = _buildup(name, form.at, _Same(repr(form.table), form.table))
    form.complaints.extend(complaints)
    return buildup


@lru_cache(maxsize=256)  # the same build-up again is the same object, and so is all that studies found about it
def _buildup(name: str, at: str, same: _Same) -> tuple[Buildup, tuple[InputError, ...]]:
    form = Form(same.table, at)
    wall, footing = _layer(form, "wall", wall_of), _layer(form, "footing", _footing)
    buildup = Buildup(
        name=name,
        says=form.text("says", otherwise=""),
        footing=footing,
        wall=wall,
        piers=_layer(form, "piers", lambda part: piers_of(part, footing)),
        coats=each(form.subs("coat", most=12), _coat),
        coping=_layer(form, "coping", lambda part: _coping(part, wall)),
        posts=_layer(form, "posts", _posts),
        rails=tuple(sorted(each(form.subs("rail", most=30), _rail), key=lambda rail: rail.at)),
        mesh=_layer(form, "mesh", lambda part: _mesh(part, has_wall=wall is not None)),
        brace=_layer(form, "brace", read_brace),
    )
    form.refuse_unknown()
    _complain_of_layers(form, buildup)
    return buildup, tuple(form.complaints)


def _layer(form: Form, key: str, reader: Callable[[Form], Record]) -> Record | None:
    part = form.sub(key)
    if part is None:
        return None
    record = reader(part)
    part.refuse_unknown()
    return record


def _complain_of_layers(form: Form, buildup: Buildup) -> None:
    if buildup.wall is None and buildup.mesh is None:
        form.complain("", "a build-up needs a wall or a mesh, or both")
    needs_posts = {
        "mesh": buildup.mesh is not None, "rail": bool(buildup.rails), "wall": _is_sheet(buildup.wall),
        "brace": buildup.brace is not None,
    }  # fmt: skip
    for key in (key for key, wanted in needs_posts.items() if wanted and buildup.posts is None):
        form.complain(key, "does not stand without posts; write a table posts beside it")
    needs_wall = {"coat": buildup.coats, "coping": buildup.coping, "footing": buildup.footing}
    for key in (key for key, layer in needs_wall.items() if layer and buildup.wall is None):
        form.complain(key, "there is no wall for it; write a table wall, or take it out")
    if buildup.posts and buildup.wall is None and buildup.posts.setting in (Setting.WALL, Setting.WALL_TOP):
        form.complain("posts.setting", "there is no wall to hold the posts; set them in ground or collar")
    if buildup.piers is not None:
        complain_of_piers(form, buildup.piers, buildup.wall, buildup.footing)
    _complain_of_fence(form, buildup)
    _complain_of_sizes(form, buildup)
    _complain_of_meshes(form, buildup)


def _complain_of_sizes(form: Form, buildup: Buildup) -> None:
    wall, footing, coping = buildup.wall, buildup.footing, buildup.coping
    thick = wall.kind.value("thickness") if wall is not None and wall.kind.has("thickness") else math.nan
    if footing is not None and footing.below_ground < footing.thickness:
        form.complain(
            "footing.below_ground", f"the footing, {both(footing.thickness)} thick, would stand out of the ground"
        )
    if footing is not None and footing.width < thick:
        form.complain("footing.width", f"{both(footing.width)} under a wall of {both(thick)}; a footing is wider")
    if footing is not None and footing.kind.word("make") == "pad":
        form.complain("footing.kind", "a pad carries a post, not a wall; choose a strip or a rubble trench")
    if coping is not None and coping.width < thick:
        form.complain("coping.width", f"{both(coping.width)} on a wall of {both(thick)}; a coping covers its wall")


def _complain_of_meshes(form: Form, buildup: Buildup) -> None:
    for number, coat in enumerate(buildup.coats):
        if coat.mesh is not None and coat.mesh.word("use", "plaster") != "plaster":
            form.complain(f"coat[{number}].mesh", f"{coat.mesh.name} is not made to be bedded; choose a plaster mesh")
    if buildup.mesh is not None and buildup.mesh.kind.word("use", "fence") == "plaster":
        form.complain("mesh.kind", f"{buildup.mesh.kind.name} is made to be bedded in plaster; choose a fence mesh")


def _is_sheet(wall: Wall | None) -> bool:
    return wall is not None and wall.kind.word("make") == "sheet"


def _complain_of_fence(form: Form, buildup: Buildup) -> None:
    posts, mesh = buildup.posts, buildup.mesh
    if posts is None:
        return
    for number, rail in enumerate(buildup.rails):
        if rail.at > posts.height + 1e-6:
            form.complain(
                f"rail[{number}].at", f"{both(rail.at)} is above the posts, which end at {both(posts.height)}"
            )
    if buildup.brace is not None and buildup.brace.rail_at > posts.height + 1e-6:
        form.complain(
            "brace.rail_at", f"{both(buildup.brace.rail_at)} is above the posts, which end at {both(posts.height)}"
        )
    if mesh is not None and mesh.height > posts.height + 0.05:
        form.complain("mesh.height", f"{both(mesh.height)} of mesh stands over posts of {both(posts.height)}")


def _with_own(form: Form, layer: Layer) -> Layer:
    """The layer with the figures that the plan states itself put into its kind."""
    return replace(layer, kind=form.own_figures(layer.kind))


def _footing(form: Form) -> Footing:
    bars = form.count("bars", otherwise=0, high=12)
    bar = form.kind_if("bar", "bars")
    if bars and bar is None:
        form.complain("bar", f'{bars} bars are asked for; say which, like bar = "#4"')
    footing = Footing(
        kind=form.kind("kind", "footings", otherwise="strip-concrete"),
        width=form.quantity("width", METER, low=0.05, high=3.0),
        thickness=form.quantity("thickness", METER, low=0.03, high=2.0),
        below_ground=form.quantity("below_ground", METER, low=0.0, high=3.0),
        bars=bars,
        bar=bar,
    )
    return _with_own(form, footing)


def _coat(form: Form) -> Coat:
    kind = form.kind("kind", "coats")
    usual = kind.value("thickness") if kind.has("thickness") else math.nan
    coat = Coat(
        kind=kind,
        thickness=form.quantity("thickness", METER, otherwise=usual, low=0.0002, high=0.1),
        faces=form.word("faces", Faces, otherwise=Faces.BOTH),
        top=form.flag("top", otherwise=False),
        mesh=form.kind_if("mesh", "meshes"),
    )
    return _with_own(form, coat)


def _coping(form: Form, wall: Wall | None) -> Coping:
    found = form.kind("kind", "copings")
    width = form.perhaps("width", METER, low=0.05, high=2.0)
    kind = form.own_figures(found)
    beneath = wall.kind.value("thickness") if wall is not None and wall.kind.has("thickness") else math.nan
    usual = beneath + 2 * (kind.value("overhang") if kind.has("overhang") else 0.0)
    thickness = kind.value("thickness") if kind.has("thickness") else math.nan
    return Coping(kind=kind, thickness=thickness, width=usual if width is None else width)


def _posts(form: Form) -> Posts:
    setting = form.word("setting", Setting, otherwise=Setting.GROUND)
    collar = form.perhaps("collar", METER, low=0.05, high=1.5)
    if setting is Setting.COLLAR and collar is None:
        form.complain("collar", 'is missing; write how wide the concrete is, like collar = "25 cm"')
    if setting is not Setting.COLLAR and collar is not None:
        form.complain("collar", f"goes with setting = 'collar', but the setting is '{setting.value}'; take one out")
    posts = Posts(
        kind=form.kind("kind", "posts"),
        spacing=form.quantity("spacing", METER, low=0.3, high=20.0),
        height=form.quantity("height", METER, low=0.1, high=5.0),
        setting=setting,
        embed=_embed(form, setting),
        collar=collar,
        stout=form.kind_if("stout", "posts"),
        anchors=_layer(form, "anchors", read_anchors),
    )
    if posts.anchors is not None and setting is not Setting.WALL_TOP:
        form.complain("anchors", f"go with setting = 'wall-top', but the setting is '{setting.value}'; take them out")
    return _with_own(form, posts)


def _embed(form: Form, setting: Setting) -> Meter:
    """How deep posts stand; a post on the wall's top stands on it, whatever is written."""
    if setting is not Setting.WALL_TOP:
        return form.quantity("embed", METER, low=0.05, high=4.0)
    form.perhaps("embed", METER, low=0.0, high=4.0)
    return 0.0


def _rail(form: Form) -> Rail:
    rail = Rail(
        kind=form.kind("kind", "rails"),
        at=form.quantity("at", METER, low=0.0, high=5.0),
        joint=form.word("joint", RailJoint, otherwise=RailJoint.BUTT),
        lap=form.perhaps("lap", METER, low=0.02, high=0.6),
    )
    if rail.kind.word("sold") == "roll" and (form.has("joint") or form.has("lap")):
        form.complain("joint", f"{rail.kind.name!r} is strained from end to end and has none; take joint and lap out")
    elif rail.lap is not None and rail.joint is RailJoint.BUTT:
        form.complain("lap", 'rails that butt have none; write joint = "lap" or "half-lap", or take it out')
    return _with_own(form, rail)


def _mesh(form: Form, *, has_wall: bool) -> Mesh:
    mesh = Mesh(
        kind=form.kind("kind", "meshes"),
        height=form.quantity("height", METER, low=0.05, high=5.0),
        lap=form.quantity("lap", METER, otherwise=USUAL_LAP if has_wall else 0.0, low=0.0, high=1.0),
        apron=form.quantity("apron", METER, otherwise=0.0, low=0.0, high=2.0),
        apron_buried=form.flag("apron_buried", otherwise=False),
        grown=form.perhaps("grown", RATIO, low=0.0, high=1.0),
        pin=form.kind_if("pin", "bars"),
    )
    if mesh.pin is not None and not mesh.apron:
        form.complain("pin", "holds an apron down, and there is none; write how far it goes out, like apron = '30 cm'")
    return _with_own(form, mesh)
