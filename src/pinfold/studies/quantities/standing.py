"""Posts, the concrete round them, and what ties mesh and wires to them."""

from __future__ import annotations

import math
from collections.abc import Iterable

from pinfold.formulas import concrete_small
from pinfold.plan.buildups import Buildup
from pinfold.studies.layout.records import Post
from pinfold.studies.quantities.fence import is_wire
from pinfold.studies.quantities.lines import Count, line, plural
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.stocked import stock_length
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, METER, RATIO, CubicMeter, Meter, SquareMeter, System, tape

_STEEL = 7850.0
"""Density of steel, kg/m3, for the section of posts of which only the mass is known."""
TAPE_STEP = {System.US: 0.0254 / 16, System.METRIC: 0.001}
"""What a tape shows: lengths to cut are rounded up to it."""


def cut_length(length: Meter, system: System) -> Meter:
    """A length to cut, rounded up to the tape: a sixteenth of an inch, or a millimeter."""
    return math.ceil(length / TAPE_STEP[system] - 1e-6) * TAPE_STEP[system]


def posts(found: Iterable[Post], *, place: str, system: System, layer: str = "posts") -> tuple[Quantity, ...]:
    """Posts of one place by kind and length to cut."""
    groups: dict[tuple[str, Meter], list[Post]] = {}
    for post in found:
        groups.setdefault((post.kind.name, cut_length(post.length, system)), []).append(post)
    return tuple(_posts(group, length, place, system=system, layer=layer) for (_, length), group in groups.items())


def _posts(group: list[Post], length: Meter, place: str, *, system: System, layer: str) -> Quantity:
    note = f"{plural(len(group), 'post')} of {tape(length, system)}"
    stock = stock_length(group[0].kind, length)
    if stock is not None:
        note += f", each out of {tape(stock, system)}"
    elif "lengths" in group[0].kind.words:
        note += ", longer than any in stock"
    return line(
        kind=group[0].kind, layer=layer, place=place, unit=METER,
        count=lambda: Count(net=math.fsum(post.length for post in group), note=note),
    )  # fmt: skip


def collars(found: Iterable[Post], *, place: str, system: System) -> tuple[Quantity, ...]:
    """Holes and concrete of the posts that stand in collars."""
    held = [post for post in found if post.collar > 0 and post.hole > 0]
    if not held:
        return ()
    mix, usual = kind("mixes", kind("waste", "collar").word("mix")), kind("waste", "collar").figure("waste")
    sizes = ", ".join(dict.fromkeys(f"{tape(post.collar, system)} x {tape(post.hole, system)}" for post in held))
    note = f"{plural(len(held), 'round hole')} of {sizes}"
    return (
        line(
            kind=kind("works", "hole"), layer="trench", place=place, unit=CUBIC_METER,
            count=lambda: Count(net=math.fsum(map(hole_volume, held)), note=note),
        ),
        line(
            kind=mix, layer="collars", place=place, unit=CUBIC_METER, waste=usual,
            count=lambda: Count(net=math.fsum(map(collar_volume, held)), note=f"{note}, posts taken off"),
        ),
    )  # fmt: skip


def hole_volume(post: Post) -> CubicMeter:
    """Of the round hole its collar fills."""
    return concrete_small.collar_volume(hole=post.collar, depth=post.hole, section=0.0, buried=0.0)


def collar_volume(post: Post) -> CubicMeter:
    """Of the concrete in that hole, the post taken off.

    Raises:
        NotFoundError: the post's section is not known.
        OutOfRangeError: the post fills its hole.
    """
    return concrete_small.collar_volume(
        hole=post.collar, depth=post.hole, section=post_section(post.kind), buried=min(post.hole, post.length)
    )


def post_section(kind: Kind) -> SquareMeter:
    """Ground plan of a post, a pipe taken as closed.

    Raises:
        NotFoundError: neither its width nor its mass is known.
    """
    if kind.word("section") == "tee":
        return kind.value("mass_per_length") / _STEEL
    width = kind.value("width")
    return width * width if kind.word("section") == "square" else math.pi / 4 * width**2


def ties(reach: Reach) -> tuple[Quantity, ...]:
    """Tie wire or staples of one stretch: mesh to posts, mesh to rails and wires, wires to posts."""
    buildup = reach.stretch.buildup
    if buildup.mesh is None and not buildup.rails:
        return ()
    wooden = any(post.kind.word("material") == "wood" for post in reach.posts if not post.gate)
    on_posts, rails_wood, rails_steel = _places(reach, buildup, kind("fasteners", "staple" if wooden else "tie-wire"))
    staples = rails_wood + (on_posts if wooden else 0.0)
    wires = rails_steel + (0.0 if wooden else on_posts)
    found = []
    if staples:
        found.append(_staples(reach, staples))
    if wires:
        found.append(_wires(reach, wires))
    return tuple(found)


def _places(reach: Reach, buildup: Buildup, at_posts: Kind) -> tuple[float, float, float]:
    """(fastenings on posts, on rails of wood, on rails and wires of steel)."""
    length, bays = reach.course_length, reach.bays
    count = len(bays) + 1
    wires = sum(is_wire(rail.kind) for rail in buildup.rails)
    on_posts = float(count * wires)
    wood = steel = 0.0
    if buildup.mesh is not None:
        high = buildup.mesh.height + buildup.mesh.lap
        on_posts += count * (math.floor(high / at_posts.value("on_posts") + 1e-9) + 1)
        wooden = sum(rail.kind.word("material") == "wood" for rail in buildup.rails)
        staple, wire = kind("fasteners", "staple"), kind("fasteners", "tie-wire")
        wood = wooden * math.ceil(length / staple.value("on_rails") - 1e-9)
        steel = (len(buildup.rails) - wooden) * math.ceil(length / wire.value("on_rails") - 1e-9)
    return on_posts, wood, steel


def _staples(reach: Reach, number: float) -> Quantity:
    staple = kind("fasteners", "staple")
    return line(
        kind=staple, layer="ties", place=reach.stretch.name, unit=RATIO, waste=staple.figure("waste"),
        count=lambda: Count(net=number, note=f"{number:.0f} staples on posts and rails of wood"),
    )  # fmt: skip


def _wires(reach: Reach, number: float) -> Quantity:
    wire = kind("fasteners", "tie-wire")
    length = wire.value("length")
    return line(
        kind=wire, layer="ties", place=reach.stretch.name, unit=METER, waste=wire.figure("waste"),
        count=lambda: Count(net=number * length, note=f"{number:.0f} ties of {tape(length, reach.system)}"),
    )  # fmt: skip
