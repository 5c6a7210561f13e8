"""Portland cement plaster: coverage, volume of a coat, proportions and thickness asked for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.tables.shelf import kind
from pinfold.units import CubicMeter, Meter, Ratio, SquareMeter


@dataclass(frozen=True, kw_only=True)
class Proportions:
    """Lime per cement, and sand per all that binds, by loose volume: least and most."""

    lime_low: Ratio
    lime_high: Ratio
    sand_low: Ratio
    sand_high: Ratio


def coverage(*, volume: CubicMeter, thickness: Meter) -> SquareMeter:
    """Wall a volume of plaster covers: A = V / t (12 V / t in feet and inches).

    Args:
        volume: V, volume of plaster [m3]
        thickness: t, thickness of the coat [m]

    Returns:
        A, area covered, no waste [m2]

    Raises:
        OutOfRangeError: the volume is negative or the thickness not above 0.

    Range:
        V ≥ 0, t > 0, refused otherwise.

    Source:
        PCA-EB049 (read)

    Example:
        >>> coverage(volume=0.1, thickness=0.02)
        5.0
    """
    return within(volume, "volume of plaster in m3", low=0.0) / within(thickness, "thickness in m", above=0.0)


def coat_volume(*, area: SquareMeter, thickness: Meter, waste: Ratio) -> CubicMeter:
    """Plaster for a coat, waste and hollows of the wall included: V = A t (1 + w).

    Args:
        area: A, face to cover [m2]
        thickness: t, thickness of the coat [m]
        waste: w, share for joints, hollows and droppings [-]

    Returns:
        V, volume of plaster [m3]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        A ≥ 0, t ≥ 0, w ≥ 0; refused below. The source allows 10 %; a supplier's rule sheet implies 32 % on rough block.

    Source:
        PLASTER-RATES (read)

    Example:
        >>> coat_volume(area=10.0, thickness=0.013, waste=0.1)
        0.143
    """
    within(area, "area in m2", low=0.0)
    within(thickness, "thickness in m", low=0.0)
    return area * thickness * (1 + within(waste, "waste", low=0.0))


def sand_per_binder(*, sand: Ratio, cement: Ratio, lime: Ratio) -> Ratio:
    """Sand over all that binds, as the plaster table counts it: r = s / (c + l).

    Args:
        sand: s, parts of sand by loose volume [-]
        cement: c, parts of cement [-]
        lime: l, parts of lime [-]

    Returns:
        r, sand per part that binds [-]

    Raises:
        OutOfRangeError: a part is negative or nothing binds.

    Range:
        s, c, l ≥ 0 and c + l > 0; refused otherwise.

    Source:
        IRC-R702 (read)

    Example:
        >>> sand_per_binder(sand=6.0, cement=1.0, lime=1.0)
        3.0
    """
    within(sand, "parts of sand", low=0.0)
    binder = within(cement, "parts of cement", low=0.0) + within(lime, "parts of lime", low=0.0)
    return sand / within(binder, "parts that bind", above=0.0)


def richness(*, sand: Ratio, cement: Ratio, lime: Ratio) -> Ratio:
    """Share of cement in all the loose parts, by which one coat is richer than another: f = c / (c + l + s).

    Args:
        sand: s, parts of sand by loose volume [-]
        cement: c, parts of cement [-]
        lime: l, parts of lime [-]

    Returns:
        f, cement over all parts [-]

    Raises:
        OutOfRangeError: a part is negative or there is none.

    Range:
        s, c, l ≥ 0 and c + l + s > 0; refused otherwise.

    Source:
        STATICS (derived)

    Example:
        >>> richness(sand=4.0, cement=1.0, lime=0.0)
        0.20
    """
    within(cement, "parts of cement", low=0.0)
    total = cement + within(lime, "parts of lime", low=0.0) + within(sand, "parts of sand", low=0.0)
    return cement / within(total, "sum of parts", above=0.0)


def proportions(
    *, coat: Literal["first", "first-dense", "second", "finish"], binder: Literal["portland", "masonry-cement"]
) -> Proportions:
    """Least and most lime and sand of a plaster coat by the code's table.

    Args:
        coat: first, first-dense (on a base that hardly sucks), second or finish
        binder: portland (cement with lime) or masonry-cement (also plastic cement, no lime added)

    Returns:
        lime per cement and sand per all that binds, least and most (see Proportions)

    Raises:
        NotFoundError: masonry cement has no row of its own for dense bases.

    Range:
        The rows of the table. That lime from 0 to 3/4 belongs to bases of low absorption is from memory.

    Source:
        IRC-R702 (read)
        IRC-R702, the row for dense bases (memory)

    Example:
        >>> proportions(coat="second", binder="portland")
        Proportions(lime_low=0.75, lime_high=1.5, sand_low=3.0, sand_high=5.0)
    """
    row = kind("plaster", f"{binder}-{coat}")
    return Proportions(
        lime_low=row.value("lime_low"),
        lime_high=row.value("lime_high"),
        sand_low=row.value("sand_low"),
        sand_high=row.value("sand_high"),
    )


def nominal_thickness(*, base: Literal["lath", "solid-base", "unit-masonry", "cast-concrete"]) -> Meter:
    """Thickness of all coats together by what is plastered on.

    Args:
        base: lath, solid-base (three coats), unit-masonry or cast-concrete (two coats)

    Returns:
        t, nominal thickness of the plaster [m]

    Raises:
        NotFoundError: no such base.

    Range:
        The rows of the table.

    Source:
        ASTM-C926 (read)

    Example:
        >>> nominal_thickness(base="unit-masonry")
        0.0127
    """
    return kind("plaster", f"over-{base}").value("thickness")


def coat_thickness(*, coat: Literal["scratch", "brown", "finish"]) -> Meter:
    """Thickness of one coat of three.

    Args:
        coat: scratch, brown or finish

    Returns:
        t, nominal thickness of the coat [m]

    Raises:
        NotFoundError: no such coat.

    Range:
        The rows of the table. Two coats on block: the brown and the finish.

    Source:
        ASTM-C926 (read)

    Example:
        >>> coat_thickness(coat="brown")
        0.0095
    """
    return kind("plaster", f"coat-{coat}").value("thickness")
