"""Whether a crack moves: a straight line through its readings, and what the line can and cannot show."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from pinfold.errors import InputError
from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.cracks.fitting import fewest, fitted_line, usable
from pinfold.studies.cracks.records import (
    MONTH,
    YEAR,
    CrackFit,
    CrackReading,
    CrackTrend,
    CrackVerdict,
    PredictedWidth,
)
from pinfold.units import METER, Celsius, Ratio, Second

THRESHOLD = Figure(
    value=0.1e-3, unit=METER, standing=Standing.PRACTICE, source="PRACTICE", printed="0.1 mm in a year"
)  # fmt: skip
"""Movement in a year below which a crack is called dead; cracks are commonly read to 0.1 mm."""

_WARM_SEASONS = (
    "the readings cover less than a year and no temperatures are used: the season may pass for movement,"
    " since cracks open in cold and close in warmth"
)
_WET_SEASONS = "the readings cover less than a year: ground and walls also swell and shrink with wet and dry seasons"
_DAY = 86400.0
_LEAST_TIME: Second = 180 * _DAY
_SEASONS: Second = 330 * _DAY
_LEAST_SPAN: Second = 7 * _DAY
_LEAST_GAP: Second = 14 * _DAY
_MOST_GAP: Second = 61 * _DAY
_MOST_READINGS = 36


def crack_trend(
    readings: Sequence[CrackReading], *, threshold: Figure = THRESHOLD, confidence: Ratio = 0.95
) -> CrackTrend:
    """Whether a crack moves, by weighted least squares on time, and on temperature where the readings allow.

    A crack is moving when the interval of its slope leaves out zero and reaches past the threshold; it is dead when
    the interval holds nothing larger than the threshold and the readings cover enough time; else nothing is shown yet.

    Args:
        readings: of one crack at one mark, in any order.
        threshold: movement in a year that counts as none.
        confidence: of the interval.

    Raises:
        InputError: a reading that is no number, or without a spread.
    """
    ordered = sorted(_checked(readings), key=lambda reading: reading.at)
    chosen, with_heat, notes = usable(ordered)
    if len(chosen) < fewest(with_heat=False) or chosen[-1].at - chosen[0].at < _LEAST_SPAN:
        return _too_few(ordered, threshold, confidence)
    fit = fitted_line(chosen, with_heat=with_heat)
    half = _reach(confidence, fit.spare) * fit.slope_spread
    low, high = fit.slope - half, fit.slope + half
    covered = chosen[-1].at - chosen[0].at
    verdict = _verdict(low, high, covered, limit=threshold.value / YEAR, with_heat=with_heat)
    if covered < _SEASONS:
        notes = (*notes, _WET_SEASONS if with_heat else _WARM_SEASONS)
    more: int | None = 0
    time = 0.0
    if verdict is CrackVerdict.NOT_SHOWN:
        more, time = _wanted(chosen, fit, threshold, confidence)
    return CrackTrend(
        verdict=verdict,
        says=_says(verdict, fit, (low, high), (more, time), threshold),
        fit=fit,
        low=low,
        high=high,
        confidence=confidence,
        threshold=threshold,
        readings=len(chosen),
        more_readings=more,
        more_time=time,
        notes=notes,
    )


def predicted_width(fit: CrackFit, *, at: float, temperature_c: Celsius | None = None) -> PredictedWidth:
    """What a reading at some time, and at some temperature, would show.

    Where the line knows temperature and none is given, the mean of the readings' temperatures is taken.
    """
    warmer = 0.0 if temperature_c is None or fit.middle_c is None else temperature_c - fit.middle_c
    row = np.array([1.0, at - fit.start, warmer][: len(fit.covariance)])
    numbers = np.array([fit.width, fit.slope, fit.thermal or 0.0][: len(row)])
    spread = math.sqrt(float(row @ np.array(fit.covariance) @ row) + (fit.scatter * fit.reading_spread) ** 2)
    return PredictedWidth(width=float(row @ numbers), spread=spread)


def _checked(readings: Sequence[CrackReading]) -> Sequence[CrackReading]:
    for index, reading in enumerate(readings):
        place = f"readings[{index}]"
        if not math.isfinite(reading.at) or not math.isfinite(reading.width) or reading.width < 0:
            raise InputError("a reading wants a time and a width of 0 or more", place=place)
        if not 0 < reading.spread < math.inf:
            raise InputError(
                "a reading wants a spread above 0, such as half a division of the gauge", place=f"{place}.spread"
            )
        if reading.temperature_c is not None and not math.isfinite(reading.temperature_c):
            raise InputError(
                "the temperature is no number; leave it out when nobody looked", place=f"{place}.temperature_c"
            )
    return readings


def _reach(confidence: float, spare: int) -> float:
    """Half the width of a two-sided interval in standard errors, by Student's t."""
    from scipy.special import stdtrit  # one function, where scipy.stats would cost half a second

    return float(stdtrit(spare, 0.5 + confidence / 2))


def _verdict(low: float, high: float, covered: Second, *, limit: float, with_heat: bool) -> CrackVerdict:
    if -limit <= low and high <= limit:
        enough = covered >= (_LEAST_TIME if with_heat else _SEASONS)
        return CrackVerdict.DEAD if enough else CrackVerdict.NOT_SHOWN
    return CrackVerdict.MOVING if low > 0 or high < 0 else CrackVerdict.NOT_SHOWN


def _wanted(
    chosen: Sequence[CrackReading], fit: CrackFit, threshold: Figure, confidence: float
) -> tuple[int | None, Second]:  # fmt: skip
    """How many more readings at the usual gap narrow the interval to the threshold, and how long that takes.

    What warmth that goes with the season costs the slope now, it is taken to cost later too.
    """
    times = np.array([reading.at for reading in chosen])
    gap = float(np.clip(np.median(np.diff(times)), _LEAST_GAP, _MOST_GAP))
    now = float(np.sqrt(np.sum((times - times.mean()) ** 2)))
    spread = max(fit.slope_spread * now, fit.scatter * fit.reading_spread)
    numbers = len(fit.covariance)
    least = _LEAST_TIME if numbers == 3 else _SEASONS
    for more in range(1, _MOST_READINGS + 1):
        longer = np.concatenate([times, times[-1] + gap * np.arange(1, more + 1)])
        around = math.sqrt(float(np.sum((longer - longer.mean()) ** 2)))
        half = _reach(confidence, len(longer) - numbers) * spread / around
        if half <= threshold.value / YEAR / 2 and longer[-1] - longer[0] >= least:
            return more, gap * more
    return None, gap * _MOST_READINGS


def _too_few(readings: Sequence[CrackReading], threshold: Figure, confidence: float) -> CrackTrend:
    more = max(fewest(with_heat=False) - len(readings), 1)
    noted = "1 reading shows" if len(readings) == 1 else f"{len(readings)} readings show"
    if len(readings) >= fewest(with_heat=False):
        noted = f"{len(readings)} readings within {_LEAST_SPAN / _DAY:g} days show"
    return CrackTrend(
        verdict=CrackVerdict.NOT_SHOWN,
        says=f"{CrackVerdict.NOT_SHOWN}: {noted} no line; needs {_readings(more)} more at least,"
        " a month or so apart, each with its temperature",
        fit=None,
        low=None,
        high=None,
        confidence=confidence,
        threshold=threshold,
        readings=len(readings),
        more_readings=more,
        more_time=more * MONTH,
        notes=(),
    )


def _says(
    verdict: CrackVerdict,
    fit: CrackFit,
    interval: tuple[float, float],
    wanted: tuple[int | None, Second],
    threshold: Figure,
) -> str:
    low, high = (1e3 * MONTH * end for end in interval)
    rate = f"{1e3 * MONTH * fit.slope:+.3f} mm a month, between {low:+.3f} and {high:+.3f}"
    limit = f"{1e3 * threshold.value:g} mm in a year ({threshold.standing})"
    if verdict is CrackVerdict.MOVING:
        return f"{verdict}: {'opening' if fit.slope > 0 else 'closing'}, {rate}"
    if verdict is CrackVerdict.DEAD:
        return f"{verdict}: {rate}, which is less than {limit} either way"
    more, time = wanted
    if more is None:
        return f"{verdict}: {rate}; readings this rough will not show {limit}, so read it with a finer gauge"
    return f"{verdict}: {rate}; needs {_readings(more)} more over {math.ceil(time / _DAY)} days to show {limit}"


def _readings(count: int) -> str:
    return f"{count} reading{'' if count == 1 else 's'}"
