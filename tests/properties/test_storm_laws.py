"""What must hold of storms, and of walls left to many of them."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from pinfold.actions.sites import open_site, start_site
from pinfold.errors import OutOfRangeError
from pinfold.findings import work
from pinfold.formulas import storms, walls, wind_en
from pinfold.plan.place import Family
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.worlds.cantilever import Cantilever, cantilever_of
from pinfold.studies.worlds.chances import chances, highest_by, many_worlds
from pinfold.studies.worlds.drawing import Drawn, drawn
from pinfold.studies.worlds.living import lived

chances_ = st.floats(1e-6, 0.999)


@given(chances_, chances_)
def test_a_rarer_wind_is_never_weaker(one, other):
    rare, often = sorted((one, other))

    assert storms.gust_factor_by_asce7(chance=rare) >= storms.gust_factor_by_asce7(chance=often)
    assert wind_en.return_period_factor(return_period=1 / rare) >= wind_en.return_period_factor(return_period=1 / often)


@given(chances_)
def test_the_american_law_is_a_gumbel_law(chance):
    law = stats.gumbel_r(loc=0.36 + 0.1 * math.log(12.0), scale=0.1)

    assert storms.gust_factor_by_asce7(chance=chance) == pytest.approx(max(law.isf(chance), 0.25), rel=1e-6)


@pytest.mark.parametrize("years", [10, 25, 100, 500])
def test_rare_gusts_follow_the_rule_by_return_period(years):
    assert storms.gust_factor_by_asce7(chance=1 / years) == pytest.approx(0.36 + 0.1 * math.log(12 * years), rel=0.01)


@given(st.floats(1.0, 80.0), st.floats(0.5, 2.0), st.floats(0.0, 2.0))
def test_the_basic_return_period_gives_the_basic_speed_and_speeds_go_with_factors(speed, basic, factor):
    assert storms.gust_at(basic_speed=speed, basic_factor=basic, factor=basic) == pytest.approx(speed)
    found = storms.gust_at(basic_speed=speed, basic_factor=basic, factor=factor)
    assert found * basic == pytest.approx(speed * factor)


@given(st.floats(0.0, 2e4), st.floats(0.0, 4.0), st.floats(0.0, 0.1))
def test_a_wall_that_leans_turns_by_half_its_height(weight, height, lean):
    found = storms.leaning_moment(weight=weight, height=height, lean=lean)

    middle = (0.0 + height) / 2
    assert found == pytest.approx(weight * (lean * middle))
    assert storms.leaning_moment(weight=weight, height=height, lean=-lean) == -found


@given(st.floats(0.1, 9.0), st.floats(0.01, 2.0), st.floats(0.1, 9.0), st.floats(0.01, 2.0))
def test_the_chance_of_a_normal_margin_is_that_of_its_distribution(strength, one, load, other):
    margin = stats.norm(loc=strength - load, scale=math.hypot(one, other))

    found = storms.chance_of_failure(resistance=strength, resistance_spread=one, load=load, load_spread=other)
    assert found == pytest.approx(margin.cdf(0.0), abs=1e-12)


def test_no_spread_at_all_and_chances_past_their_ends_are_refused():
    with pytest.raises(OutOfRangeError):
        storms.chance_of_failure(resistance=1.0, resistance_spread=0.0, load=1.0, load_spread=0.0)
    for chance in (0.0, 1.0, math.nan):
        with pytest.raises(OutOfRangeError):
            storms.gust_factor_by_asce7(chance=chance)
    with pytest.raises(OutOfRangeError):
        storms.leaning_moment(weight=1.0, height=1.0, lean=0.3)


PRESSURE, HEIGHT, WIDTH = 500.0, 1.0, 0.3


def dry_wall() -> Cantilever:
    """A wall without mortar that stands on the ground: its margin is linear in wind and mass."""
    pushed = work(walls.wind_moment, pressure=PRESSURE, height=HEIGHT, arm_share=0.5, below=0.0)
    weight = work(walls.layer_weight, density=2000.0, thickness=WIDTH, height=HEIGHT)
    section = work(walls.solid_modulus, thickness=WIDTH)
    return Cantilever(
        family=Family.EU, cast=True, about_bed=(pushed,), about_base=(pushed,), layers=(weight,), below=(), eased=1.0,
        section=section, thickness=WIDTH, height=HEIGHT, width=WIDTH, tension=None, bars=None,
    )  # fmt: skip


def certain(walls_: int, *, pressure, density=1.0) -> Drawn:
    """Worlds in which only pressure and mass scatter, one year each."""
    ones = np.ones((walls_, 1))
    return Drawn(
        pressure=ones * pressure, tension=ones, density=ones * density, thickness=ones * 0.0, lean=ones * 0.0,
        steel=ones,
    )  # fmt: skip


@pytest.mark.parametrize(("mean", "spread", "mass_spread"), [(2.4, 0.5, 0.05), (3.2, 0.4, 0.1), (1.8, 0.8, 0.02)])
def test_simulated_falls_of_a_linear_normal_case_are_as_many_as_the_closed_form_says(mean, spread, mass_spread):
    count, chance = 400_000, np.random.default_rng(7)
    pressure = np.maximum(chance.normal(mean, spread, (count, 1)), 0.0)
    density = np.maximum(chance.normal(1.0, mass_spread, (count, 1)), 0.0)

    fallen = lived(dry_wall(), certain(count, pressure=pressure, density=density)).fallen.mean()

    held = walls.layer_weight(density=2000.0, thickness=WIDTH, height=HEIGHT) * WIDTH / 2
    pushed = PRESSURE * HEIGHT**2 / 2
    exact = storms.chance_of_failure(
        resistance=held, resistance_spread=held * mass_spread, load=pushed * mean, load_spread=pushed * spread
    )
    assert fallen == pytest.approx(exact, abs=4 * math.sqrt(exact * (1 - exact) / count) + 1e-5)


@pytest.fixture(scope="module", params=["seed-garden", "quinta"])
def layout(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("worlds") / request.param
    start_site(folder, request.param, {})
    return open_site(folder).layout


def test_a_world_just_as_planned_turns_and_holds_a_wall_as_the_checks_say(layout):
    for exposed in exposures_of(layout).values():
        for case in exposed.cases if exposed.stretch.steps else ():
            wall = cantilever_of(case)
            held = walls.resisting_moment(weight=case.light.total, arm=case.piece.base.width / 2)
            limit = held / (case.about_base.moment * wall.eased)
            strong = replace(wall, bars=None, tension=replace(wall.tension, value=1e12) if wall.tension else None)
            if strong.tension is None:
                bed = walls.resisting_moment(weight=case.light.wall, arm=wall.thickness / 2)
                limit = min(limit, bed / (case.about_bed.moment * wall.eased))

            assert not lived(strong, certain(1, pressure=limit * 0.999)).fallen.any()
            assert lived(strong, certain(1, pressure=limit * 1.001)).fallen.all()


def test_chances_grow_with_the_years_and_lie_within_their_spread(layout):
    found = many_worlds(layout)

    assert found
    for each in found:
        assert each.falling, each.because
        for odds in (each.cracking, each.falling):
            values = [one.chance for one in odds]
            assert values == sorted(values)
            assert all(0 <= one.low <= one.chance <= one.high <= 1 or one.high == 0 for one in odds)
        for cracks, falls in zip(each.cracking, each.falling, strict=False):
            assert 0 <= cracks.chance <= 1
            assert 0 <= falls.chance <= 1


def test_the_same_plan_gives_the_same_chances_again(layout):
    assert many_worlds(layout) == many_worlds(layout)


def test_more_wind_never_fells_fewer_and_more_mass_never_more():
    worlds = drawn(Family.EU, cast=True, plots=4, walls=500)
    wall, worlds = dry_wall(), replace(worlds, pressure=worlds.pressure * 2.0)

    def fallen(of):
        return chances(wall, of, plots=4)[1][-1].chance

    usual = fallen(worlds)
    assert fallen(replace(worlds, pressure=worlds.pressure * 1.3)) >= usual
    assert fallen(replace(worlds, density=worlds.density * 1.3)) <= usual
    assert 0 < usual < 1


def test_drawn_years_have_the_law_of_the_standard():
    storm = drawn(Family.EU, cast=False, plots=50, walls=400, years=50)

    median = np.median(storm.pressure)
    half = wind_en.return_period_factor(return_period=2.0) ** 2
    assert median == pytest.approx(half, rel=0.05)


def test_the_highest_wind_so_far_tells_the_same_as_every_year_gone_through(layout):
    for exposed in exposures_of(layout).values():
        for case in exposed.cases if exposed.stretch.steps else ():
            wall = cantilever_of(case)
            worlds = drawn(wall.family, cast=wall.cast, plots=2, walls=200)
            worlds = replace(worlds, pressure=worlds.pressure * 1.5)

            found, spans = lived(wall, worlds), (1, 10, 50)
            by_highest = lived(wall, replace(worlds, pressure=highest_by(worlds.pressure, spans)))

            for place, years in enumerate(spans):
                assert (found.fallen[:, years - 1] == by_highest.fallen[:, place]).all()
                assert (found.cracked[:, years - 1] == by_highest.cracked[:, place]).all()
