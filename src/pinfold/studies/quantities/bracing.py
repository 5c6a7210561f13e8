"""Braces of a run, and what holds its posts on the top of a wall."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import partial

from pinfold.plan.buildups import Setting
from pinfold.plan.fences import Anchors, BraceForm
from pinfold.studies.layout.bracing import BracePlace, braces_of
from pinfold.studies.layout.records import Layout, Post
from pinfold.studies.quantities.lines import Count, habit, line, plural, waste_of
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.standing import collars, cut_length, posts
from pinfold.studies.quantities.stocked import longest_stock
from pinfold.tables.shelf import kind
from pinfold.units import METER, RATIO, Meter, System, tape


def braces(layout: Layout, run: str) -> tuple[Quantity, ...]:
    """Posts, rails or struts, wires and feet of all braces of a run."""
    found = [place for place in braces_of(layout) if place.stretch.run == run]
    if not found:
        return ()
    system = layout.plan.units
    own = tuple(place.brace_post for place in found if place.brace_post is not None)
    return (
        *posts(own, place=run, system=system, layer="braces"), *collars(own, place=run, system=system),
        *_poles(found, run, system), *_wires(found, run, system), *_feet(found, run),
    )  # fmt: skip


def pole_length(place: BracePlace) -> Meter:
    """Of the rail, or of the strut."""
    return place.slant if place.brace.form is BraceForm.STRUT else place.length


def brace_wire_length(place: BracePlace) -> Meter:
    """Of the diagonal in all its strands, tied off at both ends; 0 for a strut."""
    return place.brace.strands * place.slant + 2 * habit("wire", "end") if place.brace.wire is not None else 0.0


def _poles(found: list[BracePlace], run: str, system: System) -> tuple[Quantity, ...]:
    groups: dict[tuple[str, Meter], list[BracePlace]] = {}
    for place in found:
        groups.setdefault((place.brace.rail.name, cut_length(pole_length(place), system)), []).append(place)
    return tuple(_pole(group, length, run, system) for (_, length), group in groups.items())


def _pole(group: list[BracePlace], length: Meter, run: str, system: System) -> Quantity:
    own = group[0].brace
    says = "strut" if own.form is BraceForm.STRUT else "brace rail"
    note = f"{plural(len(group), says)} of {tape(length, system)}"
    if longest_stock(own.rail) < length - 1e-9:
        note += ", longer than any in stock"
    return line(
        kind=own.rail, layer="braces", place=run, unit=METER,
        count=lambda: Count(net=math.fsum(map(pole_length, group)), note=note),
    )  # fmt: skip


def _wires(found: list[BracePlace], run: str, system: System) -> tuple[Quantity, ...]:
    by_wire: dict[str, list[BracePlace]] = {}
    for place in found:
        if place.brace.wire is not None:
            by_wire.setdefault(place.brace.wire.name, []).append(place)
    return tuple(
        line(
            kind=own, layer="braces", place=run, unit=METER, waste=waste_of(own, "wire"),
            count=partial(_wired, group, system),
        )
        for group in by_wire.values() if (own := group[0].brace.wire) is not None
    )  # fmt: skip


def _wired(found: list[BracePlace], system: System) -> Count:
    long, strands = tape(max(place.slant for place in found), system), plural(found[0].brace.strands, "strand")
    note = f"{plural(len(found), 'diagonal')} of {strands}, up to {long}, tied off at both ends"
    return Count(net=math.fsum(map(brace_wire_length, found)), note=note)


def _feet(found: list[BracePlace], run: str) -> tuple[Quantity, ...]:
    struts = sum(place.brace.form is BraceForm.STRUT for place in found)
    if not struts:
        return ()
    foot = kind("fasteners", "strut-foot")
    return (
        line(kind=foot, layer="braces", place=run, unit=RATIO,
             count=lambda: Count(net=float(struts), note=f"under {plural(struts, 'strut')}")),
    )  # fmt: skip


def anchoring(layout: Layout, run: str) -> tuple[Quantity, ...]:
    """Plates and anchors of all posts of a run that stand on the top of its wall."""
    buildup = next((stretch.buildup for stretch in layout.stretches if stretch.run == run), None)
    own = buildup.posts if buildup is not None else None
    if own is None or own.anchors is None or own.setting is not Setting.WALL_TOP:
        return ()
    count = _on_top(post for post in layout.posts if post.run == run)
    return _anchored(own.anchors, count, run, layout.plan.units) if count else ()


def _on_top(found: Iterable[Post]) -> int:
    return sum(not post.gate and post.hole <= 0 for post in found)


def _anchored(anchors: Anchors, count: int, run: str, system: System) -> tuple[Quantity, ...]:
    size = f"{tape(anchors.diameter, system)} thick, {tape(anchors.depth, system)} deep"
    plate, own = kind("fasteners", "post-plate"), kind("fasteners", f"anchor-{anchors.hold.value}")
    return (
        line(kind=plate, layer="anchors", place=run, unit=RATIO,
             count=lambda: Count(net=float(count), note=f"under {plural(count, 'post')}")),
        line(kind=own, layer="anchors", place=run, unit=RATIO,
             count=lambda: Count(
                 net=float(count * anchors.count), note=f"{anchors.count} under each of {plural(count, 'post')}, {size}"
             )),
    )  # fmt: skip
