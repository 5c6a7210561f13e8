"""Concrete for small jobs: parts by volume, the masses of the companion table, damp sand, and what a post takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pinfold.formulas.concrete_mix import Air
from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import kind
from pinfold.units import CubicMeter, KgPerCubicMeter, Meter, Ratio, SquareMeter

Dampness = Literal["dry", "damp", "very-wet"]


@dataclass(frozen=True, kw_only=True)
class SmallParts:
    """Parts by loose volume for a small job, cement 1, sand wet."""

    sand: Ratio
    gravel: Ratio
    water: Ratio


@dataclass(frozen=True, kw_only=True)
class SmallMasses:
    """Masses per volume of concrete for a small job, sand and gravel wet."""

    cement: KgPerCubicMeter
    sand: KgPerCubicMeter
    gravel: KgPerCubicMeter
    water: KgPerCubicMeter


def small_job_parts(*, size: Meter, air: Air) -> SmallParts:
    """Parts by loose volume for a small job: sand 2-1/4 with entrained air and 2-1/2 without, water half a part.

    Args:
        size: largest nominal stone [m]
        air: plain or entrained

    Returns:
        sand, gravel and water to one part of cement (see SmallParts)

    Raises:
        OutOfRangeError: the size lies outside the table.

    Range:
        Stone 3/8 to 1-1/2 in, refused outside. Sand wet; makes about two thirds of the loose volumes added up.

    Source:
        MASONRY-AND-CONCRETE, p. 43, figure 3-3 B (read)

    Example:
        >>> small_job_parts(size=0.01905, air="plain")
        SmallParts(sand=2.5, gravel=2.5, water=0.5)
    """
    sand = 2.25 if air == "entrained" else 2.5
    return SmallParts(sand=sand, gravel=grid("parts-gravel").at(size), water=0.5)


def small_job_masses(*, size: Meter, air: Air) -> SmallMasses:
    """Masses for a small job by the companion table, sand and gravel wet, with the water to add.

    Args:
        size: largest nominal stone [m]
        air: plain or entrained

    Returns:
        cement, wet sand, wet gravel and water per volume of concrete (see SmallMasses)

    Raises:
        OutOfRangeError: the size lies outside the table.

    Range:
        Stone 3/8 to 1-1/2 in, refused outside. For crushed stone 3 lb/ft3 move from the gravel to the sand.

    Source:
        MASONRY-AND-CONCRETE, p. 43, figure 3-3 A (read)

    Example:
        >>> small_job_masses(size=0.01905, air="plain")
        SmallMasses(cement=400.5, sand=752.9, gravel=1041.2, water=160.2)
    """
    places = {"cement": "", "sand": f"-{air}", "gravel": "", "water": f"-{air}"}
    return SmallMasses(**{part: grid(f"masses-{part}{which}").at(size) for part, which in places.items()})


def sand_as_it_lies(*, dry: KgPerCubicMeter, dampness: Dampness) -> KgPerCubicMeter:
    """Sand to weigh for a small job when it is not dry: 2 lb/ft3 of concrete more when damp, 4 when very wet.

    Args:
        dry: dry sand per volume of concrete [kg/m3]
        dampness: dry, damp or very-wet

    Returns:
        sand to weigh as it lies, per volume of concrete [kg/m3]

    Raises:
        OutOfRangeError: the mass is negative.

    Range:
        mass ≥ 0, refused below. Damp sand feels moist and leaves the palm clean, very wet sand drips and shines.

    Source:
        ACI-211, table A.7.1 (read)

    Example:
        >>> sand_as_it_lies(dry=750.0, dampness="damp")
        782.0
    """
    within(dry, "dry sand in kg/m3", low=0.0)
    more = kind("concrete", "small-job-sand")
    return dry if dampness == "dry" else dry + more.value(dampness.replace("-", "_"))


def collar_volume(*, hole: Meter, depth: Meter, section: SquareMeter, buried: Meter) -> CubicMeter:
    """Concrete round a post in a round hole: V = π/4 d² h − A t.

    Args:
        hole: d, width of the hole [m]
        depth: h, depth of the hole [m]
        section: A, ground plan of the post; 0 for the hole alone [m2]
        buried: t, length of the post in the concrete [m]

    Returns:
        V, concrete to fill the hole [m3]

    Raises:
        OutOfRangeError: a length is negative, the post stands deeper than its hole or is as wide as it.

    Range:
        d > 0, h ≥ 0, 0 ≤ A < π/4 d², 0 ≤ t ≤ h; refused outside. Holes are dug wider than drawn: add waste.

    Source:
        POST-HOLE-ARTICLE, the round hole (read)
        STATICS, the post taken off (derived)

    Example:
        >>> collar_volume(hole=0.3, depth=0.8, section=0.0081, buried=0.8)
        0.0501
    """
    area = math.pi / 4 * within(hole, "width of the hole in m", above=0.0) ** 2
    within(depth, "depth of the hole in m", low=0.0)
    within(section, "ground plan of the post in m2", low=0.0, high=area)
    return area * depth - section * within(buried, "post in the concrete in m", low=0.0, high=depth * (1 + 1e-9))
