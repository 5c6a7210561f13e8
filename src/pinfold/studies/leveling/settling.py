"""How supports have gone down from survey to survey: trends with their spread, unevenness, when to look again.

No more is assumed than the readings show: with one survey there is nothing to tell, with two a difference without a
trend, from three on a straight line, and where the day it was built is known also the law by which every tenfold of
age brings as much. Which of the two is right few surveys can tell; what lies ahead is told by both.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np

from pinfold.figures import Figure, practice
from pinfold.findings import Step, work
from pinfold.formulas import settlement as formulas
from pinfold.plan.supports import Support
from pinfold.studies.leveling.ordering import neighbors
from pinfold.studies.leveling.records import Survey
from pinfold.studies.leveling.solving import solved
from pinfold.tables.shelf import kind
from pinfold.units import RATIO, SECOND, Meter, MeterPerSecond, Radian, Ratio, Second

DAY: Second = 86400.0
YEAR: Second = 365.25 * DAY
AHEAD: Second = YEAR / 2
"""How far ahead it is told."""
CONFIDENCE = 0.95
LONGEST = practice("365 day", SECOND, "a structure on blocks is looked at at least once a year")
SOONEST = practice("14 day", SECOND, "sooner nothing is seen over the spread of the readings")
THIRD = practice("90 day", SECOND, "until a third survey makes a trend")
KEPT = practice("0.5", RATIO, "share of what is left until damage is seen that may go before the next look")
_FROST_MONTHS = {True: (12, 1, 2, 3), False: (6, 7, 8, 9)}


@dataclass(frozen=True, kw_only=True)
class Trend:
    """How one support has gone.

    Attributes:
        mark: of it.
        surveys: that it was read in.
        settled: from the first to the last of them, above zero where it went down.
        settled_spread: standard deviation of that.
        rate: of the straight line, above zero where it goes down; None with fewer than two surveys.
        rate_low: lower end of its interval; None with fewer than three.
        rate_high: upper end, likewise.
        per_tenfold: settlement for each tenfold of age; None where it cannot be told.
        ahead: that half a year more brings by the straight line; None without one.
        ahead_slowing: likewise by the law of tenfold ages.
        moves: whether the interval leaves out standing still; None where it cannot be told.
    """

    mark: str
    surveys: int
    settled: Meter
    settled_spread: Meter
    rate: MeterPerSecond | None
    rate_low: MeterPerSecond | None = None
    rate_high: MeterPerSecond | None = None
    per_tenfold: Meter | None = None
    ahead: Meter | None = None
    ahead_slowing: Meter | None = None
    moves: bool | None = None


@dataclass(frozen=True, kw_only=True)
class Uneven:
    """Two neighbors that have gone down unlike each other.

    Attributes:
        pair: their marks.
        difference: of their settlements since the first survey.
        spread: standard deviation of it.
        distance: between them.
        distortion: difference over distance.
    """

    pair: tuple[str, str]
    difference: Meter
    spread: Meter
    distance: Meter
    distortion: Ratio


@dataclass(frozen=True, kw_only=True)
class Settlement:
    """How a structure has settled.

    Attributes:
        surveys: names, in order of time.
        spans: from the first to the last survey.
        steady: whether all of them hang on a mark that does not move.
        trends: of each support read in at least two surveys.
        uneven: neighbors, the worst first.
        limit: from where on damage is seen.
        again: how long until the next look.
        why_again: why then.
        notes: what is to be known.
        steps: lines of working.
    """

    surveys: tuple[str, ...]
    spans: Second
    steady: bool
    trends: tuple[Trend, ...]
    uneven: tuple[Uneven, ...]
    limit: Figure
    again: Second
    why_again: str
    notes: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, kw_only=True)
class Ground:
    """What of the place matters to settlement.

    Attributes:
        latitude: of the plot; None where not known.
        frost_depth: of the ground; None where not known.
        pad_below: depth of the pads.
        built: when it was set up, in seconds since the epoch; None where not known.
    """

    latitude: Radian | None
    frost_depth: Meter | None
    pad_below: Meter
    built: float | None


def settled(surveys: Sequence[Survey], supports: Sequence[Support], ground: Ground) -> Settlement:
    """What surveys in order of time say together."""
    steady = all(survey.steady for survey in surveys) and len({survey.datum for survey in surveys}) <= 1
    used = tuple(surveys) if steady else _about_their_mean(surveys, supports)
    trends = tuple(
        trend for support in supports if (trend := _trend(support.mark, used, ground.built)) is not None
    )  # fmt: skip
    uneven, steps = _uneven(used, supports)
    limit = kind("tilts", "cosmetic").figure("tilt")
    again, why, more = _again(uneven, trends, limit.value)
    return Settlement(
        surveys=tuple(survey.name for survey in surveys), spans=surveys[-1].at - surveys[0].at if surveys else 0.0,
        steady=steady, trends=trends, uneven=uneven, limit=limit, again=again, why_again=why,
        notes=_notes(surveys, ground, steady=steady), steps=(*steps, *more),
    )  # fmt: skip


def _about_their_mean(surveys: Sequence[Survey], supports: Sequence[Support]) -> tuple[Survey, ...]:
    """Heights over the mean of the supports that were read in all surveys."""
    common = [support.mark for support in supports if all(survey.height(support.mark) for survey in surveys)]
    found = []
    for survey in surveys:
        own = [each.height for each in survey.heights if each.mark in common]
        mean = sum(own) / len(own) if own else 0.0
        found.append(
            replace(survey, heights=tuple(each._replace(height=each.height - mean) for each in survey.heights))
        )
    return tuple(found)


def _trend(mark: str, surveys: Sequence[Survey], built: float | None) -> Trend | None:
    read = [(survey.at, height) for survey in surveys if (height := survey.height(mark)) is not None]
    if len(read) < 2 or read[-1][0] <= read[0][0]:
        return None
    times = np.array([at for at, _ in read])
    down = np.array([read[0][1].height - each.height for _, each in read])
    spreads = np.array([max(each.spread, 1e-4) for _, each in read])
    ages = times - read[0][0]
    line = solved(np.column_stack([np.ones(len(times)), ages / YEAR]), down, spreads)
    rate = float(line.numbers[1]) / YEAR
    plain = Trend(
        mark=mark, surveys=len(read), settled=float(down[-1]), settled_spread=math.hypot(spreads[0], spreads[-1]),
        rate=rate, ahead=rate * AHEAD,
    )  # fmt: skip
    if line.spare < 1:
        return plain
    half = _reach(line.spare) * max(1.0, line.scatter) * math.sqrt(float(line.covariance[1, 1])) / YEAR
    slow = _by_tenfold(times, down, spreads, built)
    return replace(
        plain, rate_low=rate - half, rate_high=rate + half, moves=not rate - half <= 0 <= rate + half, per_tenfold=slow,
        ahead_slowing=None if slow is None or built is None else formulas.settled_by_log_time(
            per_tenfold=slow, start=float(times[-1]) - built, end=float(times[-1]) + AHEAD - built
        ),
    )  # fmt: skip


def _by_tenfold(times: np.ndarray, down: np.ndarray, spreads: np.ndarray, built: float | None) -> Meter | None:
    """Settlement for each tenfold of age; None where the age is not known or hardly differs."""
    if built is None or times[0] - built < DAY:
        return None
    logs = np.log10(times - built)
    if float(np.ptp(logs)) < 0.05:
        return None
    return float(solved(np.column_stack([np.ones(len(logs)), logs]), down, spreads).numbers[1])


def _reach(spare: int) -> float:
    from scipy.special import stdtrit  # one function, where scipy.stats would cost half a second

    return float(stdtrit(spare, 0.5 + CONFIDENCE / 2))


def _uneven(surveys: Sequence[Survey], supports: Sequence[Support]) -> tuple[tuple[Uneven, ...], tuple[Step, ...]]:
    """Neighbors by how unlike they went, the worst first, with the working of that one."""
    if len(surveys) < 2:
        return (), ()
    first, last = surveys[0], surveys[-1]
    both = [each for each in supports if first.height(each.mark) and last.height(each.mark)]
    found = []
    for i, j in neighbors([each.at for each in both]):
        one, other = both[i], both[j]
        gone = [_gone(first, last, each.mark) for each in (one, other)]
        spread = math.hypot(*(survey.spread_between(one.mark, other.mark) for survey in (first, last)))
        step = work(
            formulas.angular_distortion, why=f"{one.mark} and {other.mark}", difference=gone[0] - gone[1],
            distance=math.dist(one.at, other.at),
        )  # fmt: skip
        pair = Uneven(pair=(one.mark, other.mark), difference=abs(gone[0] - gone[1]), spread=spread,
                      distance=math.dist(one.at, other.at), distortion=step.number)  # fmt: skip
        found.append((pair, step))
    found.sort(key=lambda each: -each[0].distortion)
    return tuple(pair for pair, _ in found), tuple(step for _, step in found[:1])


def _gone(first: Survey, last: Survey, mark: str) -> Meter:
    before, after = first.height(mark), last.height(mark)
    assert before is not None, "read in both"
    assert after is not None, "read in both"
    return before.height - after.height


def _again(
    uneven: Sequence[Uneven], trends: Sequence[Trend], limit: Ratio
) -> tuple[Second, str, tuple[Step, ...]]:  # fmt: skip
    """How long until the next look, and why."""
    rates = {each.mark: each for each in trends if each.rate_low is not None}
    if not uneven or not all(mark in rates for mark in uneven[0].pair):
        return THIRD.value, "three surveys make a trend", ()
    steps = []
    for pair in uneven:
        one, other = (rates.get(mark) for mark in pair.pair)
        if one is None or other is None or one.rate is None or other.rate is None:
            continue
        doubt = max(_half(one), _half(other))
        left = KEPT.value * max(limit * pair.distance - pair.difference, 0.0)
        steps.append(work(
            formulas.time_to_move, why=f"{pair.pair[0]} against {pair.pair[1]}, at the fast end of its interval",
            allowed=left, rate=abs(one.rate - other.rate) + doubt, longest=LONGEST.value,
        ))  # fmt: skip
    soonest = min(steps, key=lambda step: step.number)
    if uneven[0].distortion >= limit:
        return SOONEST.value, f"{uneven[0].pair[0]} against {uneven[0].pair[1]} has moved too far already", (soonest,)
    if soonest.number >= LONGEST.value:
        return LONGEST.value, "at least once a year", (soonest,)
    return (
        max(soonest.number, SOONEST.value),
        f"by then {soonest.why.partition(',')[0]} may have moved too far",
        (soonest,),
    )


def _half(trend: Trend) -> MeterPerSecond:
    assert trend.rate_high is not None, "has an interval"
    assert trend.rate_low is not None, "has an interval"
    return (trend.rate_high - trend.rate_low) / 2


def _notes(surveys: Sequence[Survey], ground: Ground, *, steady: bool) -> tuple[str, ...]:
    notes = []
    if len(surveys) == 1:
        notes.append("one survey: nothing is known of movement before a second one")
    if len(surveys) == 2:
        notes.append("two surveys make a difference, no trend: nothing tells haste from slowing down")
    if not steady:
        notes.append(
            "no mark away from the structure was read in all surveys: only how supports moved against their mean is "
            "shown, not how far all went down"
        )
    if ground.frost_depth is not None and ground.pad_below < ground.frost_depth:
        frozen = [survey.name for survey in surveys if _in_frost(survey.at, ground.latitude)]
        notes.append(
            "its pads lie above the frost: it rises in winter and comes down in spring, each support by its own "
            "amount. Compare surveys of one season, and look again after the thaw"
            + (f"; in the season of frost: {', '.join(frozen)}" if frozen else "")
        )
    if ground.built is None and len(surveys) > 2:
        notes.append('the day it was built is not told (built = "2026-05-03"): slowing down with age is not tried')
    return tuple(notes)


def _in_frost(at: float, latitude: Radian | None) -> bool:
    return latitude is not None and datetime.fromtimestamp(at, UTC).month in _FROST_MONTHS[latitude >= 0]
