"""Walls between uprights: how far by a ratio to the thickness, and the moment in a panel that spans level."""

from __future__ import annotations

import numpy as np

from pinfold.formulas.ranges import within
from pinfold.units import Meter, NewtonMeterPerMeter, Pascal, Ratio

SIMPLE_SPAN = 1 / 8
"""Coefficient of a panel held at two upright edges alone."""


def longest_by_ratio(*, thickness: Meter, ratio: Ratio) -> Meter:
    """Height or length that a wall may have by a ratio to its thickness: L = r t.

    Args:
        thickness: t, nominal thickness [m]
        ratio: r, by kind of wall and how it is held [-]

    Returns:
        L [m]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        t, r > 0; refused otherwise. A rule of proportion; it knows no wind.

    Source:
        TMS-EMPIRICAL, 18 between uprights for walls outside that bear nothing; 6 solid and 4 hollow for a wall free at
            its top (read)

    Example:
        >>> longest_by_ratio(thickness=0.2, ratio=18.0)
        3.6
    """
    return within(thickness, "thickness in m", above=0.0) * within(ratio, "ratio to the thickness", above=0.0)


def panel_coefficient(*, orthogonal: Ratio, height_over_length: Ratio) -> Ratio:
    """Moment coefficient of a panel held at its foot and both upright edges, free at its top, by yield lines.

    Two patterns, and the worse of them counts, with k = μ / (h/l)²: lines from the lower corners that meet below the
    top, α = β (3 − β) / [6 (4 β + k)] with β = [√(k² + 12 k) − k] / 4, not over 1; or lines that run to the top,
    α = ξ (3 − 2 ξ) / [12 (1 + k ξ²)] with ξ = [√(4 + 9 k) − 2] / (3 k), not over ½.

    Args:
        orthogonal: μ, moment the wall resists across its beds over that along them [-]
        height_over_length: h/l, of the panel [-]

    Returns:
        α; the moment along the beds is α w l² [-]

    Raises:
        OutOfRangeError: an argument is not above 0.

    Range:
        μ, h/l > 0; refused otherwise. Edges held, not clamped; even pressure.

    Source:
        STATICS, yield lines, work of the load against that of the lines (derived)
        EN-1996-1-1, annex E, support A, whose table it meets (memory)

    Example:
        >>> panel_coefficient(orthogonal=1.0, height_over_length=1.0)
        0.0707
    """
    share = within(height_over_length, "height over length", above=0.0)
    k = within(orthogonal, "μ", above=0.0) / share**2
    beta = np.minimum((np.sqrt(k**2 + 12 * k) - k) / 4, 1.0)
    xi = np.minimum((np.sqrt(4 + 9 * k) - 2) / (3 * k), 0.5)
    below, through = beta * (3 - beta) / (6 * (4 * beta + k)), xi * (3 - 2 * xi) / (12 * (1 + k * xi**2))
    worse: Ratio = np.maximum(below, through)
    return worse


def panel_moment(*, coefficient: Ratio, pressure: Pascal, length: Meter) -> NewtonMeterPerMeter:
    """Moment along the beds of a panel between uprights: M = α w l².

    Args:
        coefficient: α, 1/8 for a panel held at its ends alone, or from panel_coefficient [-]
        pressure: w, even pressure on it [Pa]
        length: l, clear length between the uprights [m]

    Returns:
        M, per height of wall [N m/m]

    Raises:
        OutOfRangeError: an argument is below 0.

    Range:
        α, w, l ≥ 0; refused below.

    Source:
        EN-1996-1-1, 6.3.1 and annex E (memory)
        STATICS (derived)

    Example:
        >>> panel_moment(coefficient=0.125, pressure=1000.0, length=2.0)
        500.0
    """
    within(coefficient, "coefficient", low=0.0)
    return coefficient * within(pressure, "pressure in Pa", low=0.0) * within(length, "length in m", low=0.0) ** 2
