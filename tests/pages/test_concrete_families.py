"""Concrete by a wish, in a real browser: the rival beside it, stone that is too large told at its field, posts of the plan."""

from __future__ import annotations

import pytest

from looks import fits
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("concretes") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_concrete_by_strength_stands_beside_its_rival_and_fits_a_phone(tab, served):
    tab.set_viewport_size({"width": 360, "height": 800})
    tab.goto(f"{served}/mix/family/concrete")
    tab.locator("#strength").fill("3000 psi")
    tab.locator("#volume").fill("2 yd3")
    tab.get_by_role("button", name="Work it out").click()
    tab.locator("h2", has_text="IS 10262").wait_for()
    assert tab.locator("td", has_text="4\N{NO-BREAK SPACE}200 psi").count() >= 1
    fits(tab)


def test_stone_too_large_for_the_form_is_told_at_its_field(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/mix/family/concrete?strength=3000+psi&stone_size=2+in&form_width=6+in")
    assert "Take smaller stone" in tab.locator("#stone_size-wrong").inner_text()
    assert tab.locator("#form_width").input_value() == "6 in"


def test_posts_of_the_plan_are_counted_and_dry_set_is_told(tab, served):
    tab.goto(f"{served}/mix/family/post?fill=dry-set")
    main = tab.locator("main").inner_text()
    assert "The plan has 10 post holes" in main
    assert "no published strength" in main
