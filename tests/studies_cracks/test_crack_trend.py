"""Whether a crack moves: against other least squares, against many made-up walls, and where nothing is shown."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import optimize, stats

from pinfold.errors import InputError
from pinfold.studies.cracks.fitting import fitted_line
from pinfold.studies.cracks.records import YEAR, CrackReading, CrackVerdict
from pinfold.studies.cracks.trend import crack_trend, predicted_width

DAY = 86400.0
START = 1.75e9
MM_A_YEAR = 1e-3 / YEAR


def readings_of(count, *, slope=0.0, thermal=0.0, noise=0.0, spread=2e-5, every=30.0, seed=0, heat=True):
    rng = np.random.default_rng(seed)
    time = START + every * DAY * (np.arange(count) + rng.uniform(-0.2, 0.2, count))
    warm = 12 + 10 * np.sin(2 * np.pi * (time - START) / YEAR) + rng.normal(0, 3, count)
    width = 0.6e-3 + slope * (time - START) + thermal * (warm - 12) + noise * rng.standard_normal(count)
    return [
        CrackReading(at=float(t), width=float(w), temperature_c=float(c) if heat else None, spread=spread)
        for t, w, c in zip(time, width, warm, strict=True)
    ]


def test_slope_and_errors_agree_with_another_least_squares():
    made = readings_of(12, slope=0.3 * MM_A_YEAR, thermal=-4e-6, noise=5e-5, seed=3)
    made = [reading._replace(spread=2e-5 * (1 + index % 3)) for index, reading in enumerate(made)]
    fit = crack_trend(made).fit
    time = np.array([reading.at - fit.start for reading in made]) / YEAR
    heat = np.array([reading.temperature_c - fit.middle_c for reading in made])
    width = np.array([reading.width for reading in made]) * 1e3
    spread = np.array([reading.spread for reading in made]) * 1e3
    numbers, covariance = optimize.curve_fit(
        lambda x, a, b, c: a + b * x[0] + c * x[1], np.array([time, heat]), width, sigma=spread, absolute_sigma=False
    )

    assert fit.scatter > 1
    assert fit.width == pytest.approx(numbers[0] * 1e-3, rel=1e-6)
    assert fit.slope == pytest.approx(numbers[1] * MM_A_YEAR, rel=1e-6)
    assert fit.thermal == pytest.approx(numbers[2] * 1e-3, rel=1e-6)
    assert fit.slope_spread == pytest.approx(math.sqrt(covariance[1, 1]) * MM_A_YEAR, rel=1e-5)
    assert fit.thermal_spread == pytest.approx(math.sqrt(covariance[2, 2]) * 1e-3, rel=1e-5)


def test_without_weights_and_warmth_it_is_the_plain_regression_line():
    made = readings_of(9, slope=0.5 * MM_A_YEAR, noise=6e-5, spread=1e-6, heat=False)
    plain = stats.linregress([r.at - START for r in made], [r.width for r in made])
    trend = crack_trend(made)
    reach = stats.t.ppf(0.975, 7) * plain.stderr

    assert trend.fit.slope == pytest.approx(plain.slope, rel=1e-8)
    assert trend.fit.slope_spread == pytest.approx(plain.stderr, rel=1e-8)
    assert (trend.low, trend.high) == pytest.approx((plain.slope - reach, plain.slope + reach), rel=1e-8)


def test_three_readings_by_hand():
    made = [
        CrackReading(at=START + k * YEAR, width=w * 1e-3, temperature_c=None, spread=1e-5)
        for k, w in enumerate((0.5, 0.6, 0.7))
    ]
    trend = crack_trend(made)

    assert trend.fit.slope == pytest.approx(0.1e-3 / YEAR)
    assert trend.fit.slope_spread == pytest.approx(1e-5 / math.sqrt(2) / YEAR)
    assert trend.high == pytest.approx((0.1e-3 + 12.706 * 1e-5 / math.sqrt(2)) / YEAR, rel=1e-4)


slopes = st.floats(-3, 3).map(lambda value: value * MM_A_YEAR)


@given(slope=slopes, thermal=st.floats(-1e-5, 1e-5), count=st.integers(5, 20), seed=st.integers(0, 99))
def test_a_line_without_noise_is_found_again(slope, thermal, count, seed):
    made = [
        reading._replace(width=reading.width + 0.1)
        for reading in readings_of(count, slope=slope, thermal=thermal, seed=seed)
    ]
    fit = fitted_line(made, with_heat=True)

    assert fit.slope == pytest.approx(slope, abs=1e-6 * MM_A_YEAR)
    assert fit.thermal == pytest.approx(thermal, abs=1e-10)
    assert predicted_width(fit, at=made[2].at, temperature_c=made[2].temperature_c).width == pytest.approx(
        made[2].width
    )


@given(slope=slopes, shift=st.floats(0, 5e-3), seed=st.integers(0, 99))
def test_a_wider_crack_moves_no_faster(slope, shift, seed):
    made = [
        reading._replace(width=reading.width + 5e-3) for reading in readings_of(8, slope=slope, noise=4e-5, seed=seed)
    ]
    wider = [reading._replace(width=reading.width + shift) for reading in made]
    one, other = crack_trend(made), crack_trend(wider)

    assert other.fit.slope == pytest.approx(one.fit.slope, abs=1e-6 * MM_A_YEAR)
    assert other.fit.slope_spread == pytest.approx(one.fit.slope_spread, rel=1e-6)
    assert other.verdict is one.verdict


@given(seed=st.integers(0, 99), later=st.floats(-1e9, 1e9), data=st.data())
def test_neither_order_nor_calendar_matters(seed, later, data):
    made = readings_of(7, slope=MM_A_YEAR, noise=4e-5, seed=seed)
    mixed = data.draw(st.permutations([reading._replace(at=reading.at + later) for reading in made]))
    one, other = crack_trend(made), crack_trend(mixed)

    assert other.fit.slope == pytest.approx(one.fit.slope, rel=1e-5, abs=1e-5 * MM_A_YEAR)


@given(seed=st.integers(0, 99), times=st.floats(0.2, 5))
def test_rougher_readings_never_narrow_the_interval(seed, times):
    made = readings_of(8, noise=4e-5, seed=seed)
    rougher = [reading._replace(spread=reading.spread * times) for reading in made]
    one, other = crack_trend(made), crack_trend(rougher)
    assume(times > 1)

    assert other.high - other.low >= (one.high - one.low) * (1 - 1e-9)


@pytest.mark.parametrize(("count", "told"), [(4, 4e-5), (6, 4e-5), (12, 4e-5), (8, 1e-6)])
def test_the_interval_holds_the_truth_as_often_as_it_says(count, told):
    """Where spreads are told rightly, or too small, 95 of 100; four standard errors of 300 trials allowed."""
    true = 0.4 * MM_A_YEAR
    trends = [
        crack_trend(readings_of(count, slope=true, thermal=-3e-6, noise=4e-5, spread=told, seed=seed))
        for seed in range(300)
    ]
    held = np.mean([trend.low <= true <= trend.high for trend in trends])

    assert held >= 0.95 - 4 * math.sqrt(0.95 * 0.05 / 300)


def test_a_prediction_holds_the_next_reading_as_often_as_it_says():
    hits = []
    for seed in range(250):
        *known, future = readings_of(13, slope=0.4 * MM_A_YEAR, thermal=-3e-6, noise=4e-5, spread=4e-5, seed=seed)
        told = predicted_width(crack_trend(known).fit, at=future.at, temperature_c=future.temperature_c)
        hits.append(abs(told.width - future.width) <= 2 * told.spread)

    assert np.mean(hits) >= 0.92


def test_a_prediction_far_off_is_less_sure():
    fit = crack_trend(readings_of(10, noise=4e-5)).fit
    spreads = [predicted_width(fit, at=fit.start + years * YEAR).spread for years in (0, 1, 3, 10)]

    assert spreads == sorted(spreads)
    assert spreads[0] >= fit.reading_spread


def test_a_growing_crack_is_moving_and_a_resting_one_is_dead():
    moving = crack_trend(readings_of(14, slope=1.0 * MM_A_YEAR, thermal=-3e-6, noise=2e-5))
    dead = crack_trend(readings_of(14, thermal=-3e-6, noise=1e-5, spread=1e-5))

    assert moving.verdict is CrackVerdict.MOVING
    assert "opening" in moving.says
    assert dead.verdict is CrackVerdict.DEAD
    assert "practice" in dead.says
    assert moving.more_readings == dead.more_readings == 0


def test_a_closing_crack_moves_too():
    made = [r._replace(width=r.width + 2e-3) for r in readings_of(14, slope=-MM_A_YEAR, noise=2e-5)]

    assert "closing" in crack_trend(made).says


def test_warmth_that_is_known_is_not_taken_for_movement():
    cooling = readings_of(6, thermal=-2e-5, noise=1e-5, spread=1e-5, seed=5)
    blind = [reading._replace(temperature_c=None) for reading in cooling]
    seeing, unseeing = crack_trend(cooling), crack_trend(blind)

    assert seeing.low <= 0 <= seeing.high
    assert seeing.fit.thermal == pytest.approx(-2e-5, abs=4 * seeing.fit.thermal_spread)
    assert unseeing.fit.thermal is None
    assert "season" in unseeing.notes[0]


@pytest.mark.parametrize("count", [0, 1, 2])
def test_too_few_readings_show_nothing(count):
    trend = crack_trend(readings_of(count))

    assert trend.verdict is CrackVerdict.NOT_SHOWN
    assert trend.fit is None
    assert trend.more_readings >= 1


@pytest.mark.parametrize(("days", "told"), [(0.01, True), (6.9, True), (7.1, False)])
def test_readings_within_a_week_make_no_line(days, told):
    first, last = (
        CrackReading(at=day * 86400.0, width=0.5e-3, spread=0.05e-3, temperature_c=None) for day in (0.0, days)
    )
    trend = crack_trend([first, first, last])

    assert trend.verdict is CrackVerdict.NOT_SHOWN
    assert ("3 readings within 7 days show no line" in trend.says) is told
    assert (trend.fit is None) is told


def test_readings_of_one_moment_show_nothing():
    made = readings_of(1) * 5

    assert crack_trend(made).verdict is CrackVerdict.NOT_SHOWN
    assert crack_trend(made).fit is None


@pytest.mark.parametrize("heat", [True, False])
def test_a_short_calm_is_no_death(heat):
    made = readings_of(10, every=7, noise=1e-7, spread=1e-7, heat=heat)
    trend = crack_trend(made)

    assert trend.verdict is CrackVerdict.NOT_SHOWN
    assert trend.more_time >= (180 if heat else 330) * DAY - 64 * DAY


def test_the_readings_asked_for_are_enough_when_the_crack_rests():
    trend = crack_trend(readings_of(5, thermal=-3e-6, noise=2e-5, spread=2e-5, seed=8))
    assert trend.verdict is CrackVerdict.NOT_SHOWN
    assert f"needs {trend.more_readings} readings more" in trend.says
    after = [
        crack_trend(readings_of(5 + trend.more_readings, thermal=-3e-6, noise=2e-5, spread=2e-5, seed=seed)).verdict
        for seed in range(60)
    ]

    assert after.count(CrackVerdict.DEAD) > 45


def test_readings_too_rough_are_told_so():
    trend = crack_trend(readings_of(4, noise=1e-4, spread=5e-4))

    assert trend.more_readings is None
    assert "finer gauge" in trend.says


def test_a_few_missing_temperatures_cost_their_readings_and_many_cost_the_temperature():
    made = readings_of(9, noise=2e-5)
    few = crack_trend([made[0]._replace(temperature_c=None), *made[1:]])
    many = crack_trend([reading._replace(temperature_c=None) for reading in made[:4]] + made[4:])

    assert few.readings == 8
    assert few.fit.thermal is not None
    assert "left out" in few.notes[0]
    assert many.readings == 9
    assert many.fit.thermal is None


def test_temperatures_that_hardly_differ_or_only_rise_are_not_used():
    made = readings_of(8, noise=2e-5)
    even = crack_trend([reading._replace(temperature_c=15.0 + 0.1 * index) for index, reading in enumerate(made)])
    rising = crack_trend([reading._replace(temperature_c=2.0 * index) for index, reading in enumerate(made)])

    assert even.fit.thermal is None
    assert rising.fit.thermal is None
    assert "cannot be told apart" in rising.notes[0]


@pytest.mark.parametrize(
    "change",
    [{"spread": 0.0}, {"spread": -1e-5}, {"spread": math.nan}, {"width": math.nan}, {"width": -1e-4}, {"at": math.inf}, {"temperature_c": math.nan}],
)  # fmt: skip
def test_a_reading_that_is_no_reading_is_refused_with_its_place(change):
    made = readings_of(4)
    made[2] = made[2]._replace(**change)

    with pytest.raises(InputError, match=r"readings\[2\]"):
        crack_trend(made)
