"""Bolts: the hole in thin steel pressed or drawn long, the bolt itself, and the washer that is pulled into wood."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, Pascal, Ratio

_INCH: Meter = 0.0254
_STOUT, _SLENDER = 10.0, 22.0
"""Diameter over thickness up to which a hole bears in full, and from which on least."""


def hole_bearing(*, thickness: Meter, diameter: Meter, strength: Pascal, washers: Ratio) -> Newton:
    """Side load at which a bolt tears through thin steel: P = C m d t Fu.

    C is 3 up to d / t = 10, falls as 4 - 0.1 d / t to 22, and is 1.8 beyond.

    Args:
        thickness: t, of the steel [m]
        diameter: d, of the bolt [m]
        strength: Fu, tensile strength of the steel [Pa]
        washers: m, 1 with washers under head and nut, 0.75 with one or none, single shear [-]

    Returns:
        P, nominal; a share of it is allowed, and the bolt itself must carry it [N]

    Raises:
        OutOfRangeError: an argument is not above 0, or the steel thicker than 3/16 in.

    Range:
        0 < t ≤ 3/16 in, d, Fu > 0, 0 < m ≤ 1.33; refused outside. Standard holes, three diameters apart, one and a half
        from an edge.

    Source:
        BOLT-LETTER, AISI 2001 E3.3.1 with its example (read)
        AISI-S100, C between 10 and 22 (memory)

    Example:
        >>> hole_bearing(thickness=0.001524, diameter=0.009525, strength=379211650.0, washers=0.75)
        12386
    """
    thick, across, bears = _steel(thickness), _bolt(diameter), _strength(strength)
    slender = min(max(across / thick, _STOUT), _SLENDER)
    factor = 4.0 - 0.1 * slender if slender < _SLENDER else 1.8
    return factor * within(washers, "factor of washers", above=0.0, high=1.33) * across * thick * bears


def hole_stretch(*, thickness: Meter, diameter: Meter, strength: Pascal) -> Newton:
    """Side load at which a hole in thin steel is drawn 1/4 inch long: P = (4.64 t + 1.53) d t Fu, t in inches there.

    Args:
        thickness: t, of the steel [m]
        diameter: d, of the bolt [m]
        strength: Fu, tensile strength of the steel [Pa]

    Returns:
        P, nominal; a share of it is allowed [N]

    Raises:
        OutOfRangeError: an argument is not above 0, or the steel thicker than 3/16 in.

    Range:
        0 < t ≤ 3/16 in, d, Fu > 0; refused outside. Standard holes. That 1/4 inch is meant is from memory.

    Source:
        BOLT-LETTER, AISI 2001 E3.3.2 with its example (read)

    Example:
        >>> hole_stretch(thickness=0.001524, diameter=0.009525, strength=379211650.0)
        9955
    """
    thick = _steel(thickness)
    return (4.64 * thick / _INCH + 1.53) * _bolt(diameter) * thick * _strength(strength)


def bolt_strength(*, diameter: Meter, stress: Pascal) -> Newton:
    """Load of one bolt along it or across it in one plane: P = π/4 d² F, by its whole section.

    Args:
        diameter: d, outside the thread [m]
        stress: F, tension or shear on the whole section, the thread thought of in it [Pa]

    Returns:
        P, nominal or allowed as the stress is [N]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        d, F > 0; refused outside.

    Source:
        BOLT-GUIDE, example 4.1 (read)

    Example:
        >>> bolt_strength(diameter=0.01905, stress=413685438.0)
        117910
    """
    return math.pi / 4 * _bolt(diameter) ** 2 * within(stress, "stress in Pa", above=0.0)


def washer_hold(*, outside: Meter, hole: Meter, stress: Pascal) -> Newton:
    """Pull at which a washer presses into what it lies on: P = π/4 (D² - d²) F.

    Args:
        outside: D, of the washer [m]
        hole: d, in what it lies on [m]
        stress: F, pressure that bears [Pa]

    Returns:
        P, allowed as the stress is [N]

    Raises:
        OutOfRangeError: the washer is not wider than the hole, or an argument not above 0.

    Range:
        D > d > 0, F > 0; refused outside. A washer stiff enough to press evenly.

    Source:
        STATICS (derived)

    Example:
        >>> washer_hold(outside=0.0254, hole=0.0111, stress=2.31e6)
        947
    """
    inner = within(hole, "hole in m", above=0.0)
    ring = within(outside, "washer in m", above=inner) ** 2 - inner**2
    return math.pi / 4 * ring * within(stress, "stress in Pa", above=0.0)


def _steel(thickness: Meter) -> Meter:
    return within(thickness, "thickness in m", above=0.0, high=3 / 16 * _INCH + 1e-9)


def _bolt(diameter: Meter) -> Meter:
    return within(diameter, "diameter of the bolt in m", above=0.0)


def _strength(strength: Pascal) -> Pascal:
    return within(strength, "tensile strength in Pa", above=0.0)
