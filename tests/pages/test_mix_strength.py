"""How strong, in a browser: a mix chosen, a body written down, seen in the picture; without script, small, dark, large."""

from __future__ import annotations

import pytest

from looks import READERS, enlarge, fits, open_to_all
from pinfold.store.log import open_log


@pytest.fixture
def sample():
    return "quinta"


def test_a_body_written_down_moves_the_curve_of_its_mix(tab, site):
    tab.goto("/mix")
    tab.get_by_role("link", name="How strong").first.click()
    tab.locator("#mix").select_option("foamed-1000")
    tab.locator("#at").fill("7 days")
    tab.get_by_role("button", name="Show").click()
    tab.get_by_role("heading", name="foamed-1000: how strong after 7 days").wait_for()
    assert tab.locator("svg.strengths .tried").count() == 0
    before = tab.locator("main p").filter(has_text="After 7 days about").text_content()

    tab.get_by_role("link", name="Write down a body crushed or broken").click()
    tab.get_by_role("group", name="body").get_by_label("cube").check()
    tab.locator("[name='f.age']").first.fill("7")
    tab.locator("[name='f.strength']").first.fill("3.5")
    tab.get_by_role("button", name="Write it down").click()
    tab.wait_for_load_state()
    (entry,) = open_log(site).entries(kind="strength")
    assert entry.number("strength") == pytest.approx(3.5e6)

    tab.goto("/mix/strength?mix=foamed-1000&at=7 days")
    assert tab.locator("svg.strengths .tried").count() == 1
    assert tab.locator("svg.strengths .thought").count() == 1
    assert tab.locator("main p").filter(has_text="After 7 days about").text_content() != before


@pytest.mark.reads
def test_what_is_wrong_stands_at_its_field(tab):
    tab.watch.expected.append("400")
    tab.goto("/mix/strength?at=soon")
    told = tab.get_by_role("alert")
    assert "soon" in told.text_content()
    assert told.get_attribute("id") in tab.locator("#at").get_attribute("aria-describedby").split()


@READERS
@pytest.mark.reads
def test_it_reads_on_a_phone_without_script_and_in_the_dark(new_tab, settings):
    tab = new_tab(**settings)
    tab.goto("/mix/strength?mix=mortar-O")
    assert tab.locator("svg.strengths").is_visible()
    if settings.get("java_script_enabled", True):
        fits(tab)
        open_to_all(tab)


@pytest.mark.reads
def test_twice_as_large_nothing_is_cut_off(new_tab):
    tab = new_tab(viewport={"width": 640, "height": 800})
    tab.goto("/mix/strength")
    enlarge(tab)
    fits(tab)
