"""Leveling: numpy's least squares and brute force as rivals, and what must hold whatever the numbers."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.errors import NoSolutionError, OutOfRangeError
from pinfold.formulas import jacking, leveling, settlement
from pinfold.plan.supports import Shim, Support
from pinfold.studies.leveling.adjusting import surveyed
from pinfold.studies.leveling.carrying import carried
from pinfold.studies.leveling.lying import lie_of
from pinfold.studies.leveling.moving import best_range, least_moves
from pinfold.studies.leveling.ordering import BEND, Lifted, _Bends, jacking_order
from pinfold.studies.leveling.program import CLOSE, Place
from pinfold.studies.leveling.records import LevelReading
from pinfold.studies.leveling.solving import solved


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


HEIGHTS = numbers(-0.2, 0.2)

# --- formulas ------------------------------------------------------------------------------------------------------


@given(known=numbers(-5, 5), reading=numbers(-3, 3))
def test_a_height_read_there_and_back_is_itself(known, reading):
    sight = leveling.sight_height(known=known, reading=reading)

    assert leveling.mark_height(sight=sight, reading=reading) == pytest.approx(known, abs=1e-12)


@given(residual=numbers(-0.1, 0.1), spread=numbers(1e-4, 0.01), share=numbers(0.01, 1))
def test_what_is_checked_less_stands_out_more(residual, spread, share):
    def off(part):
        return leveling.standardized_residual(residual=residual, spread=spread, share=part)

    assert off(share) >= off(1.0) - 1e-12
    assert off(1.0) == pytest.approx(abs(residual) / spread)


def test_a_reading_that_nothing_checks_cannot_stand_out():
    with pytest.raises(OutOfRangeError):
        leveling.standardized_residual(residual=0.1, spread=0.001, share=0.0)


@given(column=numbers(0, 3), warmer=numbers(-20, 20))
def test_the_shift_of_a_water_level_balances_the_pressure_at_its_foot(column, warmer):
    up = leveling.water_level_shift(column=column, warmer=warmer, expansion=2.1e-4)

    assert (column + up) * (1 - 2.1e-4 * warmer) == pytest.approx(column, abs=1e-4)


@given(slope_x=numbers(-0.05, 0.05), slope_y=numbers(-0.05, 0.05), turn=numbers(0, 2 * math.pi))
def test_no_direction_falls_steeper_than_the_steepest(slope_x, slope_y, turn):
    along = slope_x * math.cos(turn) + slope_y * math.sin(turn)

    assert abs(along) <= leveling.steepest_fall(slope_x=slope_x, slope_y=slope_y) + 1e-12


@given(azimuth=numbers(0, 6.28), fall=numbers(0.001, 0.05), north=numbers(-3, 3))
def test_the_compass_tells_where_a_plane_falls(azimuth, fall, north):
    on_plan = azimuth + north
    found = leveling.fall_azimuth(slope_x=-fall * math.sin(on_plan), slope_y=-fall * math.cos(on_plan), north=north)

    assert math.cos(found - azimuth) == pytest.approx(1, abs=1e-9)


def test_what_is_level_falls_nowhere():
    with pytest.raises(OutOfRangeError):
        leveling.fall_azimuth(slope_x=0.0, slope_y=0.0, north=0.0)


@given(a=HEIGHTS, b=HEIGHTS, c=HEIGHTS, twist=HEIGHTS)
def test_of_the_best_plane_each_corner_stands_off_by_a_fourth_of_the_twist(a, b, c, twist):
    places = [(1, 1), (1, -1), (-1, -1), (-1, 1)]
    corners = [a + b * x + c * y + twist * x * y for x, y in places]
    off = leveling.corner_out_of_plane(corner=corners[0], beside=corners[1], across=corners[2], other=corners[3])
    design = np.array([(1.0, x, y) for x, y in places])
    best, *_ = np.linalg.lstsq(design, np.array(corners), rcond=None)

    assert off == pytest.approx(4 * twist, abs=1e-9)
    assert corners[0] - design[0] @ best == pytest.approx(off / 4, abs=1e-9)


@given(width=numbers(0.5, 2), height=numbers(0.5, 2.5), racking=numbers(0, 0.02))
def test_racking_comes_back_out_of_the_diagonals(width, height, racking):
    longer = leveling.diagonal_difference(width=width, height=height, racking=racking)

    assert leveling.racking_by_diagonals(width=width, height=height, difference=longer) == pytest.approx(
        racking, rel=2e-3, abs=1e-9
    )
    assert leveling.gap_closed(width=width, racking=racking) <= longer * math.hypot(width, height) / height + 1e-9


@given(load=numbers(1e3, 1e5), off_x=numbers(-1, 1), off_y=numbers(-1, 1))
def test_supports_of_a_stiff_body_carry_it_and_balance_it(load, off_x, off_y):
    places = [(2.0, 1.5), (2.0, -1.5), (-2.0, 1.5), (-2.0, -1.5), (0.0, 1.5), (0.0, -1.5)]
    shares = [
        jacking.stiff_share(load=load, count=6.0, off_x=off_x, off_y=off_y, out_x=x, out_y=y, sum_x2=16.0, sum_y2=13.5)
        for x, y in places
    ]  # fmt: skip

    assert sum(shares) == pytest.approx(load)
    assert sum(share * x for share, (x, _) in zip(shares, places, strict=True)) == pytest.approx(load * off_x, abs=1e-6)
    assert sum(share * y for share, (_, y) in zip(shares, places, strict=True)) == pytest.approx(load * off_y, abs=1e-6)


def test_ratings_cribs_and_layers_by_hand():
    assert jacking.jack_rating(load=8000.0, margin=1.5) == 12000
    assert jacking.crib_load(pieces=3.0, side=0.1, stress=3e6) == pytest.approx(2.25 * 120000)
    assert jacking.crib_height(length=0.6, side=0.1, times=3.0, most=0.9) == pytest.approx(0.9)
    assert jacking.crib_height(length=0.4, side=0.1, times=3.0, most=0.9) == pytest.approx(0.6)
    assert jacking.crib_layers(height=0.3, side=0.1) == 3
    assert jacking.crib_layers(height=0.29, side=0.1) == 2
    with pytest.raises(OutOfRangeError):
        jacking.crib_height(length=0.2, side=0.1, times=3.0, most=0.9)


@given(per_tenfold=numbers(0, 0.05), start=numbers(1, 1e6), factor=numbers(1, 100), more=numbers(1, 100))
def test_settlement_by_tenfold_ages_adds_up(per_tenfold, start, factor, more):
    def gone(one, other):
        return settlement.settled_by_log_time(per_tenfold=per_tenfold, start=one, end=other)

    whole = gone(start, start * factor * more)

    assert whole == pytest.approx(gone(start, start * factor) + gone(start * factor, start * factor * more), abs=1e-9)


@given(difference=numbers(-0.1, 0.1), distance=numbers(0.5, 10), rate=numbers(1e-12, 1e-8))
def test_unevenness_and_time_by_hand(difference, distance, rate):
    assert settlement.angular_distortion(difference=difference, distance=distance) == abs(difference) / distance
    assert settlement.time_to_move(allowed=0.01, rate=rate, longest=1e12) == pytest.approx(min(0.01 / rate, 1e12))
    assert settlement.time_to_move(allowed=0.01, rate=0.0, longest=77.0) == 77.0


# --- readings into heights: numpy as rival ----------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), marks=st.integers(3, 8), setups=st.integers(1, 4))
def test_heights_are_those_of_numpys_least_squares(seed, marks, setups):
    chance = random.Random(seed)
    names = ["peg", *(f"m{number}" for number in range(marks))]
    true = {name: chance.uniform(-0.1, 0.1) for name in names} | {"peg": 0.0}
    readings = [
        LevelReading(name, f"s{setup}", 1 + 0.1 * setup - true[name] + chance.gauss(0, 0.001), chance.uniform(0.001, 0.002))
        for setup in range(setups) for name in names
    ]  # fmt: skip
    survey = surveyed(readings, fixed="peg", own=names[1:])
    if survey.aside:  # one good reading in a thousand looks wrong
        return
    columns = [*names[1:], *(f"s{setup}" for setup in range(setups))]
    design = np.zeros((len(readings), len(columns)))
    for row, reading in zip(design, readings, strict=True):
        row[columns.index(reading.setup)] = 1
        if reading.mark != "peg":
            row[columns.index(reading.mark)] = -1
    weights = np.array([1 / reading.spread for reading in readings])
    rival, *_ = np.linalg.lstsq(design * weights[:, None], np.array([r.value for r in readings]) * weights, rcond=None)

    for name, height in zip(names[1:], rival[: len(names) - 1], strict=True):
        assert survey.height(name).height == pytest.approx(height, abs=1e-9)
    assert survey.spare == len(readings) - len(columns)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_shares_of_redundancy_add_up_to_the_spare_readings(seed):
    made = np.random.default_rng(seed)
    found = solved(made.normal(size=(9, 4)), made.normal(size=9), made.uniform(0.5, 2, size=9))

    assert found.shares.sum() == pytest.approx(found.spare)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), off=st.sampled_from([-0.1, 0.1, 0.03]), which=st.integers(0, 20))
def test_one_wrong_reading_in_three_setups_is_found_and_moves_nothing(seed, off, which):
    chance = random.Random(seed)
    names = ["peg", *"ABCDEF"]
    true = {name: chance.uniform(-0.05, 0.05) for name in names} | {"peg": 0.0}
    good = [
        LevelReading(name, f"s{setup}", 1 + 0.1 * setup - true[name] + chance.gauss(0, 0.0005), 0.0015)
        for setup in range(3) for name in names
    ]  # fmt: skip
    wrong = [
        reading._replace(value=reading.value + off * (number == which)) for number, reading in enumerate(good, start=0)
    ]  # fmt: skip
    survey = surveyed(wrong, fixed="peg", own=names[1:])

    assert [one.readings for one in survey.aside] == [(wrong[which],)]
    assert abs(survey.aside[0].off + off) < 0.004
    for name in names[1:]:
        assert survey.height(name).height == pytest.approx(true[name], abs=0.004)


# --- the lie --------------------------------------------------------------------------------------------------------


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), count=st.integers(4, 9))
def test_the_plane_is_numpys_and_a_planted_twist_is_found(seed, count):
    made = np.random.default_rng(seed)
    corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]
    places = [*corners, *((float(x), float(y)) for x, y in made.uniform(0, 3, size=(count - 4, 2)))]
    twist = float(made.uniform(-0.03, 0.03))
    z = [0.01 * x - 0.02 * y + twist / 4 * (x / 2 - 1) * (y / 1.5 - 1) for x, y in places]
    supports = [Support(mark=f"m{n}", at=place) for n, place in enumerate(places)]
    lie = lie_of(supports, {s.mark: (h, 0.001) for s, h in zip(supports, z, strict=True)}, axis=(1.0, 0.0), north=0.0)
    rival, *_ = np.linalg.lstsq(np.column_stack([np.ones(count), np.array(places)]), np.array(z), rcond=None)

    assert (lie.slope_x, lie.slope_y) == pytest.approx((rival[1], rival[2]), abs=1e-9)
    assert lie.twist == pytest.approx(twist, abs=1e-6)


# --- moves: brute force as rival -----------------------------------------------------------------------------------


def by_force(places, shims, tolerance):
    """Fewest touched, then least lift, then fewest shims, over every share of the shims."""
    sizes = sorted({round(s.thickness, 6) for s in shims} | {round(t, 6) for p in places for t in p.shims})
    stock = {size: sum(s.count for s in shims if round(s.thickness, 6) == size) for size in sizes}
    choices = []
    for place in places:
        own = {size: sum(round(t, 6) == size for t in place.shims) for size in sizes}
        ranges = [range(-own[size], stock[size] + sum(len(p.shims) for p in places) + 1) for size in sizes]
        choices.append(list(itertools.product(*ranges)))
    best = None
    for picked in itertools.product(*choices):
        if any(sum(net[n] for net in picked) > stock[size] for n, size in enumerate(sizes)):
            continue
        lifts = [sum(k * size for k, size in zip(net, sizes, strict=True)) for net in picked]
        after = [place.height + lift for place, lift in zip(places, lifts, strict=True)]
        if max(after) - min(after) > tolerance + 1e-6:
            continue
        key = (
            sum(any(net) for net in picked),
            round(sum(map(abs, lifts)), 7),
            sum(abs(k) for net in picked for k in net),
        )
        best = key if best is None else min(best, key)
    return best


@settings(max_examples=40, deadline=None)
@given(
    heights=st.lists(st.integers(-12, 12), min_size=3, max_size=4), stock=st.tuples(st.integers(0, 3), st.integers(0, 2)),
    inside=st.booleans(), tolerance=st.sampled_from([2, 4, 6]),
)  # fmt: skip
def test_the_moves_are_as_few_as_brute_force_finds(heights, stock, inside, tolerance):
    places = [
        Place(f"m{n}", height / 1e3, shims=(0.003,) if inside and not n else ()) for n, height in enumerate(heights)
    ]  # fmt: skip
    shims = [Shim(thickness=0.003, count=stock[0]), Shim(thickness=0.005, count=stock[1])]
    wanted = by_force(places, shims, tolerance / 1e3)
    if wanted is None:
        with pytest.raises(NoSolutionError):
            least_moves(places, shims, tolerance=tolerance / 1e3)
        return
    found = least_moves(places, shims, tolerance=tolerance / 1e3)

    assert (len(found.touched), round(found.lift, 6), found.handled) == (
        wanted[0],
        pytest.approx(wanted[1], abs=1e-6),
        wanted[2],
    )
    assert found.range <= tolerance / 1e3 + 2e-6
    assert found.proven


@settings(max_examples=30, deadline=None)
@given(heights=st.lists(st.integers(-30, 30), min_size=4, max_size=8), gap=st.sampled_from([0.0, 0.006]))
def test_moves_use_no_more_shims_than_there_are_and_leave_no_support_hanging(heights, gap):
    places = [Place(f"m{n}", height / 1e3, gap=gap * (not n)) for n, height in enumerate(heights)]
    shims = [Shim(thickness=0.010, count=20), Shim(thickness=0.003, count=30), Shim(thickness=0.001, count=30)]
    found = least_moves(places, shims, tolerance=0.004)

    for shim in shims:
        used = sum(each.count for move in found.moves for each in move.shims if each.thickness == shim.thickness)
        assert 0 <= used <= shim.count
    first = found.moves[0]
    filled = sum(each.thickness * each.count for each in first.shims)
    assert filled - first.lift >= gap - CLOSE - 1e-6
    assert all(move.lift >= -1e-9 for move in found.moves), "nothing comes down where no shim can come out"


def test_the_best_that_shims_allow_is_what_brute_force_allows():
    places = [Place("a", 0.0), Place("b", -0.0075), Place("c", -0.002)]
    shims = [Shim(thickness=0.003, count=3)]
    best = best_range(places, shims).found

    assert by_force(places, shims, best) is not None
    assert by_force(places, shims, best - 1e-4) is None


# --- order ----------------------------------------------------------------------------------------------------------


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10**6), rows=st.integers(2, 3), columns=st.integers(2, 4))
def test_every_step_keeps_the_bend_and_all_steps_together_are_the_moves(seed, rows, columns):
    chance = random.Random(seed)
    heights = {(i, j): chance.uniform(-0.03, 0.0) for i in range(columns) for j in range(rows)}
    level = max(heights.values())
    supports = [
        Lifted(mark=f"{i}{j}", at=(2.0 * i, 2.4 * j), height=height, lift=level - height)
        for (i, j), height in heights.items()
    ]  # fmt: skip
    steps = jacking_order(supports, step=0.003)
    bends = _Bends(supports, BEND.value)
    now = np.array([support.height for support in supports])
    place = {support.mark: number for number, support in enumerate(supports)}
    for step in steps:
        assert abs(step.lift) <= 0.003 + 1e-12
        now[place[step.mark]] += step.lift
        assert np.all(bends.of(now) <= bends.allowed * (1 + 1e-6))
        assert step.bend <= step.allowed * (1 + 1e-6)

    assert now == pytest.approx(np.full(len(now), level), abs=1e-5)


# --- loads ------------------------------------------------------------------------------------------------------------


@settings(max_examples=20, deadline=None)
@given(load=numbers(1e3, 1e5), long=numbers(2, 8), wide=numbers(1.5, 4))
def test_each_way_of_sharing_carries_the_whole_load(load, long, wide):
    supports = [Support(mark=f"{x}{y}", at=(x * long / 2, y * wide)) for x in range(3) for y in range(2)]
    footprint = ((-0.2, -0.1), (long + 0.2, -0.1), (long + 0.2, wide + 0.1), (-0.2, wide + 0.1))
    loads = carried(supports, footprint, load=load)

    assert sum(each.stiff for each in loads) == pytest.approx(load)
    assert sum(each.limp for each in loads) == pytest.approx(load)
    assert all(each.jacking >= each.standing - 1e-9 for each in loads)
