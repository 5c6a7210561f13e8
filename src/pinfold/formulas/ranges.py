"""The one helper that enforces a published range."""

from __future__ import annotations

import math
from typing import TypeVar

import numpy as np

from pinfold.errors import OutOfRangeError

Number = TypeVar("Number", float, np.ndarray)


def within(
    value: Number, what: str, *, low: float = -math.inf, high: float = math.inf, above: float = -math.inf
) -> Number:
    """The value itself if every number of it lies in low ≤ value ≤ high and value > above.

    Args:
        value: a float or an array
        what: name and unit for the message, such as `wind speed in m/s`
        low: smallest allowed
        high: largest allowed
        above: the value must be larger than this, not equal

    Raises:
        OutOfRangeError: any number of it lies outside, or is not a number.
    """
    if value.__class__ is float and low <= value <= high and value > above:
        return value
    if isinstance(value, float | int):
        inside, found = low <= value <= high and value > above, float(value)
    else:
        good = (value >= low) & (value <= high) & (value > above)
        inside, found = (
            bool(np.all(good)),
            float(np.asarray(value)[~np.asarray(good)].flat[0]) if not np.all(good) else 0.0,
        )
    if not inside:
        raise OutOfRangeError(f"{what} is {found:.6g}; {_limits(low, high, above)}")
    return value


def _limits(low: float, high: float, above: float) -> str:
    floor = f"above {above:.6g}" if above > low else f"at least {low:.6g}" if low > -math.inf else ""
    roof = f"at most {high:.6g}" if high < math.inf else ""
    return "the method wants it " + " and ".join(part for part in (floor, roof) if part)
