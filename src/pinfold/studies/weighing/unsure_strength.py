"""What the strength to spare hangs on, and the plan with such figures so many times as large."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pinfold.figures import Figure
from pinfold.plan.buildups import Buildup
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.place import Family
from pinfold.studies.lessons.applying import STRENGTHS
from pinfold.studies.weighing.unsure import Unsure, by_scatter, by_table
from pinfold.tables.shelf import Kind

_GROUND, _GRIP = ("bearing", "lateral"), ("friction", "cohesion")
_MASS = ("density", "mass_per_area", "mass_per_area_least", "unit_mass")


def unsure_of_strength(plan: Enclosure) -> tuple[Unsure, ...]:
    """What the strength to spare hangs on."""
    used = [plan.buildups[name] for name in dict.fromkeys(run.buildup for _, run in plan.runs) if name is not None]
    walls = [buildup.wall for buildup in used if buildup.wall is not None]
    bed = "bed-tension-eu" if plan.family is Family.EU else "bed-tension-us"
    last = "-cast" if any(wall.kind.word("make") != "units" for wall in walls) else ""
    mass = by_scatter("mass", "mass of the wall", f"density{last}")
    own = (mass, by_scatter("strength", "strength of the wall", bed))
    posts = any(buildup.posts is not None for buildup in used)
    return (
        by_scatter("wind", "wind pressure", "storms"), by_table("ground"), by_table("grip"), *(own if walls else ()),
        *((by_scatter("steel", "strength of posts and rails", "yield"),) if posts else ()),
    )  # fmt: skip


def with_factors(plan: Enclosure, factors: Mapping[str, float]) -> Enclosure:
    """The plan with its figures so many times as large."""
    place, soil = plan.place, plan.place.soil
    if soil is not None:
        soil = _times(soil, dict.fromkeys(_GROUND, factors["ground"]) | dict.fromkeys(_GRIP, factors["grip"]))
    speed = None if place.wind_speed is None else place.wind_speed * factors["wind"] ** 0.5
    buildups = {name: _buildup(each, factors) for name, each in plan.buildups.items()}
    return replace(plan, place=replace(place, soil=soil, wind_speed=speed), buildups=buildups)


def _buildup(buildup: Buildup, factors: Mapping[str, float]) -> Buildup:
    wall, posts = buildup.wall, buildup.posts
    if wall is not None:
        strong = {name: factors.get("strength", 1.0) for name in wall.kind.figures if name.startswith(STRENGTHS)}
        wall = replace(wall, kind=_times(wall.kind, strong | dict.fromkeys(_MASS, factors.get("mass", 1.0))))
    steel = {"allowable": factors.get("steel", 1.0)}
    if posts is not None:
        stout = _times(posts.stout, steel) if posts.stout is not None else None
        posts = replace(posts, kind=_times(posts.kind, steel), stout=stout)
    rails = tuple(replace(rail, kind=_times(rail.kind, steel)) for rail in buildup.rails)
    return replace(buildup, wall=wall, posts=posts, rails=rails)


def _times(of: Kind, factors: Mapping[str, float]) -> Kind:
    """A kind with some of its figures so many times as large."""
    changed: dict[str, Figure] = {
        name: replace(of.figures[name], value=of.value(name) * factor)
        for name, factor in factors.items() if of.has(name)
    }  # fmt: skip
    return replace(of, figures={**of.figures, **changed}) if changed else of
