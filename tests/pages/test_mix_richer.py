"""What a richer or leaner mix does, in a real browser: the picture and its marks, the choice, the dark, a phone."""

from __future__ import annotations

import pytest

from looks import fits, open_to_all, words_apart
from pinfold.store import starting


@pytest.fixture(scope="module")
def served(tmp_path_factory, serve):
    folder = tmp_path_factory.mktemp("richer") / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    with serve(folder) as running:
        yield running.url.rstrip("/")


def test_a_coat_is_asked_about_and_its_picture_and_tables_stand_there(tab, served):
    tab.goto(f"{served}/mix")
    tab.get_by_role("link", name="Richer or leaner").click()
    tab.locator("#of").select_option("cement-finish")
    tab.locator("#to").fill("1:1-1/2:9")
    tab.locator("#strength").fill("400 psi")
    tab.get_by_role("button", name="Work it out").click()
    tab.locator("h1", has_text="plaster-finish (cement-finish): richer or leaner").wait_for()

    assert tab.locator("svg.ladder").count() == 4
    assert tab.locator("svg.ladder .present").count() == 4
    assert tab.locator("svg.ladder .cheapest").count() == 4
    assert tab.locator("svg.ladder").first.get_attribute("aria-label").startswith("strength at 28 days, psi from")
    assert "1:1-1/2:6 now" in tab.locator("main").inner_text()
    assert tab.locator("#to").input_value() == "1:1-1/2:9"
    open_to_all(tab)


@pytest.mark.parametrize("of", ["cement-scratch", "mortar-S", "concrete-footing"])
def test_no_words_of_a_picture_stand_over_each_other(tab, served, of):
    tab.goto(f"{served}/mix/richer?of={of}&strength=500+psi")
    for picture in tab.locator("svg.ladder").all():
        words_apart(picture)


def test_in_the_dark_on_a_phone_the_picture_takes_the_page_s_colors_and_its_width(new_tab, served):
    tab = new_tab(color_scheme="dark", viewport={"width": 360, "height": 740})
    tab.goto(f"{served}/mix/richer?of=cement-scratch")
    frame = tab.locator("svg.ladder").first

    assert frame.bounding_box()["width"] <= 360
    fits(tab)
    ink = frame.locator("text.loud").first.evaluate("text => getComputedStyle(text).fill")
    page = tab.locator("main").evaluate("main => getComputedStyle(main).color")
    assert ink == page
    tops = [each.bounding_box()["y"] for each in tab.locator("svg.ladder").all()]
    assert tops == sorted(tops)
    assert len(set(tops)) == 4


def test_complaints_stand_beside_what_was_typed_all_at_once(tab, served):
    tab.watch.expected.append("400")
    tab.goto(f"{served}/mix/richer?of=cement-scratch&from=0:4&to=sand&strength=3+kg")

    for key in ("from", "to", "strength"):
        assert tab.locator(f"#{key}").get_attribute("aria-invalid") == "true"
    assert "first part is cement" in tab.locator("#from-wrong").inner_text()
    assert tab.locator("#strength").input_value() == "3 kg"


def test_it_works_without_script(new_tab, served):
    tab = new_tab(java_script_enabled=False)
    tab.goto(f"{served}/mix/richer?of=mortar-S")

    assert tab.locator("svg.ladder").count() == 4
