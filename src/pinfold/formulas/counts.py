"""Rules of thumb for counting: block, brick, bags, grout and stone. They check a take-off; they never replace it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, Kilogram, Meter, Ratio, SquareMeter

_FOOT = 0.3048
_CUBIC_FOOT = _FOOT**3
_POUND = 0.45359237
_TON = 2000 * _POUND

_MORTAR_PER_100_FT2 = {
    "block-face-shell": 2.3, "block-full-bed": 3.2, "block-site": 8.5, "thin-block-site": 13.5, "brick": 7.2,
}  # fmt: skip
_BAGS_AND_SAND = {  # bags and pounds of sand for one unit
    ("block", "table"): (30 / 1000, 3.5 * 2000 / 1000), ("brick", "table"): (8.5 / 1000, 2000 / 1000),
    ("block", "answers"): (3 / 100, 600 / 100), ("brick", "answers"): (7 / 1000, 1500 / 1000),
    ("block", "column"): (2.5 / 100, 600 / 100), ("brick", "column"): (7 / 1000, 3000 / 1000),
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class MortarBags:
    """Masonry cement by the bag and sand by mass."""

    bags: Ratio
    sand: Kilogram


def units_by_face(*, area: SquareMeter, length: Meter, height: Meter) -> Ratio:
    """Units in a face by their nominal size, joints included: n = A / (l h).

    Args:
        area: A, face of the wall, openings taken off [m2]
        length: l, nominal length of a unit with its joint [m]
        height: h, nominal height of a unit with its joint [m]

    Returns:
        n, units, not rounded [-]

    Raises:
        OutOfRangeError: the area is negative or a size not above 0.

    Range:
        A ≥ 0, l > 0, h > 0; refused otherwise. No waste, no corners.

    Source:
        NCMA-TEK-14 (read)

    Example:
        >>> units_by_face(area=10.0, length=0.4, height=0.2)
        125.0
    """
    within(area, "area in m2", low=0.0)
    face = within(length, "length of a unit in m", above=0.0) * within(height, "height of a unit in m", above=0.0)
    return area / face


def blocks_by_area(*, area: SquareMeter) -> Ratio:
    """Blocks of 8 x 16 in in a face: n = 112.5 per 100 ft2.

    Args:
        area: A, face of the wall, openings taken off [m2]

    Returns:
        n, blocks, not rounded [-]

    Raises:
        OutOfRangeError: the area is negative.

    Range:
        A ≥ 0, refused below. No waste.

    Source:
        NCMA-TEK-14 (read)

    Example:
        >>> blocks_by_area(area=9.290304)
        112.5
    """
    return within(area, "area in m2", low=0.0) / _FOOT**2 * 1.125


def bricks_by_area(*, area: SquareMeter, rule: Literal["net", "with-waste"]) -> Ratio:
    """Modular brick in a face one brick thick: n = 675 per 100 ft2, 700 with waste.

    Args:
        area: A, face of the wall, openings taken off [m2]
        rule: net or with-waste

    Returns:
        n, brick, not rounded [-]

    Raises:
        OutOfRangeError: the area is negative.

    Range:
        A ≥ 0, refused below. Brick of 2 2/3 x 8 in nominal, one thickness.

    Source:
        ESTIMATING-PAGE, 675 (read)
        MASONRY-AND-CONCRETE, 7 per ft2 (read)

    Example:
        >>> bricks_by_area(area=9.290304, rule="net")
        675.0
    """
    return within(area, "area in m2", low=0.0) / _FOOT**2 * (6.75 if rule == "net" else 7.0)


def blocks_per_course(*, length: Meter, corners: Ratio) -> Ratio:
    """Blocks of 16 in in one course: n = 3/4 L − c/2, L in feet.

    Args:
        length: L, length of the walls measured along the outside [m]
        corners: c, corners, each shared by two walls [-]

    Returns:
        n, blocks in the course [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        L ≥ 0, c ≥ 0; refused below.

    Source:
        NAVEDTRA-14043 (read)

    Example:
        >>> blocks_per_course(length=32.9184, corners=4.0)
        79.0
    """
    return 0.75 * within(length, "length in m", low=0.0) / _FOOT - within(corners, "corners", low=0.0) / 2


def courses(*, height: Meter) -> Ratio:
    """Courses of 8 in block in a height: n = 3/2 H, H in feet.

    Args:
        height: H, height of the wall [m]

    Returns:
        n, courses, not rounded [-]

    Raises:
        OutOfRangeError: the height is negative.

    Range:
        H ≥ 0, refused below.

    Source:
        NAVEDTRA-14045, chapter 4 (read)

    Example:
        >>> courses(height=3.048)
        15.0
    """
    return 1.5 * within(height, "height in m", low=0.0) / _FOOT


def chasing_the_bond(*, length: Meter, height: Meter) -> Ratio:
    """Blocks of 8 x 16 in by course and height: n = 3/4 L · 3/2 H, in feet.

    Args:
        length: L, length of the wall [m]
        height: H, height of the wall [m]

    Returns:
        n, blocks, not rounded [-]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        L ≥ 0, H ≥ 0; refused below. Corners not deducted, no waste.

    Source:
        NAVEDTRA-14045, chapter 4 (read)

    Example:
        >>> chasing_the_bond(length=30.48, height=3.048)
        1125.0
    """
    return blocks_per_course(length=length, corners=0.0) * courses(height=height)


def mortar_by_area(
    *,
    area: SquareMeter,
    wall: Literal["block-face-shell", "block-full-bed", "block-site", "thin-block-site", "brick"],
) -> CubicMeter:
    """Mortar for a face by published clusters: V = 2.3, 3.2, 8.5, 13.5 or 7.2 ft3 per 100 ft2.

    Published figures for the same block wall differ fourfold: buy by the site figure, log the real one.

    Args:
        area: A, face of the wall, openings taken off [m2]
        wall: block-face-shell and block-full-bed (what stays in 8 in block), block-site and thin-block-site (what site
            manuals allow for 8 in and 4 in block), brick (one thickness)

    Returns:
        V, volume of mortar [m3]

    Raises:
        OutOfRangeError: the area is negative.

    Range:
        A ≥ 0, refused below.

    Source:
        ESTIMATING-PAGE, face shell, full bed and brick (read)
        NAVY-MORTAR, site figures (read)

    Example:
        >>> mortar_by_area(area=9.290304, wall="block-site")
        0.2407
    """
    return within(area, "area in m2", low=0.0) / (100 * _FOOT**2) * _MORTAR_PER_100_FT2[wall] * _CUBIC_FOOT


def mortar_bags(
    *, count: Ratio, unit: Literal["block", "brick"], rule: Literal["table", "answers", "column"]
) -> MortarBags:
    """Masonry cement and sand to lay so many units, by three published rules of thumb.

    Args:
        count: units to lay [-]
        unit: block (8 x 8 x 16 in) or brick
        rule: table (30 bags and 3.5 short tons for 1000 block, 8.5 and 1 for brick), answers (3 bags and 600 lb for 100
            block, 7 and 1500 lb for 1000 brick) or column (2.5 bags and 600 lb for 100 block, 7 and 3000 lb for brick)

    Returns:
        bags of masonry cement, not rounded, and sand (see MortarBags)

    Raises:
        OutOfRangeError: the count is negative.

    Range:
        count ≥ 0, refused below. Waste of the site included, mixes about 1:3.

    Source:
        SUPPLIER-TABLE (read)
        SUPPLIER-FAQ (read)
        BUILDER-COLUMN (read)

    Example:
        >>> mortar_bags(count=1000.0, unit="block", rule="table")
        MortarBags(bags=30.0, sand=3175.1)
    """
    bags, sand = _BAGS_AND_SAND[unit, rule]
    within(count, "count of units", low=0.0)
    return MortarBags(bags=count * bags, sand=count * sand * _POUND)


def grout_all_cells(*, blocks: Ratio, waste: Ratio) -> CubicMeter:
    """Grout to fill every cell of 8 in block: V = 0.28 ft3 · n (1 + w).

    Args:
        blocks: n, blocks of 8 x 8 x 16 in [-]
        waste: w, allowance, 0.05 in the source [-]

    Returns:
        V, volume of grout [m3]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        n ≥ 0, w ≥ 0; refused below. 8 in block only: the source's figures for other widths do not scale.

    Source:
        SUPPLIER-TABLE (read)

    Example:
        >>> grout_all_cells(blocks=100.0, waste=0.05)
        0.8325
    """
    return within(blocks, "count of blocks", low=0.0) * 0.28 * _CUBIC_FOOT * (1 + within(waste, "waste", low=0.0))


def bed_reinforcement(*, blocks: Ratio, every: Literal["16 in", "24 in"]) -> Meter:
    """Bed-joint reinforcement for so many blocks: L = 1.34 ft · n / 2 every second course, / 3 every third.

    Args:
        blocks: n, blocks of 8 x 16 in [-]
        every: 16 in (second course) or 24 in (third course)

    Returns:
        L, length of reinforcement, laps left out [m]

    Raises:
        OutOfRangeError: the count is negative.

    Range:
        n ≥ 0, refused below.

    Source:
        SUPPLIER-TABLE (read)

    Example:
        >>> bed_reinforcement(blocks=100.0, every="16 in")
        20.42
    """
    return within(blocks, "count of blocks", low=0.0) * 1.34 * _FOOT / (2 if every == "16 in" else 3)


def bag_yield(*, bag: Kilogram) -> CubicMeter:
    """Concrete a bag of dry mix makes: V = 0.15 ft3 per 20 lb.

    Args:
        bag: mass of a bag [kg]

    Returns:
        V, volume of concrete [m3]

    Raises:
        OutOfRangeError: the mass is negative.

    Range:
        mass ≥ 0, refused below. Ordinary concrete mix, not mortar or quick-setting mix.

    Source:
        BAG-YIELDS (read)

    Example:
        >>> bag_yield(bag=36.287)
        0.01699
    """
    return within(bag, "mass of a bag in kg", low=0.0) / (20 * _POUND) * 0.15 * _CUBIC_FOOT


def bags_of_mix(*, volume: CubicMeter, bag: Kilogram) -> Ratio:
    """Whole bags of dry mix for a volume of concrete: n = ⌈V / (0.15 ft3 per 20 lb)⌉.

    Args:
        volume: V, concrete wanted, waste included [m3]
        bag: mass of a bag [kg]

    Returns:
        n, whole bags [-]

    Raises:
        OutOfRangeError: the volume is negative or the mass not above 0.

    Range:
        V ≥ 0, mass > 0, refused otherwise.

    Source:
        BAG-YIELDS, rounded up (read)

    Example:
        >>> bags_of_mix(volume=0.7646, bag=36.287)
        46.0
    """
    within(bag, "mass of a bag in kg", above=0.0)
    return float(math.ceil(within(volume, "volume in m3", low=0.0) / bag_yield(bag=bag) - 1e-9))


def whole_bags(*, mass: Kilogram, bag: Kilogram) -> Ratio:
    """Whole bags that hold a mass: n = ⌈m / m_b⌉.

    Args:
        mass: m, mass wanted, waste included [kg]
        bag: m_b, mass of a bag [kg]

    Returns:
        n, whole bags [-]

    Raises:
        OutOfRangeError: the mass is negative or the bag not above 0.

    Range:
        m ≥ 0, m_b > 0, refused otherwise.

    Source:
        STATICS, rounded up (derived)

    Example:
        >>> whole_bags(mass=101.0, bag=25.0)
        5.0
    """
    within(mass, "mass in kg", low=0.0)
    return float(math.ceil(mass / within(bag, "mass of a bag in kg", above=0.0) - 1e-9))


def pails(*, volume: CubicMeter, pail: CubicMeter) -> Ratio:
    """Pails that measure a volume: n = V / V_p.

    Args:
        volume: V, volume to measure [m3]
        pail: V_p, volume of a level pail [m3]

    Returns:
        n, pails, not rounded [-]

    Raises:
        OutOfRangeError: the volume is negative or the pail not above 0.

    Range:
        V ≥ 0, V_p > 0, refused otherwise.

    Source:
        BLOCK-BASICS (read)

    Example:
        >>> pails(volume=0.06, pail=0.012)
        5.0
    """
    return within(volume, "volume in m3", low=0.0) / within(pail, "volume of a pail in m3", above=0.0)


def rubble_mortar(*, wall: CubicMeter) -> CubicMeter:
    """Mortar in rubble masonry: V = V_w / 3.

    Args:
        wall: V_w, volume of the wall [m3]

    Returns:
        V, volume of mortar [m3]

    Raises:
        OutOfRangeError: the volume is negative.

    Range:
        V_w ≥ 0, refused below. Rough stone; squared stone takes less.

    Source:
        TRADES-POCKETBOOK (read)

    Example:
        >>> rubble_mortar(wall=3.0)
        1.0
    """
    return within(wall, "volume of the wall in m3", low=0.0) / 3


def stone_by_face(*, face: SquareMeter, waste: Ratio) -> Kilogram:
    """Stone to buy for a faced wall: m = A (1 + w) / 45 ft2 per short ton.

    Args:
        face: A, face of the wall [m2]
        waste: w, 0.10 for squared stone, 0.25 for rubble [-]

    Returns:
        m, mass of stone [kg]

    Raises:
        OutOfRangeError: a value is negative.

    Range:
        A ≥ 0, w ≥ 0; refused below. The source gives 45 to 50 ft2 per ton; the lower buys more.

    Source:
        MASONRY-AND-CONCRETE, p. 140 (read)

    Example:
        >>> stone_by_face(face=4.18064, waste=0.25)
        1134.0
    """
    return within(face, "face in m2", low=0.0) / (45 * _FOOT**2) * _TON * (1 + within(waste, "waste", low=0.0))


def dry_stone_volume(*, length: Meter, height: Meter, base: Meter, top: Meter) -> CubicMeter:
    """Volume of a dry-stone wall that tapers: V = L H (b + t) / 2.

    Args:
        length: L, length of the wall [m]
        height: H, height of the wall [m]
        base: b, thickness at the foot [m]
        top: t, thickness under the cope [m]

    Returns:
        V, volume of the wall, gaps included [m3]

    Raises:
        OutOfRangeError: a size is negative, or the top is thicker than the base.

    Range:
        L, H, b ≥ 0, 0 ≤ t ≤ b; refused outside.

    Source:
        STATICS (derived)

    Example:
        >>> dry_stone_volume(length=2.0, height=1.2, base=0.7, top=0.3)
        1.20
    """
    within(length, "length in m", low=0.0)
    within(base, "thickness at the foot in m", low=0.0)
    within(top, "thickness at the top in m", low=0.0, high=base)
    return length * within(height, "height in m", low=0.0) * (base + top) / 2


def dry_stone_mass(*, face: SquareMeter) -> Kilogram:
    """Stone in a double dry-stone wall: m = 1 t per m2 of one face.

    Args:
        face: A, length times height of the wall [m2]

    Returns:
        m, mass of stone [kg]

    Raises:
        OutOfRangeError: the face is negative.

    Range:
        A ≥ 0, refused below. Walls about half a meter thick on average.

    Source:
        PRACTICE (practice)

    Example:
        >>> dry_stone_mass(face=2.5)
        2500.0
    """
    return within(face, "face in m2", low=0.0) * 1000.0
