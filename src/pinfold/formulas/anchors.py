"""Anchors in masonry: pull and shove on each, the cone that may break out, the bolt itself, and both together."""

from __future__ import annotations

import math

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Newton, NewtonMeter, Pascal, Ratio, SquareMeter

_PSI = 0.45359237 * 9.80665 / 0.0254**2
_INCH = 0.0254
_POUND = 0.45359237 * 9.80665


def anchor_pull(*, moment: NewtonMeter, lever: Meter, pulled: Ratio) -> Newton:
    """Pull on each anchor of a base plate: T = M / (n s).

    Args:
        moment: M, moment at the plate [N m]
        lever: s, from the pulled row of anchors to the pressed edge or row [m]
        pulled: n, anchors in the pulled row [-]

    Returns:
        T, pull on one anchor [N]

    Raises:
        OutOfRangeError: the moment is below 0, the lever not above 0, or fewer than one anchor is pulled.

    Range:
        M ≥ 0, s > 0, n ≥ 1; refused outside. Stiff plate; weight on it is not counted in favor.

    Source:
        STATICS (derived)

    Example:
        >>> anchor_pull(moment=300.0, lever=0.1, pulled=2)
        1500.0
    """
    arm = within(lever, "lever in m", above=0.0)
    return within(moment, "moment in N m", low=0.0) / (within(pulled, "number of pulled anchors", low=1) * arm)


def cone_area(*, depth: Meter, edge: Meter) -> SquareMeter:
    """Area of the cone that one anchor may pull out: A = π c², c = min(d, e).

    Args:
        depth: d, embedded length of the anchor [m]
        edge: e, from its middle to the nearest face [m]

    Returns:
        A, projected area of the cone [m2]

    Raises:
        OutOfRangeError: depth or edge is not above 0.

    Range:
        d, e > 0; refused otherwise. The reach to the face counts as in the older code; cones of neighbors overlap.

    Source:
        ANCHOR-FORUM, the lesser of embedment and edge distance as radius (read)

    Example:
        >>> cone_area(depth=0.15, edge=0.1)
        0.0314
    """
    reach = min(within(depth, "embedded length in m", above=0.0), within(edge, "distance to the face in m", above=0.0))
    return math.pi * reach**2


def overlap_area(*, reach: Meter, spacing: Meter) -> SquareMeter:
    """Area that the cones of two neighboring anchors share: A = 2 c² acos(s / 2c) − (s / 2) √(4 c² − s²).

    Args:
        reach: c, radius of either cone [m]
        spacing: s, between the anchors [m]

    Returns:
        A, the shared area; each anchor gives up half of it [m2]

    Raises:
        OutOfRangeError: the reach is not above 0 or the spacing below 0.

    Range:
        c > 0, s ≥ 0; refused outside; 0 where the cones do not meet.

    Source:
        STATICS, lens of two circles (derived)

    Example:
        >>> overlap_area(reach=0.1, spacing=0.1)
        0.01228
    """
    radius, apart = within(reach, "radius in m", above=0.0), within(spacing, "spacing in m", low=0.0)
    if apart >= 2 * radius:
        return 0.0
    return 2 * radius**2 * math.acos(apart / (2 * radius)) - apart / 2 * math.sqrt(4 * radius**2 - apart**2)


def breakout_held(*, area: SquareMeter, masonry_strength: Pascal, rate: Ratio = 1.25) -> Newton:
    """Force that a cone of masonry holds, allowable: B = k A √f'm, in pounds and inches.

    Args:
        area: A, projected area of the cone [m2]
        masonry_strength: f'm, compressive strength of the masonry [Pa]
        rate: k, 1.25 by today's code, 0.5 by the code before 2008 [-]

    Returns:
        B, allowable pull, or shove towards a face [N]

    Raises:
        OutOfRangeError: area or k is below 0, or f'm not above 0.

    Range:
        A, k ≥ 0, f'm > 0; refused outside. Grouted solid around the anchor.

    Source:
        TMS-402-13, 8.1.3, equations for breakout in pull and shove (memory)
        ANCHOR-FORUM, k = 0.5 (read)

    Example:
        >>> breakout_held(area=0.03, masonry_strength=10342136.0)
        10014
    """
    held = within(rate, "k", low=0.0) * within(area, "area in m2", low=0.0) / _INCH**2
    return held * math.sqrt(within(masonry_strength, "strength of the masonry in Pa", above=0.0) / _PSI) * _POUND


def bent_anchor_held(*, diameter: Meter, depth: Meter, hook: Meter, masonry_strength: Pascal) -> Newton:
    """Pull that straightens a bent anchor, allowable: B = 0.6 f'm e d + 120 π (l + e + d) d, in pounds and inches.

    Args:
        diameter: d, of the anchor [m]
        depth: l, embedded length [m]
        hook: e, leg of the hook from the inside of the bend to its tip [m]
        masonry_strength: f'm, compressive strength of the masonry [Pa]

    Returns:
        B, allowable pull [N]

    Raises:
        OutOfRangeError: a size is not above 0 or f'm below 0.

    Range:
        d, l, e > 0, f'm ≥ 0; refused outside. Grouted solid around the anchor.

    Source:
        TMS-402-13, 8.1.3.3.1.2 (memory)

    Example:
        >>> bent_anchor_held(diameter=0.0127, depth=0.127, hook=0.0381, masonry_strength=10342136.0)
        8872
    """
    d = within(diameter, "diameter in m", above=0.0) / _INCH
    leg = within(hook, "leg of the hook in m", above=0.0) / _INCH
    deep = within(depth, "embedded length in m", above=0.0) / _INCH
    pressed = 0.6 * within(masonry_strength, "strength of the masonry in Pa", low=0.0) / _PSI * leg * d
    return (pressed + 120 * math.pi * (deep + leg + d) * d) * _POUND


def crushing_held(*, area: SquareMeter, masonry_strength: Pascal) -> Newton:
    """Shove under which masonry crushes at an anchor, allowable: B = 350 (f'm A)^(1/4), in pounds and inches.

    Args:
        area: A, section of the anchor [m2]
        masonry_strength: f'm, compressive strength of the masonry [Pa]

    Returns:
        B, allowable shove [N]

    Raises:
        OutOfRangeError: area or f'm is below 0.

    Range:
        A, f'm ≥ 0; refused below.

    Source:
        TMS-402-13, 8.1.3.3.2 (memory)

    Example:
        >>> crushing_held(area=0.0001267, masonry_strength=10342136.0)
        6450
    """
    inside = within(masonry_strength, "strength of the masonry in Pa", low=0.0) / _PSI
    pounds = inside * within(area, "section of the anchor in m2", low=0.0) / _INCH**2
    return 350 * math.pow(pounds, 0.25) * _POUND


def anchor_steel_held(*, area: SquareMeter, yield_stress: Pascal, share: Ratio = 0.6) -> Newton:
    """Force that the anchor's steel takes, allowable: B = k A fy.

    Args:
        area: A, section of the anchor [m2]
        yield_stress: fy [Pa]
        share: k, 0.6 in pull, 0.36 in shear [-]

    Returns:
        B, allowable force [N]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        A, fy, k ≥ 0; refused below.

    Source:
        TMS-402-13, 8.1.3.3 (memory)

    Example:
        >>> anchor_steel_held(area=0.0001, yield_stress=248e6)
        14880.0
    """
    section = within(area, "section of the anchor in m2", low=0.0)
    return within(share, "share", low=0.0) * section * within(yield_stress, "yield stress in Pa", low=0.0)


def anchor_use(*, pull: Newton, pull_held: Newton, shove: Newton, shove_held: Newton) -> Ratio:
    """How much of an anchor is used by pull and shove together: u = T / Ba + V / Bv.

    Args:
        pull: T, on one anchor [N]
        pull_held: Ba, the least it may take in pull [N]
        shove: V, level force on one anchor [N]
        shove_held: Bv, the least it may take [N]

    Returns:
        u, at most 1 for an anchor that holds [-]

    Raises:
        OutOfRangeError: a force is below 0, or what is held not above 0.

    Range:
        T, V ≥ 0; Ba, Bv > 0; refused outside. The straight line of the older code, safe beside the curve of 2016.

    Source:
        TMS-402-13, 8.1.3.3.3 (memory)

    Example:
        >>> anchor_use(pull=500.0, pull_held=1000.0, shove=200.0, shove_held=800.0)
        0.75
    """
    pulled = within(pull, "pull in N", low=0.0) / within(pull_held, "pull held in N", above=0.0)
    return pulled + within(shove, "shove in N", low=0.0) / within(shove_held, "shove held in N", above=0.0)
