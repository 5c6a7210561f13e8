"""The measures' page in a browser: a reading is tried, looked at, written down by the log's own form, and then believed."""

from __future__ import annotations

import pytest

from looks import fits, open_to_all


@pytest.fixture
def sample():
    return "quinta"


def test_a_pan_of_sand_is_tried_then_written_down_and_believed(tab):
    tab.watch.expected.append("400")
    tab.goto("/mix")
    tab.get_by_role("link", name="Your measures and your sand").click()
    tab.get_by_text("Try the sand").click()
    form = tab.locator("form", has=tab.get_by_label("pan: with the damp sand", exact=True))
    form.get_by_label("pan: with the damp sand", exact=True).fill("0.47")
    form.get_by_label("pan: with the same sand dried", exact=True).fill("0.512")
    form.get_by_role("button", name="Try it").click()

    assert "are the two weights swapped?" in tab.get_by_role("alert").inner_text()
    form.get_by_label("pan: with the damp sand", exact=True).fill("0.54")
    form.get_by_role("button", name="Try it").click()
    assert "5.5%" in tab.get_by_role("status").inner_text()
    assert "Nothing was written down" in tab.get_by_role("status").inner_text()

    tab.get_by_role("link", name="Write it down").click()
    assert tab.get_by_role("textbox", name="pan: with the damp sand").input_value() == "0.54"
    tab.get_by_role("button", name="Write it down").click()
    assert "makes water over dry mass" in tab.locator("main").inner_text()
    tab.goto("/mix/measures")
    assert "your log" in tab.get_by_role("table").filter(has_text="sand, water in it").inner_text()


@pytest.mark.reads
def test_a_card_counts_sand_by_the_shovel(tab):
    tab.goto("/mix/card")
    tab.get_by_label("Sand by the").select_option("shovel")
    tab.get_by_role("button", name="Work it out").click()

    assert "shovels" in tab.locator("main").inner_text()


@pytest.mark.reads
@pytest.mark.parametrize("settings", [{"viewport": {"width": 360, "height": 740}}, {"color_scheme": "dark"}])
def test_the_page_fits_a_phone_and_the_dark(new_tab, settings):
    tab = new_tab(**settings)
    tab.goto("/mix/measures?kind=moisture&f.wet=540&u.wet=g&f.dry=512&u.dry=g")

    fits(tab)
    open_to_all(tab)
