"""Least squares with what it says of itself: numbers, their covariance, residuals, and how far readings are checked."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.floating]


class Solved(NamedTuple):
    """What weighted least squares gives.

    Attributes:
        numbers: the unknowns.
        covariance: of them, from the spreads of the readings alone.
        residuals: reading less what the unknowns give for it.
        shares: redundancy of each reading: how much of an error in it shows in its own residual.
        links: correlation of the residuals with each other.
        spare: readings beyond the unknowns.
        scatter: standard deviation of unit weight, nan where no reading is spare.
    """

    numbers: Numbers
    covariance: Numbers
    residuals: Numbers
    shares: Numbers
    links: Numbers
    spare: int
    scatter: float


def solved(design: Numbers, values: Numbers, spreads: Numbers) -> Solved:
    """Weighted least squares; weights are the inverse squares of the spreads.

    Args:
        design: a row for each reading, a column for each unknown; of full rank
        values: of the readings
        spreads: their standard deviations
    """
    weighted, wanted = design / spreads[:, None], values / spreads
    inverse = np.linalg.inv(weighted.T @ weighted)
    numbers, *_ = np.linalg.lstsq(weighted, wanted, rcond=None)
    left = wanted - weighted @ numbers
    projected = np.eye(len(values)) - weighted @ inverse @ weighted.T
    shares = np.clip(np.diag(projected), 0.0, 1.0)
    roots = np.sqrt(np.where(shares > _UNCHECKED, shares, 1.0))
    spare = len(values) - design.shape[1]
    scatter = float(np.sqrt(np.sum(left**2) / spare)) if spare > 0 else float("nan")
    return Solved(numbers, inverse, left * spreads, shares, projected / np.outer(roots, roots), spare, scatter)


_UNCHECKED = 1e-9
