"""Profiles: heights along a line as (distance, z) pairs in meters, straight between them.

Distances ascend; the first and last pair are the ends of the line. What the height is of (ground, top of a wall) is
the caller's affair.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable
from itertools import pairwise

from pinfold.errors import InputError
from pinfold.geometry.segments import SAME_PLACE
from pinfold.units import Meter, Ratio, SquareMeter

Profile = tuple[tuple[Meter, Meter], ...]
"""Pairs of distance along a line and height there, in meters, distances ascending."""


def checked_profile(profile: Profile) -> Profile:
    """The profile itself.

    Raises:
        InputError: fewer than two pairs, a number that is not finite, or distances that do not ascend.
    """
    if len(profile) < 2:
        raise InputError("a profile needs a height at its start and at its end")
    if not all(math.isfinite(number) for pair in profile for number in pair):
        raise InputError("a profile holds a number that is not finite")
    for (before, _), (after, _) in pairwise(profile):
        if not before < after:
            raise InputError(f"a profile goes from {before:g} m to {after:g} m; distances must ascend")
    return profile


def height_along(profile: Profile, distance: Meter) -> Meter:
    """Height at a distance [m].

    Raises:
        InputError: the distance is off the profile.
    """
    if not profile[0][0] - SAME_PLACE <= distance <= profile[-1][0] + SAME_PLACE:
        raise InputError(f"{distance:g} m is off a profile from {profile[0][0]:g} m to {profile[-1][0]:g} m")
    number = min(max(bisect_right(profile, (distance, math.inf)), 1), len(profile) - 1)
    (start, low), (end, high) = profile[number - 1], profile[number]
    share = min(max((distance - start) / (end - start), 0.0), 1.0)
    return high if share == 1.0 else low + share * (high - low)


def part_of(profile: Profile, start: Meter, end: Meter) -> Profile:
    """The profile from one distance to a farther one, distances kept.

    Raises:
        InputError: a distance is off the profile, or the end is not beyond the start.
    """
    if end - start <= SAME_PLACE:
        raise InputError(f"a stretch from {start:g} m to {end:g} m has no length")
    inner = (pair for pair in profile if start + SAME_PLACE < pair[0] < end - SAME_PLACE)
    return ((start, height_along(profile, start)), *inner, (end, height_along(profile, end)))


def highest(profile: Profile) -> Meter:
    """The greatest height [m]."""
    return max(z for _, z in profile)


def lowest(profile: Profile) -> Meter:
    """The least height [m]."""
    return min(z for _, z in profile)


def raised(profile: Profile, by: Meter) -> Profile:
    """The same profile so much higher."""
    return tuple((distance, z + by) for distance, z in profile)


def area_above(profile: Profile, base: Meter) -> SquareMeter:
    """Area between a level and the profile seen from the side, negative where the profile is lower [m2]."""
    return math.fsum((end - start) * ((low + high) / 2 - base) for (start, low), (end, high) in pairwise(profile))


def grades(profile: Profile) -> tuple[Ratio, ...]:
    """Rise over run of each straight piece, uphill positive."""
    return tuple((high - low) / (end - start) for (start, low), (end, high) in pairwise(profile))


def joined(profiles: Iterable[Profile]) -> Profile:
    """Profiles one after the other, each set to start where the one before ends.

    At a seam the height of the later profile's start is left out: the ground is one there.
    """
    pairs: list[tuple[Meter, Meter]] = []
    for profile in profiles:
        shift = pairs[-1][0] - profile[0][0] if pairs else 0.0
        pairs.extend((distance + shift, z) for distance, z in profile[bool(pairs) :])
    return tuple(pairs)


def leaned(profile: Profile, within: Meter = 1e-9) -> Profile:
    """The same profile without pairs that lie on the straight between their neighbors."""
    kept = [profile[0]]
    for pair, after in pairwise(profile[1:]):
        (start, low), (end, high) = kept[-1], after
        if abs(low + (high - low) * (pair[0] - start) / (end - start) - pair[1]) > within:
            kept.append(pair)
    return (*kept, profile[-1])
