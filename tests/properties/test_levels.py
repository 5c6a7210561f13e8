"""Laws of belief at three levels, against the whole normal distribution written out and against plain integration."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from pinfold.formulas import learning
from pinfold.studies.lessons.levels import SLIP, Spreads, Tried, believed

SPREADS = Spreads(family=0.2, mix=0.15, age=0.3, batch=0.15)
NO_TAILS = 1e12
names = st.sampled_from(["one", "two", "three"])
overs = st.floats(-1.0, 1.0)


@st.composite
def readings(draw, most=8):
    return [
        Tried(
            mix=draw(names), batch=draw(st.sampled_from("ab")), over=draw(overs), growth=draw(st.floats(-1.5, 0.15)),
            noise=draw(st.floats(0.03, 0.3)), body=draw(st.sampled_from(["", "beam"])), doubt=0.25,
        )
        for _ in range(draw(st.integers(1, most)))
    ]  # fmt: skip


def written_out(tests, spreads, mix, growth):
    """Mean and spread of one level by conditioning the normal distribution of all readings and that level at once."""

    def shared(one, other):
        both = spreads.family**2
        if one.mix == other.mix:
            both += spreads.mix**2 + spreads.age**2 * one.growth * other.growth
        return both

    wanted = Tried(mix, "", 0.0, growth, 0.0)
    across = np.array([[shared(one, other) for other in tests] for one in tests])
    for row, one in enumerate(tests):
        for column, other in enumerate(tests):
            if (one.mix, one.batch) == (other.mix, other.batch):
                across[row, column] += spreads.batch**2
            if one.body and one.body == other.body:
                across[row, column] += one.doubt**2
        across[row, row] += one.noise**2
    along = np.array([shared(wanted, one) for one in tests])
    over = np.array([one.over for one in tests])
    solved = np.linalg.solve(across, np.column_stack([over, along]))
    return along @ solved[:, 0], math.sqrt(shared(wanted, wanted) - along @ solved[:, 1])


@given(readings(), names, st.floats(-1.0, 0.15))
def test_the_levels_are_what_the_whole_distribution_written_out_gives(tests, mix, growth):
    belief = believed(tests, SPREADS, NO_TAILS)
    assume(all(belief.center[2 + 2 * n] > -0.9 for n in range(len(belief.mixes))))  # below, a curve is held flat
    level = belief.level(mix, growth)

    mean, spread = written_out(tests, SPREADS, mix, growth)
    assert level.over == pytest.approx(mean, abs=1e-7)
    assert level.spread == pytest.approx(spread, rel=1e-6)


@given(readings(), st.floats(-1.0, 0.15))
def test_a_mix_nobody_tried_borrows_from_its_family(tests, growth):
    level = believed(tests, SPREADS, NO_TAILS).level("another", growth)

    mean, spread = written_out(tests, SPREADS, "another", growth)
    assert level.over == pytest.approx(mean, abs=1e-7)
    assert level.spread == pytest.approx(spread, rel=1e-6)
    assert level.spread > SPREADS.mix


def test_two_levels_are_two_normal_updates_one_after_the_other():
    """Family first by the other mix, then the mix by its own: the conjugate update of one number, twice."""
    spreads = Spreads(family=0.2, mix=0.15, age=1e-9, batch=0.0)
    tests = [Tried("one", "a", 0.3, 0.0, 0.1), Tried("other", "a", -0.2, 0.0, 0.1)]
    family = learning.normal_posterior(prior=0.0, prior_spread=0.2, mean=-0.2, spread=math.hypot(0.15, 0.1), count=1.0)
    mix = learning.normal_posterior(
        prior=family.value, prior_spread=math.hypot(family.spread, 0.15), mean=0.3, spread=0.1, count=1.0
    )

    level = believed(tests, spreads, NO_TAILS).level("one", 0.0)

    assert level.over == pytest.approx(mix.value)
    assert level.spread == pytest.approx(mix.spread)


def test_plain_integration_over_family_and_mix_agrees():
    tests = [Tried("one", "a", 0.35, 0.0, 0.1), Tried("one", "b", 0.25, 0.0, 0.1), Tried("two", "a", -0.1, 0.0, 0.1)]
    spreads = Spreads(family=0.2, mix=0.15, age=1e-9, batch=0.1)
    noise = math.hypot(0.1, 0.1)
    line = np.linspace(-1.5, 1.5, 301)
    family, one, two = np.meshgrid(line, line, line, indexing="ij", sparse=True)
    chance = (
        stats.norm.pdf(family, 0, 0.2) * stats.norm.pdf(one, 0, 0.15) * stats.norm.pdf(two, 0, 0.15)
        * stats.norm.pdf(family + one, 0.35, noise) * stats.norm.pdf(family + one, 0.25, noise)
        * stats.norm.pdf(family + two, -0.1, noise)
    )  # fmt: skip
    level, whole = family + one + 0 * two, chance.sum()
    mean = (chance * level).sum() / whole
    spread = math.sqrt((chance * (level - mean) ** 2).sum() / whole)

    found = believed(tests, spreads, NO_TAILS).level("one", 0.0)

    assert found.over == pytest.approx(mean, abs=1e-6)
    assert found.spread == pytest.approx(spread, rel=1e-5)


@settings(deadline=None)
@given(readings(), st.integers(0, 1000), names)
def test_the_order_of_readings_does_not_matter(tests, seed, mix):
    shuffled = tests.copy()
    random.Random(seed).shuffle(shuffled)

    assert believed(tests, SPREADS).level(mix, 0.0) == believed(shuffled, SPREADS).level(mix, 0.0)


@given(names, st.floats(-1.5, 0.15))
def test_no_readings_leave_what_was_thought(mix, growth):
    level = believed((), SPREADS).level(mix, growth)

    assert level.over == 0
    assert level.spread == pytest.approx(math.sqrt(0.2**2 + 0.15**2 + (0.3 * growth) ** 2))


@given(readings(most=6), readings(most=3), names)
def test_more_readings_never_widen_where_all_scatter_normally(tests, more, mix):
    before = believed(tests, SPREADS, NO_TAILS).level(mix, 0.0)
    after = believed([*tests, *more], SPREADS, NO_TAILS).level(mix, 0.0)

    assert after.spread <= before.spread * (1 + 1e-9)


def test_more_readings_narrow_on_average_with_slips_counted_little_too():
    chance = random.Random(3)
    widths = []
    for count in (1, 3, 9, 27):
        spreads = []
        for _ in range(40):
            true = chance.gauss(0, 0.25)
            tests = [Tried("one", f"{n // 3}", chance.gauss(true, 0.15), 0.0, 0.08) for n in range(count)]
            spreads.append(believed(tests, SPREADS).level("one", 0.0).spread)
        widths.append(math.fsum(spreads) / len(spreads))

    assert all(later < sooner for sooner, later in pairwise(widths))


def test_without_a_prior_of_the_mix_the_plain_mean_is_left():
    spreads = Spreads(family=100.0, mix=100.0, age=1e-9, batch=0.0)
    tests = [Tried("one", "a", over, 0.0, 0.1) for over in (0.1, 0.2, 0.4, 0.5)]

    assert believed(tests, spreads, NO_TAILS).level("one", 0.0).over == pytest.approx(0.3, abs=1e-6)
    assert believed(tests, spreads, NO_TAILS).level("one", 0.0).spread == pytest.approx(0.05, rel=1e-5)


def test_one_slip_of_the_pen_does_not_carry_it_away():
    """Ten times too much, a decimal point lost: among six it moves the mix by less than a sixth of its scatter."""
    tests = [Tried("one", f"{n}", over, 0.0, 0.08) for n, over in enumerate((0.1, -0.1, 0.05, 0.0, -0.05))]
    slip = Tried("one", "9", math.log(10), 0.0, 0.08)

    without = believed(tests, SPREADS).level("one", 0.0)
    with_it = believed([*tests, slip], SPREADS).level("one", 0.0)

    assert abs(with_it.over - without.over) < 0.03


def test_many_bodies_of_one_batch_say_less_than_as_many_batches():
    together = [Tried("one", "a", 0.3, 0.0, 0.08)] * 9
    apart = [Tried("one", f"{n}", 0.3, 0.0, 0.08) for n in range(9)]

    assert (
        believed(together, SPREADS).level("one", 0.0).spread > 1.5 * believed(apart, SPREADS).level("one", 0.0).spread
    )


def test_any_number_of_beams_leave_the_doubt_of_beams():
    beams = [Tried("one", f"{n}", 0.3, 0.0, 0.08, "beam", 0.25) for n in range(300)]
    known = math.hypot(SPREADS.family, SPREADS.mix)

    level = believed(beams, SPREADS).level("one", 0.0)

    assert level.spread == pytest.approx(1 / math.sqrt(1 / known**2 + 1 / 0.25**2), rel=0.02)


def test_young_bodies_alone_leave_the_doubt_of_growth():
    young = [Tried("one", f"{n}", 0.0, -0.36, 0.08) for n in range(300)]

    level = believed(young, SPREADS)

    assert level.level("one", -0.36).spread < 0.03
    assert level.level("one", 0.0).spread > 0.09


# ---- coarse readings


def cut(level, test, spread):
    low = -math.inf if test.low is None else test.low
    high = math.inf if test.high is None else test.high
    whole = math.hypot(test.noise, spread)
    return SLIP + (1 - SLIP) * (stats.norm.cdf((high - level) / whole) - stats.norm.cdf((low - level) / whole))


@given(
    st.lists(st.tuples(st.floats(-1.5, 1.0), st.floats(0.2, 2.0)), min_size=1, max_size=4), st.floats(-0.3, 0.3),
    st.booleans(),
)  # fmt: skip
def test_coarse_readings_are_what_plain_integration_gives(bounds, exact, open_above):
    spreads = Spreads(family=0.3, mix=0.2, age=1e-9, batch=0.2)
    tests = [
        Tried("one", f"c{n}", 0.0, 0.0, 0.35, low=low, high=None if open_above else low + wide)
        for n, (low, wide) in enumerate(bounds)
    ]
    crushed = Tried("one", "x", exact, 0.0, 0.1)
    before, noise = math.hypot(0.3, 0.2), math.hypot(0.1, 0.2)
    line = np.linspace(-3, 3, 4001)
    chance = stats.norm.pdf(line, 0, before) * stats.norm.pdf(line, exact, noise)
    for test in tests:
        chance = chance * cut(line, test, spreads.batch)
    whole = integrate.simpson(chance, x=line)
    mean = integrate.simpson(chance * line, x=line) / whole
    spread = math.sqrt(integrate.simpson(chance * (line - mean) ** 2, x=line) / whole)

    level = believed([*tests, crushed], spreads, NO_TAILS).level("one", 0.0)

    assert level.over == pytest.approx(mean, abs=0.03)
    assert level.spread == pytest.approx(spread, rel=0.35)  # widest off where hands and press contradict each other


def test_what_a_hand_test_allows_already_hardly_moves_it():
    wide = Tried("one", "a", 0.0, 0.0, 0.35, low=-2.0, high=2.0)

    assert believed([wide], SPREADS).level("one", 0.0).over == pytest.approx(0.0, abs=1e-6)


def test_a_soft_mix_is_believed_softer_by_a_nail_that_digs_in_and_more_so_by_two():
    dug = [Tried("one", f"{n}", 0.0, 0.0, 0.35, "hand", 0.25, high=-0.6) for n in range(2)]
    one, two = (believed(dug[:count], SPREADS).level("one", 0.0) for count in (1, 2))

    assert two.over < one.over < 0
    assert one.spread < math.hypot(SPREADS.family, SPREADS.mix)


def test_it_settles_with_hundreds_of_each():
    chance = random.Random(5)
    tests = [Tried(f"mix {n % 20}", f"{n // 3}", chance.gauss(0.1, 0.2), -0.3 * (n % 2), 0.08) for n in range(300)]
    tests += [
        Tried(f"mix {n % 20}", f"h{n}", 0.0, 0.0, 0.35, "hand", 0.25, low=-0.5 + 0.1 * (n % 9), high=0.6)
        for n in range(300)
    ]

    level = believed(tests, SPREADS).level("mix 3", 0.0)

    assert math.isfinite(level.over)
    assert 0 < level.spread < 0.15
