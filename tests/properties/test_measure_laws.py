"""Laws of measures and of sand tried on site: mass closes, nothing swells by nothing, a scale is undone."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import concrete_batch, learning, measures, sand, sand_tests

lengths = st.floats(0.02, 1.0)
masses = st.floats(0.05, 100.0)
densities = st.floats(900.0, 1900.0)
shares = st.floats(0.0, 0.3)


@given(lengths, lengths, lengths)
def test_a_cone_holds_what_slices_add_up_to(height, bottom, top):
    heights = np.linspace(0.0, height, 2001)
    widths = bottom + (top - bottom) * heights / height
    slices = float(np.trapezoid(math.pi * widths**2 / 4, heights))

    assert measures.cone_volume(height=height, bottom=bottom, top=top) == pytest.approx(slices, rel=1e-5)


@given(lengths, lengths)
def test_a_straight_bucket_is_filled_as_high_as_it_stands(height, width):
    share = measures.filled_share(height=height, bottom=width, top=width, below=0.3 * height)

    assert share == pytest.approx(0.7)


@given(lengths, lengths, lengths, st.floats(0.0, 0.95))
def test_a_bucket_wider_at_the_rim_loses_most_there(height, bottom, top, part):
    share = measures.filled_share(height=height, bottom=bottom, top=top, below=part * height)

    assert 0 < share <= 1 + 1e-12
    assert (share <= 1 - part + 1e-9) == (top >= bottom) or part == pytest.approx(0) or top == pytest.approx(bottom)


@given(lengths, lengths, lengths)
def test_a_bucket_filled_to_the_brim_is_full(height, bottom, top):
    assert measures.filled_share(height=height, bottom=bottom, top=top, below=0.0) == pytest.approx(1.0)


@given(masses, st.floats(990.0, 1000.0))
def test_the_water_of_a_measure_weighs_what_was_weighed(mass, density):
    volume = measures.volume_by_water(mass=mass, water_density=density)

    assert measures.bulk_density(mass=mass, volume=volume) == pytest.approx(density)


@given(masses, densities, shares, st.floats(0.0, 0.5), st.floats(0.0, 0.5))
def test_a_shovel_of_the_volume_found_has_the_density_it_was_found_by(mass, density, moisture, swelling, usual):
    damp = {"moisture": moisture, "swelling": swelling, "usual_swelling": usual}
    volume = measures.volume_by_filling(mass=mass, density=density, **damp)

    assert learning.loose_density(mass=mass, volume=volume, **damp) == pytest.approx(density)


@given(densities, st.floats(2000.0, 3200.0))
def test_grains_and_gaps_make_the_whole(bulk, grains):
    assert bulk / grains + measures.voids(bulk=bulk, grains=grains) == pytest.approx(1.0)


@given(masses, st.floats(-0.5, 2.0), st.floats(0.8, 1.2), masses)
def test_a_scale_once_tried_is_undone(known, zero, factor, other):
    found = measures.scale_factor(shown=zero + factor * known, zero=zero, known=known)

    assert found == pytest.approx(factor, rel=1e-6)
    assert measures.true_mass(shown=zero + factor * other, zero=zero, factor=found) == pytest.approx(other, rel=1e-5)


@given(masses, shares, st.floats(0.0, 5.0), st.floats(0.8, 1.2), st.floats(0.0, 0.5))
def test_water_and_dry_sand_make_the_damp_sand_whatever_the_scale(dry, moisture, pan, factor, zero):
    wet = dry * (1 + moisture)
    found = sand_tests.moisture_by_pan(wet=wet + pan, dry=dry + pan, pan=pan)
    off = sand_tests.moisture_by_pan(
        wet=zero + factor * (wet + pan), dry=zero + factor * (dry + pan), pan=zero + factor * pan
    )

    assert dry * (1 + found) == pytest.approx(wet)
    assert off == pytest.approx(found, rel=1e-6, abs=1e-9)


@given(masses, shares, st.floats(0.0, 0.05))
def test_free_water_is_the_same_by_share_and_by_mass(dry, moisture, absorption):
    share = sand_tests.free_moisture(moisture=moisture, absorption=absorption)
    rival = concrete_batch.free_water(moist=dry * (1 + moisture), moisture=moisture, absorption=absorption)

    assert share * dry == pytest.approx(rival, abs=1e-9)


@given(masses, shares, st.floats(2300.0, 3000.0))
def test_the_can_gives_the_water_back_that_was_stirred_in(dry, moisture, grains):
    can_of_water = 3 * dry
    can_with_sand = can_of_water + dry * (1 - 1000.0 / grains)  # water in the sand pushes out just itself
    can = {"can_with_sand": can_with_sand, "can_of_water": can_of_water, "water_density": 1000.0}

    assert sand_tests.grains_by_can(dry=dry, **can) == pytest.approx(grains)
    assert sand_tests.moisture_by_can(sample=dry * (1 + moisture), grains=grains, **can) == pytest.approx(
        moisture, abs=1e-9
    )


@given(densities, shares, st.floats(0.0, 0.5))
def test_pail_and_jar_agree_and_no_swelling_is_none(dry, moisture, swelling):
    moist = dry * (1 + moisture) / (1 + swelling)

    assert sand_tests.bulking_by_pail(moist=moist, dry=dry, moisture=moisture) == pytest.approx(swelling, abs=1e-9)
    assert sand_tests.moisture_by_pail(moist=moist, dry=dry, bulking=swelling) == pytest.approx(moisture, abs=1e-9)
    assert sand.bulking(moist_height=moisture + 1, flooded_height=moisture + 1) == 0
    assert sand_tests.bulking_by_pail(moist=dry, dry=dry, moisture=0.0) == 0


@given(st.floats(0.001, 0.05), st.floats(0.05, 0.3))
def test_silt_over_sand_never_counts_for_less_than_silt_in_all(silt, settled):
    share = sand_tests.silt_share(silt_height=silt, sand_height=settled)

    assert share >= silt / (silt + settled)


@given(st.floats(0.5, 2.0), st.floats(0.01, 1.0), st.floats(0.01, 1.0), st.integers(1, 40))
def test_weighing_more_never_widens_the_belief(value, before, scatter, count):
    assume(before > 1e-3)
    beliefs = [
        learning.normal_posterior(prior=1.0, prior_spread=before, mean=value, spread=scatter, count=float(many)).spread
        for many in range(count + 1)
    ]

    assert beliefs == sorted(beliefs, reverse=True)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        (lambda: sand_tests.moisture_by_pan(wet=0.5, dry=0.6, pan=0.1), "swapped"),
        (lambda: sand_tests.moisture_by_pan(wet=0.5, dry=0.1, pan=0.1), "no heavier than the pan"),
        (lambda: sand.bulking(moist_height=0.12, flooded_height=0.15), "stands lower"),
        (lambda: sand_tests.silt_share(silt_height=0.12, sand_height=0.01), "swapped"),
        (lambda: sand_tests.bulking_by_pail(moist=1700.0, dry=1500.0, moisture=0.05), "denser"),
        (lambda: sand_tests.moisture_by_pail(moist=1300.0, dry=1500.0, bulking=0.05), "less than no water"),
        (lambda: sand_tests.grains_by_can(dry=0.4, can_with_sand=1.0, can_of_water=1.2, water_density=1e3), "swapped"),
        (lambda: sand_tests.grains_by_can(dry=0.4, can_with_sand=1.7, can_of_water=1.2, water_density=1e3), "no water"),
        (
            lambda: sand_tests.moisture_by_can(
                sample=0.4, can_with_sand=1.5, can_of_water=1.2, grains=2650.0, water_density=1e3
            ),
            "less than no water",
        ),
        (lambda: measures.contents_mass(gross=1.0, empty=1.2), "swapped"),
        (lambda: measures.scale_factor(shown=0.2, zero=0.5, known=25.0), "no more"),
        (lambda: measures.filled_share(height=0.3, bottom=0.2, top=0.3, below=0.3), "bottom"),
    ],
)
def test_what_cannot_have_been_seen_is_told(wrong, says):
    with pytest.raises(OutOfRangeError, match=says):
        wrong()
