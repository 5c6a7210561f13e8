"""Laws of richer and leaner mixes: volumes close, leaner never takes more cement, limits, rivals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import richness, stiffness

shares = st.floats(0.05, 2.0)
masses = st.floats(0.1, 1000.0)
strengths = st.floats(1e6, 80e6)


@given(masses, masses, masses, shares)
def test_twice_of_everything_asks_for_twice_the_water(cement, lime, sand, share):
    asked = {"for_cement": 0.25, "for_lime": 0.6, "for_sand": share / 10}
    once = richness.water_of_parts(cement=cement, lime=lime, sand=sand, **asked)
    twice = richness.water_of_parts(cement=2 * cement, lime=2 * lime, sand=2 * sand, **asked)

    assert twice == pytest.approx(2 * once)


@given(shares, masses, masses)
def test_the_same_parts_keep_their_water_and_back_again(water, known, wanted):
    there = richness.water_at_same_flow(water=water, wanted=wanted, known=known)
    back = richness.water_at_same_flow(water=there, wanted=known, known=wanted)

    assert back == pytest.approx(water)


def test_gaps_just_filled_leave_no_air_and_no_swelling():
    """Paste that fills the gaps and the grains make up the sand's own volume."""
    sand, grains = 0.1, 0.06
    paste = sand - grains

    assert richness.gaps_filled(paste=paste, sand=sand, grains=grains) == pytest.approx(1.0)
    with pytest.raises(OutOfRangeError):
        richness.gaps_filled(paste=paste, sand=sand, grains=sand)


@given(st.floats(1e-4, 2e-3), st.floats(0.05, 0.3), st.floats(0.05, 0.3))
def test_shrinkage_goes_with_the_water_and_none_without(known, share, other):
    assert richness.shrinkage_by_water(known=known, share=0.0, known_share=share) == 0
    assert richness.shrinkage_by_water(known=known, share=other, known_share=share) / other == pytest.approx(
        known / share
    )


@given(st.floats(0.0, 1.0), st.floats(1.2, 1.7))
def test_grains_alone_do_not_shrink_and_paste_alone_does_in_full(aggregate, exponent):
    paste = 0.004
    here = richness.shrinkage_by_pickett(paste=paste, aggregate=aggregate, exponent=exponent)

    assert richness.shrinkage_by_pickett(paste=paste, aggregate=1.0, exponent=exponent) == 0
    assert richness.shrinkage_by_pickett(paste=paste, aggregate=0.0, exponent=exponent) == paste
    assert 0 <= here <= paste


ODMAN = [  # sand and stone over cement by mass, water over cement, millionths (memory: a table of a textbook on concrete)
    (3, 0.4, 800), (3, 0.5, 1200), (4, 0.5, 850), (4, 0.6, 1050), (5, 0.5, 600), (5, 0.6, 750), (5, 0.7, 850),
    (6, 0.5, 400), (6, 0.6, 550), (7, 0.6, 400), (7, 0.7, 500), (7, 0.8, 600),
]  # fmt: skip


@pytest.mark.parametrize(("stones", "water", "shrinks"), ODMAN)
def test_both_laws_of_shrinkage_hold_the_remembered_table_between_them(stones, water, shrinks):
    """Beside its middle row: the law of the water goes less, the law of the grains more than what was measured."""

    def volume(stones: float, water: float) -> float:
        return stones / 2650 / (1 / 3150 + stones / 2650 + water / 1000)

    known = (5, 0.6, 750e-6)
    by_water = richness.shrinkage_by_water(
        known=known[2], share=water / (1 + stones + water), known_share=known[1] / (1 + known[0] + known[1])
    )
    by_grains = known[2] * richness.shrinkage_by_pickett(
        paste=1.0, aggregate=volume(stones, water), exponent=1.7
    ) / richness.shrinkage_by_pickett(paste=1.0, aggregate=volume(*known[:2]), exponent=1.7)  # fmt: skip

    low, high = sorted((by_water, by_grains))
    assert low * 0.6 <= shrinks * 1e-6 <= high * 1.4


@given(st.floats(0.05, 1.0), strengths, strengths)
def test_stress_left_is_a_share_and_stronger_keeps_more(known, strength, other):
    here = richness.stress_left(known=known, strength=strength, known_strength=other)

    assert 0 < here <= 1
    assert richness.stress_left(known=known, strength=other, known_strength=other) == pytest.approx(known)
    assert (here >= known - 1e-12) == (strength >= other * (1 - 1e-12)) or known > 1 - 1e-9


def test_chance_of_cracking_is_what_many_lots_give():
    """A rival: two million draws of both."""
    lots = np.random.default_rng(11)
    means, spreads = (1.8e6, 2.2e6), (0.29, 0.30)
    pull, takes = (
        lots.lognormal(
            math.log(mean) - math.log(1 + spread**2) / 2, math.sqrt(math.log(1 + spread**2)), 2_000_000
        )
        for mean, spread in zip(means, spreads, strict=True)
    )  # fmt: skip

    ours = richness.chance_of_cracking(pull=means[0], takes=means[1], pull_spread=spreads[0], takes_spread=spreads[1])
    assert ours == pytest.approx(float(np.mean(pull > takes)), abs=0.002)


@given(st.floats(0.1, 10.0), st.floats(0.05, 0.6))
def test_equal_middles_crack_as_often_as_not_and_more_pull_never_less(pull, spread):
    both = {"pull_spread": spread, "takes_spread": spread}
    assert richness.chance_of_cracking(pull=pull, takes=pull, **both) == pytest.approx(0.5)
    less = richness.chance_of_cracking(pull=pull, takes=2 * pull, **both)
    assert less <= richness.chance_of_cracking(pull=1.5 * pull, takes=2 * pull, **both)


def test_pure_chalk_gives_off_its_share():
    """CaCO3 weighs 100.09: 44.01 of it goes, 56.08 stays."""
    assert richness.calcined(oxide=1.0) == pytest.approx(44.01 / (100.09 - 44.01), rel=1e-3)
    assert richness.calcined(oxide=0.0) == 0


@given(strengths)
def test_stiffness_and_tension_grow_with_strength_by_both_codes(strength):
    more = strength * 1.2
    assert stiffness.tension_by_aci318(strength=more) > stiffness.tension_by_aci318(strength=strength)
    assert stiffness.tension_by_en1992(strength=more) > stiffness.tension_by_en1992(strength=strength)
    assert stiffness.modulus_by_en1992(strength=more) > stiffness.modulus_by_en1992(strength=strength)
    ours = stiffness.modulus_by_aci318(strength=strength, density=2300.0)
    assert stiffness.modulus_by_aci318(strength=more, density=2300.0) == pytest.approx(ours * 1.2**0.5)


def test_the_two_codes_are_rivals_for_ordinary_concrete():
    for strength in (20e6, 30e6, 40e6):
        ours = stiffness.modulus_by_aci318(strength=strength, density=2350.0)
        assert ours == pytest.approx(stiffness.modulus_by_en1992(strength=strength + 8e6), rel=0.3)
        tension = stiffness.tension_by_aci318(strength=strength)
        assert tension == pytest.approx(stiffness.tension_by_en1992(strength=strength), rel=0.2)
