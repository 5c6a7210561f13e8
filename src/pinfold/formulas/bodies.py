"""Strength by bodies that were crushed or broken: stress by load and size, and one kind of body told as another."""

from __future__ import annotations

import math
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.tables.concrete import grid
from pinfold.units import Kilogram, Meter, Newton, Pascal, Ratio, SquareMeter

_GRAVITY = 9.80665
_RUPTURE = 7.5 * math.sqrt(6894.757293168)


def hanging_force(*, mass: Kilogram) -> Newton:
    """Force of what hangs on or stands on a body: F = m g.

    Args:
        mass: m, of buckets with what is in them [kg]

    Returns:
        F, its weight as a force [N]

    Raises:
        OutOfRangeError: the mass is negative.

    Range:
        m ≥ 0, refused below.

    Source:
        STATICS, weight under standard gravity (derived)

    Example:
        >>> hanging_force(mass=100.0)
        980.7
    """
    return within(mass, "mass in kg", low=0.0) * _GRAVITY


def crushed_area(*, width: Meter, depth: Meter, shape: Literal["square", "round"]) -> SquareMeter:
    """Area that a crushed body stood on: A = w d, or π d² / 4 of a round one.

    Args:
        width: w, one side; diameter of a round body [m]
        depth: d, other side; diameter of a round body again [m]
        shape: square for all bodies with corners, round for cylinders

    Returns:
        A, area under the load [m2]

    Raises:
        OutOfRangeError: a side is not above 0.

    Range:
        w > 0, d > 0; refused outside.

    Source:
        STATICS, areas (derived)

    Example:
        >>> crushed_area(width=0.1, depth=0.1, shape="square")
        0.01
    """
    area = within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0)
    return area * math.pi / 4 if shape == "round" else area


def crushing_strength(*, load: Newton, area: SquareMeter) -> Pascal:
    """Strength of a body that was crushed: f = F / A.

    Args:
        load: F, at which it gave way [N]
        area: A, that the load stood on [m2]

    Returns:
        f, strength of that body [Pa]

    Raises:
        OutOfRangeError: the load is negative or the area not above 0.

    Range:
        F ≥ 0, A > 0; refused outside.

    Source:
        STATICS, force over area (derived)

    Example:
        >>> crushing_strength(load=200e3, area=0.01)
        2.0e7
    """
    return within(load, "load in N", low=0.0) / within(area, "area in m2", above=0.0)


def rupture_in_middle(*, load: Newton, span: Meter, width: Meter, depth: Meter) -> Pascal:
    """Bending strength of a beam on two supports, loaded in its middle: f = 3 F L / (2 b d²).

    Its own weight is left out, which errs to the low side.

    Args:
        load: F, at which it broke [N]
        span: L, between the supports [m]
        width: b, of the beam [m]
        depth: d, of the beam, upright as it lay [m]

    Returns:
        f, bending strength [Pa]

    Raises:
        OutOfRangeError: the load is negative, or a length not above 0.

    Range:
        F ≥ 0, L, b, d > 0; refused outside. A span under three depths carries by arching and shows too much.

    Source:
        ASTM-C78, loaded in the middle (memory)
        STATICS, bending (derived)

    Example:
        >>> rupture_in_middle(load=2000.0, span=0.3, width=0.1, depth=0.1)
        9.0e5
    """
    size = within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0) ** 2
    return 1.5 * within(load, "load in N", low=0.0) * within(span, "span in m", above=0.0) / size


def rupture_at_thirds(*, load: Newton, span: Meter, width: Meter, depth: Meter) -> Pascal:
    """Bending strength of a beam on two supports, half of the load at each third of its span: f = F L / (b d²).

    Its own weight is left out, which errs to the low side.

    Args:
        load: F, both halves together, at which it broke [N]
        span: L, between the supports [m]
        width: b, of the beam [m]
        depth: d, of the beam, upright as it lay [m]

    Returns:
        f, bending strength [Pa]

    Raises:
        OutOfRangeError: the load is negative, or a length not above 0.

    Range:
        F ≥ 0, L, b, d > 0; refused outside. It is meant for a break in the middle third.

    Source:
        ASTM-C78, loaded at the thirds (read)
        STATICS, bending (derived)

    Example:
        >>> rupture_at_thirds(load=2000.0, span=0.3, width=0.1, depth=0.1)
        6.0e5
    """
    size = within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0) ** 2
    return within(load, "load in N", low=0.0) * within(span, "span in m", above=0.0) / size


def compression_by_aci318(*, rupture: Pascal) -> Pascal:
    """Crushing strength of concrete by its bending strength: f_c = (f_r / 7.5)², in psi.

    Args:
        rupture: f_r, bending strength [Pa]

    Returns:
        f_c, strength of cylinders [Pa]

    Raises:
        OutOfRangeError: the strength is negative.

    Range:
        f_r ≥ 0, refused below. For ordinary concrete.

    Source:
        ACI-318-RUPTURE, f_r = 7.5 √f_c, turned round (read)

    Example:
        >>> compression_by_aci318(rupture=3.27e6)
        2.757e7
    """
    return (within(rupture, "bending strength in Pa", low=0.0) / _RUPTURE) ** 2


def compression_by_share(*, rupture: Pascal, share: Ratio) -> Pascal:
    """Crushing strength of a mix by its bending strength, a usual share of it: f = f_r / s.

    Args:
        rupture: f_r, bending strength [Pa]
        share: s, bending strength over crushing strength [-]

    Returns:
        f, crushing strength [Pa]

    Raises:
        OutOfRangeError: the strength is negative or the share not from 0 to 1.

    Range:
        f_r ≥ 0, 0 < s ≤ 1; refused outside.

    Source:
        PRACTICE, a share by family of mixes (practice)

    Example:
        >>> compression_by_share(rupture=1.0e6, share=0.25)
        4.0e6
    """
    within(rupture, "bending strength in Pa", low=0.0)
    return rupture / within(share, "bending over crushing strength", above=0.0, high=1.0)


def strength_as_body(*, strength: Pascal, factor: Ratio) -> Pascal:
    """Strength of one body told as that of another: f = k f_1.

    Args:
        strength: f_1, of the body that was crushed [Pa]
        factor: k, other body over this one, such as 0.8 for a cylinder by a cube [-]

    Returns:
        f, strength the other body would show [Pa]

    Raises:
        OutOfRangeError: the strength is negative or the factor not above 0.

    Range:
        f_1 ≥ 0, k > 0; refused outside.

    Source:
        EN-206, pairs of classes by cylinder and cube (read)

    Example:
        >>> strength_as_body(strength=25e6, factor=0.8)
        2.0e7
    """
    return within(strength, "strength in Pa", low=0.0) * within(factor, "factor between bodies", above=0.0)


def cube_size_factor(*, width: Meter) -> Ratio:
    """What a cube of 150 mm would show over what a smaller or larger one does, by its side.

    Args:
        width: side of the cube [m]

    Returns:
        k, 150 mm cube over this one [-]

    Raises:
        OutOfRangeError: the side is not above 0.

    Range:
        100 to 200 mm on straight lines, held beyond: nothing is read of other sizes.

    Source:
        CUBE-SIZES, two factors quoted on one page (read)

    Example:
        >>> cube_size_factor(width=0.125)
        0.98
    """
    within(width, "side in m", above=0.0)
    return grid("cube-sizes", of="bodies").at(min(max(width, 0.1), 0.2))


def unit_shape_factor(*, height: Meter, width: Meter) -> Ratio:
    """What a cube of 100 mm would show over what a whole block does, by the block's height and width.

    Args:
        height: of the block as it was crushed [m]
        width: lesser side of its bed [m]

    Returns:
        δ, 100 mm cube over this block [-]

    Raises:
        OutOfRangeError: a length is not above 0.

    Range:
        Height 50 to 250 mm, width 50 to 250 mm on straight lines, held beyond.

    Source:
        EN-772-1, table A.1 (memory)

    Example:
        >>> unit_shape_factor(height=0.2, width=0.2)
        1.15
    """
    within(height, "height in m", above=0.0)
    within(width, "width in m", above=0.0)
    return grid("unit-shapes", of="bodies").at(min(max(width, 0.05), 0.25), min(max(height, 0.05), 0.25))
