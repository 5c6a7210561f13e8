"""Keeping faces damp, in a real browser: the picture and its marks, a choice of face and cover, a mistake, dark, a phone."""

from __future__ import annotations

import pytest

from looks import fits, open_to_all, words_apart
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("wet") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_a_face_is_chosen_and_its_day_and_picture_stand_there(tab, served):
    tab.goto(f"{served}/days/wet?day=2026-06-21")
    tab.locator("#face").select_option("south/1a outer")
    tab.locator("#cover").select_option("sheet")
    tab.locator("#wind_share").fill("0.3")
    tab.get_by_role("button", name="Work it out").click()
    tab.locator("h2", has_text="south/1a outer").wait_for()

    assert tab.locator("h1").inner_text() == "Keeping faces damp on 2026-06-21"
    assert tab.locator("svg.wetday").count() == 2
    assert tab.locator("svg.wetday .drop").count() > 0
    assert "hour by hour" in tab.locator("main").inner_text()
    assert tab.locator("#wind_share").input_value() == "0.3"
    open_to_all(tab)


def test_all_faces_stand_together_with_the_worst_of_them_drawn(tab, served):
    tab.goto(f"{served}/days/wet?day=2026-07-15")

    assert tab.locator("svg.wetday").count() == 2
    assert "face by face" in tab.locator("main").inner_text()
    open_to_all(tab)


def test_a_mistake_stands_beside_its_box(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/days/wet?wind_share=nine&day=2026-06-21")

    assert tab.locator("#wind_share-wrong").inner_text()
    assert tab.locator("#wind_share").get_attribute("aria-invalid") == "true"


def test_no_words_of_a_picture_stand_over_each_other(tab, served):
    for day in ("2026-01-15", "2026-07-15"):
        tab.goto(f"{served}/days/wet?day={day}")
        for picture in tab.locator("svg.wetday").all():
            words_apart(picture)


def test_in_the_dark_on_a_phone_nothing_goes_past_the_edge(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    tab.goto(f"{served}/days/wet?day=2026-06-21&face=south%2F1a+outer")

    fits(tab)
    ink = tab.locator("svg.wetday text.loud").first.evaluate("each => getComputedStyle(each).fill")
    assert ink == "rgb(233, 229, 219)"
