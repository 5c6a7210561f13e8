"""Learning a number from readings: what was thought before and what was read, weighed by how sure each is.

Spreads are one standard deviation. A number and its spreads are in one and the same unit, whichever it is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.formulas.ranges import within
from pinfold.units import CubicMeter, KgPerCubicMeter, Kilogram, Meter, Ratio, Second, SquareMeter


@dataclass(frozen=True, kw_only=True)
class Belief:
    """A number as it is believed after readings.

    Attributes:
        value: most likely.
        spread: one standard deviation.
        weight: share of the readings in the value; the rest is what was thought before.
    """

    value: Ratio
    spread: Ratio
    weight: Ratio


def normal_posterior(*, prior: Ratio, prior_spread: Ratio, mean: Ratio, spread: Ratio, count: Ratio) -> Belief:
    """A number after readings: μ_1 = μ_0 + k (x − μ_0), k = (n/σ²) / (1/τ² + n/σ²), τ_1² = 1 / (1/τ² + n/σ²).

    Both what was thought before and the readings scatter normally; the scatter of one reading is taken as known.

    Args:
        prior: μ_0, value thought before [-]
        prior_spread: τ, how unsure it was; without end where nothing was thought [-]
        mean: x, mean of the readings [-]
        spread: σ, scatter of one reading [-]
        count: n, how many readings, those that count less in part [-]

    Returns:
        value, spread and weight of the readings (see Belief)

    Raises:
        OutOfRangeError: a spread is not above 0, the count is below 0, or there is neither a prior nor a reading.

    Range:
        τ > 0, σ > 0, n ≥ 0, n > 0 where τ has no end; refused outside.

    Source:
        BAYES-RULES, normal-normal model (read)

    Example:
        >>> normal_posterior(prior=10.0, prior_spread=2.0, mean=13.0, spread=2.0, count=2.0)
        Belief(value=12.0, spread=1.1547, weight=0.6667)
    """
    before = 1 / within(prior_spread, "spread before", above=0.0) ** 2
    read = within(count, "count of readings", low=0.0) / within(spread, "scatter of one reading", above=0.0) ** 2
    both = within(before + read, "what is known before and by readings", above=0.0)
    return Belief(value=prior + read / both * (mean - prior), spread=1 / math.sqrt(both), weight=read / both)


def tail_weight(*, distance: Ratio, freedom: Ratio) -> Ratio:
    """How much a reading counts by how far out it lies: w = min(1, (ν + 1) / (ν + z²)).

    Within one scatter of the middle it counts in full; far out hardly at all: one slip does not carry a value away.

    Args:
        distance: z, distance from the middle over the scatter of one reading, either way [-]
        freedom: ν, degrees of freedom of the t distribution that the tails follow [-]

    Returns:
        w, weight from 0 to 1 [-]

    Raises:
        OutOfRangeError: the degrees of freedom are not above 0, or the distance is no number.

    Range:
        ν > 0, refused outside; any distance.

    Source:
        T-WEIGHTS, weights of the t model (memory)

    Notes:
        The t model gives a little more than 1 inside one scatter; that part is held at 1.

    Example:
        >>> tail_weight(distance=4.0, freedom=4.0)
        0.25
    """
    within(distance, "distance of a reading")
    return min(1.0, (within(freedom, "degrees of freedom", above=0.0) + 1) / (freedom + distance * distance))


def pooled_spread(*, usual: Ratio, usual_count: Ratio, own: Ratio, own_count: Ratio) -> Ratio:
    """Scatter of one reading, a usual one and the readings' own joined: σ = √((c σ_0² + m s²) / (c + m)).

    Args:
        usual: σ_0, scatter as it usually is [-]
        usual_count: c, how many readings the usual one stands for [-]
        own: s, standard deviation of the readings themselves [-]
        own_count: m, how many of them there are, less one [-]

    Returns:
        σ, scatter of one reading [-]

    Raises:
        OutOfRangeError: a value is negative, or both counts are 0.

    Range:
        σ_0 ≥ 0, s ≥ 0, c ≥ 0, m ≥ 0, c + m > 0; refused outside.

    Source:
        STATISTICS, pooled variance of two samples (memory)

    Example:
        >>> pooled_spread(usual=1.0, usual_count=3.0, own=3.0, own_count=1.0)
        1.732
    """
    within(usual, "usual scatter", low=0.0)
    within(own, "scatter of the readings", low=0.0)
    within(usual_count, "count of the usual scatter", low=0.0)
    together = within(usual_count + within(own_count, "count of readings less one", low=0.0), "counts", above=0.0)
    return math.sqrt((usual_count * usual**2 + own_count * own**2) / together)


def spread_by_deviation(*, deviation: Ratio) -> Ratio:
    """Standard deviation by the middle distance from the middle: s = 1.4826 d.

    Args:
        deviation: d, median of the distances from the median [-]

    Returns:
        s, standard deviation that normal readings with this deviation have [-]

    Raises:
        OutOfRangeError: the deviation is negative.

    Range:
        d ≥ 0, refused outside.

    Source:
        STATISTICS, one over the upper quartile of the normal distribution (derived)

    Example:
        >>> spread_by_deviation(deviation=2.0)
        2.9652
    """
    return 1.482602218505602 * within(deviation, "median deviation", low=0.0)


def forgetting(*, age: Second, half_life: Second) -> Ratio:
    """How much an old reading still counts: w = 2^(−t/T).

    Args:
        age: t, time since the reading [s]
        half_life: T, time in which its weight halves [s]

    Returns:
        w, weight from 0 to 1 [-]

    Raises:
        OutOfRangeError: the age is negative or the half-life not above 0.

    Range:
        t ≥ 0, T > 0; refused outside.

    Source:
        STATISTICS, exponential weights (memory)

    Example:
        >>> forgetting(age=1209600.0, half_life=604800.0)
        0.25
    """
    return float(2.0 ** (-within(age, "age in s", low=0.0) / within(half_life, "half-life in s", above=0.0)))


def loose_density(
    *, mass: Kilogram, volume: CubicMeter, moisture: Ratio, swelling: Ratio, usual_swelling: Ratio
) -> KgPerCubicMeter:
    """Dry mass in a loose volume as mixes count it, by a weighed measure: ρ = m (1 + b) / (V (1 + w) (1 + b_u)).

    Args:
        mass: m, of what was in the measure, the empty measure taken off [kg]
        volume: V, what the measure holds [m3]
        moisture: w, water over dry mass; 0 for what is dry [-]
        swelling: b, how much it was swollen, over its dry volume; 0 for what does not swell [-]
        usual_swelling: b_u, swelling that the mixes count on [-]

    Returns:
        ρ, dry mass in a loose volume at the usual swelling [kg/m3]

    Raises:
        OutOfRangeError: mass or volume is not above 0, or a share is not from 0 to 1.

    Range:
        m > 0, V > 0, 0 ≤ w ≤ 1, 0 ≤ b ≤ 1, 0 ≤ b_u ≤ 1; refused outside.

    Source:
        STATICS, mass over volume (derived)

    Example:
        >>> loose_density(mass=21.0, volume=0.014, moisture=0.05, swelling=0.2, usual_swelling=0.25)
        1371.4
    """
    within(mass, "mass in kg", above=0.0)
    dry = mass / (1 + within(moisture, "moisture", low=0.0, high=1.0))
    packed = (1 + within(swelling, "swelling", low=0.0, high=1.0)) / (
        1 + within(usual_swelling, "usual swelling", low=0.0, high=1.0)
    )
    return dry * packed / within(volume, "volume in m3", above=0.0)


def yield_ratio(*, made: CubicMeter, reckoned: CubicMeter) -> Ratio:
    """What a batch gave over what was reckoned: r = V / V_0.

    Args:
        made: V, finished mix it gave [m3]
        reckoned: V_0, finished mix by the rule of the mix [m3]

    Returns:
        r, below 1 where it gave less [-]

    Raises:
        OutOfRangeError: a volume is not above 0.

    Range:
        V > 0, V_0 > 0; refused outside.

    Source:
        STATICS, a ratio (derived)

    Example:
        >>> yield_ratio(made=0.045, reckoned=0.05)
        0.9
    """
    return within(made, "volume made in m3", above=0.0) / within(reckoned, "volume reckoned in m3", above=0.0)


def taught_yield(*, reckoned: CubicMeter, ratio: Ratio) -> CubicMeter:
    """What a batch makes as batches before it did: V = r V_0.

    Args:
        reckoned: V_0, finished mix by the rule of the mix [m3]
        ratio: r, what batches gave over what was reckoned [-]

    Returns:
        V, finished mix to expect [m3]

    Raises:
        OutOfRangeError: the volume is negative or the ratio not above 0.

    Range:
        V_0 ≥ 0, r > 0; refused outside.

    Source:
        STATICS, a ratio (derived)

    Example:
        >>> taught_yield(reckoned=0.05, ratio=0.9)
        0.045
    """
    return within(reckoned, "volume reckoned in m3", low=0.0) * within(ratio, "yield over reckoned", above=0.0)


def coat_use(*, used: CubicMeter, area: SquareMeter, thickness: Meter) -> Ratio:
    """Mix a coat took over what its thickness holds: u = V / (A t).

    Args:
        used: V, mix that was used up [m3]
        area: A, face that was covered [m2]
        thickness: t, of the coat [m]

    Returns:
        u, 1 and the share wasted [-]

    Raises:
        OutOfRangeError: a value is not above 0.

    Range:
        V > 0, A > 0, t > 0; refused outside.

    Source:
        STATICS, volume of a slab (derived)

    Example:
        >>> coat_use(used=0.12, area=10.0, thickness=0.01)
        1.2
    """
    slab = within(area, "area in m2", above=0.0) * within(thickness, "thickness in m", above=0.0)
    return within(used, "volume used in m3", above=0.0) / slab


def time_each(*, time: Second, people: Ratio, done: Ratio) -> Second:
    """Time of one person for one of what was done: t = T p / q.

    Args:
        time: T, how long each person worked [s]
        people: p, how many worked [-]
        done: q, how many meters, square meters or pieces were done [-]

    Returns:
        t, working time for one [s]

    Raises:
        OutOfRangeError: a value is not above 0.

    Range:
        T > 0, p > 0, q > 0; refused outside.

    Source:
        STATICS, a ratio (derived)

    Example:
        >>> time_each(time=7200.0, people=2.0, done=4.0)
        3600.0
    """
    crew = within(time, "time in s", above=0.0) * within(people, "people", above=0.0)
    return crew / within(done, "amount done", above=0.0)
