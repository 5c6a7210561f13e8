"""Hours of warmth made into age: what a mix gains hour by hour, and when an age is reached."""

from __future__ import annotations

from functools import cache

import numpy as np

from pinfold.formulas import maturity
from pinfold.studies.ripening.records import Gained
from pinfold.studies.weather.records import Hours
from pinfold.tables.shelf import kind
from pinfold.units import Second

HOUR: Second = 3600.0
_HOTTEST = 90.0


def gained(temperatures: Hours) -> Gained:
    """What a mix as warm as these hours gains, by each method.

    Args:
        temperatures: of the mix, or of the air where nothing better is known, hour by hour in °C
    """
    air = np.asarray(temperatures, dtype=np.float64)
    missing = np.flatnonzero(~np.isfinite(air))
    known = int(missing[0]) if len(missing) else len(air)
    within = np.clip(np.where(np.isfinite(air), air, -_HOTTEST / 2), -_HOTTEST / 2, _HOTTEST)
    return Gained(methods=tuple(_summed(step) for step in _steps(within)), known=known)


def _summed(step: Hours) -> Hours:
    return np.concatenate(([0.0], np.cumsum(step)))


def _steps(air: Hours) -> tuple[Hours, ...]:
    usual, zero, old = _figures()
    by_heat = maturity.age_by_arrhenius(temperature_c=air, stops_c=usual[1], reference_c=usual[0], time=HOUR)  # type: ignore[arg-type]
    by_degrees = (
        maturity.age_by_nurse_saul(temperature_c=air, datum_c=datum, reference_c=reference, time=HOUR)  # type: ignore[arg-type]
        for reference, datum in (zero, old)
    )
    return (np.asarray(by_heat), *(np.asarray(each) for each in by_degrees))


@cache
def _figures() -> tuple[tuple[float, float], ...]:
    names = ("arrhenius", "nurse-saul", "nurse-saul-old")
    return tuple((kind("maturity", name).value("reference"), kind("maturity", name).value("stops")) for name in names)


def reached(gain: Hours, age: Second, starts: Hours) -> Hours:
    """Hours from each start until an age is gained; infinite where the hours end before.

    Args:
        gain: age gained at the beginning of each hour, as `Gained.methods` have it
        age: wanted, at the reference warmth
        starts: where each begins, in hours from the first, parts of an hour allowed
    """
    begins = np.asarray(starts, dtype=np.float64)
    if age <= 0:
        return np.zeros_like(begins)
    aims = np.interp(begins, np.arange(len(gain)), gain) + age
    ends = np.clip(np.searchsorted(gain, aims, side="left"), 1, len(gain) - 1)
    share = (aims - gain[ends - 1]) / np.maximum(gain[ends] - gain[ends - 1], 1e-9)
    taken = ends - 1 + share - begins
    return np.where(aims <= gain[-1], np.maximum(taken, 0.0), np.inf)
