"""Season and ripeness, in a browser: a batch written down is told, a time asked; without script, small, dark, large."""

from __future__ import annotations

import pytest

from looks import READERS, enlarge, fits, open_to_all


def test_a_batch_written_down_is_told_with_when_what_may_be_done(tab):
    tab.goto("/days/ripe?name=mortar")
    assert "As if it were placed" in tab.locator("main").text_content()
    tab.get_by_role("link", name="Write down a batch").click()
    tab.locator("[name='f.mix']").first.fill("mortar-S")
    tab.locator("[name='f.place']").first.fill("south/1a")
    tab.locator("[name='f.layer']").first.fill("mortar")
    tab.get_by_role("button", name="Write it down").click()
    tab.wait_for_load_state()

    tab.goto("/days/ripe")
    tab.locator("#name").select_option("south/1a")
    tab.get_by_role("button", name="Show").click()
    tab.get_by_role("heading", name="mortar of mortar-S, south/1a").wait_for()
    assert tab.get_by_role("row", name="the next day's height of wall").count() == 1


@pytest.mark.reads
def test_a_time_that_is_none_is_told_at_its_field(tab):
    tab.watch.expected.append("400")
    tab.goto("/days/ripe?placed=soon")
    told = tab.get_by_role("alert")

    assert "soon" in told.text_content()
    assert tab.locator("#placed").get_attribute("aria-describedby") == told.get_attribute("id")


@pytest.mark.reads
def test_the_season_leads_to_ripeness(tab):
    tab.goto("/days/season")
    assert tab.get_by_role("columnheader", name="may be done?").count() >= 1
    tab.get_by_role("link", name="When it is strong enough").click()
    tab.get_by_role("heading", name="When it is strong enough").wait_for()


@pytest.mark.parametrize("address", ["/days/ripe?name=south/1a", "/days/season"])
@READERS
@pytest.mark.reads
def test_both_read_on_a_phone_without_script_and_in_the_dark(new_tab, settings, address):
    tab = new_tab(**settings)
    tab.goto(address)
    assert tab.get_by_role("table").first.is_visible()
    if settings.get("java_script_enabled", True):
        fits(tab)
        open_to_all(tab)


@pytest.mark.parametrize("address", ["/days/ripe?name=south/1a", "/days/season"])
def test_letters_twice_as_large_still_fit(new_tab, address):
    tab = new_tab(viewport={"width": 640, "height": 800})
    tab.goto(address)
    enlarge(tab)

    fits(tab)
