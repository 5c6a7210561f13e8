"""The lower part of a section: ground, trench, footing, wall, what is in it and on it."""

from __future__ import annotations

from pinfold.drawings.callouts import Note
from pinfold.drawings.naming import hatch_of, sizes, told
from pinfold.drawings.scenes import Area, Circle, Point, Polyline
from pinfold.drawings.section_frame import Cut, Parts
from pinfold.plan.buildups import BarPlace, Coat, Coping, Faces, Footing, Grout, Setting, Wall
from pinfold.studies.layout.walls import course_of
from pinfold.studies.quantities.laps import bar_count
from pinfold.studies.stability.bar_places import cover_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter, tape

DEEP: Meter = 0.12
"""Depth of the hatched ground."""


def ground_parts(cut: Cut, parts: Parts) -> None:
    """The ground on both sides, and the trench."""
    footing = cut.buildup.footing
    edge = footing.width / 2 if footing else cut.half
    for start, end in ((cut.left, -edge), (edge, cut.right)):
        ring = ((start, 0.0), (end, 0.0), (end, -DEEP), (start, -DEEP))
        parts.shapes.append(Area(layer="ground", points=ring, hatch="ground", edged=False))
    for start, end in ((cut.left, -cut.half_at(0.0)), (cut.half_at(0.0), cut.right)):
        parts.shapes.append(Polyline(layer="ground", points=((start, 0.0), (end, 0.0))))
    if cut.bottom < 0.0:
        sides = ((-edge, 0.0), (-edge, cut.bottom), (edge, cut.bottom), (edge, 0.0))
        parts.shapes.append(Polyline(layer="trench", points=sides))
        if footing is not None and footing.width > 2 * cut.half + 1e-6 and cut.bed < -1e-3:
            text = told("trench, filled again and tamped", f"{tape(-cut.bottom, cut.system)} deep here")
            parts.notes.append(Note(at=((edge + cut.half) / 2, max(cut.bed, -0.3) / 2), text=text))


def footing_parts(cut: Cut, parts: Parts) -> None:
    """The footing with the bars along it."""
    footing = cut.buildup.footing
    if footing is None:
        return
    half = footing.width / 2
    ring = box(-half, cut.bottom, half, cut.bed)
    parts.shapes.append(Area(layer="footing", points=ring, hatch=hatch_of(footing.kind)))
    under = f"underside at least {tape(footing.below_ground, cut.system)} below ground"
    text = told(footing.kind.says, sizes(cut.system, footing.width, footing.thickness), under)
    parts.notes.append(Note(at=(half * 0.8, cut.bottom + footing.thickness * 0.3), text=text))
    _footing_bars(cut, parts, footing)


def _footing_bars(cut: Cut, parts: Parts, footing: Footing) -> None:
    if not footing.bars or footing.bar is None:
        return
    cover, radius = kind("waste", "bars").value("cover"), footing.bar.value("diameter") / 2
    reach = max(footing.width / 2 - cover - radius, 0.0)
    z = cut.bottom + min(cover + radius, footing.thickness / 2)
    places = [
        reach * (2 * number / (footing.bars - 1) - 1) if footing.bars > 1 else 0.0 for number in range(footing.bars)
    ]
    parts.shapes += [Circle(layer="bar", center=(x, z), radius=radius, filled=True) for x in places]
    count = (
        f"{footing.bars} bars {footing.bar.name} along the footing" if footing.bars > 1 else f"bar {footing.bar.name}"
    )
    text = told(count, f"covered {tape(cover, cut.system)} against the ground")
    parts.notes.append(Note(at=(places[-1], z), text=text))


def wall_parts(cut: Cut, parts: Parts) -> None:
    """The wall with its joints, filling and bars."""
    wall = cut.buildup.wall
    if wall is None:
        return
    hatch, low, high = hatch_of(wall.kind), cut.half_at(cut.bed), cut.half_at(cut.wall_top)
    outline = ((-low, cut.bed), (low, cut.bed), (high, cut.wall_top), (-high, cut.wall_top))
    course = course_of(wall)
    if wall.kind.word("make") == "units":
        _units(cut, parts, wall)
        parts.shapes.append(Polyline(layer="wall", points=outline, closed=True))
        figures = [f"{tape(wall.thickness, cut.system)} thick", f"{cut.courses} courses of {tape(course, cut.system)}"]
    else:
        parts.shapes.append(Area(layer="wall", points=outline, hatch=hatch))
        figures = [f"{tape(wall.thickness, cut.system)} thick"]
        if high < low - 1e-6:
            figures = [f"{figures[0]} at the foot", f"{tape(2 * high, cut.system)} at the top"]
    shell = wall.kind.value("shell") if wall.kind.has("shell") else wall.thickness * 0.3
    at = cut.half_at(cut.wall_top * 0.6) - shell * 0.5
    parts.notes.append(Note(at=(at, cut.wall_top * 0.55), text=told(wall.kind.says, *figures)))
    if wall.mortar is not None and wall.kind.has("joint"):
        level = cut.bed + course * (round((cut.wall_top * 0.3 - cut.bed) / course)) + wall.kind.value("joint") / 2
        text = told(wall.mortar.says, f"joints of {tape(wall.kind.value('joint'), cut.system)}")
        parts.notes.append(Note(at=(cut.half_at(level) - 0.01, level), text=text))
    _steel(cut, parts, wall)


def _units(cut: Cut, parts: Parts, wall: Wall) -> None:
    """Course by course: shells with the filling between them, or solid units side by side, with open joints."""
    course, joint = course_of(wall), wall.kind.value("joint") if wall.kind.has("joint") else 0.0
    shell = wall.kind.value("shell") if wall.kind.words.get("hollow") is True and wall.kind.has("shell") else 0.0
    leaves = max(round(wall.kind.value("leaves")) if wall.kind.has("leaves") else 1, 1)
    spans = _spans(cut.half, shell, leaves, joint)
    if shell and wall.grout is not Grout.NONE:
        filled = cut.wall_top if wall.grout_height is None else min(cut.bed + wall.grout_height, cut.wall_top)
        core = box(-cut.half + shell, cut.bed, cut.half - shell, filled)
        parts.shapes.append(Area(layer="wall", points=core, hatch="concrete", edged=False))
        spacing = f"every {tape(wall.grout_spacing, cut.system)}" if wall.grout_spacing else "every cell"
        says = wall.grout_mix.says if wall.grout_mix else "grout"
        inside = cut.half - shell - 0.012
        parts.notes.append(Note(at=(inside, filled * 0.82), text=told(f"cells filled: {says}", spacing)))
    for number in range(max(cut.courses, 1)):
        foot = cut.bed + number * course + joint
        top = min(cut.bed + (number + 1) * course, cut.wall_top)
        for start, end in spans:
            ring = box(start, foot, end, top)
            parts.shapes.append(Area(layer="wall", points=ring, hatch=hatch_of(wall.kind), edged=False))
            parts.shapes.append(Polyline(layer="course", points=ring, closed=True))


def _spans(half: Meter, shell: Meter, leaves: int, joint: Meter) -> tuple[tuple[Meter, Meter], ...]:
    """What of a course is unit: two shells, or so many leaves with a joint between them."""
    if shell:
        return ((-half, -half + shell), (half - shell, half))
    wide = (2 * half - joint * (leaves - 1)) / leaves
    return tuple((-half + number * (wide + joint), -half + number * (wide + joint) + wide) for number in range(leaves))


def _steel(cut: Cut, parts: Parts, wall: Wall) -> None:
    if wall.bar is not None:
        _upright(cut, parts, wall, wall.bar)
    if wall.course_bar is not None and wall.course_bar_every:
        _course_bars(cut, parts, wall.course_bar, wall.course_bar_every)
    if wall.membrane:
        z = cut.bed + (wall.membrane_at or 0.0)
        parts.shapes.append(Polyline(layer="coat", points=((-cut.half, z), (cut.half, z))))
        parts.notes.append(Note(at=(cut.half, z), text="damp-proof sheet through the wall"))


def _upright(cut: Cut, parts: Parts, wall: Wall, bar: Kind) -> None:
    """Upright bars, from the footing's top with a dowel out of it, or out of the footing in one piece."""
    cover, radius = kind("waste", "bars").value("cover"), bar.value("diameter") / 2
    in_footing = cut.buildup.footing is not None and cut.buildup.footing.kind.word("make") != "rubble-trench"
    foot = min(cut.bottom + cover, cut.bed) if in_footing else cut.bed
    dowels, head = wall.dowels and foot < cut.bed, max(cut.wall_top - cover, cut.bed)
    head = head if wall.bar_height is None else min(head, cut.bed + wall.bar_height)
    places = _bar_places(cut, wall, bar)
    for x in places:
        ring = box(x - radius, cut.bed if dowels else foot, x + radius, head)
        parts.shapes.append(Area(layer="bar", points=ring, hatch="steel"))
    spacing = f"every {tape(wall.bar_spacing, cut.system)}" if wall.bar_spacing else ""
    says = f"upright bar, {bar.name}" if len(places) == 1 else f"upright bars near both faces, {bar.name}"
    parts.notes.append(Note(at=(places[-1], cut.wall_top * 0.12), text=told(says, spacing)))
    if dowels:
        _dowels(cut, parts, bar, places, foot)


def _dowels(cut: Cut, parts: Parts, bar: Kind, places: tuple[Meter, ...], foot: Meter) -> None:
    """A hooked dowel beside each upright bar."""
    wall, radius = cut.buildup.wall, bar.value("diameter") / 2
    lap = bar_count(cut.system, bar).lap if wall is None or wall.lap is None else wall.lap
    hook, high = kind("waste", "bars").value("hook") * 2 * radius, min(cut.bed + lap, cut.wall_top)
    for x in places:
        left, right = x + radius, x + 3 * radius
        bent = ((right, high), (left, high), (left, foot), (right + hook, foot), (right + hook, foot + 2 * radius))
        parts.shapes.append(Area(layer="bar", points=(*bent, (right, foot + 2 * radius)), hatch="none"))
    figures = (f"lapped {tape(lap, cut.system)} with the upright bar", f"leg of {tape(hook, cut.system)} at its foot")
    text = told(f"dowel out of the footing, {bar.name}", *figures)
    parts.notes.append(Note(at=(places[-1] + 2 * radius, cut.bed + lap * 0.5), text=text))


def _course_bars(cut: Cut, parts: Parts, bar: Kind, every: Meter) -> None:
    z, radius = cut.bed, max(bar.value("diameter") / 2, 0.004)
    while (z := z + every) < cut.wall_top - 1e-6:
        for x in (-cut.half * 0.6, cut.half * 0.6):
            parts.shapes.append(Circle(layer="bar", center=(x, z), radius=radius, filled=True))
    text = told(f"along the courses: {bar.says}", f"every {tape(every, cut.system)} of height")
    parts.notes.append(Note(at=(cut.half * 0.6, cut.bed + every), text=text))


def _bar_places(cut: Cut, wall: Wall, bar: Kind) -> tuple[Meter, ...]:
    """In the middle of the wall, beside the post that stands in the same cell, or near a face."""
    posts, radius = cut.buildup.posts, bar.value("diameter") / 2
    near = max(cut.half - cover_of(bar).value - radius, 0.0)
    if wall.bar_place is not BarPlace.MIDDLE:
        return {BarPlace.OUTER: (-near,), BarPlace.INNER: (near,), BarPlace.BOTH: (-near, near)}[wall.bar_place]
    if posts is None or posts.setting is not Setting.WALL:
        return (0.0,)
    return (min(cut.post_half + radius + 0.006, cut.half * 0.7),)


def coat_parts(cut: Cut, parts: Parts) -> None:
    """Coats at their true thickness from the ground up, each on the one before; over the top where they go there."""
    wall = cut.buildup.wall
    if wall is None:
        return
    laid = {Faces.OUTER: 0.0, Faces.INNER: 0.0}
    over = 0.0
    for number, coat in enumerate(cut.buildup.coats):
        covered = [face for face in laid if coat.faces in (face, Faces.BOTH)]
        top = over + coat.thickness if coat.top and cut.buildup.coping is None else over
        for face in covered:
            ring = _coat_ring(cut, face, (laid[face], laid[face] + coat.thickness), top)
            parts.shapes.append(Area(layer="coat", points=ring, hatch="plaster"))
            laid[face] += coat.thickness
        if top > over:
            ring = box(-cut.half_at(cut.wall_top), cut.wall_top + over, cut.half_at(cut.wall_top), cut.wall_top + top)
            parts.shapes.append(Area(layer="coat", points=ring, hatch="plaster"))
        over = top
        parts.notes.append(_coat_note(cut, coat, laid, number))


def _coat_ring(cut: Cut, face: Faces, reach: tuple[Meter, Meter], rise: Meter) -> tuple[Point, ...]:
    sign = 1 if face is Faces.INNER else -1
    low, high = cut.half_at(0.0), cut.half_at(cut.wall_top)
    return (
        (sign * (low + reach[0]), 0.0), (sign * (low + reach[1]), 0.0), (sign * (high + reach[1]), cut.wall_top + rise),
        (sign * (high + reach[0]), cut.wall_top + rise),
    )  # fmt: skip


def _coat_note(cut: Cut, coat: Coat, laid: dict[Faces, Meter], number: int) -> Note:
    where = {Faces.BOTH: "both faces", Faces.OUTER: "outer face", Faces.INNER: "inner face"}[coat.faces]
    if coat.top and cut.buildup.coping is None:
        where += " and over the top"
    text = told(coat.kind.says, tape(coat.thickness, cut.system), where)
    if coat.mesh is not None:
        text += f", with {coat.mesh.says} in it"
    z = cut.wall_top * (0.75 - 0.1 * number)
    face = Faces.OUTER if coat.faces is Faces.OUTER else Faces.INNER
    x = cut.half_at(z) + laid[face] - coat.thickness / 2
    return Note(at=(-x if face is Faces.OUTER else x, z), text=text)


def coping_parts(cut: Cut, parts: Parts) -> None:
    """The coping on the wall's top."""
    coping = cut.buildup.coping
    if coping is None:
        return
    half = coping.width / 2
    ring = box(-half, cut.wall_top, half, cut.wall_top + coping.thickness)
    parts.shapes.append(Area(layer="wall", points=ring, hatch=hatch_of(coping.kind)))
    figures = (sizes(cut.system, coping.width, coping.thickness), _overhang(cut, coping))
    at = (half * 0.9, cut.wall_top + coping.thickness / 2)
    parts.notes.append(Note(at=at, text=told(coping.kind.says, *figures)))


def _overhang(cut: Cut, coping: Coping) -> str:
    """How far a coping stands out past the finished faces."""
    bare = coping.width / 2 - cut.half_at(cut.wall_top)
    outer, inner = (tape(bare - cut.buildup.coats_thickness(face), cut.system) for face in (Faces.OUTER, Faces.INNER))
    if outer == inner:
        return f"{outer} past each finished face"
    return f"past the finished faces {outer} outside, {inner} inside"


def box(left: Meter, foot: Meter, right: Meter, top: Meter) -> tuple[Point, ...]:
    """An upright rectangle as a ring."""
    return ((left, foot), (right, foot), (right, top), (left, top))
