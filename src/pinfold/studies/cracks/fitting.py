"""The straight line through readings of a crack, weighted by how well each was read."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from pinfold.studies.cracks.records import CrackFit, CrackReading

LEAST_HEAT_C = 5.0
"""Difference between the warmest and the coldest reading below which temperature cannot be told from chance."""

MOST_LIKENESS = 0.95
"""Correlation of temperature with time above which the two cannot be told apart."""


def fewest(*, with_heat: bool) -> int:
    """Fewest readings for a line that still leaves one to judge it by."""
    return 4 if with_heat else 3


def usable(readings: Sequence[CrackReading]) -> tuple[tuple[CrackReading, ...], bool, tuple[str, ...]]:
    """Which readings to use, whether temperature can be used, and notes on what is left out.

    Args:
        readings: in order of time.
    """
    warm = [reading for reading in readings if reading.temperature_c is not None]
    if not warm:
        return tuple(readings), False, ()
    left = len(readings) - len(warm)
    if len(warm) < fewest(with_heat=True):
        return tuple(readings), False, ("too few readings have a temperature; it was not used",)
    if left > len(readings) / 3:
        return tuple(readings), False, (f"{left} readings have no temperature; it was not used",)
    heat = np.array([reading.temperature_c for reading in warm], dtype=float)
    time = np.array([reading.at for reading in warm])
    if float(np.ptp(heat)) < LEAST_HEAT_C:
        return tuple(readings), False, ("the temperatures hardly differ; they were not used",)
    if float(np.ptp(time)) <= 0 or abs(float(np.corrcoef(heat, time)[0, 1])) > MOST_LIKENESS:
        alike = "it grew steadily warmer or colder over the readings, so that warmth and time cannot be told apart"
        return tuple(readings), False, (alike,)
    return tuple(warm), True, (f"{left} readings without a temperature were left out",) if left else ()


def fitted_line(readings: Sequence[CrackReading], *, with_heat: bool) -> CrackFit:
    """Weighted least squares of width on time, and on temperature; weights are the inverse squares of the spreads.

    Where readings scatter more than their spreads allow, all errors are widened to match; where less, they stay.

    Args:
        readings: at least `fewest` of them, not all at one time.
        with_heat: whether temperature is used; every reading then has one.
    """
    spread = np.array([reading.spread for reading in readings])
    width = np.array([reading.width for reading in readings])
    time = np.array([reading.at for reading in readings])
    start = float(np.average(time, weights=spread**-2))
    columns = [np.ones_like(time), time - start]
    middle = None
    if with_heat:
        heat = np.array([reading.temperature_c for reading in readings], dtype=float)
        middle = float(np.average(heat, weights=spread**-2))
        columns.append(heat - middle)
    sizes = np.array([max(float(np.max(np.abs(column))), 1e-30) for column in columns])
    design = np.column_stack(columns) / sizes / spread[:, None]
    inverse = np.linalg.inv(design.T @ design)
    numbers, *_ = np.linalg.lstsq(design, width / spread, rcond=None)
    spare = len(readings) - len(columns)
    scatter = max(1.0, math.sqrt(float(np.sum((width / spread - design @ numbers) ** 2)) / spare))
    covariance = inverse * scatter**2 / np.outer(sizes, sizes)
    numbers = numbers / sizes
    return CrackFit(
        start=start,
        middle_c=middle,
        width=float(numbers[0]),
        slope=float(numbers[1]),
        thermal=float(numbers[2]) if with_heat else None,
        covariance=tuple(tuple(float(value) for value in row) for row in covariance),
        scatter=scatter,
        spare=spare,
        reading_spread=float(np.median(spread)),
    )
