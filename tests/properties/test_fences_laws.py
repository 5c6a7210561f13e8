"""Posts, rails, wires, anchors and braces: what must hold whatever the numbers, and rival ways to the same answer."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from pinfold.errors import OutOfRangeError
from pinfold.formulas import anchors, braces, cantilevers, post_sections, sockets, wires, wood
from pinfold.formulas.steel import thermal_force


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


# --- sockets ---------------------------------------------------------------------------------------------------------


@given(force=numbers(1, 5e3), moment=numbers(0, 5e3), depth=numbers(0.1, 2), width=numbers(0.02, 0.3))
def test_a_socket_balances_what_pushes_and_turns_the_post(force, moment, depth, width):
    grip = sockets.socket_grip(force=force, moment=moment, depth=depth, width=width)

    def pressure(z):
        return width * (grip.top - (grip.top + grip.bottom) * z / depth)

    assert quad(pressure, 0, depth)[0] == pytest.approx(force, rel=1e-6)
    assert -quad(lambda z: pressure(z) * z, 0, depth)[0] == pytest.approx(moment, rel=1e-6, abs=1e-6 * force * depth)
    assert pressure(grip.turning) == pytest.approx(0.0, abs=1e-9 * grip.top)
    assert grip.upper - grip.lower == pytest.approx(force)
    assert grip.upper == pytest.approx(quad(pressure, 0, grip.turning)[0], rel=1e-6)


def test_a_deeper_socket_never_presses_harder_and_nothing_presses_nothing():
    tops = [sockets.socket_grip(force=500.0, moment=400.0, depth=d, width=0.06).top for d in np.linspace(0.1, 2, 40)]

    assert tops == sorted(tops, reverse=True)
    still = sockets.socket_grip(force=0.0, moment=0.0, depth=0.5, width=0.06)
    assert (still.top, still.upper, still.turning) == (0.0, 0.0, 0.5)
    mouth = sockets.socket_grip(force=500.0, moment=0.0, depth=0.5, width=0.06)
    assert mouth.top == pytest.approx(2 * mouth.bottom)


@given(width=numbers(0, 0.3), cover=numbers(0.01, 0.3))
def test_a_bolt_breaks_out_half_a_cone_and_a_wider_post_more(width, cover):
    area = sockets.face_cone(width=width, cover=cover)

    assert sockets.face_cone(width=0.0, cover=cover) == pytest.approx(math.pi * cover**2 / 2)
    assert area - sockets.face_cone(width=0.0, cover=cover) == pytest.approx(width * cover)


# --- anchors ---------------------------------------------------------------------------------------------------------


@given(moment=numbers(0, 5e3), lever=numbers(0.02, 0.5), pulled=st.integers(1, 4))
def test_pulled_anchors_balance_the_moment(moment, lever, pulled):
    assert anchors.anchor_pull(moment=moment, lever=lever, pulled=pulled) * pulled * lever == pytest.approx(moment)


@given(depth=numbers(0.02, 0.5), edge=numbers(0.02, 0.5))
def test_a_cone_reaches_no_farther_than_face_or_depth(depth, edge):
    assert anchors.cone_area(depth=depth, edge=edge) == pytest.approx(math.pi * min(depth, edge) ** 2)


@given(reach=numbers(0.02, 0.5), share=numbers(0, 2.5))
def test_cones_share_what_is_in_both(reach, share):
    shared = anchors.overlap_area(reach=reach, spacing=share * reach)

    def breadth(x):
        low = min(math.sqrt(max(reach**2 - x**2, 0.0)), math.sqrt(max(reach**2 - (x - share * reach) ** 2, 0.0)))
        return 2 * low

    middle = share * reach / 2
    edges = (share * reach - reach, middle, reach)
    counted = sum(quad(breadth, low, high)[0] for low, high in pairwise(edges) if high > low)
    assert shared == pytest.approx(counted if share < 2 else 0.0, rel=1e-6, abs=1e-9)
    assert shared <= math.pi * reach**2 * (1 + 1e-12)


@given(area=numbers(1e-4, 0.2), strength=numbers(2e6, 3e7), more=numbers(1, 3))
def test_more_masonry_or_a_stronger_one_never_holds_less(area, strength, more):
    held = anchors.breakout_held(area=area, masonry_strength=strength)

    assert anchors.breakout_held(area=area * more, masonry_strength=strength) == pytest.approx(held * more)
    assert anchors.breakout_held(area=area, masonry_strength=strength * more) == pytest.approx(held * math.sqrt(more))
    crushed = anchors.crushing_held(area=area / 1000, masonry_strength=strength)
    assert anchors.crushing_held(area=area / 1000, masonry_strength=strength * more) == pytest.approx(
        crushed * more**0.25
    )


def test_a_bent_anchor_holds_more_with_a_longer_leg_and_grips_along_its_length_in_weak_masonry():
    sizes = {"diameter": 0.0127, "depth": 0.15, "hook": 0.04}
    bond = anchors.bent_anchor_held(masonry_strength=0.0, **sizes)

    assert bond == pytest.approx(120 * 6894.757 * math.pi * (0.15 + 0.04 + 0.0127) * 0.0127, rel=1e-6)
    assert anchors.bent_anchor_held(masonry_strength=1e7, **sizes | {"hook": 0.06}) > anchors.bent_anchor_held(
        masonry_strength=1e7, **sizes
    )


@given(pull=numbers(0, 1e4), shove=numbers(0, 1e4))
def test_an_anchor_is_used_by_its_parts(pull, shove):
    held = {"pull_held": 4e3, "shove_held": 2e3}

    both = anchors.anchor_use(pull=pull, shove=shove, **held)
    assert both == pytest.approx(
        anchors.anchor_use(pull=pull, shove=0.0, **held) + anchors.anchor_use(pull=0.0, shove=shove, **held)
    )
    assert anchors.anchor_steel_held(area=1e-4, yield_stress=2.5e8, share=0.36) == pytest.approx(9000.0)


# --- bending ---------------------------------------------------------------------------------------------------------


def test_a_section_of_a_rectangle_is_its_integral():
    modulus = post_sections.rectangle_modulus(width=0.09, depth=0.14)

    assert bending(modulus, 0.07) == pytest.approx(quad(lambda y: 0.09 * y**2, -0.07, 0.07)[0])


def bending(modulus: float, edge: float) -> float:
    return cantilevers.second_moment(modulus=modulus, edge=edge)


@given(share=numbers(0.05, 1), length=numbers(0.5, 3))
def test_the_top_of_a_post_moves_as_its_curvature_says(share, length):
    stiff, force, at = 5e4, 300.0, share * length

    def bent(z, state):
        return [state[1], force * max(at - z, 0.0) / stiff]

    rival = solve_ivp(bent, (0, length), [0.0, 0.0], rtol=1e-9, atol=1e-13, max_step=length / 200).y[0, -1]
    found = cantilevers.tip_deflection(force=force, height=at, length=length, modulus=5e4, second_moment=1.0)

    assert found == pytest.approx(rival, rel=1e-5, abs=1e-9)


@given(give=numbers(0, 0.05), depth=numbers(0.3, 2), length=numbers(0, 3))
def test_a_stiff_post_leans_about_its_level_of_turning(give, depth, length):
    lean = cantilevers.ground_lean(give=give, depth=depth, length=length)

    assert lean / (length + 0.7 * depth) == pytest.approx(give / (0.7 * depth), abs=1e-15)
    assert cantilevers.ground_lean(give=give, depth=depth, length=0.0) == pytest.approx(give)


@given(load=numbers(1, 500), span=numbers(0.5, 6))
def test_a_rail_bends_and_sags_as_its_load_says(load, span):
    moment = cantilevers.span_moment(load=load, span=span)
    rival = quad(lambda x: load * (span / 2 - x), 0, span / 2)[0]
    sag = cantilevers.span_sag(load=load, span=span, modulus=1e4, second_moment=1.0)
    unit = quad(lambda x: (load * x * (span - x) / 2) * (x / 2) / 1e4, 0, span / 2)[0]  # work of a unit load at midspan

    assert moment == pytest.approx(rival)
    assert sag == pytest.approx(2 * unit)


def test_shear_peaks_at_the_axis_of_each_shape():
    force, b, d = 1000.0, 0.09, 0.14
    first = quad(lambda y: b * y, 0, d / 2)[0]
    inertia = b * d**3 / 12

    assert cantilevers.shear_stress(force=force, area=b * d, peak=1.5) == pytest.approx(force * first / (inertia * b))
    radius = 0.05
    half = quad(lambda y: 2 * math.sqrt(radius**2 - y**2) * y, 0, radius)[0]
    round_inertia = math.pi * radius**4 / 4
    assert cantilevers.shear_stress(force=force, area=math.pi * radius**2, peak=4 / 3) == pytest.approx(
        force * half / (round_inertia * 2 * radius), rel=1e-6
    )


@given(b=numbers(0.01, 0.1), f=numbers(0.002, 0.01), d=numbers(0.01, 0.1), s=numbers(0.002, 0.01))
def test_a_tee_bends_sideways_as_its_two_rectangles(b, f, d, s):
    found = post_sections.tee_section(flange_width=b, flange_thickness=f, stem_depth=d, stem_thickness=s)

    rival = quad(lambda x: f * x**2, -b / 2, b / 2)[0] + quad(lambda x: d * x**2, -s / 2, s / 2)[0]
    assert found.inertia_side == pytest.approx(rival)
    assert found.modulus_side * max(b, s) / 2 == pytest.approx(rival)


# --- wires -----------------------------------------------------------------------------------------------------------


@given(
    tension=numbers(50, 3e3), before=numbers(0, 2), after=numbers(0, 200), span=numbers(1, 12), warming=numbers(-60, 60)
)
def test_a_wire_keeps_its_length_but_for_stretch_and_warmth(tension, before, after, span, warming):
    stiffness, alpha = 1e6, 12e-6
    found = wires.tension_after(
        tension=tension, stiffness=stiffness, before=before, after=after, span=span, expansion=alpha, warming_c=warming
    )

    def off(pull):
        return (
            pull - stiffness * (after * span) ** 2 / (24 * pull**2)
            - tension + stiffness * (before * span) ** 2 / (24 * tension**2) + stiffness * alpha * warming
        )  # fmt: skip

    if after * span < 1e-2:
        assert found >= 0
        return
    assert found == pytest.approx(brentq(off, 1e-3, 1e7, xtol=1e-9), rel=1e-6)


def test_a_wire_that_was_never_tight_is_refused():
    with pytest.raises(OutOfRangeError, match="strained"):
        wires.tension_after(
            tension=5e-273, stiffness=1e6, before=0.4, after=0.4, span=3.0, expansion=12e-6, warming_c=0.0
        )


def test_cold_strains_warmth_slackens_wind_strains_and_nothing_changes_nothing():
    same = {"tension": 400.0, "stiffness": 1.2e6, "before": 0.4, "span": 3.0, "expansion": 12e-6}

    assert wires.tension_after(after=0.4, warming_c=0.0, **same) == pytest.approx(400.0)
    pulls = [wires.tension_after(after=0.4, warming_c=w, **same) for w in np.linspace(-60, 60, 25)]
    assert pulls == sorted(pulls, reverse=True)
    blown = [wires.tension_after(after=w, warming_c=0.0, **same) for w in np.linspace(0.4, 150, 25)]
    assert blown == sorted(blown)
    assert wires.tension_after(after=0.0, warming_c=80.0, **same) == 0.0
    assert wires.tension_after(after=0.4, warming_c=80.0, **same) > 0.0


@given(tension=numbers(50, 3e3), warming=numbers(-60, 0))
def test_a_straight_wire_in_the_cold_pulls_as_a_held_bar(tension, warming):
    stiffness = wires.wire_stiffness(diameter=0.003, modulus=200e9)
    held = thermal_force(modulus=200e9, area=math.pi * 0.0015**2, expansion=12e-6, change_c=warming)
    found = wires.tension_after(
        tension=tension, stiffness=stiffness, before=0.0, after=0.0, span=3.0, expansion=12e-6, warming_c=warming
    )

    assert found == pytest.approx(tension - held)


@given(load=numbers(0.1, 200), span=numbers(1, 20), share=numbers(0.001, 0.05))
def test_a_wire_pulled_so_hard_hangs_through_so_far(load, span, share):
    pull = wires.pull_at_sag(load=load, span=span, sag=share * span * (1 - 1e-12))

    assert wires.wire_sag(weight=load, span=span, tension=pull) == pytest.approx(share * span)


@given(across=numbers(0, 300), down=numbers(0, 50))
def test_wind_and_weight_add_as_arrows(across, down):
    assert wires.loads_together(across=across, down=down) ** 2 == pytest.approx(across**2 + down**2)


# --- braces ----------------------------------------------------------------------------------------------------------


def test_a_rail_buckles_where_its_curve_holds_itself():
    held = braces.buckling_held(modulus=10e9, second_moment=1e-6, length=2.4, safety=1.0)

    bows = np.sin(np.linspace(0, math.pi, 4001))  # y'' = -N y / EI for a half wave
    curve = np.gradient(np.gradient(bows, 2.4 / 4000), 2.4 / 4000)
    assert -curve[2000] / bows[2000] == pytest.approx(held / (10e9 * 1e-6), rel=1e-4)
    assert braces.buckling_held(modulus=10e9, second_moment=1e-6, length=2.4, safety=3.0) == pytest.approx(held / 3)


@given(bearing=numbers(0, 5e5), depth=numbers(0.2, 2), perimeter=numbers(0.1, 2), weight=numbers(0, 5e3))
def test_what_holds_a_post_down_grows_with_depth_and_never_past_the_cap(bearing, depth, perimeter, weight):
    friction = braces.skin_friction(bearing=bearing, most=24e3)

    assert friction <= min(24e3, bearing / 6 + 1e-9)
    held = braces.uplift_held(weight=weight, friction=friction, perimeter=perimeter, depth=depth)
    assert held - weight == pytest.approx(friction * perimeter * depth, abs=1e-9)


# --- wood ------------------------------------------------------------------------------------------------------------


def test_timber_loses_strength_only_past_a_foot():
    assert wood.timber_size_factor(depth=12 * 0.0254) == 1.0
    assert wood.timber_size_factor(depth=0.1) == 1.0
    assert wood.timber_size_factor(depth=24 * 0.0254) == pytest.approx(2 ** (-1 / 9))


def test_wet_service_takes_nothing_from_weak_wood_and_steps_down_after():
    psi = 6894.757293168

    assert wood.wet_factor(bending=1149 * psi) == 1.0
    assert wood.wet_factor(bending=1151 * psi) == 0.85


@given(share=numbers(0.1, 1.9))
def test_each_factor_of_wood_counts_by_itself(share):
    plain = wood.adjusted_stress(reference=7e6, duration=1.0, wet=1.0)

    for name in ("duration", "wet", "size", "stability", "incised"):
        asked = {"duration": 1.0, "wet": 1.0} | {name: share}
        assert wood.adjusted_stress(reference=7e6, **asked) == pytest.approx(plain * share)
    with pytest.raises(OutOfRangeError):
        wood.adjusted_stress(reference=7e6, duration=2.5, wet=1.0)


@given(length=numbers(0.2, 4))
def test_a_slender_column_buckles_and_a_stout_one_does_not(length):
    found = wood.column_stability(side=0.0889, effective_length=length, least_modulus=3.5e9, stress=9e6)

    assert 0 < found.factor < 1
    assert found.factor * 9e6 <= min(9e6, found.buckling) * (1 + 1e-12)
    stout = wood.column_stability(side=0.0889, effective_length=0.02, least_modulus=3.5e9, stress=9e6)
    assert stout.factor == pytest.approx(1.0, abs=1e-3)


def test_a_deep_beam_rolls_over_and_a_low_one_does_not():
    deep = {"width": 0.038, "effective_length": 3.0, "least_modulus": 3.5e9, "stress": 9e6}
    factors = [wood.beam_stability(depth=d, **deep).factor for d in np.linspace(0.01, 0.3, 30)]

    assert factors == sorted(factors, reverse=True)
    assert factors[0] > 0.98
    with pytest.raises(OutOfRangeError):
        wood.beam_stability(depth=2.0, **deep)


@given(gravity=numbers(0.3, 0.7), diameter=numbers(0.002, 0.006))
def test_dense_wood_and_stout_nails_hold_more(gravity, diameter):
    held = wood.nail_withdrawal(diameter=diameter, gravity=gravity)

    assert wood.nail_withdrawal(diameter=2 * diameter, gravity=gravity) == pytest.approx(2 * held)
    assert wood.nail_withdrawal(diameter=diameter, gravity=gravity * 1.1) == pytest.approx(held * 1.1**2.5)
