"""Concrete for small jobs: parts by volume, the masses of the companion table, and damp sand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pinfold.formulas.concrete_mix import Air
from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import kind
from pinfold.units import KgPerCubicMeter, Meter, Ratio

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
