"""Wind over hills, ridges and cliffs after EN 1991-1-4 annex A.3, in the form that stands there for reckoning."""

from __future__ import annotations

import math
from typing import Literal

from pinfold.formulas.ranges import within
from pinfold.units import Meter, Ratio

Feature = Literal["ridge", "escarpment", "hill"]
Side = Literal["upwind", "downwind"]

SHALLOWEST: Ratio = 0.05
"""Slope under which a rise does not count."""
STEEP: Ratio = 0.3
"""Slope from which on a rise counts as no steeper."""
HIGHEST: Ratio = 2.0
"""Height over the effective length past which nothing is felt."""
NEAR: Ratio = 0.1
"""Distance behind a cliff's edge over the effective length up to which the factor is read straight."""


def slope_length(*, half_length: Meter) -> Meter:
    """Level length of a straight slope from its half-height on: Lu = 2 Lh.

    ASCE 7 measures a hill from the crest to where it is half as high, EN 1991-1-4 to its foot.

    Args:
        half_length: Lh, level distance upwind from the crest to where the rise is half of H [m]

    Returns:
        Lu, level length of the upwind slope [m]

    Raises:
        OutOfRangeError: the length is not above 0.

    Range:
        Lh > 0, refused otherwise. A hill that flattens towards its foot is longer: measure it.

    Source:
        STATICS, geometry of a straight slope (derived)

    Example:
        >>> slope_length(half_length=50.0)
        100.0
    """
    return 2 * within(half_length, "half-length of the hill in m", above=0.0)


def effective_length(*, hill_height: Meter, slope_length: Meter) -> Meter:
    """Length of the upwind slope that the wind feels: Le = Lu while H/Lu < 0.3, else H / 0.3.

    Args:
        hill_height: H, rise from the foot to the crest [m]
        slope_length: Lu, level length of the upwind slope from the foot to the crest [m]

    Returns:
        Le, effective length [m]

    Raises:
        OutOfRangeError: the height is below 0 or the length not above 0.

    Range:
        H ≥ 0, Lu > 0; refused outside.

    Source:
        EN1991-1-4, table A.2 (read)

    Example:
        >>> effective_length(hill_height=60.0, slope_length=150.0)
        200.0
    """
    within(hill_height, "height of the hill in m", low=0.0)
    return max(within(slope_length, "length of the slope in m", above=0.0), hill_height / STEEP)


def orography_location(
    *, feature: Feature, side: Side, hill_height: Meter, slope_length: Meter, crest_distance: Meter, height: Meter
) -> Ratio:
    """How much of the crest's speed-up is felt at a place: s of figures A.2 and A.3, by their equations.

    Upwind, and downwind of a hill or ridge, s = A e^(B x/L) falls away from the crest; behind a cliff
    s = A log²(x/Le) + B log(x/Le) + C, read straight over the first tenth of Le.

    Args:
        feature: a ridge or hill that falls away again, or an escarpment that stays up
        side: which side of the crest the place lies on
        hill_height: H, rise from the foot to the crest [m]
        slope_length: L, level length of the slope from foot to crest; of a hill or ridge both slopes alike [m]
        crest_distance: x, level distance from the crest, 0 or more [m]
        height: z, above the ground at the place [m]

    Returns:
        s, orographic location factor [-]

    Raises:
        OutOfRangeError: a length below 0, or the slope's not above 0.

    Range:
        0 past z/Le = 2, x/Lu = 1.5 upwind, x/Ld = 2 behind a hill, x/Le = 3.5 behind a cliff; behind a cliff
        z/Le below 0.1 counts as 0.1. Never below 0.

    Source:
        EN1991-1-4, A.3, equations A.4 to A.13 (read)

    Notes:
        One public transcription puts a length into the logarithm behind a cliff where the standard puts the ratio.

    Example:
        >>> orography_location(feature="hill", side="upwind", hill_height=20.0, slope_length=100.0, crest_distance=0.0,
        ... height=0.0)
        1.0124
    """
    length = effective_length(hill_height=hill_height, slope_length=slope_length)
    high = within(height, "height above ground in m", low=0.0) / length
    far = within(crest_distance, "distance from the crest in m", low=0.0)
    if high > HIGHEST:
        return 0.0
    if side == "upwind":
        return max(_before(far / slope_length, high), 0.0)
    if feature == "escarpment":
        return max(_behind_cliff(far / length, high), 0.0)
    return max(_behind_hill(far / slope_length, high), 0.0)


def orography_factor(
    *, feature: Feature, side: Side, hill_height: Meter, slope_length: Meter, crest_distance: Meter, height: Meter
) -> Ratio:
    """How much faster the mean wind goes over a rise: co = 1 + 2 s Φ, no more than 1 + 0.6 s, Φ = H/Lu.

    Args:
        feature: a ridge, an escarpment or a hill
        side: which side of the crest the place lies on
        hill_height: H, rise from the foot to the crest [m]
        slope_length: Lu, level length of the upwind slope from foot to crest [m]
        crest_distance: x, level distance from the crest, 0 or more [m]
        height: z, above the ground at the place [m]

    Returns:
        co, factor on the mean speed, 1 or more [-]

    Raises:
        OutOfRangeError: as orography_location.

    Range:
        1 where Φ is below 0.05; from Φ = 0.3 on as at 0.3.

    Source:
        EN1991-1-4, A.3, equations A.1 to A.3 (read)

    Example:
        >>> orography_factor(feature="hill", side="upwind", hill_height=20.0, slope_length=100.0, crest_distance=0.0,
        ... height=0.0)
        1.405
    """
    felt = orography_location(
        feature=feature, side=side, hill_height=hill_height, slope_length=slope_length,
        crest_distance=crest_distance, height=height,
    )  # fmt: skip
    slope = hill_height / slope_length
    return 1.0 if slope < SHALLOWEST else 1 + 2 * felt * min(slope, STEEP)


def _crest(high: Ratio) -> Ratio:
    return 0.1552 * high**4 - 0.8575 * high**3 + 1.8133 * high**2 - 1.9115 * high + 1.0124


def _before(far: Ratio, high: Ratio) -> Ratio:
    if far > 1.5:
        return 0.0
    return _crest(high) * math.exp(-(0.3542 * high**2 - 1.0577 * high + 2.6456) * far)


def _behind_hill(far: Ratio, high: Ratio) -> Ratio:
    if far > 2.0:
        return 0.0
    return _crest(high) * math.exp((-0.3056 * high**2 + 1.0212 * high - 1.7637) * far)


def _behind_cliff(far: Ratio, high: Ratio) -> Ratio:
    if far > 3.5:
        return 0.0
    if far >= NEAR:
        return _on_cliff(far, high)
    edge = _crest(high)
    return edge + far / NEAR * (_on_cliff(NEAR, high) - edge)


def _on_cliff(far: Ratio, high: Ratio) -> Ratio:
    z, x = math.log10(max(high, NEAR)), math.log10(far)
    a = -1.3420 * z**3 - 0.8222 * z**2 + 0.4609 * z - 0.0791
    b = -1.0196 * z**3 - 0.8910 * z**2 + 0.5343 * z - 0.1156
    c = 0.8030 * z**3 + 0.4236 * z**2 - 0.5738 * z + 0.1606
    return a * x**2 + b * x + c
