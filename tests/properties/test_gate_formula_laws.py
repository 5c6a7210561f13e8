"""Laws of gates' forces, their screws, and what wood does in years."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import OutOfRangeError
from pinfold.formulas import bolts, creep, gates, screws, sheet_screws

lengths = st.floats(0.3, 4.0)
forces = st.floats(0.0, 2000.0)
woods = st.floats(0.3, 0.75)
angles = st.floats(0.0, math.pi / 2)


@given(weight=forces, reach=lengths, low=lengths, more=st.floats(0.0, 2.0))
def test_hinges_further_apart_never_carry_more(weight, reach, low, more):
    near = gates.hinge_couple(weight=weight, reach=reach, spacing=low)

    assert gates.hinge_couple(weight=weight, reach=reach, spacing=low + more) <= near


@given(weight=forces, reach=lengths, spacing=lengths)
def test_moments_of_weight_and_hinges_balance(weight, reach, spacing):
    level = gates.hinge_couple(weight=weight, reach=reach, spacing=spacing)

    assert level * spacing == pytest.approx(gates.post_moment(weight=weight, reach=reach))


@given(weight=forces, reach=lengths, spacing=lengths, arm=lengths, slope=angles)
def test_a_stay_that_frees_the_upper_hinge_leaves_the_level_forces_in_balance(weight, reach, spacing, arm, slope):
    pull = gates.stay_pull(weight=weight, reach=reach, spacing=spacing, arm=arm, slope=slope)
    push = gates.stayed_push(weight=weight, reach=reach, spacing=spacing, pull=pull, arm=arm, slope=slope)

    assert push == pytest.approx(pull * math.cos(slope), abs=1e-6 * (1 + weight))


@given(weight=forces, reach=lengths, spacing=lengths)
def test_a_slack_stay_helps_nothing(weight, reach, spacing):
    push = gates.stayed_push(weight=weight, reach=reach, spacing=spacing, pull=0.0, arm=1.0, slope=0.5)

    assert push == pytest.approx(gates.hinge_couple(weight=weight, reach=reach, spacing=spacing))


@given(width=lengths, height=lengths, change=st.floats(0.0, 0.003))
def test_the_latch_sinks_as_a_shortened_diagonal_lets_it(width, height, change):
    drop = gates.latch_drop(change=change, width=width, height=height)

    assert math.hypot(width, height) - math.hypot(width, height - drop) == pytest.approx(change, abs=2e-4)
    assert gates.take_up(drop=drop, width=width, height=height) == pytest.approx(change)


@given(width=lengths, height=lengths, drop=st.floats(0.0, 0.02))
def test_diagonals_are_alike_only_when_nothing_sank(width, height, drop):
    gap = gates.diagonal_gap(drop=drop, width=width, height=height)

    assert gap == pytest.approx(2 * gates.take_up(drop=drop, width=width, height=height), abs=1e-3)
    assert (gap == 0.0) == (drop == 0.0) or gap < 1e-12


@given(load=forces, height=lengths, screws_up=st.integers(1, 40))
def test_screws_along_the_stile_carry_the_weight_together(load, height, screws_up):
    each = gates.skin_screw_force(load=load, height=height, spacing=height / screws_up)

    assert each * screws_up == pytest.approx(load)


@given(diameter=st.floats(0.003, 0.006), gravity=woods)
def test_a_screw_in_denser_wood_or_a_stouter_one_holds_more(diameter, gravity):
    held = screws.screw_withdrawal(diameter=diameter, gravity=gravity)

    assert screws.screw_withdrawal(diameter=2 * diameter, gravity=gravity) == pytest.approx(2 * held)
    assert screws.screw_withdrawal(diameter=diameter, gravity=1.1 * gravity) == pytest.approx(1.21 * held)
    assert screws.lag_withdrawal(diameter=diameter, gravity=1.1 * gravity) == pytest.approx(
        1.1**1.5 * screws.lag_withdrawal(diameter=diameter, gravity=gravity)
    )


@given(gravity=woods, angle=angles)
def test_wood_bears_most_along_its_grain_and_thin_dowels_do_not_care(gravity, angle):
    stout = screws.wood_bearing(diameter=0.012, gravity=gravity, angle=angle)

    assert screws.wood_bearing(diameter=0.012, gravity=gravity, angle=math.pi / 2) * (1 - 1e-9) <= stout
    assert stout <= screws.wood_bearing(diameter=0.012, gravity=gravity, angle=0.0) * (1 + 1e-9)
    thin = screws.wood_bearing(diameter=0.005, gravity=gravity, angle=angle)
    assert thin == screws.wood_bearing(diameter=0.005, gravity=gravity, angle=0.0)


def yielding(**changed):
    usual = {
        "root": 0.0043, "main_length": 0.035, "side_length": 0.012, "main_bearing": 30e6, "side_bearing": 30e6,
        "yield_stress": 500e6, "angle": 0.0,
    }  # fmt: skip
    return screws.single_shear(**{**usual, **changed})


@given(root=st.floats(0.002, 0.012), main=st.floats(0.01, 0.1), side=st.floats(0.002, 0.05), angle=angles)
def test_alike_pieces_swapped_swap_their_modes(root, main, side, angle):
    here = yielding(root=root, main_length=main, side_length=side, angle=angle)
    there = yielding(root=root, main_length=side, side_length=main, angle=angle)

    assert here.main_crushed == pytest.approx(there.side_crushed)
    assert here.main_hinge == pytest.approx(there.side_hinge)
    assert here.turned == pytest.approx(there.turned)
    assert here.least == pytest.approx(there.least)


@given(stress=st.floats(200e6, 800e6), more=st.floats(1.0, 2.0))
def test_a_stiffer_screw_or_a_longer_one_never_carries_less(stress, more):
    least = yielding(yield_stress=stress).least

    assert yielding(yield_stress=stress * more).least >= least * (1 - 1e-12)
    assert yielding(yield_stress=stress, main_length=0.035 * more).least >= least * (1 - 1e-12)


@given(root=st.floats(0.002, 0.006), ls=st.floats(0.003, 0.03), lm=st.floats(0.01, 0.06))
def test_the_turning_mode_is_that_of_stiff_blocks_pressed_to_the_last(root, ls, lm):
    """Mode II found again by the balance of a stiff dowel in two alike blocks: force by bisection of its turning point."""
    bearing, factor = 30e6, 2.2 if root / 0.0254 <= 0.17 else 10 * root / 0.0254 + 0.5
    modes = yielding(root=root, side_length=ls, main_length=lm)
    # in each block it presses one way up to a point and the other way beyond: force F = q (l - 2 b), b beyond the point
    q = root * bearing

    def unbalanced(force):
        side, main = (ls - force / q) / 2, (lm - force / q) / 2
        # moments about the shear plane of what presses in each block
        moment_side = q * (ls**2 / 2 - (ls - side) ** 2)
        moment_main = q * (lm**2 / 2 - (lm - main) ** 2)
        return moment_side + moment_main

    low, high = 0.0, q * min(ls, lm)
    if unbalanced(low) * unbalanced(high) > 0:
        return
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if unbalanced(low) * unbalanced(middle) > 0 else (low, middle)
    assert modes.turned * factor == pytest.approx(low, rel=1e-6)


@given(pull=forces, push=forces, withdrawal=st.floats(100, 5000), lateral=st.floats(100, 5000))
def test_the_straight_line_is_never_under_the_standards_curve(pull, push, withdrawal, lateral):
    resultant = math.hypot(pull, push)
    used = screws.pulled_and_pushed(pull=pull, push=push, withdrawal=withdrawal, lateral=lateral)
    if resultant > 0:
        sine, cosine = pull / resultant, push / resultant  # angle from the wood's surface
        held = withdrawal * lateral / (withdrawal * cosine**2 + lateral * sine**2)
        assert used >= resultant / held * (1 - 1e-9)


@given(thickness=st.floats(0.0004, 0.003), diameter=st.floats(0.0035, 0.0063), more=st.floats(1.0, 4.0))
def test_thicker_steel_never_holds_a_screw_less(thickness, diameter, more):
    def sheared(point):
        return sheet_screws.sheet_shear(
            head_thickness=thickness, point_thickness=point, diameter=diameter, head_strength=3e8, point_strength=3e8
        )

    assert sheared(thickness * more) >= sheared(thickness) * (1 - 1e-12)
    thin = sheet_screws.pull_out(thickness=thickness, diameter=diameter, strength=3e8)
    assert sheet_screws.pull_out(thickness=thickness * more, diameter=diameter, strength=3e8) == pytest.approx(
        more * thin
    )
    assert sheet_screws.pull_over(thickness=thickness, head=0.019, strength=3e8) == pytest.approx(
        sheet_screws.pull_over(thickness=thickness, head=0.0254 * 0.75, strength=3e8), rel=0.01
    )


@given(thickness=st.floats(0.0004, 0.0045), diameter=st.floats(0.005, 0.02), more=st.floats(1.0, 1.05))
def test_thicker_steel_never_holds_a_bolt_less_and_nothing_jumps(thickness, diameter, more):
    def bears(thick, across=diameter):
        return bolts.hole_bearing(thickness=thick, diameter=across, strength=3e8, washers=0.75)

    def stretches(thick):
        return bolts.hole_stretch(thickness=thick, diameter=diameter, strength=3e8)

    for law in (bears, stretches):
        assert law(thickness) <= law(thickness * more) * (1 + 1e-12) <= law(thickness) * more**2.5 * (1 + 1e-9)
    assert bears(thickness) <= 1.011 * bears(thickness, diameter * more), "from d over t of 20 to 22 it falls by 1 %"
    assert 1.8 * 0.75 * 3e8 <= bears(thickness) / (thickness * diameter) * (1 + 1e-12) <= 3.0 * 0.75 * 3e8 * (1 + 1e-9)


def test_a_bolt_cut_is_its_area_times_the_stress():
    assert bolts.bolt_strength(diameter=2.0, stress=5.0) == pytest.approx(5.0 * math.pi)
    assert bolts.bolt_strength(diameter=0.02, stress=1e8) == pytest.approx(
        4 * bolts.bolt_strength(diameter=0.01, stress=1e8)
    )


def test_a_washer_presses_with_its_ring():
    assert bolts.washer_hold(outside=2.0, hole=1.0, stress=4.0) == pytest.approx(3 * math.pi)


def test_sheared_and_pulled_alone_come_to_their_shares():
    assert sheet_screws.shear_and_pull_over(
        push=1.10 / 2.35 * 1400, pull=0.0, torn=1400.0, pulled_over=1000.0
    ) == pytest.approx(1.0)  # fmt: skip
    assert sheet_screws.shear_and_pull_over(
        push=0.0, pull=1.10 / 2.35 * 1000 / 0.71, torn=1400.0, pulled_over=1000.0
    ) == pytest.approx(1.0)  # fmt: skip


@given(at_once=st.floats(0.0, 0.01), factor=st.floats(0.0, 4.0))
def test_creep_adds_its_share(at_once, factor):
    assert creep.crept(at_once=at_once, creep=factor) == pytest.approx(at_once + factor * at_once)


@given(density=st.floats(300, 900), diameter=st.floats(0.003, 0.02))
def test_slip_goes_by_the_power_law(density, diameter):
    stiff = creep.slip_modulus(density=density, diameter=diameter)

    assert creep.slip_modulus(density=4 * density, diameter=diameter) == pytest.approx(8 * stiff)
    assert creep.slip_modulus(density=density, diameter=2 * diameter) == pytest.approx(2 * stiff)


@given(force=forces, length=lengths, area=st.floats(1e-5, 1e-2))
def test_a_bar_gives_by_hooke(force, length, area):
    given_way = creep.shortened(force=force, length=length, area=area, modulus=1e10)

    assert given_way * area * 1e10 == pytest.approx(force * length)


@given(width=lengths, dry=st.floats(0.05, 0.15), one=st.floats(0.0, 0.07), two=st.floats(0.0, 0.07))
def test_wood_swells_by_parts_as_in_one(width, dry, one, two):
    def swell(low, high):
        return creep.swollen(width=width, coefficient=0.26, wet=high, dry=low)

    assert swell(dry, dry + one) + swell(dry + one, dry + one + two) == pytest.approx(swell(dry, dry + one + two))


@pytest.mark.parametrize(
    "refused",
    [
        lambda: gates.hinge_couple(weight=100.0, reach=1.0, spacing=0.0),
        lambda: gates.stay_pull(weight=100.0, reach=1.0, spacing=0.0, arm=1.0, slope=0.5),
        lambda: gates.latch_drop(change=0.01, width=1.0, height=0.0),
        lambda: gates.take_up(drop=-0.01, width=1.0, height=1.0),
        lambda: screws.screw_withdrawal(diameter=0.0, gravity=0.5),
        lambda: screws.wood_bearing(diameter=0.006, gravity=0.5, angle=2.0),
        lambda: yielding(side_length=0.0),
        lambda: sheet_screws.pull_out(thickness=0.001, diameter=0.01, strength=3e8),
        lambda: bolts.hole_bearing(thickness=0.006, diameter=0.01, strength=3e8, washers=1.0),
        lambda: bolts.hole_stretch(thickness=0.0, diameter=0.01, strength=3e8),
        lambda: bolts.bolt_strength(diameter=0.01, stress=0.0),
        lambda: bolts.washer_hold(outside=0.01, hole=0.01, stress=1e6),
        lambda: creep.swollen(width=1.0, coefficient=0.26, wet=0.08, dry=0.12),
        lambda: creep.swollen(width=1.0, coefficient=0.26, wet=0.4, dry=0.12),
    ],
)
def test_what_is_no_gate_is_refused(refused):
    with pytest.raises(OutOfRangeError):
        refused()
