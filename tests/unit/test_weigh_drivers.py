"""What a plan's cost, hours and strength to spare hang on."""

from __future__ import annotations

import math

import numpy as np
import pytest

from pinfold.actions.answers import told
from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_drivers import drivers_at
from pinfold.errors import NotFoundError
from pinfold.sources import Standing
from pinfold.studies.weighing.unsure import Unsure, factors_at
from pinfold.studies.weighing.unsure_strength import unsure_of_strength, with_factors


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("drivers") / "quinta"
    start_site(folder, "quinta", {})
    return open_site(folder)


@pytest.fixture(scope="module")
def driven(site):
    return {each.criterion.key: each for each in drivers_at(site.folder).record.driven}


@pytest.mark.slow
def test_cost_hours_and_strength_each_hang_on_figures_of_their_own(driven) -> None:
    assert set(driven) == {"cash_now", "hours", "margin"}
    assert driven["margin"].drivers[0].unsure.key == "wind"
    assert any(driver.unsure.key == "price of portland-cement" for driver in driven["cash_now"].drivers[:3])
    assert driven["hours"].drivers[0].unsure.key == "lay"


@pytest.mark.slow
def test_shares_of_one_answer_come_to_all_of_it_and_none_is_more_alone_than_in_all(driven) -> None:
    for each in driven.values():
        assert math.fsum(driver.first.value for driver in each.drivers) <= 1.05
        assert math.fsum(driver.total.value for driver in each.drivers) >= 0.95
        for driver in each.drivers:
            assert driver.first.low <= driver.first.value <= driver.first.high
            assert driver.first.value <= driver.total.value + 0.05
        assert each.low < each.middle < each.high


@pytest.mark.slow
def test_hours_are_a_sum_so_shares_go_by_the_squares_of_their_parts(driven) -> None:
    assert math.fsum(driver.first.value for driver in driven["hours"].drivers) == pytest.approx(1.0, abs=0.05)


@pytest.mark.slow
def test_a_build_up_in_the_place_of_the_plan_hangs_on_figures_of_its_own(site) -> None:
    answer = drivers_at(site.folder, name="mesh-on-driven-posts")
    keys = {each.criterion.key: [driver.unsure.key for driver in each.drivers] for each in answer.record.driven}
    assert answer.page.title == "Quinta, mesh-on-driven-posts: what it hangs on"
    assert set(keys["margin"]) == {"wind", "ground", "grip", "steel"}  # no wall of the plan that nothing is built of
    assert "price of welded-50x50" in keys["cash_now"]
    assert "price of flat-stone" not in keys["cash_now"]
    assert "lay" not in keys["hours"]
    with pytest.raises(NotFoundError, match="did you mean 'mesh-on-driven-posts'"):
        drivers_at(site.folder, name="mesh-on-driven-post")


@pytest.mark.slow
def test_the_page_tells_method_and_standing_and_keeps_to_the_terminal(site) -> None:
    text = told(drivers_at(site.folder), as_json=False, width=80)
    assert max(map(len, text.splitlines())) <= 80
    for words in ("128 plans checked in full", "alone", "in all", "no chance of falling", "SALTELLI-2010"):
        assert words in " ".join(text.split())


def test_a_plan_with_factors_of_one_is_the_plan(site) -> None:
    plan = site.lessons.plan
    same = with_factors(plan, {each.key: 1.0 for each in unsure_of_strength(plan)})
    assert same.place.wind_speed == plan.place.wind_speed
    for name, buildup in same.buildups.items():
        if buildup.wall is not None:
            assert buildup.wall.kind.figures == plan.buildups[name].wall.kind.figures


def test_half_of_the_factors_drawn_are_below_one_and_they_scatter_as_told() -> None:
    unsure = (Unsure("a", "a", 0.25, Standing.PRACTICE),)
    factors = factors_at((np.arange(20_000) + 0.5)[None] / 20_000, unsure)["a"]
    assert np.median(factors) == pytest.approx(1.0, abs=1e-3)
    assert factors.std() / factors.mean() == pytest.approx(0.25, abs=2e-3)
