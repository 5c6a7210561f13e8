"""Panels at corners: what must hold whatever the numbers, and rival ways to an answer."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad
from scipy.optimize import minimize_scalar
from scipy.spatial import ConvexHull

from pinfold.errors import OutOfRangeError
from pinfold.formulas import corners, masonry, walls


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


LENGTHS = numbers(0.3, 3)
MOMENTS = numbers(10, 5000)


# --- the plate -----------------------------------------------------------------------------------------------------------


@given(pressure=numbers(1, 2000), length=LENGTHS, height=numbers(0.3, 3))
def test_twisting_alone_balances_an_even_pressure_on_a_plate_held_at_two_edges(pressure, length, height):
    def twisting(x, z):
        return pressure / 2 * (length - x) * (height - z)

    step_x, step_z = length / 8, height / 8
    for x, z in ((0.0, 0.0), (length / 2, height / 4), (length - step_x, height - step_z)):
        bend = twisting(x, z) - twisting(x + step_x, z) - twisting(x, z + step_z) + twisting(x + step_x, z + step_z)
        assert 2 * bend / (step_x * step_z) == pytest.approx(pressure, rel=1e-6)  # 2 ∂²m/∂x∂z = p

    edge = quad(lambda z: pressure * length, 0, height)[0]  # 2 ∂m/∂z at the corner
    turned = quad(lambda z: pressure * length * z, 0, height)[0]
    wind = dblquad(lambda z, x: pressure * z, 0, length, 0, height)[0]
    twist = corners.corner_twist(force=pressure * height, length=length)
    assert twisting(0, 0) == pytest.approx(twist)
    assert turned == pytest.approx(wind)  # the corner takes all of the overturning
    foot, lowest = quad(lambda x: pressure * height, 0, length)[0], -2 * twisting(0, 0)
    assert edge + foot + lowest == pytest.approx(pressure * height * length)  # and of the force nothing is left over


def bears_everywhere(share, *, along, tension, weight, wind, mesh, twist):
    """Johansen's criterion at the corner over the whole height, u from top to foot: worst there by the moments' growth."""
    for u in np.linspace(0, 1, 101):
        left = tension + weight * u - (1 - share) * wind * u**2 - mesh * u
        if (share * twist * u) ** 2 > along * left * (1 + 1e-9) + 1e-6:
            return False
    return True


@given(
    along=MOMENTS, tension=MOMENTS, weight=numbers(0, 500), wind=MOMENTS, mesh=numbers(0, 500), twist=MOMENTS,
    most=numbers(0, 1),
)  # fmt: skip
def test_the_greatest_share_is_the_one_a_search_finds(along, tension, weight, wind, mesh, twist, most):
    got = corners.share_around_corner(
        along=along, across=tension + weight, bent=wind + mesh, blown=wind, twist=twist, most=most
    )
    shares = np.linspace(0, most, 401)
    bears = [
        share for share in shares
        if bears_everywhere(share, along=along, tension=tension, weight=weight, wind=wind, mesh=mesh, twist=twist)
    ]  # fmt: skip
    if got > 0:
        assert bears_everywhere(got, along=along, tension=tension, weight=weight, wind=wind, mesh=mesh, twist=twist)
    assert got >= max(bears, default=0.0) - 1e-6


@given(along=MOMENTS, across=MOMENTS, blown=MOMENTS, twist=MOMENTS, most=numbers(0, 1))
def test_the_moment_at_a_corner_is_the_best_over_all_shares(along, across, blown, twist, most):
    found = minimize_scalar(
        lambda share: -(across + share * blown - (share * twist) ** 2 / along), bounds=(0, max(most, 1e-9)),
        method="bounded", options={"xatol": 1e-12},
    )  # fmt: skip
    got = corners.moment_with_corner(along=along, across=across, blown=blown, twist=twist, most=most)

    assert got >= across
    assert got == pytest.approx(-found.fun, rel=1e-4)


@given(along=MOMENTS, across=MOMENTS, blown=MOMENTS, twist=MOMENTS, most=numbers(0.05, 1), more=numbers(1.001, 2))
def test_past_that_moment_no_share_is_left(along, across, blown, twist, most, more):
    whole = corners.moment_with_corner(along=along, across=across, blown=blown, twist=twist, most=most)

    def share(bent):
        return corners.share_around_corner(
            along=along, across=across, bent=bent, blown=min(blown, bent), twist=twist, most=most
        )

    assume(blown <= whole)
    assert share(whole * 0.9999) > 0
    assert share(whole * more) == 0


def test_a_wall_that_resists_nothing_along_its_beds_hands_nothing_on():
    assert corners.moment_with_corner(along=0.0, across=300.0, blown=500.0, twist=400.0, most=1.0) == 300
    assert corners.share_around_corner(along=0.0, across=300.0, bent=200.0, blown=200.0, twist=400.0, most=1.0) == 0


@given(shear=numbers(1e3, 4e5), thickness=numbers(0.1, 0.4), force=numbers(10, 3000), length=LENGTHS)
def test_the_share_by_shear_uses_the_bond_up_at_the_faces_and_not_between(shear, thickness, force, length):
    twist, height = corners.corner_twist(force=force, length=length), thickness  # no wall is lower than it is thick
    share = corners.share_by_shear(shear=shear, modulus=walls.solid_modulus(thickness=thickness), twist=twist)

    half = thickness / 2
    at_face = share * twist / quad(lambda y: (y / half) * y, -half, half)[0]
    assert at_face <= shear * 1.000001
    assert share == 1 or at_face == pytest.approx(shear)
    assert share * force * length / (height * thickness) <= at_face * 1.000001


@given(tension=numbers(0, 1e6), pressure=numbers(0, 1e5), thickness=numbers(0.1, 0.5))
def test_bending_held_uses_the_pulled_face_up_to_the_last(tension, pressure, thickness):
    modulus = walls.solid_modulus(thickness=thickness)
    held = corners.bending_held(tension=tension, pressure=pressure, modulus=modulus)

    pulled = masonry.flexural_tension(moment=held, modulus=modulus, load=pressure * thickness, area=thickness)
    assert pulled == pytest.approx(tension, abs=1e-3)
    assert held == pytest.approx(
        masonry.moment_by_en1996(strength=tension, material_factor=1.0, stress=pressure, modulus=modulus)
    )


# --- the wall around the corner ----------------------------------------------------------------------------------------


def hold_of_stiff_corner(panel, other, *, weights, width, way):
    """Moment, in direction `way`, at which two walls stiff as one tip over an edge of what they stand on."""
    half = width / 2
    spots = [(-half, -half), (panel, -half), (panel, half), (half, other), (-half, other)]
    hull = ConvexHull(np.array(spots))
    masses = [((panel / 2, 0.0), weights[0] * panel), ((0.0, other / 2), weights[1] * other)]
    found = []
    for (a, b), offset in {(tuple(each[:2]), each[2]) for each in hull.equations.round(12)}:
        leans = b * way  # share of the moment that turns the body over this edge
        if leans > 1e-9:
            resists = sum(mass * -(a * x + b * y + offset) for (x, y), mass in masses)
            found.append(resists / leans)
    return min(found)


@given(panel=LENGTHS, other=LENGTHS, first=numbers(500, 6000), second=numbers(500, 6000), width=numbers(0.1, 0.6))
def test_panel_and_return_never_count_for_more_than_the_stiff_body_on_its_edges(panel, other, first, second, width):
    assume(panel > width and other > width)
    counted = panel * (
        walls.resisting_moment(weight=first, arm=width / 2)
        + corners.return_moment(load=second, reach=other, length=panel)
    )
    for way in (-1, 1):
        assert counted <= hold_of_stiff_corner(panel, other, weights=(first, second), width=width, way=way) * 1.000001


def test_pushed_away_from_the_return_the_body_holds_little_more_than_is_counted():
    own, other = walls.resisting_moment(weight=4000.0, arm=0.2), corners.return_moment(load=4000, reach=1.0, length=1.5)
    exact = hold_of_stiff_corner(1.5, 1.0, weights=(4000.0, 4000.0), width=0.4, way=-1)

    assert 1.5 * (own + other) == pytest.approx(exact - 4000 * 1.0 * 0.2)  # half the width of the return's own base


@given(load=numbers(500, 8000), tension=numbers(0, 5e5), shear=numbers(0, 3e5), thickness=numbers(0.1, 0.4),
       height=numbers(0.3, 2.5))  # fmt: skip
def test_what_hangs_from_a_corner_keeps_within_tension_and_shear(load, tension, shear, thickness, height):
    reach = corners.return_reach(load=load, tension=tension, shear=shear, thickness=thickness, height=height)
    hanging = quad(lambda y: load * y, 0, reach)[0]
    pulled = hanging / quad(lambda z: thickness * z**2 / (height / 2), -height / 2, height / 2)[0]
    sheared = 1.5 * load * reach / (thickness * height)

    assert reach <= height
    assert pulled <= tension * 1.0001 + 1e-6
    assert sheared <= shear * 1.0001 + 1e-6
    assert (
        reach == height
        or math.isclose(pulled, tension, rel_tol=1e-4, abs_tol=1)
        or math.isclose(sheared, shear, rel_tol=1e-4, abs_tol=1)
    )


@given(share=numbers(0, 1), blown=MOMENTS)
def test_what_goes_around_and_what_stays_is_all_of_it(share, blown):
    around = corners.moment_around(share=share, blown=blown)

    assert around + corners.moment_around(share=1 - share, blown=blown) == pytest.approx(blown)


@pytest.mark.parametrize("bad", [{"most": 1.5}, {"blown": 700.0}, {"twist": 0.0}, {"across": -1.0}])
def test_what_is_no_panel_is_refused(bad):
    good = {"along": 800.0, "across": 400.0, "bent": 600.0, "blown": 600.0, "twist": 400.0, "most": 1.0}

    with pytest.raises(OutOfRangeError):
        corners.share_around_corner(**{**good, **bad})
