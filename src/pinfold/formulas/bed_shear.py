"""Level force across a bed joint: the stress it makes, and what plain and reinforced masonry stand."""

from __future__ import annotations

from typing import Literal

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonPerMeter, Pascal, SquareMeterPerMeter

_INCH = 0.0254
_PSI = 0.45359237 * 9.80665 / _INCH**2
_MOST_PSI = 120.0
_BOND_PSI = {"running": 37.0, "grouted": 60.0}
_MOST_REINFORCED_PSI = 50.0
_UNIT_SHARE = 0.065


def shear_stress(*, force: NewtonPerMeter, area: SquareMeterPerMeter) -> Pascal:
    """Greatest shear in a bed joint of plain masonry: fv = 1.5 V / A.

    Args:
        force: V, level force across the joint per length [N/m]
        area: A, bedded area per length [m2/m]

    Returns:
        fv [Pa]

    Raises:
        OutOfRangeError: the force is below 0 or the area not above 0.

    Range:
        V ≥ 0, A > 0; refused outside. A solid section, not cracked; for face shells the same share is taken.

    Source:
        STATICS, three halves of the mean in a rectangle (derived)

    Example:
        >>> shear_stress(force=1000.0, area=0.1)
        15000
    """
    return 1.5 * within(force, "level force in N/m", low=0.0) / within(area, "area in m2/m", above=0.0)


def shear_by_tms402(
    *, masonry_strength: Pascal, load: NewtonPerMeter, area: SquareMeterPerMeter, bond: Literal["running", "grouted"]
) -> Pascal:
    """Allowable shear of plain masonry, American: Fv = least of 1.5 √f'm, 120 psi and v + 0.45 N / A.

    Args:
        masonry_strength: f'm, strength of the masonry; put in psi [Pa]
        load: N, weight above the joint per length, the least that can act [N/m]
        area: A, bedded area per length [m2/m]
        bond: running bond not fully grouted, v = 37 psi, or fully grouted, v = 60 psi

    Returns:
        Fv [Pa]

    Raises:
        OutOfRangeError: strength or weight is below 0, the area not above 0, or the bond none of the two.

    Range:
        f'm, N ≥ 0, A > 0; refused outside. Running bond; nothing where a sheet cuts the wall.

    Source:
        TMS-402-13, section 8.2.6 (memory)

    Example:
        >>> shear_by_tms402(masonry_strength=10342136.0, load=0.0, area=0.1, bond="running")
        255106
    """
    root = 1.5 * np.sqrt(within(masonry_strength, "strength of the masonry in Pa", low=0.0) / _PSI)
    pressed = within(load, "weight in N/m", low=0.0) / within(area, "area in m2/m", above=0.0) / _PSI
    least: Pascal = np.minimum(np.minimum(root, _MOST_PSI), _BOND_PSI[bond] + 0.45 * pressed) * _PSI
    return least


def shear_by_en1996(*, initial: Pascal, stress: Pascal, unit_strength: Pascal) -> Pascal:
    """Characteristic shear strength of masonry, European: fvk = fvk0 + 0.4 σd, not over 0.065 fb.

    Args:
        initial: fvk0, without pressure, by unit and mortar; 0 where a sheet or dry beds cut the wall [Pa]
        stress: σd, pressure from the weight above, factored down [Pa]
        unit_strength: fb, strength of the units [Pa]

    Returns:
        fvk [Pa]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        fvk0, σd, fb ≥ 0; refused below. Head joints filled.

    Source:
        EN-1996-1-1, 3.6.2 (memory)

    Example:
        >>> shear_by_en1996(initial=150000.0, stress=20000.0, unit_strength=10e6)
        158000
    """
    rubbed = within(initial, "fvk0 in Pa", low=0.0) + 0.4 * within(stress, "pressure in Pa", low=0.0)
    least: Pascal = np.minimum(rubbed, _UNIT_SHARE * within(unit_strength, "strength of the units in Pa", low=0.0))
    return least


def shear_in_reinforced(*, force: Newton, width: Meter, depth: Meter) -> Pascal:
    """Shear of reinforced masonry bent out of its plane: fv = V / (b d).

    Args:
        force: V, level force that comes to one bar [N]
        width: b, length of masonry that takes it [m]
        depth: d, from the pressed face to the bar [m]

    Returns:
        fv [Pa]

    Raises:
        OutOfRangeError: the force is below 0, or width or depth not above 0.

    Range:
        V ≥ 0; b, d > 0; refused outside.

    Source:
        TM-5-809-3, equation 5-22 (read)

    Example:
        >>> shear_in_reinforced(force=2000.0, width=0.2, depth=0.1)
        100000
    """
    within(force, "level force in N", low=0.0)
    return force / (within(width, "width in m", above=0.0) * within(depth, "depth in m", above=0.0))


def shear_by_strength(*, masonry_strength: Pascal) -> Pascal:
    """Allowable shear of reinforced masonry without shear steel: Fv = √f'm, not over 50 psi, all in psi.

    Args:
        masonry_strength: f'm, strength of the masonry; put in psi [Pa]

    Returns:
        Fv [Pa]

    Raises:
        OutOfRangeError: the strength is below 0.

    Range:
        f'm ≥ 0, refused below. Bending out of the plane of the wall.

    Source:
        NCMA-TEK-14-19A, allowable stresses of its tables (read)

    Example:
        >>> shear_by_strength(masonry_strength=10342136.0)
        267033
    """
    root = np.sqrt(within(masonry_strength, "strength of the masonry in Pa", low=0.0) / _PSI)
    least: Pascal = np.minimum(root, _MOST_REINFORCED_PSI) * _PSI
    return least
