"""Changes of a wall and its footing."""

from __future__ import annotations

from pinfold.plan.buildups import Buildup, Grout, Wall
from pinfold.plan.changes import Change, Put
from pinfold.plan.enclosure import Enclosure
from pinfold.sources import Standing
from pinfold.studies.mending.ladders import FINE, INCH, LARGE, SMALL, falling, length, rising, writes
from pinfold.studies.mending.records import Lever
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import METER, Meter, System, read

_SPACINGS = {
    System.US: tuple(number * INCH for number in (48, 40, 32, 24, 16, 8)),
    System.METRIC: (1.2, 1.0, 0.8, 0.6, 0.4, 0.2),
}
_USUAL_BAR = {System.US: "#4", System.METRIC: "12 mm"}
_WIDE: Meter = 1.5
_LEAST_SHARE = 0.4
"""Share of its height below which a wall or mesh is not made lower: it would be another enclosure."""


def is_another(plan: Enclosure, change: Change) -> bool:
    """Whether a change lowers the wall or the mesh of a build-up so far that it would be another enclosure."""
    return any(_too_low(plan.buildups[put.path[1]], put) for put in change if put.path[0] == "buildup")


def _too_low(buildup: Buildup, put: Put) -> bool:
    heights: dict[tuple[str, ...], Meter] = {
        ("wall", "height"): buildup.wall.height if buildup.wall else 0.0,
        ("mesh", "height"): buildup.mesh.height if buildup.mesh else 0.0,
    }
    stands = heights.get(put.path[2:])
    return stands is not None and read(str(put.text), like=METER) < (_LEAST_SHARE - 0.01) * stands


def _path(name: str, *keys: str) -> tuple[str, ...]:
    return ("buildup", name, *keys)


def footing_wider(plan: Enclosure, name: str) -> Lever | None:
    """Wider, up to three times as wide, and always up to where a wider one would be another kind of work."""
    footing = plan.buildups[name].footing
    if footing is None:
        return None
    texts = rising(footing.width, max(3 * footing.width, _WIDE), step=SMALL[plan.units], system=plan.units)
    return Lever("a wider footing", writes(_path(name, "footing", "width"), texts))


def footing_deeper(plan: Enclosure, name: str) -> Lever | None:
    """Deeper below the ground, by up to a meter."""
    footing = plan.buildups[name].footing
    if footing is None:
        return None
    most = min(footing.below_ground + 1.0, 2.5)
    texts = rising(footing.below_ground, most, step=SMALL[plan.units], system=plan.units)
    return Lever("a deeper footing", writes(_path(name, "footing", "below_ground"), texts))


def footing_thicker(plan: Enclosure, name: str) -> Lever | None:
    """Thicker, up to three times; its underside goes down with it where it would stand out of the ground."""
    footing = plan.buildups[name].footing
    if footing is None:
        return None
    texts = rising(footing.thickness, 3 * footing.thickness, step=SMALL[plan.units], system=plan.units)
    return Lever("a thicker footing", writes(_path(name, "footing", "thickness"), texts))


def wall_lower(plan: Enclosure, name: str) -> Lever | None:
    """Lower by whole courses, or by a hand's breadth where it has none."""
    wall = plan.buildups[name].wall
    if wall is None:
        return None
    course = _course(wall)
    if course <= 0:
        texts = falling(wall.height, _LEAST_SHARE * wall.height, step=SMALL[plan.units], system=plan.units)
    else:
        count = int((1 - _LEAST_SHARE) * wall.height / course)
        texts = tuple(length(wall.height - number * course, plan.units) for number in range(1, count + 1))
    return Lever("a lower wall", writes(_path(name, "wall", "height"), texts))


def _course(wall: Wall) -> Meter:
    if not wall.kind.has("unit_height"):
        return 0.0
    return wall.kind.value("unit_height") + (wall.kind.value("joint") if wall.kind.has("joint") else 0.0)


def mesh_lower(plan: Enclosure, name: str) -> Lever | None:
    """Less mesh above, its posts and top rails with it."""
    buildup = plan.buildups[name]
    if buildup.mesh is None or buildup.posts is None:
        return None
    high, step = buildup.mesh.height, LARGE[plan.units]
    count = int((1 - _LEAST_SHARE) * high / step + 1e-6)
    return Lever("less mesh above", tuple(_lowered(plan, buildup, number * step) for number in range(1, count + 1)))


def _lowered(plan: Enclosure, buildup: Buildup, by: Meter) -> Change:
    assert buildup.mesh is not None
    assert buildup.posts is not None
    name, system = buildup.name, plan.units
    top = buildup.posts.height - by
    puts = [
        Put(_path(name, "mesh", "height"), length(buildup.mesh.height - by, system)),
        Put(_path(name, "posts", "height"), length(top, system)),
    ]
    puts += [
        Put(_path(name, "rail", str(number), "at"), length(max(top - (buildup.posts.height - rail.at), 0.0), system))
        for number, rail in enumerate(buildup.rails) if rail.at > top
    ]  # fmt: skip
    return tuple(puts)


def wall_thicker(plan: Enclosure, name: str) -> Lever | None:
    """Thicker: its own thickness where the plan gives one or it is cast, else the next units on the shelf."""
    wall = plan.buildups[name].wall
    if wall is None:
        return None
    given = wall.kind.has("thickness") and wall.kind.figure("thickness").standing is Standing.GIVEN
    if given or wall.kind.word("make") != "units":
        texts = rising(wall.thickness, 2.5 * wall.thickness, step=FINE[plan.units], system=plan.units)
        return Lever("a thicker wall", writes(_path(name, "wall", "thickness"), texts))
    return Lever("a wall of thicker units", writes(_path(name, "wall", "kind"), _thicker_units(wall.kind)))


def _thicker_units(kind: Kind) -> tuple[str, ...]:
    alike = [
        other for other in shelf("walls").values()
        if all(other.words.get(word) == kind.words.get(word) for word in ("make", "material", "hollow", "bedding"))
        and other.has("thickness") and other.value("thickness") > kind.value("thickness") + INCH / 4
        and other.figures.get("unit_height") and other.value("unit_height") == kind.value("unit_height")
    ]  # fmt: skip
    return tuple(other.name for other in sorted(alike, key=lambda other: other.value("thickness")))


def bars_closer(plan: Enclosure, name: str) -> Lever | None:
    """Upright bars nearer together, and the cells they stand in grouted."""
    wall = plan.buildups[name].wall
    if wall is None or wall.bar is None or wall.bar_spacing is None:
        return None
    nearer = (spacing for spacing in _SPACINGS[plan.units] if spacing < wall.bar_spacing - INCH / 4)
    return Lever("bars nearer together", tuple(_barred(plan, name, wall, spacing) for spacing in nearer))


def _barred(plan: Enclosure, name: str, wall: Wall, spacing: Meter) -> Change:
    text = length(spacing, plan.units)
    puts = [Put(_path(name, "wall", "bar_spacing"), text)]
    grouted = wall.grout_spacing if wall.grout is Grout.PARTIAL else None
    if grouted is not None and grouted > spacing + INCH / 4:
        puts.append(Put(_path(name, "wall", "grout_spacing"), text))
    return tuple(puts)


def bars_stouter(plan: Enclosure, name: str) -> Lever | None:
    """The next stouter bars, up to half again as thick."""
    wall = plan.buildups[name].wall
    if wall is None or wall.bar is None:
        return None
    here = wall.bar.value("diameter")
    metric = wall.bar.name.endswith("mm")
    stouter = [
        bar.name for bar in shelf("bars").values()
        if bar.has("diameter") and here < bar.value("diameter") <= 1.6 * here and bar.name.endswith("mm") is metric
        and (metric or bar.name.startswith("#"))
    ]  # fmt: skip
    return Lever("stouter bars", writes(_path(name, "wall", "bar"), stouter))


def bars_added(plan: Enclosure, name: str) -> Lever | None:
    """Upright bars lapped with dowels out of the footing, where there are none; hollow units grouted around them."""
    buildup = plan.buildups[name]
    wall = buildup.wall
    if wall is None or wall.bar is not None or buildup.footing is None or buildup.footing.kind.word("make") != "strip":
        return None
    hollow = bool(wall.kind.words.get("hollow", False))
    if not hollow and wall.kind.word("make") != "poured":
        return None
    return Lever("bars out of the footing", tuple(_with_bars(plan, name, wall, each) for each in _SPACINGS[plan.units]))


def _with_bars(plan: Enclosure, name: str, wall: Wall, spacing: Meter) -> Change:
    text = length(spacing, plan.units)
    puts = [
        Put(_path(name, "wall", "bar"), _USUAL_BAR[plan.units]), Put(_path(name, "wall", "bar_spacing"), text),
        Put(_path(name, "wall", "dowels"), text=True),
    ]  # fmt: skip
    if wall.kind.words.get("hollow", False) and wall.grout is not Grout.FULL:
        puts += [Put(_path(name, "wall", "grout"), "partial"), Put(_path(name, "wall", "grout_spacing"), text)]
    return tuple(puts)


def joints_closer(plan: Enclosure, name: str) -> Lever | None:
    """Control joints nearer together."""
    wall = plan.buildups[name].wall
    if wall is None:
        return None
    start = wall.joints if wall.joints is not None else 9.0
    texts = falling(start, 1.0, step=2 * LARGE[plan.units], system=plan.units)
    return Lever("joints nearer together", writes(_path(name, "wall", "joints"), texts))
