"""Reading the wall of a build-up, and the piers that stiffen it."""

from __future__ import annotations

import math
from dataclasses import replace

from pinfold.plan.buildups import BarPlace, Faces, Footing, Grout, Piers, Wall
from pinfold.store.forms import NO_KIND, Form
from pinfold.tables.shelf import Kind
from pinfold.units import METER, Meter, both


def wall_of(form: Form) -> Wall:
    """A `[buildup.NAME.wall]` table."""
    kind = form.kind("kind", "walls")
    mortar, grout = _mortar(form, kind), form.word("grout", Grout, otherwise=Grout.NONE)
    if grout is not Grout.NONE and kind is not NO_KIND and not kind.words.get("hollow", False):
        form.complain("grout", f"{kind.name} has no cells to fill; take grout out or choose a hollow unit")
    bar, course_bar = form.kind_if("bar", "bars"), form.kind_if("course_bar", "bars")
    membrane_at = form.perhaps("membrane_at", METER, low=0.0, high=6.0)
    wall = Wall(
        kind=kind,
        height=form.quantity("height", METER, low=0.05, high=6.0),
        mortar=mortar,
        grout=grout,
        grout_spacing=spacing(form, "grout_spacing", wanted=grout is Grout.PARTIAL),
        grout_height=_part(form, "grout_height", goes_with=grout is not Grout.NONE),
        grout_mix=form.kind("grout_mix", "mixes", otherwise="grout-fine") if grout is not Grout.NONE else None,
        bar=bar,
        bar_spacing=spacing(form, "bar_spacing", wanted=bar is not None),
        bar_place=form.word("bar_place", BarPlace, otherwise=BarPlace.MIDDLE),
        bar_height=_part(form, "bar_height", goes_with=bar is not None),
        lap=_part(form, "lap", goes_with=bar is not None),
        course_bar=course_bar,
        course_bar_every=spacing(form, "course_bar_every", wanted=course_bar is not None),
        dowels=form.flag("dowels", otherwise=bar is not None),
        membrane=form.flag("membrane", otherwise=membrane_at is not None),
        membrane_at=membrane_at,
        joints=form.perhaps("joints", METER, low=0.5, high=60.0),
    )
    if membrane_at is not None and not wall.membrane:
        form.complain("membrane_at", "tells where a sheet lies, but membrane is false; take one of them out")
    return _sound(form, replace(wall, kind=form.own_figures(wall.kind)))


def _part(form: Form, key: str, *, goes_with: bool) -> Meter | None:
    """A length of bars or grout, which makes no sense without them."""
    value = form.perhaps(key, METER, low=0.05, high=6.0)
    if value is not None and not goes_with:
        form.complain(key, f"there is no {'grout' if key.startswith('grout') else 'bar'} it could tell of; take it out")
        return None
    return value


def _sound(form: Form, wall: Wall) -> Wall:
    kind = wall.kind
    if kind.name != "?" and not kind.has("thickness"):
        form.complain("thickness", f'{kind.name} comes in no set thickness; write thickness = "20 cm"')
    thickness = kind.value("thickness") if kind.has("thickness") else math.nan
    if thickness < 0.002 or thickness > 3.0:
        form.complain("thickness", f"{both(thickness)} is out of bounds: from 2 mm to 3 m is wanted")
    return wall


def _mortar(form: Form, kind: Kind) -> Kind | None:
    usual = kind.word("mortar") or None
    if usual is None:
        return form.kind_if("mortar", "mixes")
    return form.kind("mortar", "mixes", otherwise=usual)


def spacing(form: Form, key: str, *, wanted: bool) -> float | None:
    """Distance between things that are there, or nothing."""
    value = form.perhaps(key, METER, low=0.05, high=10.0)
    if wanted and value is None:
        form.complain(key, f'is missing; write {key} = "80 cm"')
    if not wanted and value is not None:
        form.complain(key, "nothing here is set out by it; take it out, or add what it spaces")
        return None
    return value


def piers_of(form: Form, footing: Footing | None) -> Piers:
    """A `[buildup.NAME.piers]` table; pads are as wide as the strip where the plan does not say."""
    width, depth = form.quantity("width", METER, low=0.05, high=3.0), form.quantity("depth", METER, low=0.05, high=3.0)
    strip = footing.width if footing is not None else depth
    return Piers(
        spacing=form.quantity("spacing", METER, low=0.3, high=20.0),
        width=width,
        depth=depth,
        faces=form.word("faces", Faces, otherwise=Faces.BOTH),
        pad_length=form.quantity("pad_length", METER, otherwise=width, low=0.05, high=5.0),
        pad_width=form.quantity("pad_width", METER, otherwise=max(strip, depth), low=0.05, high=5.0),
    )


def complain_of_piers(form: Form, piers: Piers, wall: Wall | None, footing: Footing | None) -> None:
    """What of piers cannot be built."""
    if wall is None or footing is None:
        form.complain("piers", "they stiffen a wall and stand on its footing; write both tables, or take piers out")
        return
    if footing.kind.word("make", "strip") != "strip":
        form.complain("piers", f"their pads are cast with a strip, not with {footing.kind.name}; choose strip-concrete")
    make = wall.kind.word("make", "?")
    if make not in ("?", "units", "rubble"):
        form.complain("piers", f"piers are built of units or stone in mortar, not of {wall.kind.name}; take them out")
    thick = wall.kind.value("thickness") if wall.kind.has("thickness") else math.nan
    between = f"{both(piers.spacing)} for piers {both(piers.width)} wide leaves no wall between them"
    stand_out = f"{both(piers.depth)} in a wall of {both(thick)}; a pier stands out of its wall"
    on_pad = "under a pier of"
    for key, wrong, says in (
        ("depth", piers.depth <= thick, stand_out),
        ("spacing", piers.spacing <= piers.width, between),
        ("pad_length", piers.pad_length < piers.width, f"{both(piers.pad_length)} {on_pad} {both(piers.width)}"),
        ("pad_width", piers.pad_width < piers.depth, f"{both(piers.pad_width)} {on_pad} {both(piers.depth)}"),
        ("pad_width", piers.pad_width < footing.width, f"{both(piers.pad_width)} in a strip of {both(footing.width)}"),
    ):
        if wrong:
            form.complain(f"piers.{key}", says)
