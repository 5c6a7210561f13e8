"""Braces of end, corner and gate posts: a rail and a slanting wire between two posts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import Meter, MeterToFourth, Newton, Pascal, Ratio


@dataclass(frozen=True, kw_only=True)
class BraceForces:
    """Forces in a corner brace: pressure in the rail, pull in the diagonal wire, lift of the corner post."""

    rail: Newton
    diagonal: Newton
    uplift: Newton


def corner_brace(*, pull: Newton, pull_height: Meter, rail_height: Meter, rail_length: Meter) -> BraceForces:
    """Forces in a corner brace of two posts, rail and diagonal wire: C = T a / b, N = C √(L² + b²) / L, U = C b / L.

    Args:
        pull: T, pull of all wires together [N]
        pull_height: a, height of their resultant above the ground [m]
        rail_height: b, height of the rail above the ground [m]
        rail_length: L, length of the rail from post to post [m]

    Returns:
        pressure in the rail, pull in the diagonal wire, lift of the corner post (see BraceForces)

    Raises:
        OutOfRangeError: pull or its height is below 0, or rail height or length not above 0.

    Range:
        T, a ≥ 0; b, L > 0; refused outside. The corner post turns about the ground: its own hold there is not counted.

    Source:
        STATICS (derived)

    Notes:
        A longer rail lowers the lift; 2 to 2.5 times the height is usual. A strut that slants from the end post down to
        the ground L away, on the side the wires pull to, has the same figures: N presses it, C is what its foot pushes.

    Example:
        >>> corner_brace(pull=4000.0, pull_height=0.6, rail_height=0.9, rail_length=2.4)
        BraceForces(rail=2666.7, diagonal=2848.0, uplift=1000.0)
    """
    held = within(rail_height, "rail height in m", above=0.0)
    length = within(rail_length, "rail length in m", above=0.0)
    rail = within(pull, "pull in N", low=0.0) * within(pull_height, "height of the pull in m", low=0.0) / held
    return BraceForces(rail=rail, diagonal=rail * math.hypot(length, held) / length, uplift=rail * held / length)


def buckling_held(*, modulus: Pascal, second_moment: MeterToFourth, length: Meter, safety: Ratio) -> Newton:
    """Pressure that a slender rail or strut may carry: N = π² E I / (s L²).

    Args:
        modulus: E, modulus of elasticity [Pa]
        second_moment: I, of its section, the least [m4]
        length: L, between its ends [m]
        safety: s, against buckling [-]

    Returns:
        N, allowable pressure along it [N]

    Raises:
        OutOfRangeError: an argument is not above 0, or s under 1.

    Range:
        E, I, L > 0, s ≥ 1; refused outside. Hinged ends; a stout one is crushed before it buckles.

    Source:
        STATICS, Euler (derived)

    Example:
        >>> buckling_held(modulus=10e9, second_moment=1e-6, length=2.0, safety=2.5)
        9870
    """
    stiff = within(modulus, "modulus in Pa", above=0.0) * within(second_moment, "second moment in m4", above=0.0)
    return math.pi**2 * stiff / (within(safety, "safety", low=1.0) * within(length, "length in m", above=0.0) ** 2)


def skin_friction(*, bearing: Pascal, most: Pascal, share: Ratio = 1 / 6) -> Pascal:
    """Friction of the ground on the sides of a post or collar, allowable: f = min(q k, fmax).

    Args:
        bearing: q, allowable pressure on the ground [Pa]
        most: fmax, 500 psf in the building code [Pa]
        share: k, a sixth in the building code [-]

    Returns:
        f [Pa]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        q, fmax, k ≥ 0; refused below. Ground that was dug and put back loosely holds less.

    Source:
        IBC-1810, 1810.3.3.1.4 (memory)

    Example:
        >>> skin_friction(bearing=72000.0, most=24000.0)
        12000.0
    """
    taken = within(bearing, "allowable pressure in Pa", low=0.0) * within(share, "share", low=0.0)
    return min(taken, within(most, "most friction in Pa", low=0.0))


def uplift_held(*, weight: Newton, friction: Pascal, perimeter: Meter, depth: Meter) -> Newton:
    """Lift that a post in the ground holds: U = W + f p d.

    Args:
        weight: W, of post and collar [N]
        friction: f, of the ground on their sides [Pa]
        perimeter: p, around the collar, or the post without one [m]
        depth: d, in the ground [m]

    Returns:
        U, lift it holds [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        all ≥ 0; refused below.

    Source:
        STATICS (derived)

    Example:
        >>> uplift_held(weight=500.0, friction=10000.0, perimeter=1.0, depth=0.9)
        9500.0
    """
    skin = within(perimeter, "perimeter in m", low=0.0) * within(depth, "depth in m", low=0.0)
    return within(weight, "weight in N", low=0.0) + within(friction, "friction in Pa", low=0.0) * skin
